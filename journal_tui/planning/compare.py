"""What moved between two plans, and by how much."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from journal_tui.planning.calendar import WorkCalendar
from journal_tui.planning.jobplan import JobPlan


@dataclass(frozen=True, slots=True)
class Planned:
    """One item as a plan had it: words, start and finish (minutes since the epoch)."""

    text: str
    start: int
    finish: int


@dataclass(frozen=True, slots=True)
class PlanAsOf:
    """What is kept of a plan to compare later ones with."""

    as_of: int
    end: int
    items: Mapping[str, Planned]


@dataclass(frozen=True, slots=True)
class Move:
    """An item that starts later (positive) or sooner (negative) than it did, in working days."""

    id: str
    text: str
    was: int
    now: int
    days: float


@dataclass(frozen=True, slots=True)
class Moved:
    """All that is different: items that moved (largest first), new ones, and those gone from the plan.

    ``end_days`` is how much later the job ends, in working days.
    """

    moves: tuple[Move, ...]
    new: tuple[Planned, ...]
    gone: tuple[Planned, ...]
    end_was: int
    end_now: int
    end_days: float


def kept(plan: JobPlan) -> PlanAsOf:
    """Return what to keep of a plan."""
    items = {r.item.id: Planned(r.item.text, r.row.start, r.row.finish) for r in plan.rows}
    return PlanAsOf(plan.now, plan.end, items)


def work_days(calendar: WorkCalendar, was: int, now: int) -> float:
    """Return the working days from one instant to another, to a tenth; negative when sooner."""
    minutes = calendar.work_minutes(min(was, now), max(was, now))
    return round(minutes / (calendar.hours * 60), 1) * (1 if now >= was else -1)


def what_moved(before: PlanAsOf, after: JobPlan) -> Moved:
    """Return what moved from an earlier plan to this one. Less than a quarter day is no move."""
    now = kept(after).items
    moves: list[Move] = []
    for i, planned in now.items():
        old = before.items.get(i)
        if old is not None and old.start != planned.start:
            days = work_days(after.calendar, old.start, planned.start)
            if abs(days) >= 0.25:
                moves.append(Move(i, planned.text, old.start, planned.start, days))
    moves.sort(key=lambda m: (-abs(m.days), m.now))
    return Moved(
        tuple(moves),
        tuple(p for i, p in now.items() if i not in before.items),
        tuple(p for i, p in before.items.items() if i not in now),
        before.end,
        after.end,
        work_days(after.calendar, before.end, after.end),
    )
