"""From activities, precedences with lags, resources and a calendar to a schedule: a pure function.

With a calendar one unit is a quarter hour: of work for durations, by the clock for lags; times
come back as minutes since the epoch. Without one, units are units and times count from 0.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from journal_tui.domain.errors import BadInput
from journal_tui.planning.axis import Axis
from journal_tui.planning.calendar import SLOT_MINUTES, WorkCalendar
from journal_tui.planning.network import Activity, Precedence
from journal_tui.planning.project import Project
from journal_tui.planning.sgs import Generator
from journal_tui.planning.solver import BUDGET, moved, priority_rules, ranked_list, solve
from journal_tui.planning.timeline import (
    Board,
    Network,
    Placed,
    Resource,
    TimeAxis,
    UnitAxis,
    View,
    build_network,
    decode,
    earliest,
    latest,
)

#: Orders tried on a calendar for one plan: activities times orders stays below this.
ORDERS_WORK = 12_000
MOST_ORDERS = 300


class DrivenBy(StrEnum):
    """What keeps an activity from starting sooner."""

    BEGIN = "begin"
    PREDECESSOR = "predecessor"
    BOOKED = "booked"
    RESOURCE = "resource"
    DAYS = "days"


@dataclass(frozen=True, slots=True)
class Driver:
    """Why an activity starts when it does.

    ``by`` is the activity it follows (its predecessor, or who holds the ``resource``); ``lag`` is
    the wait after that one in minutes (units without a calendar).
    """

    kind: DrivenBy
    by: str | None = None
    resource: str | None = None
    lag: int = 0


@dataclass(frozen=True, slots=True)
class Row:
    """One activity in a schedule. Instants are minutes since the epoch (units without a calendar).

    ``early_*`` and ``late_*`` and the floats are the critical path method's: precedence, waits and
    days, as if there were people enough. ``start`` and ``finish`` keep to the people there are, and
    ``slack`` is how long it may slip in this very schedule. Floats and slack are quarter hours of
    work (for an activity of no length: of the clock), or units.
    """

    start: int
    finish: int
    early_start: int
    early_finish: int
    late_start: int
    late_finish: int
    total_float: int
    free_float: int
    slack: int
    driver: Driver

    @property
    def critical(self) -> bool:
        """True when a slip moves the end, by precedence alone."""
        return self.total_float == 0


@dataclass(frozen=True, slots=True)
class Schedule:
    """Rows by id, in the order given; when it begins and ends; the chain that sets the end."""

    rows: Mapping[str, Row]
    begin: int
    end: int
    chain: tuple[str, ...] = field(default=())


def schedule(
    activities: Sequence[Activity],
    precedences: Sequence[Precedence] = (),
    resources: Sequence[Resource] = (),
    calendar: WorkCalendar | None = None,
    begin: int = 0,
    not_before: Mapping[str, int] | None = None,
    names: Mapping[str, str] | None = None,
    budget: int | None = None,
) -> Schedule:
    """Return a feasible schedule, the shortest found; the same every time for the same input.

    ``begin`` and ``not_before`` are instants. ``names`` says the activities in words for errors.
    ``budget`` is how many schedules to build at most. Among equally short schedules the one nearest
    to the order in which the activities are given is kept.

    Raises LoopFound, NoWorkingDay, and BadInput when nobody can do an activity.
    """
    axis: TimeAxis = UnitAxis() if calendar is None else Axis(calendar, begin)
    unit = 1 if calendar is None else SLOT_MINUTES
    net = build_network(activities, precedences, resources, begin, not_before or {}, unit, names or {})
    if calendar is None and any(r.limited for r in resources):
        raise BadInput("No calendar", "a resource with days needs a work calendar")
    views: dict[tuple[str, ...], View] = {}
    early = earliest(net, axis, views)
    given = {a.id: n for n, a in enumerate(activities)}
    if calendar is None and not not_before:
        order = _solved_order(net, budget or BUDGET)
        board = decode(net, axis, views, order)
    else:
        rank = [float(given[i]) for i in net.ids]
        board = _best_order(net, axis, views, early, rank, budget)
    return _rows(board, early, [a.id for a in activities], unit)


def _as_project(net: Network) -> Project:
    names = list(net.resources)
    links = [(a, b, lag) for b, row in enumerate(net.before) for a, lag in row]
    needs = tuple(tuple(row.get(n, 0) for n in names) for row in net.needs)
    capacities = tuple(net.resources[n].capacity for n in names)
    return Project(tuple(net.durations), needs, capacities, tuple(links))


def _solved_order(net: Network, budget: int) -> list[int]:
    starts = solve(_as_project(net), budget).starts
    return sorted(range(len(starts)), key=lambda j: (starts[j], j))


def _best_order(
    net: Network,
    axis: TimeAxis,
    views: dict[tuple[str, ...], View],
    early: Sequence[Placed],
    given: Sequence[float],
    budget: int | None,
) -> Board:
    """Try the given order, the priority rules and moves from the best; keep the earliest end."""
    generator = Generator(_as_project(net))
    count = len(net.ids)
    orders = budget or max(1, min(MOST_ORDERS, ORDERS_WORK // max(1, count)))
    late = latest(net, axis, views, max((p.finish for p in early), default=net.begin))
    floor = max((p.finish for p in early), default=net.begin)
    ranks = [list(given), [float(p.finish) for p in late], *priority_rules(generator)]
    rng = random.Random(1)
    best = Board(net, axis, views)
    best_order: list[int] = []
    for n in range(orders):
        if n < len(ranks):
            order = ranked_list(generator, ranks[n])
        else:
            order = list(best_order)
            for _ in range(3):
                moved(generator, order, rng)
        board = decode(net, axis, views, order)
        if not n or board.end < best.end:
            best, best_order = board, order
        if best.end <= floor:
            break
    return best


def _rows(board: Board, early: Sequence[Placed], given: Sequence[str], unit: int) -> Schedule:
    net, axis, views, placed, end = board.network, board.axis, board.views, board.rows, board.end
    early_end = max((p.finish for p in early), default=net.begin)
    late = latest(net, axis, views, early_end)
    held = latest(net, axis, views, end, _handed_on(net, placed))
    rows: dict[str, Row] = {}
    drivers = _drivers(board)
    for i in given:
        j = net.number[i]
        work = net.durations[j] > 0
        e, at, lf, h = early[j], placed[j], late[j], held[j]
        free_by = min((early[k].start - lag for k, lag in net.after[j]), default=early_end)
        if work:
            view = views[net.limits(j)]
            free = view.first(axis.done_by(free_by)) - e.last
            floats = (lf.first - e.first, free, h.first - at.first)
        else:
            gaps = (lf.start - e.start, free_by - e.finish, h.start - at.start)
            floats = (gaps[0] // unit, gaps[1] // unit, gaps[2] // unit)
        rows[i] = Row(at.start, at.finish, e.start, e.finish, lf.start, lf.finish, *floats, drivers[j])
    return Schedule(rows, net.begin, end, _chain(net, placed, rows, end))


def _handed_on(net: Network, placed: Sequence[Placed]) -> list[list[int]]:
    """Return which activities each one hands its people (or its place) on to.

    Every unit of a resource goes to the activity that next takes it; those must come after.
    """
    onward: list[list[int]] = [[] for _ in net.ids]
    units: dict[str, list[tuple[int, int]]] = {n: [(-1, -1)] * r.capacity for n, r in net.resources.items()}
    work = (j for j in range(len(net.ids)) if net.durations[j] and net.needs[j])
    for j in sorted(work, key=lambda j: (placed[j].start, j)):
        for name, wanted in net.needs[j].items():
            pool = units[name]
            free = [u for u in range(len(pool)) if pool[u][1] < 0 or pool[u][0] <= placed[j].start]
            free.sort(key=lambda u: pool[u][0], reverse=True)
            for u in free[:wanted]:
                if pool[u][1] >= 0 and j not in onward[pool[u][1]]:
                    onward[pool[u][1]].append(j)
                pool[u] = (placed[j].finish, j)
    return onward


def _drivers(board: Board) -> list[Driver]:
    ending: dict[int, list[int]] = {}
    for j, p in enumerate(board.rows):
        if p.first >= 0:
            ending.setdefault(board.view(j).slot(p.last - 1), []).append(j)
    return [_driver(board, ending, j) for j in range(len(board.network.ids))]


def _driver(board: Board, ending: Mapping[int, Sequence[int]], j: int) -> Driver:
    net, axis, placed = board.network, board.axis, board.rows
    ready, kind, by, lag = net.begin, DrivenBy.BEGIN, None, 0
    if net.not_before[j] > ready:
        ready, kind = net.not_before[j], DrivenBy.BOOKED
    for p, wait in net.before[j]:
        if placed[p].finish + wait > ready or (placed[p].finish + wait == ready and kind is DrivenBy.BEGIN):
            ready, kind, by, lag = placed[p].finish + wait, DrivenBy.PREDECESSOR, net.ids[p], wait
    at = placed[j]
    if at.first < 0:
        return Driver(kind, by, None, lag)
    view = board.view(j)
    soonest = axis.at_or_after(ready)
    if at.first > view.first(soonest):
        # The quarter hour before was short of something; whoever gave that back then is the reason.
        previous = view.slot(at.first - 1)
        short = [n for n, units in net.needs[j].items() if board.left(n, previous) < units]
        for k in ending.get(previous, ()):
            scarce = next((n for n in short if net.needs[k].get(n)), None)
            if scarce is not None:
                return Driver(DrivenBy.RESOURCE, net.ids[k], scarce)
    if view.limited and view.slot(view.first(soonest)) > soonest:
        return Driver(DrivenBy.DAYS, by, view.limited[0].name, lag)
    return Driver(kind, by, None, lag)


def _chain(net: Network, placed: Sequence[Placed], rows: Mapping[str, Row], end: int) -> tuple[str, ...]:
    """Return the activities that set the end of the schedule, first to last."""
    here = next((i for j, i in enumerate(net.ids) if placed[j].finish == end), None)
    chain: list[str] = []
    while here is not None and here not in chain:
        chain.append(here)
        here = rows[here].driver.by
    return tuple(reversed(chain))
