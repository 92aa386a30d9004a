"""One visit as the crew reads it. All text in it has passed ``domain.reading``."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.reading import CrewText


@dataclass(frozen=True, slots=True)
class CrewLine:
    """One item of work: where, what, from when to when (local), how many at once.

    ``left_hours`` of it (crew-hours) stay for another visit; ``then`` says what it waits for after;
    ``pictures`` are the numbers, from 1, of the pictures of the sheet that show it.
    """

    phase: str
    area: CrewText
    text: CrewText
    begins: dt.time
    ends: dt.time
    people: int
    left_hours: float = 0.0
    then: str = ""
    pictures: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class CrewPicture:
    """A still or photo for the crew: the hash of its file, and where and of what it is."""

    sha256: str
    area: CrewText
    text: CrewText


@dataclass(frozen=True, slots=True)
class CrewSheet:
    """All a crew sheet is made from. ``holds`` say what must not be passed yet, and for whom it waits.

    ``more_pictures`` is how many were left out to keep the sheet short.
    """

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
    pictures: tuple[CrewPicture, ...] = ()
    more_pictures: int = 0
