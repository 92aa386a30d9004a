"""The schedule and the next visit on the screen."""

from __future__ import annotations

import datetime as dt

import pytest
from rich.cells import cell_len

from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchState
from journal_tui.journal import jobs, next_visit, plan_items, punch
from journal_tui.journal.opening import Journal
from journal_tui.journal.work_days import WeekChange, set_week, work_days
from journal_tui.screens.next_visit import NextVisitScreen
from journal_tui.screens.plan_forms import ItemForm, WeekForm
from journal_tui.screens.punch import PunchScreen
from journal_tui.screens.result_form import ResultForm
from journal_tui.screens.schedule import ScheduleScreen
from journal_tui.screens.timeline import TimelineScreen
from tests.journal.open_items import owed
from tests.planning.making import hall_bath
from tests.screens.seeing import lines_of, seen_on, typed, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Alder Lane 14, hall bath", year_built=1974)
    set_week(journal, job.id, WeekChange(zone="America/Chicago"))
    for i in hall_bath():
        owed(journal, job, i.text, i.phase, i.area, i.who or Party.CREW)
    return job


def item_id(journal: Journal, job: Job, words: str) -> str:
    return punch.find_item(journal, job, words, states=(PunchState.OPEN,)).id


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_the_schedule_fits_and_says_why(journal: Journal, job: Job, size: tuple[int, int]) -> None:
    async with shown(journal, ScheduleScreen(job.id), size) as (pilot, screen):
        text = text_of(pilot)
        assert "█" in text and "◇" in text
        assert "cannot start before Thu 12 Mar 8:00" in text
        assert screen.lines.select(item_id(journal, job, "grout"))
        await pilot.pause()
        assert "“grout everything” cannot start before" in text_of(pilot)
        app = pilot.app
        assert all(cell_len(line.rstrip()) <= size[0] for line in lines_of(app))  # type: ignore[arg-type]


async def test_days_move_and_widen(journal: Journal, job: Job) -> None:
    async with shown(journal, ScheduleScreen(job.id)) as (pilot, _):
        assert "12 Mar" in seen_on(pilot)
        await pilot.press("right")
        assert "The plan ends here." in text_of(pilot)
        await pilot.press("s", "s", "s")
        await pilot.pause()
        assert "Thu" in seen_on(pilot).splitlines()[2]
        await pilot.press("right")
        await pilot.pause()
        assert "12 Mar" not in seen_on(pilot).splitlines()[1]
        await pilot.press("left", "left")
        await pilot.pause()
        assert "12 Mar" in seen_on(pilot).splitlines()[1]


async def test_a_hold_is_booked_and_its_result_recorded(journal: Journal, job: Job) -> None:
    look = item_id(journal, job, "rough inspection")
    async with shown(journal, ScheduleScreen(job.id)) as (pilot, screen):
        screen.lines.select(item_id(journal, job, "plywood"))
        await pilot.press("b")
        assert "It is no hold" in text_of(pilot)
        screen.lines.select(look)
        await pilot.press("b")
        await typed(pilot, "next thu")
        await pilot.press("enter")
        await worked(pilot)
        hold = plan_items.planned_item(journal, job, look).hold
        assert hold is not None and str(hold.booked) == "2026-03-19"
        assert "◆" in seen_on(pilot)
        screen.lines.select(look)
        await pilot.press("r")
        await pilot.pause()
        front(pilot, ResultForm)
        await typed(pilot, "failed")
        await pilot.press("enter")
        await typed(pilot, "city inspector")
        await pilot.press("enter", "enter")
        await typed(pilot, "no strap; no plate")
        await pilot.press("f2")
        await worked(pilot)
        assert "2 corrections and another look" in text_of(pilot)
        assert punch.get_item(journal, look).state is PunchState.DONE
        assert "again: rough inspection" in text_of(pilot)


async def test_a_link_in_a_circle_is_refused_in_words(journal: Journal, job: Job) -> None:
    async with shown(journal, ScheduleScreen(job.id)) as (pilot, screen):
        screen.lines.select(item_id(journal, job, "backer"))
        await pilot.press("a")
        await typed(pilot, "grout")
        await pilot.press("enter")
        await worked(pilot)
        assert "circle" in text_of(pilot)
        assert plan_items.job_links(journal, job) == []


async def test_an_empty_job_says_what_to_do(journal: Journal) -> None:
    bare = jobs.add_job(journal, "Bare")
    async with shown(journal, ScheduleScreen(bare.id)) as (pilot, _):
        assert "nothing to schedule" in text_of(pilot)
        await pilot.press("enter", "b", "r", "a", "right", "s", "m")
        await pilot.pause()
        front(pilot, ScheduleScreen)
    async with shown(journal, NextVisitScreen(bare.id)) as (pilot, _):
        assert "nothing is ready for this visit" in text_of(pilot)
        await pilot.press("n", "t", "space", "l", "l")
        front(pilot, NextVisitScreen)


async def test_what_people_wrote_is_shown_literally(journal: Journal) -> None:
    job = jobs.add_job(journal, "[/b] [red]house[/]")
    for text in NASTY:
        owed(journal, job, text, "tile", text)
    async with shown(journal, ScheduleScreen(job.id), (120, 40)) as (pilot, screen):
        assert "need [/] here" in seen_on(pilot)
        assert "\x1b" not in seen_on(pilot)
        for row in list(screen.lines.rows):
            screen.lines.select(row.key)
            await pilot.pause()
        await pilot.press("v")
        await worked(pilot)
        assert "[red]door[/red]" in seen_on(pilot)
        await pilot.press("l")
        await pilot.pause()
        assert isinstance(pilot.app.screen, NextVisitScreen)


# The next visit ---------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [(80, 24), (40, 15)])
async def test_the_next_visit_lists_what_fits_and_what_waits(
    journal: Journal, job: Job, size: tuple[int, int]
) -> None:
    async with shown(journal, NextVisitScreen(job.id), size) as (pilot, _):
        text = text_of(pilot)
        assert "[ ]" in text and "strap the new" in text
        assert "not on this visit" in text
        assert all(cell_len(line.rstrip()) <= size[0] for line in lines_of(pilot.app))  # type: ignore[arg-type]
        await pilot.press("l")
        await pilot.pause()
        await pilot.pause()
        assert "load: pipe and fittings" in text_of(pilot)


async def test_items_are_left_out_taken_first_and_kept_so(journal: Journal, job: Job) -> None:
    strap = item_id(journal, job, "strap")
    test = item_id(journal, job, "water test")
    async with shown(journal, NextVisitScreen(job.id)) as (pilot, screen):
        await pilot.press("n")
        await worked(pilot)
        assert "Not this time." in text_of(pilot)
        assert next_visit.visit_plan(journal, job).wish.leave_out == {strap}
    async with shown(journal, NextVisitScreen(job.id)) as (pilot, screen):
        assert "strap" not in " ".join(screen._chosen)
        assert strap not in screen._chosen
        lines = screen.query_one("LineList")
        assert lines.select(strap)  # type: ignore[attr-defined]
        await pilot.press("n")
        await worked(pilot)
        assert list(screen._chosen) == [strap, test]
        lines.select(test)  # type: ignore[attr-defined]
        await pilot.press("t")
        await worked(pilot)
        assert list(screen._chosen) == [test, strap]
        lines.select(item_id(journal, job, "backer"))  # type: ignore[attr-defined]
        await pilot.press("t")
        assert "It cannot come in" in text_of(pilot)


async def test_day_hours_and_people_change(journal: Journal, job: Job) -> None:
    async with shown(journal, NextVisitScreen(job.id)) as (pilot, _):
        for key, answer in (("d", "3/16"), ("h", "4"), ("p", "1")):
            await pilot.press(key)
            await typed(pilot, answer)
            await pilot.press("enter")
            await worked(pilot)
        assert "Mon 16 Mar, 1 person" in text_of(pilot)
        plan = next_visit.visit_plan(journal, job)
        assert (str(plan.day), plan.hours, plan.people) == ("2026-03-16", 4, 1)
        await pilot.press("d")
        await typed(pilot, "someday")
        await pilot.press("enter")
        await worked(pilot)
        assert "is no date" in text_of(pilot)


async def test_done_and_frozen(journal: Journal, job: Job) -> None:
    strap = item_id(journal, job, "strap")
    async with shown(journal, NextVisitScreen(job.id)) as (pilot, _):
        await pilot.press("f")
        await pilot.pause()
        assert "Frozen: the crew sheet for Fri 13 Mar" in text_of(pilot)
        (sheet,) = next_visit.frozen_sheets(journal, job.id)
        assert "strap the new supply" in sheet.markdown
        await pilot.press("space")
        await worked(pilot)
        assert punch.get_item(journal, strap).state is PunchState.DONE
        await pilot.press("z")
        await worked(pilot)
        assert punch.get_item(journal, strap).state is PunchState.OPEN


async def test_both_open_from_the_timeline(journal: Journal, job: Job) -> None:
    async with shown(journal, TimelineScreen(job.id)) as (pilot, _):
        await pilot.press("w")
        await worked(pilot)
        front(pilot, ScheduleScreen)
        await pilot.press("escape")
        await pilot.pause()
        await pilot.press("v")
        await worked(pilot)
        front(pilot, NextVisitScreen)


async def test_a_look_ticked_off_on_the_punch_list_says_what_is_missing(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id), (120, 30)) as (pilot, screen):
        screen.lines.select(item_id(journal, job, "rough inspection"))
        await pilot.press("d")
        await pilot.pause()
        assert "waits for its result" in text_of(pilot)
        await pilot.press("v")
        await worked(pilot)
        front(pilot, NextVisitScreen)


async def test_all_an_item_takes_in_one_form(journal: Journal, job: Job) -> None:
    grout = item_id(journal, job, "grout")
    async with shown(journal, ScheduleScreen(job.id)) as (pilot, screen):
        screen.lines.select(grout)
        await pilot.press("enter")
        await pilot.pause()
        front(pilot, ItemForm)
        assert "5 by common practice" in text_of(pilot)
        await typed(pilot, "7")
        await pilot.press("enter", "enter")
        await typed(pilot, "48")
        await pilot.press("enter")
        await typed(pilot, "the bag")
        await pilot.press("f2")
        await worked(pilot)
        made = plan_items.planned_item(journal, job, grout)
        assert (made.crew_hours, made.wait.hours, made.wait.note) == (7, 48, "the bag")
        assert "2 stated" in text_of(pilot)
        screen.lines.select(grout)
        await pilot.press("enter")
        await pilot.pause()
        await pilot.press("ctrl+u")
        await typed(pilot, "0")
        await pilot.press("f2")
        await pilot.pause()
        assert "cannot be planned" in text_of(pilot)
        await pilot.press("ctrl+u")
        await typed(pilot, "lots")
        await pilot.press("f2")
        await pilot.pause()
        assert "is no number" in text_of(pilot)
        front(pilot, ItemForm)
        await pilot.press("escape", "z")
        await worked(pilot)
        assert plan_items.planned_item(journal, job, grout).stated == frozenset()


async def test_the_week_days_off_and_subs_are_set(journal: Journal, job: Job) -> None:
    async with shown(journal, ScheduleScreen(job.id)) as (pilot, _):
        await pilot.press("c")
        await pilot.pause()
        front(pilot, WeekForm)
        await pilot.press("ctrl+u")
        await typed(pilot, "mon-thu")
        await pilot.press("f2")
        await worked(pilot)
        assert work_days(journal, job.id).calendar.weekdays == frozenset(range(4))
        for key, answer, said in (
            ("d", "3/17", "Tue 17 Mar is off."),
            ("d", "worked 3/14", "Sat 14 Mar is worked."),
            ("d", "usual 3/14", "Sat 14 Mar is as the week says."),
            ("e", "electrician: tue, thu", "electrician: Tuesday, Thursday."),
            ("e", "electrician", "electrician: any working day."),
            ("d", "someday", "is no date"),
            ("e", "crew: tue", "is no trade"),
        ):
            await pilot.press(key)
            await typed(pilot, answer)
            await pilot.press("enter")
            await worked(pilot)
            assert said in text_of(pilot), said
        assert work_days(journal, job.id).calendar.why_off(dt.date(2026, 3, 17)) == "day off"
