"""Jobs and visits."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.kinds import STANDARD_PHASES


@dataclass(frozen=True, slots=True)
class Job:
    """A house and a scope. ``private_note`` (door codes, alarms, money) never leaves the journal."""

    id: str
    name: str
    client: str = ""
    address: str = ""
    scope: str = ""
    year_built: int | None = None
    private_note: str = ""
    phases: tuple[str, ...] = STANDARD_PHASES
    created_at: str = ""


@dataclass(frozen=True, slots=True)
class Visit:
    """A day at the house: who was there and the recording it was talked through on, if any."""

    id: str
    job_id: str
    day: dt.date
    people: str = ""
    summary: str = ""
    recording_id: str | None = None
    recording_name: str = ""
    length: float = 0.0
