"""What comes before what: the phases' order, usual predecessors, holds, and the user's own links.

The defaults can never contradict each other; a link that contradicts them, or closes a loop, is
refused with the loop named. Phases are ordered through gates ("everything up to backer, tub
wall"), so that the number of arrows grows with the items, not with their square.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from journal_tui.domain.kinds import WHOLE_ROOM, Party
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import one_line
from journal_tui.planning.items import HoldKind, Link, PlanItem, area_key, overlaps
from journal_tui.planning.network import Precedence, topological_order
from journal_tui.planning.tasks import stems

#: Arrows count waits in quarter hours of the clock.
UNITS_AN_HOUR = 4
#: The place of what is in no order: after everything.
LAST = 10_000


@dataclass(frozen=True, slots=True)
class Arrow:
    """``after`` waits for ``before`` and ``wait_hours`` by the clock; ``why`` in a word or two."""

    before: str
    after: str
    wait_hours: float
    why: str


@dataclass(frozen=True, slots=True)
class ItemOrder:
    """All arrows between items and gates; gates' names by id; what was set aside, in words."""

    arrows: tuple[Arrow, ...]
    gates: Mapping[str, str]
    notices: tuple[str, ...] = field(default=())

    def precedences(self) -> list[Precedence]:
        """Return the arrows in quarter hours, rounded up."""
        return [Precedence(a.before, a.after, units(a.wait_hours)) for a in self.arrows]


def units(hours: float) -> int:
    """Return hours as quarter hours, rounded up."""
    return -int(-hours * UNITS_AN_HOUR // 1)


def rank_of(item: PlanItem, phases: Sequence[str]) -> int | None:
    """Return the place of an item's phase in the job's order, None when the order is silent on it."""
    return phases.index(item.phase) if item.phase in phases else None


def work_rank(item: PlanItem, phases: Sequence[str]) -> int:
    """Return an item's turn when there is a choice: calls and orders first, then phase after phase."""
    rank = rank_of(item, phases)
    return -1 if item.office else LAST if rank is None else rank


def gates_later(item: PlanItem, phases: Sequence[str]) -> bool:
    """True when later phases wait for the item by default."""
    return not item.free and item.phase in phases


def waits_for_earlier(item: PlanItem, phases: Sequence[str]) -> bool:
    """True when the item itself waits for earlier phases: office work and answers do not."""
    answer = item.hold is not None and item.hold.kind in (HoldKind.DECISION, HoldKind.DELIVERY)
    return gates_later(item, phases) and not item.office and not answer


def _strict(item: PlanItem) -> bool:
    return item.hold is not None and item.hold.kind.strict


def closing_rank(item: PlanItem, phases: Sequence[str]) -> int:
    """Return where in the order a closing item closes; past the last phase when nothing says."""
    if item.phase in phases:
        return phases.index(item.phase)
    task = item.book.tasks.get(item.task or "")
    return phases.index(task.phase) if task is not None and task.phase in phases else len(phases)


def must_pass_first(hold: PlanItem, closer: PlanItem, phases: Sequence[str]) -> bool:
    """True when ``closer`` would cover what the inspection or test ``hold`` is about.

    That is: their areas touch, and the hold belongs to an earlier phase, or to the same one and
    the closing task usually comes later than the look. No link and no freedom
    given by the user changes it.
    """
    if hold.id == closer.id or not closer.closes or not _strict(hold):
        return False
    if not overlaps(hold.area, closer.area):
        return False
    held, closed = closing_rank(hold, phases), closing_rank(closer, phases)
    if held != closed:
        return held < closed
    places = closer.book.places
    return places.get(closer.task or "", LAST) > places.get(hold.task or "", -1)


def _unexplained_before(a: PlanItem, look: PlanItem) -> bool:
    """True when ``a`` goes before an inspection or test of its phase and area for want of better knowledge.

    What no common task explains may be just what the inspector comes to see; and before a look
    that no task explains goes all that is not closing or after closing. Together with the order of
    tasks and ``must_pass_first`` this can make no loop: arrows run from unexplained work to looks,
    from looks to what closes, and else along one order of the tasks.
    """
    if (a.task is not None and look.task is not None) or _strict(a) or a.closes:
        return False
    return a.task is None or a.task not in a.book.after_closing


def _about_the_same(a: PlanItem, b: PlanItem) -> bool:
    """True when two items share a word that says what they are about."""
    shared = stems(a.text) & stems(b.text)
    return bool(shared - a.book.common - stems(a.area) - stems(b.area))


def order_items(items: Sequence[PlanItem], links: Iterable[Link], phases: Sequence[str]) -> ItemOrder:
    """Return everything that orders ``items`` (open ones, and done ones whose wait still runs).

    Dropped items order nothing: links from or to one come back as notices. The order is not
    checked for loops here; ``check_order`` and the schedule do that.
    """
    live = [i for i in items if i.state is not PunchState.DROPPED]
    gates, arrows = _phase_gates(live, phases)
    more_gates, more = _within_phases(live, phases)
    gates |= more_gates
    arrows += more
    arrows += _closings(live, phases)
    by_id = {i.id: i for i in items}
    notices: list[str] = []
    for link in links:
        ends = [by_id.get(link.before), by_id.get(link.after)]
        before, after = ends
        if before is None or after is None:
            continue  # an end that is long done and gone from the plan binds nothing
        dropped = next((e for e in (before, after) if e.state is PunchState.DROPPED), None)
        if dropped is not None:
            notices.append(f"“{after.name}” was to follow “{before.name}”; “{dropped.name}” was dropped")
            continue
        hours = before.wait.hours + link.lag_hours
        arrows.append(Arrow(link.before, link.after, hours, "your link"))
        if before.hold is not None and before.hold.again in by_id:
            arrows.append(Arrow(str(before.hold.again), link.after, hours, "your link"))
    return ItemOrder(tuple(_widest(arrows)), gates, tuple(notices))


def _widest(arrows: Iterable[Arrow]) -> list[Arrow]:
    """Of several arrows between the same two keep the one with the longest wait (the last, if equal)."""
    kept: dict[tuple[str, str], Arrow] = {}
    for arrow in arrows:
        key = (arrow.before, arrow.after)
        if key not in kept or arrow.wait_hours >= kept[key].wait_hours:
            kept[key] = arrow
    return list(kept.values())


def check_order(items: Sequence[PlanItem], links: Iterable[Link], phases: Sequence[str]) -> None:
    """Raise LoopFound, in the items' words, when links contradict the order or each other."""
    order = order_items(items, links, phases)
    names = {i.id: i.name for i in items} | dict(order.gates)
    topological_order(list(names), order.precedences(), names)


def _phase_gates(items: Sequence[PlanItem], phases: Sequence[str]) -> tuple[dict[str, str], list[Arrow]]:
    """Return gates and arrows for the phase order within areas, the whole room against all.

    Per phase and area there is a gate "all up to here in this area", per phase one for the whole
    room's own items and one for everything.
    """
    used = [p for p in phases if any(i.phase == p and gates_later(i, phases) for i in items)]
    areas = sorted({area_key(i.area) for i in items if gates_later(i, phases)} - {WHOLE_ROOM})
    gates: dict[str, str] = {}
    arrows: list[Arrow] = []

    def gate(kind: str, phase: str, area: str, name: str) -> str:
        gates[f"gate|{kind}|{phase}|{area}"] = name
        return f"gate|{kind}|{phase}|{area}"

    before: dict[str, str] = {}
    for phase in used:
        every = gate("all", phase, "", f"everything up to {phase}")
        room = gate("room", phase, "", f"{phase}, whole room")
        arrows.append(Arrow(room, every, 0, phase))
        here = {a: gate("area", phase, a, f"everything up to {phase}, {one_line(a)}") for a in areas}
        for area, node in here.items():
            arrows += [Arrow(room, node, 0, phase), Arrow(node, every, 0, phase)]
            if area in before:
                arrows.append(Arrow(before[area], node, 0, phase))
        if "" in before:
            arrows.append(Arrow(before[""], every, 0, phase))
        for item in items:
            if item.phase != phase or not gates_later(item, phases):
                continue
            area = area_key(item.area)
            whole = area == WHOLE_ROOM
            arrows.append(Arrow(item.id, room if whole else here[area], item.wait.hours, "phase order"))
            earlier = before.get("" if whole else area)
            if earlier and waits_for_earlier(item, phases):
                arrows.append(Arrow(earlier, item.id, 0, "phase order"))
        before = {**here, "": every}
    return gates, arrows


def _within_phases(items: Sequence[PlanItem], phases: Sequence[str]) -> tuple[dict[str, str], list[Arrow]]:
    """Return gates and arrows for the usual order of tasks, and answers before what they are about."""
    groups: dict[str, list[PlanItem]] = {}
    for item in items:
        if gates_later(item, phases):
            groups.setdefault(item.phase, []).append(item)
    gates: dict[str, str] = {}
    arrows: list[Arrow] = []
    for phase, group in groups.items():
        work = [i for i in group if waits_for_earlier(i, phases)]
        answers = [i for i in group if not waits_for_earlier(i, phases)]
        new, between = _task_gates(phase, work)
        gates |= new
        arrows += between
        looks = [i for i in work if _strict(i)]
        for item in work:
            for look in looks:
                if overlaps(item.area, look.area) and _unexplained_before(item, look):
                    arrows.append(Arrow(item.id, look.id, item.wait.hours, "usual order"))
            for answer in answers:
                if overlaps(answer.area, item.area) and _about_the_same(answer, item):
                    arrows.append(Arrow(answer.id, item.id, answer.wait.hours, "answer first"))
    return gates, arrows


def _task_gates(phase: str, work: Sequence[PlanItem]) -> tuple[dict[str, str], list[Arrow]]:
    """Return gates "this task and all that usually goes before it, in this area" of one phase.

    As with phases, the whole room's items count in every area, and wait for every area.
    """
    there = {i.task for i in work if i.task is not None}
    if not there:
        return {}, []
    order = work[0].book.before
    used = [t for t in order if t in there or (order[t] & there and any(t in order[s] for s in there))]
    tasks = work[0].book.tasks
    areas = [*sorted({area_key(i.area) for i in work} - {WHOLE_ROOM}), WHOLE_ROOM]
    gates: dict[str, str] = {}
    arrows: list[Arrow] = []
    for task in used:
        node = {a: f"gate|task|{phase}|{task}|{a}" for a in areas}
        room = f"gate|task room|{phase}|{task}"
        gates |= {n: f"{task} and what goes before it, {one_line(a)}" for a, n in node.items()}
        gates[room] = f"{task}, whole room"
        for area in areas:
            arrows.append(Arrow(room, node[area], 0, task))
            if area != WHOLE_ROOM:
                arrows.append(Arrow(node[area], node[WHOLE_ROOM], 0, task))
            for near in tasks[task].after:
                if near in used:
                    arrows.append(Arrow(f"gate|task|{phase}|{near}|{area}", node[area], 0, task))
    for item in work:
        if item.task is None:
            continue
        area = area_key(item.area)
        after = f"gate|task room|{phase}|{item.task}"
        if area != WHOLE_ROOM:
            after = f"gate|task|{phase}|{item.task}|{area}"
        arrows.append(Arrow(item.id, after, item.wait.hours, "usual order"))
        arrows += [
            Arrow(f"gate|task|{phase}|{near}|{area}", item.id, 0, "usual order")
            for near in tasks[item.task].after
            if near in used
        ]
    return gates, arrows


def _closings(items: Sequence[PlanItem], phases: Sequence[str]) -> list[Arrow]:
    """Return the arrows from looks to what they must precede, where the phases do not say so already."""
    closers = [i for i in items if i.closes and i.state is PunchState.OPEN]
    holds = [i for i in items if _strict(i) and not i.released]
    return [
        Arrow(h.id, c.id, h.wait.hours, "before it is covered")
        for c in closers
        for h in holds
        if not (h.phase != c.phase and gates_later(h, phases) and waits_for_earlier(c, phases))
        and must_pass_first(h, c, phases)
    ]


@dataclass(frozen=True, slots=True)
class NewItem:
    """An item to be created: words, place, whose move, what it waits for by number in the list."""

    text: str
    phase: str
    area: str
    who: Party
    hold: HoldKind | None = None
    task: str | None = None


@dataclass(frozen=True, slots=True)
class AfterFailure:
    """What a failed inspection or test asks for: corrections, then the same look again.

    Every correction goes before ``again``; everything that waited for the hold waits for ``again``.
    """

    corrections: tuple[NewItem, ...]
    again: NewItem


def after_failure(item: PlanItem) -> AfterFailure:
    """Return the items that the last, failed result of a hold calls for. Pure; nothing is saved.

    One correction for each thing found, or one asking what it was when nothing was written down.
    """
    assert item.hold is not None and item.hold.failed
    what = item.name.removeprefix("again: ")
    found = [f for f in (one_line(f) for f in item.hold.results[-1].found) if f]
    lines = [f"correct: {f}" for f in found] or [f"find out and correct what failed at: {what}"]
    corrections = tuple(NewItem(line, item.phase, item.area, Party.CREW) for line in lines)
    again = NewItem(
        f"again: {what}", item.phase, item.area, item.who or Party.CREW, item.hold.kind, item.task
    )
    return AfterFailure(corrections, again)
