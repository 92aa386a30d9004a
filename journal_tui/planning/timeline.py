"""A plan's network laid on working time: who is ready when, and where it fits.

Two axes share one face: quarter hours of a work calendar (``axis.Axis``) and plain units
(``UnitAxis``), on which a schedule is an ordinary resource-limited project.
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.planning.calendar import MOST_IDLE_DAYS
from journal_tui.planning.network import Activity, Precedence, check_activities, topological_order


class TimeAxis(Protocol):
    """Slots of work and the instants they lie at."""

    def start(self, slot: int) -> int: ...
    def finish(self, slot: int) -> int: ...
    def at_or_after(self, instant: int) -> int: ...
    def done_by(self, instant: int) -> int: ...
    def day(self, slot: int) -> dt.date: ...


class UnitAxis:
    """Time without a calendar: slot k is the instant k."""

    def start(self, slot: int) -> int:
        return slot

    def finish(self, slot: int) -> int:
        return slot

    def at_or_after(self, instant: int) -> int:
        return max(0, instant)

    def done_by(self, instant: int) -> int:
        return max(0, instant)

    def day(self, slot: int) -> dt.date:
        raise BadInput("No calendar", "a resource with days needs a work calendar")


@dataclass(frozen=True, slots=True)
class Resource:
    """``capacity`` people (or places in a room) of one name.

    With ``weekdays`` (0 is Monday) or ``days`` given it is there only then, and never on ``away``
    days; work that needs it pauses in between. All three None or empty: there on every working day.
    """

    name: str
    capacity: int
    weekdays: frozenset[int] | None = None
    days: frozenset[dt.date] | None = None
    away: frozenset[dt.date] = frozenset()

    @property
    def limited(self) -> bool:
        """True when it is not there on every working day."""
        return self.weekdays is not None or self.days is not None or bool(self.away)

    def there(self, day: dt.date) -> bool:
        """True when it can be had on ``day``."""
        if day in self.away:
            return False
        if self.weekdays is None and self.days is None:
            return True
        return day.weekday() in (self.weekdays or ()) or day in (self.days or ())


@dataclass(frozen=True)
class Network:
    """Numbered activities, predecessors first, with everything that bounds them.

    ``lags`` are in minutes on a calendar (units without one); ``not_before`` are instants.
    """

    ids: Sequence[str]
    durations: Sequence[int]
    needs: Sequence[Mapping[str, int]]
    before: Sequence[Sequence[tuple[int, int]]]
    after: Sequence[Sequence[tuple[int, int]]]
    not_before: Sequence[int]
    begin: int
    resources: Mapping[str, Resource]
    number: Mapping[str, int] = field(default_factory=dict)

    def limits(self, j: int) -> tuple[str, ...]:
        """Return the names of the resources j must wait for the days of."""
        return tuple(r for r in sorted(self.needs[j]) if self.resources[r].limited)


def build_network(
    activities: Sequence[Activity],
    precedences: Sequence[Precedence],
    resources: Sequence[Resource],
    begin: int,
    not_before: Mapping[str, int],
    unit: int,
    names: Mapping[str, str],
) -> Network:
    """Check and number a plan. Raises BadInput and LoopFound, in the words of ``names``."""
    check_activities(activities, precedences)
    order = topological_order([a.id for a in activities], precedences, names)
    number = {i: n for n, i in enumerate(order)}
    by_id = {a.id: a for a in activities}
    have = {r.name: r for r in resources}
    for i in order:
        for name, units in by_id[i].needs.items():
            if by_id[i].duration and (name not in have or units > have[name].capacity):
                there = have[name].capacity if name in have else 0
                who = one_line(names.get(i, i))
                raise BadInput(
                    f"Nobody can do “{who}”",
                    f'it needs {units} of "{one_line(name)}" and there are {there};'
                    " add people or a sub, or change what it needs",
                )
    before: list[list[tuple[int, int]]] = [[] for _ in order]
    after: list[list[tuple[int, int]]] = [[] for _ in order]
    for p in precedences:
        before[number[p.after]].append((number[p.before], p.lag * unit))
        after[number[p.before]].append((number[p.after], p.lag * unit))
    return Network(
        order,
        [by_id[i].duration for i in order],
        [dict(by_id[i].needs) if by_id[i].duration else {} for i in order],
        before,
        after,
        [max(begin, not_before.get(i, begin)) for i in order],
        begin,
        have,
        number,
    )


class View:
    """The slots on which a set of day-limited resources is there, as one run; all slots if none.

    ``slot(p)`` is the p-th of them, ``first(slot)`` the least p that is not before a slot.
    """

    def __init__(self, axis: TimeAxis, limited: Sequence[Resource]) -> None:
        self.axis = axis
        self.limited = limited
        self._slots: list[int] = []
        self._looked = 0

    def _grow(self) -> None:
        begun = self.axis.day(self._looked)
        while True:
            day = self.axis.day(self._looked)
            if all(r.there(day) for r in self.limited):
                self._slots.append(self._looked)
                self._looked += 1
                return
            if (day - begun).days > MOST_IDLE_DAYS:
                who = " and ".join(f"“{one_line(r.name)}”" for r in self.limited)
                raise BadInput(
                    f"{who} has no day left", f"none from {begun.isoformat()} on; give days or weekdays"
                )
            self._looked += 1

    def slot(self, p: int) -> int:
        """Return the p-th slot of the view."""
        if not self.limited:
            return p
        while len(self._slots) <= p:
            self._grow()
        return self._slots[p]

    def first(self, slot: int) -> int:
        """Return the least p with ``self.slot(p) >= slot``."""
        if not self.limited:
            return slot
        while not self._slots or self._slots[-1] < slot:
            self._grow()
        return bisect_left(self._slots, slot)


@dataclass(slots=True)
class Placed:
    """Where one activity lies: its positions in its view (work only) and its instants."""

    start: int
    finish: int
    first: int = -1
    last: int = -1


class Board:
    """One pass of placing activities; what is taken of each resource, slot by slot.

    ``capacities`` False places by precedence and days alone (the critical path method).
    """

    def __init__(self, network: Network, axis: TimeAxis, views: dict[tuple[str, ...], View]) -> None:
        self.network = network
        self.axis = axis
        self.views = views
        self.full = self.guard = 0
        self.shift: dict[str, int] = {}
        offset = 0
        for name, resource in network.resources.items():
            self.shift[name] = offset
            bits = max(1, resource.capacity.bit_length())
            self.guard |= 1 << (offset + bits)
            self.full |= 1 << (offset + bits) | resource.capacity << offset
            offset += bits + 1
        self.free: list[int] = []
        self.no_fit_before: dict[int, int] = {}
        self.placed: list[Placed | None] = [None] * len(network.ids)

    def view(self, j: int) -> View:
        """Return the view of the slots activity j can use."""
        key = self.network.limits(j)
        if key not in self.views:
            self.views[key] = View(self.axis, [self.network.resources[r] for r in key])
        return self.views[key]

    def packed(self, j: int) -> int:
        """Return what activity j needs, each resource in its own bits."""
        return sum(units << self.shift[name] for name, units in self.network.needs[j].items())

    def ready(self, j: int) -> int:
        """Return the instant from which j may start; its predecessors are placed."""
        ready = self.network.not_before[j]
        for p, lag in self.network.before[j]:
            other = self.placed[p]
            assert other is not None
            ready = max(ready, other.finish + lag)
        return ready

    def place(self, j: int, capacities: bool = True) -> None:
        """Put j as early as it may start and fit."""
        ready = self.ready(j)
        length = self.network.durations[j]
        if not length:
            self.placed[j] = Placed(ready, ready)
            return
        view = self.view(j)
        slot = self.axis.at_or_after(ready)
        need = self.packed(j) if capacities else 0
        if need:
            slot = max(slot, self.no_fit_before.get(need, 0))
        p = self._fit(view, view.first(slot), length, need) if need else view.first(slot)
        last = view.slot(p + length - 1)
        self.placed[j] = Placed(self.axis.start(view.slot(p)), self.axis.finish(last + 1), p, p + length)

    @property
    def rows(self) -> list[Placed]:
        """Everything placed, by number; all of it must be."""
        return [p for p in self.placed if p is not None]

    @property
    def end(self) -> int:
        """The instant the last activity finishes."""
        return max((p.finish for p in self.rows), default=self.network.begin)

    def left(self, name: str, slot: int) -> int:
        """Return how much of a resource is left in a slot."""
        resource = self.network.resources[name]
        if slot >= len(self.free):
            return resource.capacity
        bits = max(1, resource.capacity.bit_length())
        return self.free[slot] >> self.shift[name] & (1 << bits) - 1

    def _fit(self, view: View, p: int, length: int, need: int) -> int:
        guard = self.guard
        at, end = p, p + length
        while at < end:
            slot = view.slot(at)
            if slot >= len(self.free):
                self.free.extend([self.full] * (slot + 64 - len(self.free)))
            if (self.free[slot] - need) & guard != guard:
                p = at + 1
                end = p + length
                if not view.limited and self.no_fit_before.get(need, 0) == slot:
                    self.no_fit_before[need] = slot + 1
            at += 1
        for q in range(p, end):
            self.free[view.slot(q)] -= need
        return p


def decode(
    network: Network, axis: TimeAxis, views: dict[tuple[str, ...], View], order: Sequence[int]
) -> Board:
    """Return a board with everything placed in ``order`` (serial schedule generation)."""
    board = Board(network, axis, views)
    for j in order:
        board.place(j)
    return board


def earliest(network: Network, axis: TimeAxis, views: dict[tuple[str, ...], View]) -> list[Placed]:
    """Return the early times: precedence, waits and days, as if there were people enough."""
    board = Board(network, axis, views)
    for j in range(len(network.ids)):
        board.place(j, capacities=False)
    return board.rows


def latest(
    network: Network,
    axis: TimeAxis,
    views: dict[tuple[str, ...], View],
    end: int,
    extra: Sequence[Sequence[int]] | None = None,
) -> list[Placed]:
    """Return the late times that still end at the instant ``end``.

    ``extra[j]`` are further activities that must wait for j (people handed on in a plan).
    """
    board = Board(network, axis, views)
    late: list[Placed | None] = [None] * len(network.ids)
    order = range(len(network.ids)) if extra is None else _with_extra(network, extra)
    for j in reversed(order):
        by = end
        followers = [*network.after[j], *((k, 0) for k in (extra[j] if extra else ()))]
        for k, lag in followers:
            other = late[k]
            assert other is not None
            by = min(by, other.start - lag)
        length = network.durations[j]
        if not length:
            late[j] = Placed(by, by)
            continue
        view = board.view(j)
        # first(s) is how many slots of the view lie before slot s
        last = view.first(axis.done_by(by))
        first = max(0, last - length)
        late[j] = Placed(axis.start(view.slot(first)), axis.finish(view.slot(last - 1) + 1), first, last)
    return [p for p in late if p is not None]


def _with_extra(network: Network, extra: Sequence[Sequence[int]]) -> list[int]:
    missing = [len(row) for row in network.before]
    for row in extra:
        for k in row:
            missing[k] += 1
    order = [j for j in range(len(network.ids)) if not missing[j]]
    for j in order:  # grows while it is walked
        for k in [*(k for k, _ in network.after[j]), *extra[j]]:
            missing[k] -= 1
            if not missing[k]:
                order.append(k)
    return order
