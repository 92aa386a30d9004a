"""Things said twice are one entry, and what is taken back gives way to what replaces it."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import replace

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Audience
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.utterances import Utterance
from journal_tui.walkthrough.drafting.words import words_in

#: Share of the shorter one's telling words that makes two entries of a kind the same.
_SAME = 0.8
#: Telling words needed before two entries can be called the same.
_ENOUGH = 3
#: Utterances within which a thing taken back is looked for.
_REACH = 3
#: Entries back in which a repeat is looked for: some ten minutes of talk.
_MEMORY = 40
#: Seconds between two drafts said in one breath, at most.
_BREATH = 1.5


def settled(utterances: Sequence[Utterance], spans: Sequence[Span]) -> list[Span]:
    """Return ``spans`` without those taken back ("no, scratch that") and without later repeats."""
    common = vocabulary.common_words()
    kept: list[tuple[Span, frozenset[str]]] = []
    for span in spans:
        telling = _telling(utterances, span, common)
        if kept and _taken_back(utterances, kept[-1], (span, telling)):
            kept.pop()
        recent = kept[-_MEMORY:]
        if not any(span.kind is other.kind and _same(words, telling) for other, words in recent):
            kept.append((span, telling))
    return [span for span, _telling in kept]


def said_once(drafts: Sequence[Draft], apart: Container[float] = ()) -> list[Draft]:
    """Return ``drafts`` with one whose text is wholly in the next one's, said in the same breath and of
    the same kind, made one with it; those that start at a second of ``apart`` stay by themselves."""
    kept: list[Draft] = []
    for draft in drafts:
        before = kept[-1] if kept else None
        if before is not None and draft.start not in apart and _goes_on(before, draft):
            draft = _joined(kept.pop(), draft)
        kept.append(draft)
    return kept


def _goes_on(before: Draft, draft: Draft) -> bool:
    if before.kind is not draft.kind or draft.start - before.end > _BREATH:
        return False
    common = vocabulary.common_words()
    first, then = (
        {vocabulary.singular(word.key) for word in words_in(text) if word.key not in common}
        for text in (before.text, draft.text)
    )
    return len(first) > 1 and first <= then


def _joined(before: Draft, draft: Draft) -> Draft:
    heard = draft.heard if before.heard in draft.heard else f"{before.heard} {draft.heard}"
    return replace(
        draft,
        start=before.start,
        heard=heard,
        open=before.open or draft.open,
        hazards=tuple(dict.fromkeys((*before.hazards, *draft.hazards))),
        measures=tuple(dict.fromkeys((*before.measures, *draft.measures))),
        repairs=tuple(dict.fromkeys((*before.repairs, *draft.repairs))),
        learned=tuple(dict.fromkeys((*before.learned, *draft.learned))),
        audience=max(before.audience, draft.audience, key=list(Audience).index),
    )


def _taken_back(
    utterances: Sequence[Utterance],
    earlier: tuple[Span, frozenset[str]],
    later: tuple[Span, frozenset[str]],
) -> bool:
    """True when words of taking back stand between two entries close together about one thing."""
    before, after = earlier[0], later[0]
    if after.first - before.last > _REACH:
        return False
    between = [key for at in range(before.last + 1, after.first + 1) for key in utterances[at].keys]
    said = f" {' '.join(between)} "
    if not any(f" {phrase} " in said for phrase in vocabulary.data("merging.toml")["taken_back"]):
        return False
    return bool(earlier[1] & later[1]) or before.kind is after.kind


def _same(one: frozenset[str], other: frozenset[str]) -> bool:
    least = min(len(one), len(other))
    if least < _ENOUGH or len(one & other) < _SAME * least:
        return False
    return {key for key in one if key[:1].isdigit()} == {key for key in other if key[:1].isdigit()}


def _telling(utterances: Sequence[Utterance], span: Span, common: frozenset[str]) -> frozenset[str]:
    return frozenset(
        vocabulary.singular(key)
        for at in range(span.first, span.last + 1)
        for key in utterances[at].keys
        if key not in common
    )
