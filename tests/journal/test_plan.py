"""The plan over a journal: figures stated, links, holds and their results, what moved, the next visit."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.journal import jobs, next_visit, plan, plan_items, punch, undoing, work_days
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.work_days import WeekChange
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.items import HoldKind, HoldResult, Stated
from journal_tui.planning.network import LoopFound
from journal_tui.planning.visit import Wish
from tests.conftest import TODAY
from tests.journal.open_items import owed

PASSED = HoldResult(TODAY, "city inspector", True, evidence="card signed, photo 12")
FAILED = HoldResult(TODAY, "city inspector", False, ("nail plate missing at stud 3", "no strap at the valve"))


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Powder room", year_built=1974, client="Vera Lund")
    work_days.set_week(journal, job.id, WeekChange(zone="America/Chicago"))
    return job


@pytest.fixture
def add(journal: Journal, job: Job) -> Callable[..., PunchItem]:
    return partial(owed, journal, job)


Add = Callable[..., PunchItem]


def start(view: plan.PlanView, item: PunchItem) -> str:
    row = view.plan.row(item.id)
    assert row is not None
    return from_minutes(row.row.start, view.plan.calendar.tz).strftime("%a %d %b %H:%M")


def ready(journal: Journal, job: Job, item: PunchItem) -> bool:
    row = plan.job_plan(journal, job).plan.row(item.id)
    assert row is not None
    return row.ready.ready


def test_a_plan_from_the_punch_list(journal: Journal, job: Job, add: Add) -> None:
    strap = add("strap the new supply", "rough plumbing")
    board = add("hang backer", "backer")
    view = plan.job_plan(journal, job)
    assert start(view, strap) == "Thu 12 Mar 08:00"
    assert start(view, board) == "Thu 12 Mar 14:00"  # six crew-hours, one at once
    assert "follows “strap the new supply”" in plan.why(view, board.id)


def test_what_is_stated_is_kept_shown_and_taken_back(journal: Journal, job: Job, add: Add) -> None:
    grout = add("grout the floor", "tile", "floor")
    plain = plan_items.planned_item(journal, job, grout.id)
    assert plain.stated == frozenset()
    told = plan_items.state(journal, grout.id, Stated(crew_hours=3, wait_hours=48, wait_note="the bag"))
    assert (told.crew_hours, told.wait.hours) == (3, 48)
    assert told.stated == frozenset({"crew_hours", "wait"})
    assert plan_items.stated_of(journal, job.id, grout.id).crew_hours == 3
    again = plan_items.state(journal, grout.id, Stated(crew_hours=3, people=1))
    assert again.wait.hours == plain.wait.hours
    assert undoing.undo(journal, job.id) == "state the figures of an item"
    assert plan_items.planned_item(journal, job, grout.id) == told
    assert plan_items.state(journal, grout.id, Stated()) == plain
    with pytest.raises(BadInput):
        plan_items.state(journal, grout.id, Stated(crew_hours=0))
    with pytest.raises(BadInput, match="no common task"):
        plan_items.state(journal, grout.id, Stated(task="build a boat"))


def test_links_are_kept_changed_and_refused_in_a_circle(journal: Journal, job: Job, add: Add) -> None:
    toilet, rod = add("set the toilet", "trim", "floor"), add("curtain rod up", "trim")
    board = add("hang backer", "backer")
    plan_items.link(journal, toilet.id, rod.id, 4)
    plan_items.link(journal, toilet.id, rod.id, 24)
    (line,) = plan_items.job_links(journal, job)
    assert (line.before.id, line.after.id, line.lag_hours) == (toilet.id, rod.id, 24)
    assert start(plan.job_plan(journal, job), rod) == "Fri 13 Mar 09:30"
    with pytest.raises(LoopFound, match="curtain rod up"):
        plan_items.link(journal, rod.id, toilet.id)
    with pytest.raises(LoopFound, match="hang backer"):
        plan_items.link(journal, rod.id, board.id)
    with pytest.raises(BadInput):
        plan_items.link(journal, board.id, rod.id, -1)
    plan_items.unlink(journal, toilet.id, rod.id)
    with pytest.raises(NothingFound):
        plan_items.unlink(journal, toilet.id, rod.id)
    punch.drop(journal, toilet.id)
    with pytest.raises(BadInput, match="was dropped"):
        plan_items.link(journal, toilet.id, rod.id)


def test_a_link_to_an_item_dropped_later_is_said(journal: Journal, job: Job, add: Add) -> None:
    toilet, rod = add("set the toilet", "trim", "floor"), add("curtain rod up", "trim")
    plan_items.link(journal, toilet.id, rod.id)
    punch.drop(journal, toilet.id)
    view = plan.job_plan(journal, job)
    assert any("“set the toilet” was dropped" in n for n in view.notices)
    assert ready(journal, job, rod)


def test_only_a_recorded_pass_releases_the_wall(journal: Journal, job: Job, add: Add) -> None:
    look = add("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR)
    board = add("hang backer", "backer")
    plan_items.book(journal, look.id, dt.date(2026, 3, 10))
    assert not ready(journal, job, board)  # booked for a day gone by proves nothing
    punch.finish(journal, look.id)
    assert not ready(journal, job, board)  # nor does a tick
    with pytest.raises(BadInput, match="who said so"):
        plan_items.record_result(journal, look.id, HoldResult(TODAY, " ", True, evidence="x"))
    with pytest.raises(BadInput, match="what shows"):
        plan_items.record_result(journal, look.id, HoldResult(TODAY, "city", True))
    with pytest.raises(BadInput, match="still to come"):
        plan_items.record_result(
            journal, look.id, HoldResult(TODAY + dt.timedelta(days=1), "city", True, (), "x")
        )
    plan_items.record_result(journal, look.id, PASSED)
    assert ready(journal, job, board)


def test_a_failure_makes_corrections_and_another_look(journal: Journal, job: Job, add: Add) -> None:
    look = add("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR)
    board = add("hang backer", "backer")
    key = add("get a key cut", "other")
    plan_items.link(journal, look.id, key.id)
    recorded = plan_items.record_result(journal, look.id, FAILED)
    assert recorded.item.state is PunchState.DONE
    assert [c.text for c in recorded.corrections] == [
        "correct: nail plate missing at stud 3",
        "correct: no strap at the valve",
    ]
    again = recorded.again
    assert again is not None
    assert (again.text, again.who, again.phase) == (
        "again: rough inspection",
        Party.INSPECTOR,
        "rough plumbing",
    )
    view = plan.job_plan(journal, job)
    rows = {r.item.id: r for r in view.plan.rows}
    for c in recorded.corrections:
        assert rows[c.id].row.finish <= rows[again.id].row.finish
    assert not rows[board.id].ready.ready
    assert rows[key.id].ready.causes  # what waited for the first look waits for the second
    for c in recorded.corrections:
        punch.finish(journal, c.id)
    assert not ready(journal, job, board)
    second = plan_items.record_result(journal, again.id, FAILED)
    assert second.again is not None
    assert second.again.text == "again: rough inspection"
    for c in second.corrections:
        punch.finish(journal, c.id)
    plan_items.record_result(journal, second.again.id, PASSED)
    assert ready(journal, job, board)
    assert ready(journal, job, key)


def test_dropping_the_second_look_does_not_open_the_wall(journal: Journal, job: Job, add: Add) -> None:
    look = add("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR)
    board = add("hang backer", "backer")
    recorded = plan_items.record_result(journal, look.id, FAILED)
    for item in (*recorded.corrections, recorded.again):
        assert item is not None
        punch.drop(journal, item.id)
    assert not ready(journal, job, board)


def test_one_undo_takes_a_whole_result_back(journal: Journal, job: Job, add: Add) -> None:
    look = add("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR)
    plan_items.record_result(journal, look.id, FAILED)
    assert undoing.undo(journal, job.id) == "record the inspection"
    assert punch.get_item(journal, look.id).state is PunchState.OPEN
    assert punch.open_list(journal, job).count == 1
    assert plan.holds_on_record(journal, job.id, {}) == {}


def test_an_item_becomes_a_hold_when_somebody_says_so(journal: Journal, job: Job, add: Add) -> None:
    niche = add("niche height", "tile")
    with pytest.raises(BadInput, match="is no hold"):
        plan_items.book(journal, niche.id, TODAY)
    held = plan_items.book(journal, niche.id, TODAY, kind=HoldKind.DECISION, who="Vera")
    assert held.hold is not None
    assert (held.hold.kind, held.hold.who, held.hold.booked) == (HoldKind.DECISION, "Vera", TODAY)
    assert plan_items.book(journal, niche.id, None).hold is not None
    with pytest.raises(BadInput, match="is no hold"):
        plan_items.record_result(journal, add("get a key cut", "other").id, PASSED)


def test_a_wait_runs_on_from_the_day_it_was_done(journal: Journal, job: Job, add: Add) -> None:
    """Done on Wednesday (end of its day, 16:00), 24 h by the clock: Thursday 16:00, so Friday morning."""
    tile, grout = add("tile the surround", "tile"), add("grout the surround", "tile")
    punch.finish(journal, tile.id, day=dt.date(2026, 3, 11))
    assert start(plan.job_plan(journal, job), grout) == "Fri 13 Mar 08:00"


def test_what_moved_since_the_plan_as_of_the_last_visit(tmp_path: Path) -> None:
    today = [TODAY]
    journal = open_journal(tmp_path / "j.db", today=lambda: today[0])
    job = jobs.add_job(journal, "Powder room")
    look = owed(journal, job, "rough inspection", "rough plumbing", who=Party.INSPECTOR)
    board = owed(journal, job, "hang backer", "backer")
    assert plan.job_plan(journal, job).moved is None
    plan_items.book(journal, look.id, dt.date(2026, 3, 27))
    assert plan.job_plan(journal, job).moved is None  # the plan of today is no "before"
    today[0] = dt.date(2026, 3, 13)
    view = plan.job_plan(journal, job)
    assert view.since == TODAY
    assert view.moved is not None
    assert board.text in {m.text for m in view.moved.moves}
    assert view.moved.end_days > 5
    with journal.store.write("log a visit", job.id) as w:
        row = {
            "job_id": job.id,
            "day": today[0].isoformat(),
            "people": "",
            "summary": "",
            "recording_id": None,
        }
        w.insert("visits", row)
    assert plan.job_plan(journal, job).since == TODAY  # the plan as of this visit is kept now
    today[0] = dt.date(2026, 3, 14)
    view = plan.job_plan(journal, job)
    assert view.since == dt.date(2026, 3, 13)
    assert view.moved is not None
    assert view.moved.end_days == 0
    journal.close()


def test_what_was_only_seen_is_in_no_plan_until_somebody_says(journal: Journal, job: Job, add: Add) -> None:
    seen = add("the flange is cracked", "rough plumbing", kind=Kind.OBSERVATION)
    inputs = plan.plan_inputs(journal, job)
    assert inputs.unsettled == (seen,)
    assert seen.id not in {i.id for i in inputs.items}
    assert any("1 things seen" in n or "1 thing seen" in n for n in plan.job_plan(journal, job).notices)
    plan_items.state(journal, seen.id, Stated(crew_hours=1))
    inputs = plan.plan_inputs(journal, job)
    assert inputs.unsettled == ()
    assert seen.id in {i.id for i in inputs.items}


# The next visit -----------------------------------------------------------------------------------


def test_the_next_visit_and_its_crew_sheet(journal: Journal, job: Job, add: Add) -> None:
    add("set the toilet", "trim", "floor")
    demo = add("tear out the wall; lockbox is 4471", "demo", audience=Audience.CREW)
    add("which mirror", "trim", "vanity", Party.CLIENT)
    add("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR)
    secret = add("pay the crew cash behind the shed", "demo", audience=Audience.PRIVATE)
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    assert visit.offered == 16
    assert demo.id in {v.item.id for v in visit.items}
    assert [q.text for q in visit.questions] == ["which mirror"]
    assert any("Lead: built 1974" in c for c in visit.needs.cautions)
    sheet = next_visit.freeze(journal, visit, inputs)
    assert "4471" not in sheet.markdown
    assert "shed" not in sheet.markdown
    assert "tear out the wall" in sheet.markdown
    assert "no pass recorded" in sheet.markdown
    assert next_visit.frozen_sheets(journal, job.id) == [sheet]
    punch.finish(journal, demo.id)
    assert next_visit.frozen_sheets(journal, job.id)[0].markdown == sheet.markdown
    without, _ = next_visit.next_visit(journal, job, TODAY, 4, 1, Wish(frozenset({secret.id})))
    assert secret.id not in {v.item.id for v in without.items}
    assert without.offered == 4


def test_private_materials_stay_off_the_crew_sheet(journal: Journal, job: Job, add: Add) -> None:
    item = add("set the toilet", "trim", "floor", audience=Audience.PRIVATE)
    plan_items.state(journal, item.id, Stated(materials=("bribe money",)))
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    assert "bribe money" in visit.needs.load
    assert "bribe" not in next_visit.sheet_markdown(journal, visit, inputs)
