"""What a person's corrections in review teach the next visit's drafting."""

from __future__ import annotations

from typing import Protocol

from journal_tui.domain.draft import OwnWord
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.words import key_of


class Placed(Protocol):
    """Anything that stands in an area and a phase: a draft, an entry."""

    @property
    def area(self) -> str:
        """Where it is."""
        ...

    @property
    def phase(self) -> str:
        """Which phase it belongs to."""
        ...


def learned_from(said: str, before: Placed, after: Placed) -> OwnWord | None:
    """Return what a changed area or phase teaches: the thing named in ``said`` belongs there.

    A person teaches nothing, and a word that is itself the name of a place teaches no other place
    unless that place's name has the word in it ("sink": "bar sink"). None when neither area nor phase
    changed or when nothing in ``said`` names a thing to remember.
    """
    area = after.area if after.area != before.area else None
    phase = after.phase if after.phase != before.phase else None
    if area is None and phase is None:
        return None
    keys = [part for word in said.split() for part in key_of(word.strip('.,;:!?"()')).split("-") if part]
    people = {at for start, end, _name in vocabulary.parties().found(keys) for at in range(start, end)}
    places = {
        (start, end)
        for start, end, named in vocabulary.areas().longest(keys)
        if vocabulary.singular(keys[end - 1]) in map(vocabulary.singular, named.split())
    }
    spans = [
        span[:2]
        for span in vocabulary.things().longest(keys) or vocabulary.areas().longest(keys)
        if people.isdisjoint(range(span[0], span[1]))
    ]

    def tells_place(span: tuple[int, int]) -> bool:
        last = vocabulary.singular(keys[span[1] - 1])
        return span not in places or last in map(vocabulary.singular, (area or "").casefold().split())

    if area is not None:
        telling = [span for span in spans if tells_place(span)]
        if not telling and phase is None:
            return None
        spans, area = (telling, area) if telling else (spans, None)
    if not spans:
        return None
    start, end = max(spans, key=lambda span: (span[1] - span[0], -span[0]))
    return OwnWord(phrase=" ".join(keys[start:end]), area=area, phase=phase)
