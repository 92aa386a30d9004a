"""The next visit: which ready items fit, in phase order, and what stands in the way of the rest."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchState
from journal_tui.domain.times import short_day
from journal_tui.planning.calendar import SLOT_MINUTES, WorkCalendar, from_minutes
from journal_tui.planning.items import HoldKind, Link, Means, PlanItem, check_people, overlaps
from journal_tui.planning.jobplan import in_work_order, work_quarters
from journal_tui.planning.needs import Needs, needs_of
from journal_tui.planning.precedence import ItemOrder, order_items, work_rank
from journal_tui.planning.readiness import Readiness, readiness

#: A long item is begun when at least this many quarter hours are left for it.
WORTH_BEGINNING = 4


@dataclass(frozen=True, slots=True)
class VisitItem:
    """An item on the visit: when (minutes since the epoch); ``left_hours`` of it stay for later."""

    item: PlanItem
    start: int
    finish: int
    left_hours: float = 0.0

    @property
    def heading(self) -> str:
        """What it stands under in a list."""
        return "from the phone or the truck" if self.item.office else self.item.phase


@dataclass(frozen=True, slots=True)
class NotYet:
    """An item that is not on the visit: why, whose move it is, and since when."""

    item: PlanItem
    why: str
    whose: Party | None
    since: dt.date | None


@dataclass(frozen=True, slots=True)
class VisitList:
    """One visit, planned. ``used`` and ``offered`` are crew-hours."""

    day: dt.date
    begins: int
    ends: int
    people: int
    items: tuple[VisitItem, ...]
    not_yet: tuple[NotYet, ...]
    needs: Needs
    questions: tuple[PlanItem, ...]
    notices: tuple[str, ...] = field(default=())
    #: What the take-offs of the phases at work come to, in words.
    materials: tuple[str, ...] = field(default=())

    @property
    def load(self) -> tuple[str, ...]:
        """What to load: what the items call for, then the materials."""
        return (*self.needs.load, *self.materials)

    @property
    def used(self) -> float:
        """Crew-hours put to work."""
        return sum((v.finish - v.start) / 60 * v.item.people for v in self.items)

    @property
    def offered(self) -> float:
        """Crew-hours there are."""
        return (self.ends - self.begins) / 60 * self.people


@dataclass(slots=True)
class _Day:
    """People and places taken, quarter hour by quarter hour."""

    begins: int
    people: list[int]
    room: list[int]

    def first_fit(self, item: PlanItem, ready: int, length: int) -> int | None:
        """Return the first slot from the instant ``ready`` on where the item's people all fit."""
        at = max(0, -(-(ready - self.begins) // SLOT_MINUTES))
        while at + length <= len(self.people):
            short = next((k for k in range(at, at + length) if not self._fits(item, k)), None)
            if short is None:
                return at
            at = short + 1
        return None

    def _fits(self, item: PlanItem, slot: int) -> bool:
        return self.people[slot] >= item.people and (item.office or self.room[slot] >= item.people)

    def longest_from(self, item: PlanItem, ready: int) -> tuple[int, int]:
        """Return the first slot and length of the longest stretch the item could be worked on."""
        best = (0, 0)
        at = max(0, -(-(ready - self.begins) // SLOT_MINUTES))
        while at < len(self.people):
            end = at
            while end < len(self.people) and self._fits(item, end):
                end += 1
            if end - at > best[1]:
                best = (at, end - at)
            at = end + 1
        return best

    def take(self, item: PlanItem, at: int, length: int) -> None:
        for k in range(at, at + length):
            self.people[k] -= item.people
            if not item.office:
                self.room[k] -= item.people


@dataclass(frozen=True, slots=True)
class Wish:
    """What the remodeler moved: items to leave out, and items to take first, in this order."""

    leave_out: frozenset[str] = frozenset()
    first: tuple[str, ...] = ()


def plan_visit(
    items: Sequence[PlanItem],
    links: Iterable[Link],
    phases: Sequence[str],
    calendar: WorkCalendar,
    day: dt.date,
    hours: float,
    people: int,
    means: Means | None = None,
    year_built: int | None = None,
    wish: Wish | None = None,
) -> VisitList:
    """Return what ``people`` can do in ``hours`` on ``day``, begun when the calendar's shift begins.

    Items become ready during the visit as others are done and waits end; an item behind a hold does
    not, for only a recorded result releases it. The day is taken as given, holiday or not.
    """
    check_people(people)
    if not 0 < hours <= 24:
        raise BadInput(f"a visit of {hours:g} h cannot be planned", "give more than 0 and at most 24")
    wish = wish or Wish()
    means = means or Means()
    begins = calendar.shift(day)[0]
    slots = int(hours * 60) // SLOT_MINUTES
    order = order_items(items, list(links), phases)
    packer = _Packer(items, phases, order, _Day(begins, [people] * slots, [means.room] * slots), people, wish)
    packer.pack()
    not_yet = _not_yet(packer, calendar, begins + slots * SLOT_MINUTES)
    chosen = sorted(packer.chosen.values(), key=packer.listed)
    notices = [*order.notices, *_missing_looks([v.item for v in chosen], items)]
    off = calendar.why_off(day)
    if off:
        notices.append(f"{short_day(day)} is no working day in the job's calendar: {off}")
    done = [v.item for v in chosen]
    return VisitList(
        day,
        begins,
        begins + slots * SLOT_MINUTES,
        people,
        tuple(chosen),
        not_yet,
        needs_of(done, year_built),
        _questions(items),
        tuple(notices),
    )


class _Packer:
    """Fills a day with ready items; what is done in one phase may make items of the next one ready."""

    def __init__(
        self,
        items: Sequence[PlanItem],
        phases: Sequence[str],
        order: ItemOrder,
        day: _Day,
        people: int,
        wish: Wish,
    ) -> None:
        self.phases = phases
        self.order = order
        self.day = day
        self.crew = people
        self.wish = wish
        self.known = list(items)
        ranked = in_work_order((i for i in items if i.state is PunchState.OPEN), phases)
        firsts = {i: n for n, i in enumerate(wish.first)}
        ranked.sort(key=lambda i: firsts.get(i.id, len(firsts)))
        self.work = [i for i in ranked if not i.waits_elsewhere and i.sub is None]
        self.rank = {i.id: n for n, i in enumerate(ranked)}
        self.chosen: dict[str, VisitItem] = {}
        self.standing: dict[str, Readiness] = {}

    def listed(self, chosen: VisitItem) -> tuple[tuple[int, int], int, int]:
        """Return where a chosen item stands in the list: moved first, else by phase, then by time."""
        return (self._place(chosen.item), chosen.start, self.rank[chosen.item.id])

    def pack(self) -> None:
        """Choose items phase by phase, each until nothing more fits, then begin one long item."""
        places = {i.id: self._place(i) for i in self.work}
        for place in sorted(set(places.values())):
            here = [i for i in self.work if places[i.id] == place]
            added = True
            while added and any(i.id not in self.chosen for i in here):
                self._look()
                added = any([self._try(i) for i in here if i.id not in self.chosen])  # noqa: C419
        self._look()
        self._begin_a_long_one()
        self._look()

    def _place(self, item: PlanItem) -> tuple[int, int]:
        """Return what an item is packed with: those moved first, calls and orders, then phase after phase."""
        first = self.wish.first.index(item.id) if item.id in self.wish.first else len(self.wish.first)
        return (first, work_rank(item, self.phases))

    def _look(self) -> None:
        """See who is ready if what is chosen so far gets done."""
        done = {
            v.item.id: replace(v.item, state=PunchState.DONE, done_at=v.finish)
            for v in self.chosen.values()
            if not v.left_hours
        }
        known = [done.get(i.id, i) for i in self.known]
        self.standing = readiness(known, (), self.phases, self.day.begins, self.order)

    def ready_at(self, item: PlanItem) -> int | None:
        """Return the instant from which an item may start, None when it waits for open items."""
        standing = self.standing.get(item.id)
        if standing is None or standing.causes or item.id in self.wish.leave_out:
            return None
        return standing.waits_until or self.day.begins

    def _try(self, item: PlanItem) -> bool:
        ready = self.ready_at(item)
        if ready is None or item.people > self.crew:
            return False
        length = work_quarters(item)
        at = self.day.first_fit(item, ready, length)
        if at is None:
            return False
        self._take(item, at, length, 0.0)
        return True

    def _take(self, item: PlanItem, at: int, length: int, left: float) -> None:
        self.day.take(item, at, length)
        start = self.day.begins + at * SLOT_MINUTES
        self.chosen[item.id] = VisitItem(item, start, start + length * SLOT_MINUTES, left)

    def _begin_a_long_one(self) -> None:
        for item in self.work:
            ready = self.ready_at(item)
            if item.id in self.chosen or ready is None or item.one_go or item.people > self.crew:
                continue
            at, length = self.day.longest_from(item, ready)
            if length >= WORTH_BEGINNING:
                left = item.crew_hours - length * item.people / 4
                self._take(item, at, length, left)
                return


def _not_yet(packer: _Packer, calendar: WorkCalendar, ends: int) -> tuple[NotYet, ...]:
    by_id = {i.id: i for i in packer.known}
    result: list[NotYet] = []
    for item in in_work_order((i for i in packer.known if i.state is PunchState.OPEN), packer.phases):
        if item.id in packer.chosen:
            continue
        standing = packer.standing.get(item.id, Readiness(False))
        result.append(_reason(packer, item, standing, by_id.__getitem__, calendar, ends))
    return tuple(result)


def _reason(
    packer: _Packer,
    item: PlanItem,
    standing: Readiness,
    by_id: Callable[[str], PlanItem],
    calendar: WorkCalendar,
    ends: int,
) -> NotYet:
    if item.id in packer.wish.leave_out:
        return NotYet(item, "left out of this visit", Party.CREW, None)
    if standing.causes:
        cause = by_id(standing.causes[0])
        more = f" and {len(standing.causes) - 1} more" if len(standing.causes) > 1 else ""
        return NotYet(item, f"{_cause(cause, packer.chosen)}{more}", cause.who or Party.CREW, cause.since)
    if item.waits_elsewhere:
        return NotYet(item, _booked(item), item.who, item.since)
    if standing.waits_until is not None and standing.waits_until >= ends:
        local = from_minutes(standing.waits_until, calendar.tz)
        return NotYet(item, f"cures or dries until {short_day(local.date())} {local:%H:%M}", Party.CREW, None)
    if item.sub is not None:
        return NotYet(item, f"work for the {item.sub}; book the day", Party.CREW, item.since)
    if item.people > packer.crew:
        return NotYet(item, f"needs {item.people} people, there are {packer.crew}", Party.CREW, item.since)
    return NotYet(item, "ready, but it does not fit into this visit", Party.CREW, item.since)


def _cause(cause: PlanItem, chosen: Mapping[str, VisitItem]) -> str:
    if cause.hold is not None:
        if cause.id in chosen or cause.state is PunchState.DONE:
            return f"waits for the result of “{cause.name}”"
        return f"waits for “{cause.name}”, {_booked(cause)}"
    begun = "the rest of " if cause.id in chosen else ""
    return f"waits for {begun}“{cause.name}”"


def _booked(item: PlanItem) -> str:
    hold = item.hold
    if hold is None or hold.booked is None:
        return "no date booked"
    return f"booked {short_day(hold.booked)}"


def _missing_looks(chosen: Sequence[PlanItem], items: Sequence[PlanItem]) -> list[str]:
    """Return what is about to be covered with no inspection of it on the list, open or passed."""
    return [
        f"“{item.name}” covers open work, and no {item.look} is on the list here, open or passed: ask the"
        " local office before it is closed"
        for item in chosen
        if item.look and not any(i.task == item.look and overlaps(i.area, item.area) for i in items)
    ]


def _questions(items: Sequence[PlanItem]) -> tuple[PlanItem, ...]:
    """Return the open client decisions, the longest open first."""
    asked = [
        i
        for i in items
        if i.state is PunchState.OPEN
        and i.who is Party.CLIENT
        and not (i.hold is not None and i.hold.kind is not HoldKind.DECISION)
    ]
    return tuple(sorted(asked, key=lambda i: (i.since, i.id)))


def by_reason(not_yet: Iterable[NotYet]) -> list[tuple[NotYet, tuple[PlanItem, ...]]]:
    """Return what is not on the visit with equal reasons put together, in order of the first."""
    groups: dict[tuple[str, Party | None, dt.date | None], list[NotYet]] = {}
    for n in not_yet:
        groups.setdefault((n.why, n.whose, n.since if n.why.startswith("waits") else None), []).append(n)
    return [(group[0], tuple(n.item for n in group)) for group in groups.values()]
