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

    None when neither changed or when nothing in ``said`` names a thing to remember.
    """
    area = after.area if after.area != before.area else None
    phase = after.phase if after.phase != before.phase else None
    if area is None and phase is None:
        return None
    keys = [part for word in said.split() for part in key_of(word.strip('.,;:!?"()')).split("-") if part]
    spans = vocabulary.things().longest(keys) or vocabulary.areas().longest(keys)
    if not spans:
        return None
    start, end, _name = max(spans, key=lambda s: (s[1] - s[0], -s[0]))
    return OwnWord(phrase=" ".join(keys[start:end]), area=area, phase=phase)
