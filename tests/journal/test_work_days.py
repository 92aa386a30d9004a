"""The work week of a job, its days off and subs: set as typed, kept, refused when nobody could work."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.journal import jobs, plan, undoing
from journal_tui.journal.opening import Journal
from journal_tui.journal.work_days import (
    WeekChange,
    here_zone,
    set_day,
    set_sub,
    set_week,
    usual_day,
    weekdays_in,
    work_days,
)
from journal_tui.planning.calendar import NoWorkingDay
from tests.conftest import TODAY
from tests.journal.open_items import owed


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room")


def test_the_usual_week_until_somebody_sets_it(journal: Journal, job: Job) -> None:
    days = work_days(journal, job.id)
    assert not days.stated
    assert days.calendar.weekdays == frozenset(range(5))
    assert (days.calendar.hours, days.means.crew) == (8, 2)
    # Memorial Day is the last Monday of May (5 U.S.C. 6103).
    assert "Memorial" in (days.calendar.why_off(dt.date(2026, 5, 25)) or "")
    set_week(
        journal,
        job.id,
        WeekChange("America/Denver", "mon-thu", "6:30", 10, "none", 3, 2),
    )
    days = work_days(journal, job.id)
    assert days.stated
    assert days.calendar.zone == "America/Denver"
    assert days.calendar.weekdays == frozenset(range(4))
    assert days.calendar.begins == dt.time(6, 30)
    assert (days.calendar.hours, days.means.crew, days.means.room) == (10, 3, 2)
    assert days.calendar.why_off(dt.date(2026, 5, 25)) is None
    set_week(journal, job.id, WeekChange(hours=9))
    assert work_days(journal, job.id).means.crew == 3
    assert undoing.undo(journal, job.id) == "set the work week"
    assert work_days(journal, job.id).calendar.hours == 10


@pytest.mark.parametrize(
    "change",
    [
        WeekChange(zone="Nowhere/At_All"),
        WeekChange(weekdays="someday"),
        WeekChange(weekdays="t"),
        WeekChange(begins="25:00"),
        WeekChange(begins="early"),
        WeekChange(begins="20:00", hours=8),
        WeekChange(hours=0),
        WeekChange(hours=99),
        WeekChange(holidays="XX"),
        WeekChange(holidays="US of A then"),
        WeekChange(crew=0),
        WeekChange(room=99),
    ],
)
def test_what_cannot_be_worked_is_refused_and_nothing_kept(
    journal: Journal, job: Job, change: WeekChange
) -> None:
    with pytest.raises(BadInput):
        set_week(journal, job.id, change)
    assert not work_days(journal, job.id).stated


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("mon-fri", {0, 1, 2, 3, 4}),
        ("tue, thu", {1, 3}),
        ("Sat Sun", {5, 6}),
        ("fri-mon", {4, 5, 6, 0}),
        ("wed", {2}),
    ],
)
def test_weekdays_as_typed(text: str, days: set[int]) -> None:
    assert weekdays_in(text) == days


def test_days_off_and_days_worked(journal: Journal, job: Job) -> None:
    item = owed(journal, job, "set the toilet")
    set_day(journal, job.id, TODAY, worked=False, why="supply house closed")
    view = plan.job_plan(journal, job)
    row = view.plan.row(item.id)
    assert row is not None
    assert view.plan.calendar.day_of(row.row.start) == dt.date(2026, 3, 13)
    set_day(journal, job.id, TODAY, worked=True)
    assert work_days(journal, job.id).calendar.is_workday(TODAY)
    set_day(journal, job.id, dt.date(2026, 3, 14), worked=True)
    assert work_days(journal, job.id).calendar.is_workday(dt.date(2026, 3, 14))
    usual_day(journal, job.id, dt.date(2026, 3, 14))
    assert not work_days(journal, job.id).calendar.is_workday(dt.date(2026, 3, 14))
    with pytest.raises(NothingFound):
        usual_day(journal, job.id, dt.date(2026, 3, 14))


def test_a_calendar_with_no_day_left_says_so(journal: Journal, job: Job) -> None:
    owed(journal, job, "set the toilet")
    with journal.store.write("take a year off", job.id) as w:
        for n in range(500):
            day = (TODAY + dt.timedelta(days=n)).isoformat()
            row = {"id": f"{job.id}/{day}", "job_id": job.id, "day": day, "worked": 0, "why": ""}
            w.insert("calendar_days", row)
    with pytest.raises(NoWorkingDay):
        plan.job_plan(journal, job)


def test_subs_and_their_days(journal: Journal, job: Job) -> None:
    item = owed(journal, job, "wire the vanity light", "rough plumbing")
    sub = set_sub(journal, job.id, "Electrician", weekdays="tue", away=["3/17"])
    assert (sub.trade, sub.weekdays) == ("electrician", frozenset({1}))
    view = plan.job_plan(journal, job)
    row = view.plan.row(item.id)
    assert row is not None
    assert view.plan.calendar.day_of(row.row.start) == dt.date(2026, 3, 24)
    set_sub(journal, job.id, "electrician", days=["3/13"])
    assert work_days(journal, job.id).means.subs[0].days == frozenset({dt.date(2026, 3, 13)})
    set_sub(journal, job.id, "electrician")
    assert work_days(journal, job.id).means.subs[0].weekdays is None
    for trade, days in (("", []), ("crew", []), ("Room", []), ("plumber", ["whenever"])):
        with pytest.raises(BadInput):
            set_sub(journal, job.id, trade, days=days)


def test_the_zone_of_the_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TZ", "America/Chicago")
    assert here_zone() == "America/Chicago"
    monkeypatch.setenv("TZ", "CST6CDT-nonsense")
    assert here_zone() == "UTC"
