"""A job's open items laid on the calendar: dates for every item and for the job, and their reasons."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from journal_tui.domain.kinds import STANDARD_PHASES, WHOLE_ROOM
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import short_day
from journal_tui.planning.calendar import WorkCalendar
from journal_tui.planning.items import ASSUMED_DAYS, OWN_NAMES, Link, Means, PlanItem
from journal_tui.planning.network import Activity, Precedence
from journal_tui.planning.precedence import ItemOrder, order_items, units, work_rank
from journal_tui.planning.readiness import Readiness, readiness
from journal_tui.planning.schedule import Row, Schedule, schedule
from journal_tui.planning.timeline import Resource

CREW, ROOM = OWN_NAMES


@dataclass(frozen=True, slots=True)
class PlanRow:
    """One open item with its dates. ``row`` holds instants; ``clear`` is when its wait is over too.

    ``assumed`` is True for a hold whose date nobody has booked.
    """

    item: PlanItem
    row: Row
    ready: Readiness
    clear: int
    assumed: bool = False

    @property
    def is_hold(self) -> bool:
        """True for an answer, a delivery or an inspection: no work of the crew's."""
        return self.item.waits_elsewhere


@dataclass(frozen=True)
class JobPlan:
    """The plan of a job as of an instant.

    ``rows`` are the open items in the order of their start. ``end`` is when the last work and the
    wait after it are over. ``notices`` say what was assumed or set aside.
    """

    rows: tuple[PlanRow, ...]
    now: int
    end: int
    calendar: WorkCalendar
    means: Means
    phases: tuple[str, ...]
    schedule: Schedule
    order: ItemOrder
    notices: tuple[str, ...] = field(default=())

    def row(self, item_id: str) -> PlanRow | None:
        """Return the row of an item, None when it is not open."""
        return self._by_id.get(item_id)

    @cached_property
    def roots(self) -> dict[str, tuple[str, int]]:
        """Where each item's driving chain begins and how long it is, as far as anyone has asked."""
        return {}

    @cached_property
    def _by_id(self) -> dict[str, PlanRow]:
        return {r.item.id: r for r in self.rows}

    @property
    def end_day(self) -> dt.date:
        """The local date on which the plan ends."""
        return self.calendar.day_of(self.end)


def in_work_order(items: Iterable[PlanItem], phases: Sequence[str]) -> list[PlanItem]:
    """Return calls and orders, then items by phase: answers first, tests last, then area and age."""

    def key(item: PlanItem) -> tuple[object, ...]:
        strict = item.hold is not None and item.hold.kind.strict
        stage = 2 if strict else 0 if item.waits_elsewhere else 1
        whole = folded(item.area) != WHOLE_ROOM
        return (work_rank(item, phases), stage, whole, folded(item.area), item.since, item.id)

    return sorted(items, key=key)


def plan_job(
    items: Sequence[PlanItem],
    links: Iterable[Link] = (),
    phases: Sequence[str] = STANDARD_PHASES,
    means: Means | None = None,
    calendar: WorkCalendar | None = None,
    now: int = 0,
) -> JobPlan:
    """Return the plan of a job's open items from the instant ``now`` on (minutes since the epoch).

    ``items`` may include done ones (their waits may still run) and dropped ones (their links are
    named). Raises LoopFound, NoWorkingDay, and BadInput when nobody can do an item.
    """
    calendar = calendar or WorkCalendar()
    means = means or Means()
    order = order_items(items, list(links), phases)
    live = [i for i in items if i.state is not PunchState.DROPPED]
    open_items = in_work_order((i for i in live if not _settled(i)), phases)
    settled = [i for i in live if _settled(i)]
    ready = readiness(items, (), phases, now, order)
    forecast = {i.id: _forecast(i, calendar, now) for i in open_items}
    precedences = _with_rests(order, settled, open_items, now)
    activities = [_activity(i, forecast[i.id].days * calendar.day_slots) for i in open_items]
    activities += [Activity(i.id, 0) for i in settled]
    activities += [Activity(g, 0) for g in order.gates]
    names = {i.id: i.name for i in live} | dict(order.gates)
    resources, notices = _resources(open_items, means)
    made = schedule(
        activities,
        precedences,
        resources,
        calendar,
        now,
        {i: f.not_before for i, f in forecast.items() if f.not_before > now},
        names,
    )
    rows = [
        PlanRow(
            i,
            made.rows[i.id],
            ready.get(i.id, Readiness(False, (i.id,))),
            made.rows[i.id].finish + (0 if _waited(i) else units(i.wait.hours) * 15),
            forecast[i.id].assumed,
        )
        for i in open_items
    ]
    rows.sort(key=lambda r: (r.row.start, r.row.finish))
    end = max((r.clear for r in rows), default=now)
    said = [*order.notices, *notices, *(n for f in forecast.values() for n in f.notices)]
    return JobPlan(tuple(rows), now, end, calendar, means, tuple(phases), made, order, tuple(said))


def _settled(item: PlanItem) -> bool:
    return item.state is PunchState.DONE and item.released


def _waited(item: PlanItem) -> bool:
    """True for a test that was made and only lacks its result."""
    return item.state is PunchState.DONE and not item.released


@dataclass(frozen=True, slots=True)
class _Forecast:
    not_before: int
    days: int = 0
    assumed: bool = False
    notices: tuple[str, ...] = ()


def _forecast(item: PlanItem, calendar: WorkCalendar, now: int) -> _Forecast:
    """Return when a hold's answer is counted on: its booked day's end, or assumed working days."""
    hold = item.hold
    if hold is None or _settled(item):
        return _Forecast(now)
    if hold.booked is not None:
        ends = calendar.shift(hold.booked)[1]
        if ends < now:
            late = f"“{item.name}” was booked for {short_day(hold.booked)}; no result is recorded"
            return _Forecast(now, 0, True, (late,))
        return _Forecast(ends)
    days = ASSUMED_DAYS[hold.kind]
    if not days:
        return _Forecast(now)
    said = f"“{item.name}”: no date is booked; {days} working days are assumed"
    return _Forecast(now, days, True, (said,))


def _with_rests(
    order: ItemOrder, settled: Sequence[PlanItem], open_items: Sequence[PlanItem], now: int
) -> list[Precedence]:
    """Return the arrows, those from done items with what is left of their waits."""
    done = {i.id: i for i in settled}
    made = {i.id for i in open_items if _waited(i)}
    result: list[Precedence] = []
    for a in order.arrows:
        lag = 0 if a.before in made else units(a.wait_hours)
        item = done.get(a.before)
        if item is not None:
            over = item.done_at is None or (item.hold is not None and bool(item.hold.results))
            lag = 0 if over else max(0, -(-((item.done_at or 0) + lag * 15 - now) // 15))
        result.append(Precedence(a.before, a.after, lag))
    return result


def work_quarters(item: PlanItem) -> int:
    """Return how many quarter hours of the day an item's work takes; 0 for what others answer."""
    if item.waits_elsewhere or item.state is PunchState.DONE:
        return 0
    return max(1, units(item.crew_hours / item.people))


def _activity(item: PlanItem, assumed: int) -> Activity:
    """Return the activity of an item; ``assumed`` quarter hours of work days pass for an answer."""
    length = work_quarters(item)
    if not length:
        return Activity(item.id, assumed)
    needs = {item.sub or CREW: 1 if item.sub else item.people}
    if not item.office:
        needs[ROOM] = item.people
    return Activity(item.id, length, needs)


def _resources(items: Sequence[PlanItem], means: Means) -> tuple[list[Resource], list[str]]:
    resources = [Resource(CREW, means.crew), Resource(ROOM, means.room)]
    notices: list[str] = []
    known = {s.trade: s for s in means.subs}
    for trade in sorted({i.sub for i in items if i.sub}):
        sub = known.get(trade)
        if sub is None:
            notices.append(f"no days are given for the {one_line(trade)}; any working day is assumed")
            resources.append(Resource(trade, 1))
        else:
            resources.append(Resource(trade, 1, sub.weekdays, sub.days, sub.away))
    return resources, notices
