"""Entries: what was found, chosen and owed, as the remodeler stands by it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.kinds import Audience, Hazard, Kind, Party


@dataclass(frozen=True, slots=True)
class Entry:
    """One reviewed fact of a visit.

    ``start`` and ``end`` are seconds in the visit's recording, None when it was typed. ``open``
    is whether it still owes work or an answer as the punch list stands now.
    """

    id: str
    job_id: str
    visit_id: str
    day: dt.date
    kind: Kind
    phase: str
    area: str
    text: str
    who: Party | None = None
    hazards: tuple[Hazard, ...] = ()
    audience: Audience = Audience.CLIENT
    start: float | None = None
    end: float | None = None
    open: bool = False
