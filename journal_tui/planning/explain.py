"""Why an item is not sooner, in one sentence that names the chain driving it."""

from __future__ import annotations

from dataclasses import dataclass

from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.jobplan import CREW, ROOM, JobPlan, PlanRow
from journal_tui.planning.schedule import DrivenBy, Driver

#: Links of a chain said in full; the rest is told by its first one.
CHAIN_SHOWN = 4


@dataclass(frozen=True, slots=True)
class Step:
    """One step back along a chain: what the item follows, over gates, with the wait between."""

    driver: Driver
    by: PlanRow | None
    wait_hours: float
    settled: str = ""


def moment(plan: JobPlan, minutes: int) -> str:
    """Return an instant in the job's zone as ``Tue 8 Dec 8:00``."""
    local = from_minutes(minutes, plan.calendar.tz)
    return f"{short_day(local.date())} {local.hour}:{local.minute:02d}"


def step_back(plan: JobPlan, item_id: str) -> Step:
    """Return what drives an item, passing through the phase gates to the item behind them."""
    rows = plan.schedule.rows
    driver = rows[item_id].driver
    lag = driver.lag
    while driver.by is not None and driver.by in plan.order.gates:
        driver = rows[driver.by].driver
        lag += driver.lag
    if driver.by is None:
        return Step(driver, None, lag / 60)
    return Step(driver, plan.row(driver.by), lag / 60, driver.by)


def driving_chain(plan: JobPlan, item_id: str) -> list[str]:
    """Return the ids of the open items that drive an item, itself first, back to where it begins."""
    return [here for here, _ in _steps(plan, item_id, len(plan.rows) + 1)]


def _steps(plan: JobPlan, item_id: str, most: int) -> list[tuple[str, Step]]:
    """Return the first ``most`` steps back along the chain that drives an item."""
    steps = [(item_id, step_back(plan, item_id))]
    while len(steps) < most and (by := steps[-1][1].by) is not None:
        steps.append((by.item.id, step_back(plan, by.item.id)))
    return steps


def _root(plan: JobPlan, item_id: str) -> tuple[str, int]:
    """Return where an item's chain begins and how many items it has; told chains are not walked again."""
    path: list[str] = []
    here = item_id
    while here not in plan.roots:
        path.append(here)
        by = step_back(plan, here).by
        if by is None:
            plan.roots[here] = (here, 1)
            path.pop()
            break
        here = by.item.id
    root, length = plan.roots[here]
    for back, passed in enumerate(reversed(path), 1):
        plan.roots[passed] = (root, length + back)
    return plan.roots[item_id]


def why_not_sooner(plan: JobPlan, item_id: str) -> str:
    """Return one sentence saying what keeps an item from starting sooner."""
    row = plan.row(item_id)
    if row is None:
        return "It is not open, so nothing keeps it waiting."
    verb = "cannot be counted on before" if row.is_hold else "cannot start before"
    when = row.row.finish if row.is_hold else row.row.start
    opening = f"“{row.item.name}” {verb} {moment(plan, when)}"
    steps = _steps(plan, item_id, CHAIN_SHOWN)
    said = ", which ".join(_reason(plan, here, step) for here, step in steps)
    root, length = _root(plan, item_id)
    first = plan.row(root)
    if length > CHAIN_SHOWN + 1 and first is not None:
        said += f", and so on, back to “{first.item.name}”"
    return f"{opening}: it {said}."


def _reason(plan: JobPlan, item_id: str, step: Step) -> str:
    """Return the words after "it" or "which" for one step of a chain."""
    if step.driver.kind is DrivenBy.RESOURCE and step.by is not None:
        busy = f"until “{step.by.item.name}” is done {moment(plan, step.by.row.finish)}"
        if step.driver.resource == CREW:
            return f"waits for people, who are busy {busy}"
        if step.driver.resource == ROOM:
            return f"waits for space, for the room is full {busy}"
        return f"waits for the {one_line(step.driver.resource or '')}, who is busy {busy}"
    if step.driver.kind is DrivenBy.DAYS:
        there = f"waits for the next day of the {one_line(step.driver.resource or '')}"
        return there if step.by is None else f"{there} after “{step.by.item.name}”"
    if step.by is not None:
        return _follows(plan, step)
    if step.settled:
        return f"waits out {step.wait_hours:g} h after work already done"
    return _begins(plan, item_id)


def _follows(plan: JobPlan, step: Step) -> str:
    assert step.by is not None
    item = step.by.item
    if step.by.is_hold and item.hold is not None:
        how = "assumed" if step.by.assumed else "booked"
        done = f"{item.hold.kind.value}, {how} for {moment(plan, step.by.row.finish)}, no result yet"
    else:
        done = f"done {moment(plan, step.by.row.finish)}"
    if step.wait_hours:
        source = item.wait.source if item.wait.hours else "as linked"
        done += f", then {step.wait_hours:g} h by the clock ({source})"
    return f"follows “{item.name}” ({done})"


def _begins(plan: JobPlan, item_id: str) -> str:
    row = plan.row(item_id)
    if row is not None and row.item.hold is not None and row.is_hold:
        if row.item.hold.booked is not None:
            return f"is booked for {short_day(row.item.hold.booked)}"
        return "has no date, and the usual time for an answer is assumed" if row.assumed else "is due now"
    return "begins the plan, at the first working hour"
