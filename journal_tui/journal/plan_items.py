"""What is stated of an item for the plan: its figures, its links, its hold and the hold's results."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass, replace

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.reading import first_audience
from journal_tui.domain.text import one_line
from journal_tui.domain.times import visit_day_fault
from journal_tui.journal.jobs import get_job
from journal_tui.journal.keeping import add_item, record_state, refuse_answer_item
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import holds_on_record, plan_inputs, stated_in, task_book
from journal_tui.journal.punch import get_item
from journal_tui.journal.typed import measured
from journal_tui.planning.items import (
    Hold,
    HoldKind,
    HoldResult,
    Link,
    PlanItem,
    Stated,
    check_trade,
    check_wait,
    plan_item,
)
from journal_tui.planning.precedence import NewItem, after_failure, check_order
from journal_tui.store import plan_queries
from journal_tui.store.store import Writer


def planned_item(journal: Journal, job: Job, item_id: str) -> PlanItem:
    """Return an item as planning sees it. Raises ``NothingFound`` when it is not in the plan."""
    found = next((i for i in plan_inputs(journal, job).items if i.id == item_id), None)
    if found is None:
        raise NothingFound("no such item in the plan", "It may have been dropped.")
    return found


def stated_of(journal: Journal, job_id: str, item_id: str) -> Stated:
    """Return what somebody stated of an item."""
    return stated_in(plan_queries.item_plans(journal.store, job_id).get(item_id))


def state(journal: Journal, item_id: str, stated: Stated) -> PlanItem:
    """Set what is stated of an item, all of it; what is None goes back to common practice.

    Raises ``BadInput`` for figures that cannot be planned and tasks there are none of.
    """
    item = get_item(journal, item_id)
    job = get_job(journal, item.job_id)
    tasks = task_book(journal).tasks
    if stated.task and stated.task not in tasks:
        names = ", ".join(tasks)
        raise BadInput(f'there is no common task "{one_line(stated.task)}"', f"There are: {names}.")
    plan_item(item, stated, book=task_book(journal))
    values = {
        "crew_hours": None if stated.crew_hours is None else float(stated.crew_hours),
        "people": stated.people,
        "wait_hours": None if stated.wait_hours is None else float(stated.wait_hours),
        "wait_note": stated.wait_note,
        "sub": None if stated.sub is None else stated.sub and check_trade(measured(stated.sub, "the trade")),
        "free": None if stated.free is None else int(stated.free),
        "closes": None if stated.closes is None else int(stated.closes),
        "materials": None if stated.materials is None else json.dumps(stated.materials, ensure_ascii=False),
        "task": stated.task,
    }
    there = item.id in plan_queries.item_plans(journal.store, job.id)
    with journal.store.write("state the figures of an item", job.id) as w:
        if there:
            w.change("item_plans", item.id, **values)
        else:
            w.insert("item_plans", {"id": item.id, "job_id": job.id, **values})
    return planned_item(journal, job, item.id)


# Links ------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LinkLine:
    """A link in words: ``after`` waits for ``before`` and ``lag_hours`` on the clock."""

    before: PunchItem
    after: PunchItem
    lag_hours: float


def job_links(journal: Journal, job: Job) -> list[LinkLine]:
    """Return a job's own links, oldest first."""
    inputs = plan_inputs(journal, job)
    there = inputs.punch
    return [
        LinkLine(there[k.before], there[k.after], k.lag_hours)
        for k in inputs.links
        if k.before in there and k.after in there
    ]


def link(journal: Journal, before_id: str, after_id: str, lag_hours: float = 0.0) -> None:
    """Say that one item waits for another. Raises ``LoopFound`` naming the loop it would close."""
    before, after = get_item(journal, before_id), get_item(journal, after_id)
    for end in (before, after):
        if end.state is PunchState.DROPPED:
            raise BadInput(f"“{one_line(end.text)}” was dropped", "Reopen it, or link to another item.")
    if before.job_id != after.job_id:
        raise BadInput("the two items belong to different jobs")
    check_wait(lag_hours)
    inputs = plan_inputs(journal, get_job(journal, after.job_id))
    others = [k for k in inputs.links if (k.before, k.after) != (before.id, after.id)]
    check_order(inputs.items, [*others, Link(before.id, after.id, lag_hours)], inputs.job.phases)
    row_id = f"{before.id}/{after.id}"
    with journal.store.write("link two items", after.job_id) as w:
        if len(others) < len(inputs.links):
            w.change("links", row_id, lag_hours=float(lag_hours))
        else:
            _insert_link(w, after.job_id, before.id, after.id, float(lag_hours))


def _insert_link(w: Writer, job_id: str, before: str, after: str, lag_hours: float) -> None:
    w.insert(
        "links",
        {
            "id": f"{before}/{after}",
            "job_id": job_id,
            "before_id": before,
            "after_id": after,
            "lag_hours": lag_hours,
        },
    )


def unlink(journal: Journal, before_id: str, after_id: str) -> None:
    """Take a link away. Raises ``NothingFound`` when there is none."""
    after = get_item(journal, after_id)
    row_id = f"{before_id}/{after_id}"
    if not any(r["id"] == row_id for r in plan_queries.links(journal.store, after.job_id)):
        raise NothingFound("the two items are not linked", "Phase order and usual order need no link.")
    with journal.store.write("take a link away", after.job_id) as w:
        w.remove("links", row_id)


# Holds ------------------------------------------------------------------------------------------


def book(
    journal: Journal, item_id: str, day: dt.date | None, *, who: str = "", kind: HoldKind | None = None
) -> PlanItem:
    """Book the day of a hold (None takes the booking back). A booked day is a forecast, not a pass.

    ``kind`` makes a hold of an item that is none yet. Raises ``BadInput`` without it.
    """
    item = get_item(journal, item_id)
    job = get_job(journal, item.job_id)
    now = planned_item(journal, job, item.id).hold
    hold = _hold_of(item, now, kind)
    values = {
        "kind": hold.kind.value,
        "who": one_line(measured(who, "the name")) or hold.who,
        "booked": day.isoformat() if day else None,
    }
    with journal.store.write(f"book the {hold.kind.value}", job.id) as w:
        _put_hold(journal, w, item, values)
    return planned_item(journal, job, item.id)


def _hold_of(item: PunchItem, now: Hold | None, kind: HoldKind | None) -> Hold:
    if now is None and kind is None:
        raise BadInput(
            f"“{one_line(item.text)}” is no hold",
            "Say what kind it is: inspection, decision, delivery or test.",
        )
    if now is None or (kind is not None and kind is not now.kind):
        assert kind is not None
        return Hold(kind, str(item.who or ""))
    return now


def _put_hold(journal: Journal, w: Writer, item: PunchItem, values: Mapping[str, object]) -> None:
    if item.id in plan_queries.holds(journal.store, item.job_id):
        w.change("holds", item.id, **values)
    else:
        w.insert("holds", {"id": item.id, "job_id": item.job_id, **values})


def still_held(journal: Journal, item: PunchItem) -> bool:
    """True when an item is done and yet holds what follows, for want of a recorded result."""
    if item.state is not PunchState.DONE or item.kind is Kind.OBSERVATION:
        return False
    hold = holds_on_record(journal, item.job_id, {}).get(item.id)
    return not plan_item(
        item, stated_of(journal, item.job_id, item.id), hold, book=task_book(journal)
    ).released


@dataclass(frozen=True, slots=True)
class Recorded:
    """What recording a result led to: corrections and another look when it failed, nothing else."""

    item: PunchItem
    result: HoldResult
    corrections: tuple[PunchItem, ...] = ()
    again: PunchItem | None = None


def record_result(journal: Journal, item_id: str, result: HoldResult) -> Recorded:
    """Record what came of a hold: who said so, when, passed or what failed, and what proves it.

    A pass releases what follows. A failure closes the item and puts corrections and another look
    on the punch list; what waited for the first look waits for the second. Raises ``BadInput``
    when the item is no hold, nobody is named, or a passed inspection or test has nothing to show.
    """
    item = get_item(journal, item_id)
    job = get_job(journal, item.job_id)
    now = planned_item(journal, job, item.id)
    if now.hold is None:
        raise BadInput(
            f"“{one_line(item.text)}” is no hold",
            "Only an inspection, test, answer or delivery has a result.",
        )
    refuse_answer_item(journal.store, item)
    _check_result(journal, now.hold, result)
    failed = replace(now, hold=replace(now.hold, results=(*now.hold.results, result)))
    with journal.store.write(f"record the {now.hold.kind.value}", job.id) as w:
        _put_hold(journal, w, item, {"kind": now.hold.kind.value, "who": now.hold.who})
        w.insert(
            "hold_results",
            {
                "hold_id": item.id,
                "day": result.day.isoformat(),
                "by": one_line(result.by),
                "passed": int(result.passed),
                "found": json.dumps(result.found, ensure_ascii=False),
                "evidence": result.evidence,
            },
        )
        if item.state is PunchState.OPEN:
            note = "passed" if result.passed else "failed"
            w.change("punch_items", item.id, state=PunchState.DONE.value, closed=result.day.isoformat())
            record_state(w, item.id, PunchState.DONE, result.day, None, note)
        made = ([], None) if result.passed else _after_failure(w, item, failed, result.day)
    corrections = tuple(get_item(journal, i) for i in made[0])
    return Recorded(
        get_item(journal, item.id), result, corrections, get_item(journal, made[1]) if made[1] else None
    )


def _check_result(journal: Journal, hold: Hold, result: HoldResult) -> None:
    fault = visit_day_fault(result.day, journal.today())
    if fault or result.day > journal.today():
        raise BadInput("the day of the result", fault or f"{result.day.isoformat()} is still to come.")
    for text in (result.by, result.evidence, *result.found):
        measured(text, "what was recorded")
    if not result.by.strip():
        raise BadInput("who said so?", "A result needs the name or office of who gave it.")
    if result.passed and hold.kind.strict and not result.evidence.strip():
        raise BadInput(
            f"what shows that the {hold.kind.value} passed?",
            "Name a photo, or write a note: a signed card, a gauge reading, a level mark.",
        )


def _after_failure(w: Writer, item: PunchItem, failed: PlanItem, day: dt.date) -> tuple[list[str], str]:
    wanted = after_failure(failed)
    again = _add(w, item, wanted.again, day)
    assert wanted.again.hold is not None and failed.hold is not None
    w.insert(
        "holds",
        {"id": again, "job_id": item.job_id, "kind": wanted.again.hold.value, "who": failed.hold.who},
    )
    w.change("holds", item.id, again_id=again)
    corrections = []
    for new in wanted.corrections:
        corrections.append(_add(w, item, new, day))
        _insert_link(w, item.job_id, corrections[-1], again, 0.0)
    return corrections, again


def _add(w: Writer, item: PunchItem, new: NewItem, day: dt.date) -> str:
    audience = first_audience(new.text).audience if item.audience is not Audience.PRIVATE else item.audience
    draft = Draft(
        0.0, 0.0, Kind.NEXT_STEP, new.phase, new.area, new.text, True, new.who, (), "", "", audience=audience
    )
    return add_item(w, draft, item.job_id, None, day, None)
