"""Builders the planning tests share: items in a few words, a calendar, a moment."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.planning.calendar import WorkCalendar, to_minutes
from journal_tui.planning.items import Hold, PlanItem, Stated, plan_item

CALENDAR = WorkCalendar(zone="America/Chicago")
#: Wednesday evening, after work.
NOW = to_minutes(dt.datetime(2026, 3, 11, 17, tzinfo=CALENDAR.tz))
SINCE = dt.date(2026, 3, 6)


def moment(text: str) -> int:
    """Return a local time of the test calendar in minutes since the epoch."""
    return to_minutes(dt.datetime.fromisoformat(text).replace(tzinfo=CALENDAR.tz))


def item(
    text: str,
    phase: str,
    area: str = "tub wall",
    who: Party = Party.CREW,
    *,
    id: str | None = None,
    state: PunchState = PunchState.OPEN,
    done_at: int | None = None,
    hold: Hold | None = None,
    stated: Stated | None = None,
) -> PlanItem:
    """Return a plan item; its id is its text unless given."""
    punch = PunchItem(id or text, "job", phase, area, text, SINCE, who, state=state)
    return plan_item(punch, stated or Stated(), hold, done_at)


def hall_bath() -> list[PlanItem]:
    """Return the open items of an invented hall bath, opened up and roughed in part."""
    crew, client, inspector = Party.CREW, Party.CLIENT, Party.INSPECTOR
    rows = [
        ("strap the new supply, nail plates at four studs", "rough plumbing", "tub wall", crew),
        ("water test before any board goes up", "rough plumbing", "tub wall", crew),
        ("rough inspection", "rough plumbing", "whole room", inspector),
        ("wire the vanity light", "rough plumbing", "vanity", crew),
        ("two soft planks out", "subfloor", "floor", crew),
        ("1/2 plywood down across the planks", "subfloor", "floor", crew),
        ("insulate the outside wall", "backer", "tub wall", crew),
        ("hang backer around the tub", "backer", "tub wall", crew),
        ("waterproof the surround", "backer", "tub wall", crew),
        ("which tile pattern, straight or offset", "tile", "tub wall", client),
        ("tile the tub surround", "tile", "tub wall", crew),
        ("tile floor", "tile", "floor", crew),
        ("grout everything", "tile", "whole room", crew),
        ("mirror cabinet recessed or not", "trim", "vanity", client),
        ("hang the mirror cabinet", "trim", "vanity", crew),
        ("set the toilet", "trim", "floor", crew),
        ("final inspection", "trim", "whole room", inspector),
    ]
    return [item(t, p, a, w) for t, p, a, w in rows]
