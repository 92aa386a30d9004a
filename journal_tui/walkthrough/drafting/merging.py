"""Things said twice are one entry, and what is taken back gives way to what replaces it."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Share of the shorter one's telling words that makes two entries of a kind the same.
_SAME = 0.8
#: Telling words needed before two entries can be called the same.
_ENOUGH = 3
#: Utterances within which a thing taken back is looked for.
_REACH = 3
#: Entries back in which a repeat is looked for: some ten minutes of talk.
_MEMORY = 40


def settled(utterances: Sequence[Utterance], spans: Sequence[Span]) -> list[Span]:
    """Return ``spans`` without those taken back ("no, scratch that") and without later repeats."""
    common = frozenset(vocabulary.data("common.toml")["words"])
    kept: list[tuple[Span, frozenset[str]]] = []
    for span in spans:
        telling = _telling(utterances, span, common)
        if kept and _taken_back(utterances, kept[-1], (span, telling)):
            kept.pop()
        recent = kept[-_MEMORY:]
        if not any(span.kind is other.kind and _same(words, telling) for other, words in recent):
            kept.append((span, telling))
    return [span for span, _telling in kept]


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
