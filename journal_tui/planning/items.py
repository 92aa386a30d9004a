"""Plan items: open work with everything a schedule needs, and holds with their recorded results."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import lru_cache

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import WHOLE_ROOM, Audience, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import folded, one_line
from journal_tui.planning.tasks import Task, TaskBook, built_in

#: Beyond these a number is a slip of the keys.
MOST_HOURS = 400.0
MOST_PEOPLE = 20
MOST_WAIT = 2_000.0
#: What an item with no known task is taken to be, until somebody says.
UNKNOWN_HOURS = 2.0


#: What the plan calls the crew and the room; no sub is called so.
OWN_NAMES = ("crew", "room")


class HoldKind(StrEnum):
    """What kind of word others give before work goes on."""

    INSPECTION = "inspection"
    DECISION = "decision"
    DELIVERY = "delivery"
    TEST = "test"

    @property
    def strict(self) -> bool:
        """True when only a recorded pass releases; the others are released by being done, too."""
        return self in (HoldKind.INSPECTION, HoldKind.TEST)


#: Days until the answer when no date is booked: common practice, no source; shown as assumed.
ASSUMED_DAYS: Mapping[HoldKind, int] = {
    HoldKind.INSPECTION: 2,
    HoldKind.DECISION: 3,
    HoldKind.DELIVERY: 10,
    HoldKind.TEST: 0,
}

PARTY_HOLD: Mapping[Party, HoldKind] = {
    Party.INSPECTOR: HoldKind.INSPECTION,
    Party.CLIENT: HoldKind.DECISION,
    Party.SUPPLIER: HoldKind.DELIVERY,
}


@dataclass(frozen=True, slots=True)
class HoldResult:
    """What came of a hold: the day, who said so, passed or what failed, and what proves it."""

    day: dt.date
    by: str
    passed: bool
    found: tuple[str, ...] = ()
    evidence: str = ""


@dataclass(frozen=True, slots=True)
class Hold:
    """A point past which nothing goes until a result is recorded. ``booked`` is a forecast only.

    ``again`` is the id of the live item that stands for it after a failure, if there is one.
    """

    kind: HoldKind
    who: str = ""
    booked: dt.date | None = None
    results: tuple[HoldResult, ...] = ()
    again: str | None = None

    @property
    def passed(self) -> bool:
        """True when the last recorded result is a pass."""
        return bool(self.results) and self.results[-1].passed

    @property
    def failed(self) -> bool:
        """True when the last recorded result is a failure."""
        return bool(self.results) and not self.results[-1].passed


@dataclass(frozen=True, slots=True)
class Wait:
    """Clock hours after an item before what follows may start, and where the number comes from.

    ``source`` is ``label``, ``standard``, ``practice`` or ``stated``.
    """

    hours: float = 0.0
    source: str = "practice"
    note: str = ""


@dataclass(frozen=True, slots=True)
class PlanItem:
    """One open (or lately done) item as planning sees it.

    ``crew_hours`` is the work in person-hours, ``people`` how many do it at once; ``sub`` names
    the trade when a licensed sub does it. ``office`` work needs no turn in the room and no phase
    order; ``free`` is the same by the user's word. ``closes`` covers other work; ``one_go`` cannot
    be left half done. ``task`` is the common task it was taken for. ``stated`` names the fields
    somebody set; every other number is common practice. ``done_at`` is an instant (minutes since
    the epoch) when it is done. ``private`` items are for their owner alone.
    ``look`` is the task (an inspection) that usually passes before this one covers its work. All
    items of a plan share one ``book`` of common tasks.
    """

    id: str
    text: str
    phase: str
    area: str
    who: Party | None = Party.CREW
    sub: str | None = None
    crew_hours: float = UNKNOWN_HOURS
    people: int = 1
    wait: Wait = Wait()
    hold: Hold | None = None
    office: bool = False
    free: bool = False
    closes: bool = False
    one_go: bool = False
    disturbs: bool = False
    task: str | None = None
    materials: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    photos: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    since: dt.date = dt.date.min
    state: PunchState = PunchState.OPEN
    done_at: int | None = None
    private: bool = False
    stated: frozenset[str] = frozenset()
    look: str | None = None
    book: TaskBook = field(default_factory=built_in, repr=False, compare=False)

    @property
    def waits_elsewhere(self) -> bool:
        """True when the next move is the client's, the inspector's or a supplier's."""
        return self.who not in (None, Party.CREW)

    @property
    def released(self) -> bool:
        """True when what follows may go on as far as this item's work and result are concerned."""
        if self.state is PunchState.DROPPED:
            return True
        if self.hold is not None:
            if self.hold.failed:
                return self.hold.again is not None
            return self.hold.passed or (self.state is PunchState.DONE and not self.hold.kind.strict)
        return self.state is PunchState.DONE

    @property
    def name(self) -> str:
        """The item in words, with its area where it has one."""
        return one_line(self.text)

    @property
    def taken_as(self) -> str:
        """Where the unstated numbers come from, in words."""
        if self.task:
            return f"as for “{self.task}” (common practice, editable)"
        return "as it stands: no common task fits its words, so its figures are a guess, editable"


@dataclass(frozen=True, slots=True)
class Stated:
    """What somebody set for an item; None leaves the default."""

    crew_hours: float | None = None
    people: int | None = None
    wait_hours: float | None = None
    wait_note: str | None = None
    sub: str | None = None
    free: bool | None = None
    closes: bool | None = None
    materials: tuple[str, ...] | None = None
    task: str | None = None


def check_hours(hours: float, what: str = "crew-hours") -> float:
    """Return ``hours`` when they can be worked: above 0 and no more than 400. Else BadInput."""
    if not 0 < hours <= MOST_HOURS:  # also refuses NaN
        raise BadInput(f"{hours:g} {what} cannot be planned", f"give more than 0 and at most {MOST_HOURS:g}")
    return hours


def check_people(people: int) -> int:
    """Return ``people`` when it is 1 to 20. Else BadInput."""
    if not 1 <= people <= MOST_PEOPLE:
        raise BadInput(f"{people} people cannot be planned", f"give 1 to {MOST_PEOPLE}")
    return people


def check_trade(trade: str) -> str:
    """Return the name of a sub's trade in small letters. BadInput for none, and for the crew's own name."""
    name = one_line(trade).lower()
    if not name or name in OWN_NAMES:
        raise BadInput(f'"{name}" is no trade of a sub', "Such as electrician.")
    return name


def check_wait(hours: float) -> float:
    """Return ``hours`` when a wait can last so long: 0 to 2,000. Else BadInput."""
    if not 0 <= hours <= MOST_WAIT:
        raise BadInput(f"a wait of {hours:g} h cannot be planned", f"give 0 to {MOST_WAIT:g} hours")
    return hours


def plan_item(
    item: PunchItem,
    stated: Stated = Stated(),
    hold: Hold | None = None,
    done_at: int | None = None,
    crew: int = 2,
    book: TaskBook | None = None,
) -> PlanItem:
    """Return a punch item with what was stated of it and, for the rest, the common task's figures.

    ``hold`` is what is on record of its hold point. ``crew`` caps the default number of people.
    ``book`` holds the common tasks (the package's own unless given).
    Raises BadInput for numbers that cannot be planned.
    """
    book = book or built_in()
    task = book.tasks.get(stated.task) if stated.task else book.match(item.text, item.phase)
    if not stated.task and (item.kind is Kind.OBSERVATION or (item.waits_elsewhere and not _is_look(task))):
        task = None  # what was seen, or is asked of others, is no task of the crew's
    base = PlanItem(
        id=item.id,
        text=item.text,
        phase=item.phase,
        area=item.area,
        who=item.who,
        since=item.since,
        state=item.state,
        done_at=done_at,
        private=item.audience is Audience.PRIVATE,
        book=book,
    )
    if task is not None:
        base = _with_task(base, task, crew)
    return _with_hold(_with_stated(base, stated), hold)


def _is_look(task: Task | None) -> bool:
    return task is not None and task.hold is not None


def _with_task(item: PlanItem, task: Task, crew: int) -> PlanItem:
    return replace(
        item,
        sub=task.trade,
        crew_hours=task.hours,
        people=1 if task.trade else max(1, min(task.people, crew)),
        wait=Wait(task.wait_hours, task.wait_source, task.wait_note) if task.wait_hours else Wait(),
        hold=Hold(HoldKind(task.hold), _holder(task)) if task.hold else None,
        office=task.office,
        closes=task.closes,
        one_go=task.one_go,
        disturbs=task.disturbs,
        task=task.name,
        materials=task.materials,
        tools=task.tools,
        photos=task.photos,
        cautions=task.cautions,
        look=task.look,
    )


def _holder(task: Task) -> str:
    return {"inspection": "inspector", "decision": "client", "delivery": "supplier"}.get(
        task.hold or "", "crew"
    )


def _with_stated(item: PlanItem, stated: Stated) -> PlanItem:
    changes: dict[str, object] = {}
    if stated.crew_hours is not None:
        changes["crew_hours"] = check_hours(stated.crew_hours)
    if stated.people is not None:
        changes["people"] = check_people(stated.people)
    if stated.wait_hours is not None:
        note = stated.wait_note or "as stated"
        changes["wait"] = Wait(check_wait(stated.wait_hours), "stated", note)
    for name in ("sub", "free", "closes", "materials"):
        value = getattr(stated, name)
        if value is not None:
            changes[name] = value
    if stated.sub == "":
        changes["sub"] = None
    return replace(item, **changes, stated=frozenset(changes) | item.stated)  # type: ignore[arg-type]


def _with_hold(item: PlanItem, hold: Hold | None) -> PlanItem:
    """Give the item its hold: the one on record, the task's, or the one its party calls for."""
    party = PARTY_HOLD.get(item.who) if item.who is not None else None
    if hold is None and party is not None and (item.hold is None or item.hold.kind is not party):
        hold = Hold(party, str(item.who))
    if party is not None:
        item = replace(item, closes=False)  # others answer; it is the crew that closes
    return item if hold is None else replace(item, hold=hold)


@lru_cache(maxsize=4096)
def area_key(area: str) -> str:
    """Return an area for comparing."""
    return folded(area)


def overlaps(a: str, b: str) -> bool:
    """True when two areas touch: the same one, or either is the whole room."""
    a, b = area_key(a), area_key(b)
    return a == b or WHOLE_ROOM in (a, b)


@dataclass(frozen=True, slots=True)
class Link:
    """The user's own word: ``after`` waits for ``before``, and ``lag_hours`` by the clock on top."""

    before: str
    after: str
    lag_hours: float = 0.0


@dataclass(frozen=True, slots=True)
class Sub:
    """A licensed sub: its trade, and the days it can be had (None: any working day)."""

    trade: str
    weekdays: frozenset[int] | None = None
    days: frozenset[dt.date] | None = None
    away: frozenset[dt.date] = frozenset()


@dataclass(frozen=True, slots=True)
class Means:
    """Who and what there is: people of the crew, how many fit in the room, the subs."""

    crew: int = 2
    room: int = 3
    subs: tuple[Sub, ...] = field(default=())

    def __post_init__(self) -> None:
        check_people(self.crew)
        check_people(self.room)
