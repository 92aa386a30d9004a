"""One visit as the crew reads it. All text in it has passed ``domain.reading``."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.reading import CrewText


@dataclass(frozen=True, slots=True)
class CrewLine:
    """One item of work: where, what, from when to when (local), how many at once.

    ``left_hours`` of it (crew-hours) stay for another visit; ``then`` says what it waits for after.
    """

    phase: str
    area: CrewText
    text: CrewText
    begins: dt.time
    ends: dt.time
    people: int
    left_hours: float = 0.0
    then: str = ""


@dataclass(frozen=True, slots=True)
class CrewSheet:
    """All a crew sheet is made from. ``holds`` say what must not be passed yet, and for whom it waits."""

    title: CrewText
    address: CrewText
    day: dt.date
    begins: dt.time
    ends: dt.time
    people: int
    lines: tuple[CrewLine, ...]
    load: tuple[CrewText, ...] = ()
    tools: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    photos: tuple[CrewText, ...] = ()
    holds: tuple[CrewText, ...] = ()
