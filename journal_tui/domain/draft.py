"""A draft: what the drafter makes of a stretch of talk, before anyone has looked at it."""

from __future__ import annotations

from dataclasses import dataclass, field

from journal_tui.domain.kinds import STANDARD_PHASES, Audience, Hazard, Kind, Party


@dataclass(frozen=True, slots=True)
class Repair:
    """A misheard word set right: what the captions say, what is shown instead."""

    heard: str
    shown: str


@dataclass(frozen=True, slots=True)
class Draft:
    """One drafted entry.

    ``start`` and ``end`` are seconds in the recording. ``heard`` is the stretch of talk it rests
    on, as captioned; ``why`` says in a line what made it this kind and phase. ``open`` means work
    or an answer is still owed. ``hazards`` are the dangers its words name. ``measures`` are the
    sizes, counts, dates and sums said in it, as said. ``learned`` are the person's own words
    (from earlier reviews) that shaped it.
    """

    start: float
    end: float
    kind: Kind
    phase: str
    area: str
    text: str
    open: bool
    who: Party | None
    hazards: tuple[Hazard, ...]
    why: str
    heard: str
    measures: tuple[str, ...] = ()
    repairs: tuple[Repair, ...] = ()
    learned: tuple[str, ...] = ()
    audience: Audience = Audience.CLIENT

    @property
    def hazard(self) -> bool:
        """True when the entry is about danger to people or to the structure."""
        return bool(self.hazards)


@dataclass(frozen=True, slots=True)
class OwnWord:
    """One thing learned from a person's corrections in review of this job.

    ``phrase`` (as said) means ``area`` and/or ``phase``, where set.
    """

    phrase: str
    area: str | None = None
    phase: str | None = None


@dataclass(frozen=True, slots=True)
class JobWords:
    """What drafting knows of the job at hand: its phases in order, its areas, its own words."""

    phases: tuple[str, ...] = STANDARD_PHASES
    areas: tuple[str, ...] = ()
    own: tuple[OwnWord, ...] = field(default=())
