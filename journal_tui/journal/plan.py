"""A job's plan: its items with what was stated of them, dates, reasons, and what moved."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.errors import BadInput, JournalFileError
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Kind
from journal_tui.domain.punch import PunchItem, PunchState, in_punch_order
from journal_tui.domain.text import one_line
from journal_tui.journal.opening import Journal
from journal_tui.journal.private_rows import why_told
from journal_tui.journal.work_days import WorkDays, planning_now, work_days
from journal_tui.planning.calendar import to_minutes
from journal_tui.planning.compare import Moved, PlanAsOf, Planned, kept, what_moved
from journal_tui.planning.items import Hold, HoldKind, HoldResult, Link, PlanItem, Stated, plan_item
from journal_tui.planning.jobplan import JobPlan, plan_job
from journal_tui.planning.tasks import TaskBook, built_in, read_tasks
from journal_tui.store import plan_queries, queries
from journal_tui.store.store import Row


@dataclass(frozen=True, slots=True)
class PlanInputs:
    """All that a job's plan is made from, as the journal has it now.

    ``unsettled`` are things seen that are open but no work yet: they are in no plan until somebody
    states their hours or links them.
    """

    job: Job
    days: WorkDays
    now: int
    items: tuple[PlanItem, ...]
    links: tuple[Link, ...]
    punch: Mapping[str, PunchItem]
    unsettled: tuple[PunchItem, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanView:
    """A plan with what it was made from. ``moved`` is since the plan as of the day ``since``."""

    inputs: PlanInputs
    plan: JobPlan
    moved: Moved | None
    since: dt.date | None

    @property
    def notices(self) -> tuple[str, ...]:
        """What was assumed or set aside."""
        seen = len(self.inputs.unsettled)
        told: tuple[str, ...] = ()
        if seen:
            things = (
                "1 thing seen and not settled is" if seen == 1 else f"{seen} things seen and not settled are"
            )
            told = (f"{things} no work yet, so not in the plan",)
        return self.inputs.days.notices + told + self.plan.notices


def plan_inputs(journal: Journal, job: Job) -> PlanInputs:
    """Return what a job's plan is made from: open items, done ones (their waits, their results), links."""
    days = work_days(journal, job.id)
    punch = {i.id: i for i in queries.punch_items(journal.store, job.id, None)}
    stated = plan_queries.item_plans(journal.store, job.id)
    book = task_book(journal)
    holds = holds_on_record(journal, job.id, punch)
    moments = plan_queries.done_moments(journal.store, job.id)
    now = planning_now(journal, days.calendar)
    items = [
        plan_item(
            item,
            stated_in(stated.get(item.id)),
            holds.get(item.id),
            _done_at(item, moments.get(item.id), days, now),
            days.means.crew,
            book,
        )
        for item in punch.values()
    ]
    links = tuple(
        Link(r["before_id"], r["after_id"], r["lag_hours"]) for r in plan_queries.links(journal.store, job.id)
    )
    told = {end for link in links for end in (link.before, link.after)} | stated.keys()
    unsettled = {i.id: i for i in punch.values() if i.kind is Kind.OBSERVATION and i.id not in told}
    matter = _that_matter([i for i in items if i.id not in unsettled], links)
    still = in_punch_order((i for i in unsettled.values() if i.state is PunchState.OPEN), job.phases)
    return PlanInputs(job, days, now, matter, links, punch, tuple(still))


def tasks_file(journal: Journal) -> Path:
    """Return where the user's own common tasks are kept: beside the journal, whether there are any or not."""
    return journal.path.with_name("tasks.toml")


def task_book(journal: Journal) -> TaskBook:
    """Return the common tasks: the package's own, and over them those of the file beside the journal.

    Raises ``BadInput`` naming the file when it cannot be read.
    """
    path = tasks_file(journal)
    try:
        text = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        return built_in()
    except (OSError, UnicodeDecodeError) as error:
        reason = getattr(error, "strerror", None) or "it is not UTF-8 text"
        raise BadInput(f"{one_line(str(path))} cannot be read", f"{reason}.") from None
    return read_tasks(text, str(path), built_in())


def _that_matter(items: list[PlanItem], links: tuple[Link, ...]) -> tuple[PlanItem, ...]:
    """Leave out dropped items nobody linked: they order nothing and say nothing."""
    linked = {end for link in links for end in (link.before, link.after)}
    return tuple(i for i in items if i.state is not PunchState.DROPPED or i.id in linked)


def stated_in(row: Row | None) -> Stated:
    """Return what a row says was stated of an item."""
    if row is None:
        return Stated()
    return Stated(
        crew_hours=row["crew_hours"],
        people=row["people"],
        wait_hours=row["wait_hours"],
        wait_note=row["wait_note"],
        sub=row["sub"],
        free=None if row["free"] is None else bool(row["free"]),
        closes=None if row["closes"] is None else bool(row["closes"]),
        materials=None if row["materials"] is None else tuple(json.loads(row["materials"])),
        task=row["task"],
    )


def holds_on_record(journal: Journal, job_id: str, punch: Mapping[str, PunchItem]) -> dict[str, Hold]:
    """Return what is on record of each hold of a job: booked day, results, what stands for it now."""
    results = plan_queries.hold_results(journal.store, job_id)
    found: dict[str, Hold] = {}
    for item_id, row in plan_queries.holds(journal.store, job_id).items():
        again = punch.get(row["again_id"] or "")
        stands = again is not None and again.state is not PunchState.DROPPED
        found[item_id] = Hold(
            HoldKind(row["kind"]),
            row["who"],
            dt.date.fromisoformat(row["booked"]) if row["booked"] else None,
            tuple(_result(r) for r in results.get(item_id, ())),
            row["again_id"] if stands else None,
        )
    return found


def _result(row: Row) -> HoldResult:
    return HoldResult(
        dt.date.fromisoformat(row["day"]),
        row["by"],
        bool(row["passed"]),
        tuple(json.loads(row["found"])),
        row["evidence"],
    )


def _done_at(item: PunchItem, said: str | None, days: WorkDays, now: int) -> int | None:
    """Return the instant an item was done: when it was said, if that day; else the end of its day or now."""
    if item.state is not PunchState.DONE or item.closed is None:
        return None
    if said is not None:
        moment = to_minutes(dt.datetime.fromisoformat(said))
        if days.calendar.day_of(moment) == item.closed:
            return moment
    return min(now, days.calendar.shift(item.closed)[1])


def job_plan(journal: Journal, job: Job) -> PlanView:
    """Return a job's plan as of now, and what moved since the one kept as of its last visit.

    The first plan made after a visit is kept as the plan as of that visit. Raises ``BadInput`` when
    the items cannot be planned: a loop, nobody able, no working day.
    """
    inputs = plan_inputs(journal, job)
    plan = _planned(inputs)
    today = inputs.days.calendar.day_of(inputs.now)
    moved, since = None, None
    for row in plan_queries.kept_plans(journal.store, job.id):
        day = inputs.days.calendar.day_of(row["as_of"])
        if day < today:
            moved, since = what_moved(_kept_in(row), plan), day
            break
    # A journal that takes no writes just now still shows its plan.
    with suppress(JournalFileError):
        _keep(journal, job, plan)
    return PlanView(inputs, plan, moved, since)


def _planned(inputs: PlanInputs) -> JobPlan:
    return plan_job(
        inputs.items, inputs.links, inputs.job.phases, inputs.days.means, inputs.days.calendar, inputs.now
    )


def _keep(journal: Journal, job: Job, plan: JobPlan) -> None:
    """Keep the plan as of the job's last visit, once."""
    visit = plan_queries.last_visit(journal.store, job.id)
    row_id = f"{job.id}/{visit['id'] if visit else ''}"
    if not plan.rows or any(r["id"] == row_id for r in plan_queries.kept_plans(journal.store, job.id)):
        return
    was = kept(plan)
    items = {i: [p.text, p.start, p.finish] for i, p in was.items.items()}
    # No job on the action: looking at a plan is not what undo should take back.
    with journal.store.write("keep the plan as of the last visit") as w:
        values = {"job_id": job.id, "as_of": was.as_of, "end": was.end, "items": json.dumps(items)}
        if journal.store.row("SELECT 1 FROM kept_plans WHERE id = ?", [row_id]) is None:
            w.insert("kept_plans", {"id": row_id, **values})


def _kept_in(row: Row) -> PlanAsOf:
    items = {i: Planned(*values) for i, values in json.loads(row["items"]).items()}
    return PlanAsOf(row["as_of"], row["end"], items)


def why(view: PlanView, item_id: str) -> str:
    """Return in one sentence why an item of a plan is not sooner; it quotes no other private item."""
    return why_told(view.plan, item_id)
