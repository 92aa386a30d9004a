"""What holds for a second thing as well ("same for the other pipe") is an entry of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Audience
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.clauses import LONGEST_TEXT
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.things import things_in
from journal_tui.walkthrough.drafting.utterances import Utterance
from journal_tui.walkthrough.drafting.wording import cut_to

#: Words such an utterance has at most, and utterances back in which what it repeats must end.
_LONGEST, _REACH = 12, 3


def with_likes(utterances: Sequence[Utterance], spans: Sequence[Span]) -> list[Span]:
    """Return ``spans`` with each "same for ..." a span of its own that knows which one it is like."""
    found: list[Span] = []
    inside = {at: span for span in _cut(utterances, spans) for at in range(span.first, span.last + 1)}
    for at, utterance in enumerate(utterances):
        span = inside.get(at)
        if span and span.first != at:
            continue
        if says_same(utterance) and found and at - found[-1].last <= _REACH and (not span or span.last == at):
            # Of a row of such, each is like the first.
            like = found[-1].first if found[-1].like is None else found[-1].like
            found.append(Span(at, at, found[-1].kind, found[-1].signs, like))
        elif span:
            found.append(span)
    return found


def says_same(utterance: Utterance) -> bool:
    """True for a short utterance that says of another thing what was said of one before."""
    keys = list(utterance.keys)
    openers = vocabulary.grammar()["openers"]
    while keys and keys[0] in openers:
        keys.pop(0)
    if not keys or len(keys) > _LONGEST or keys[0] not in _first_words():
        return False
    said = f"{' '.join(keys)} "
    table = vocabulary.data("merging.toml")
    phrase = next((p for p in table["alike"] if said.startswith(f"{p} ")), None)
    if phrase is None or "," in utterance.words[-1].mark:
        return False
    rest = keys[len(phrase.split()) :]
    if rest and rest[0] in vocabulary.grammar()["determiners"]:
        return len(rest) > 1
    return bool(
        things_in(rest) or vocabulary.areas().found(rest) or not set(rest).isdisjoint(table["another"])
    )


@cache
def _first_words() -> frozenset[str]:
    return frozenset(phrase.partition(" ")[0] for phrase in vocabulary.data("merging.toml")["alike"])


def repeated(draft: Draft, earlier: Draft, named: bool) -> Draft:
    """Return ``draft``, which says "same for ...", as what ``earlier`` says of the other thing.

    ``named`` is True when the draft's own words name its area.
    """
    first = earlier.text.partition(" ")[0]
    common = first.lower() in vocabulary.common_words() and not first.startswith("I")
    told = earlier.text[:1].lower() + earlier.text[1:] if common else earlier.text
    told = cut_to(told, LONGEST_TEXT - len(draft.text.split()))
    return replace(
        draft,
        kind=earlier.kind,
        phase=earlier.phase,
        area=draft.area if named else earlier.area,
        text=f"{draft.text}: {told}",
        open=earlier.open,
        who=earlier.who,
        hazards=earlier.hazards,
        audience=max(draft.audience, earlier.audience, key=list(Audience).index),
        why=f"{draft.why}; said to be the same as the entry before it",
    )


def _cut(utterances: Sequence[Utterance], spans: Sequence[Span]) -> list[Span]:
    """Return ``spans`` with those cut up in which "same for ..." is said after the first utterance."""
    out: list[Span] = []
    for span in spans:
        at = next((n for n in range(span.first + 1, span.last + 1) if says_same(utterances[n])), None)
        if at is None:
            out.append(span)
            continue
        out += [replace(span, last=at - 1), replace(span, first=at, last=at)]
        out += [replace(span, first=at + 1)] if at < span.last else []
    return out
