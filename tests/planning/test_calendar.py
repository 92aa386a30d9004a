"""The work calendar: shifts, days off, holidays, and waits on the clock across a clock change."""

from __future__ import annotations

import datetime as dt
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from dateutil import tz
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.planning.axis import Axis
from journal_tui.planning.calendar import (
    NoWorkingDay,
    WorkCalendar,
    from_minutes,
    public_holidays,
    to_minutes,
)
from journal_tui.planning.network import Activity, Precedence
from journal_tui.planning.schedule import schedule

CHICAGO = ZoneInfo("America/Chicago")


def at(text: str, zone: ZoneInfo = CHICAGO) -> int:
    return to_minutes(dt.datetime.fromisoformat(text).replace(tzinfo=zone))


def local(minutes: int, zone: ZoneInfo = CHICAGO) -> str:
    return from_minutes(minutes, zone).strftime("%a %Y-%m-%d %H:%M")


@pytest.mark.parametrize(
    ("finished", "hours"),
    [("2026-03-06T15:00", 24), ("2026-03-07T12:00", 24), ("2026-10-31T14:00", 24), ("2026-10-30T16:00", 72)],
)
def test_waits_run_on_the_clock_across_a_clock_change(finished: str, hours: int) -> None:
    """dateutil's own zone data and absolute arithmetic in UTC say when the wait is over.

    In the United States clocks change on 8 March and 1 November 2026 (15 U.S.C. 260a).
    """
    naive = dt.datetime.fromisoformat(finished)
    ends = naive.replace(tzinfo=tz.gettz("America/Chicago")).astimezone(tz.UTC) + relativedelta(hours=hours)
    calendar = WorkCalendar(zone="America/Chicago", weekdays=frozenset(range(7)), begins=dt.time(0), hours=24)
    begin = at(finished) - 60
    made = schedule(
        [Activity("grout", 4), Activity("walk", 0)],
        [Precedence("grout", "walk", hours * 4)],
        (),
        calendar,
        begin,
    )
    assert from_minutes(made.rows["walk"].start) == ends
    assert to_minutes(ends) - at(finished) == hours * 60


def test_a_friday_grout_wait_runs_over_the_weekend_and_work_does_not() -> None:
    """24 h after Friday 15:00 is Saturday 15:00, so Monday 8:00 is free; 16 work hours are not."""
    calendar = WorkCalendar(zone="America/Chicago")
    begin = at("2026-03-06T13:00")
    made = schedule(
        [Activity("grout", 8), Activity("caulk", 8), Activity("paint", 16), Activity("after", 4)],
        [Precedence("grout", "caulk", 96), Precedence("grout", "paint"), Precedence("paint", "after")],
        (),
        calendar,
        begin,
    )
    assert local(made.rows["grout"].finish) == "Fri 2026-03-06 15:00"
    assert local(made.rows["caulk"].start) == "Mon 2026-03-09 08:00"
    assert local(made.rows["paint"].finish) == "Mon 2026-03-09 11:00"
    assert local(made.rows["after"].start) == "Mon 2026-03-09 11:00"


def test_a_wait_shorter_than_the_night_ends_at_once_in_the_morning() -> None:
    calendar = WorkCalendar(zone="America/Chicago")
    links = [Precedence("a", "b", 12 * 4)]
    made = schedule([Activity("a", 32), Activity("b", 4)], links, (), calendar, at("2026-03-02T08:00"))
    assert local(made.rows["a"].finish) == "Mon 2026-03-02 16:00"
    assert local(made.rows["b"].start) == "Tue 2026-03-03 08:00"
    links = [Precedence("a", "b", 20 * 4)]
    made = schedule([Activity("a", 32), Activity("b", 4)], links, (), calendar, at("2026-03-02T08:00"))
    assert local(made.rows["b"].start) == "Tue 2026-03-03 12:00"


def test_why_a_day_is_off() -> None:
    day = dt.date(2026, 11, 26)
    calendar = WorkCalendar(
        holidays={day: "Thanksgiving"},
        days_off={dt.date(2026, 11, 30): "crew at another job"},
        extra_days=frozenset({dt.date(2026, 11, 28), dt.date(2026, 11, 30)}),
    )
    assert calendar.why_off(day) == "Thanksgiving"
    assert calendar.why_off(dt.date(2026, 11, 28)) is None  # a worked Saturday
    assert calendar.why_off(dt.date(2026, 11, 29)) == "Sunday"
    assert calendar.why_off(dt.date(2026, 11, 30)) == "crew at another job"  # wins over an extra day
    assert calendar.next_workday(day) == dt.date(2026, 11, 27)


def test_no_working_day_left_is_said_not_searched_for() -> None:
    day = dt.date(2026, 1, 1)
    off = {day + dt.timedelta(days=n): "away" for n in range(1000)}
    calendar = WorkCalendar(days_off=off)
    with pytest.raises(NoWorkingDay) as caught:
        schedule([Activity("a", 1)], (), (), calendar, at("2026-01-01T08:00"))
    assert "no working day" in caught.value.body
    with pytest.raises(NoWorkingDay):
        WorkCalendar(weekdays=frozenset())
    few = WorkCalendar(weekdays=frozenset(), extra_days=frozenset({dt.date(2026, 3, 2)}))
    with pytest.raises(NoWorkingDay):  # 8 hours there are, 9 are needed
        schedule([Activity("a", 36)], (), (), few, to_minutes(dt.datetime(2026, 3, 1, tzinfo=dt.UTC)))


@pytest.mark.parametrize("hours", [0, -1, 0.1, 25, float("nan"), 8.1])
def test_hours_a_day_out_of_range(hours: float) -> None:
    with pytest.raises(BadInput):
        WorkCalendar(hours=hours)


@pytest.mark.parametrize(
    "given_as",
    [
        {"zone": "Nowhere/At_All"},
        {"zone": "../etc/passwd"},
        {"begins": dt.time(20), "hours": 8},
        {"weekdays": frozenset({7})},
    ],
)
def test_other_bad_calendars(given_as: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        WorkCalendar(**given_as)


def test_public_holidays_of_a_place() -> None:
    """Dates fixed by 5 U.S.C. 6103: Independence Day, and Thanksgiving on the fourth Thursday of November."""
    days = public_holidays("US", "OH", [2026])
    assert "Independence" in days[dt.date(2026, 7, 4)]
    assert "Thanksgiving" in days[dt.date(2026, 11, 26)]
    for place in (("XX", None), ("US", "Nowhere"), ("", None)):
        with pytest.raises(BadInput):
            public_holidays(place[0], place[1], [2026])


@st.composite
def calendars(draw: st.DrawFn) -> WorkCalendar:
    return WorkCalendar(
        zone=draw(st.sampled_from(["UTC", "America/Chicago", "Europe/Berlin", "Australia/Lord_Howe"])),
        weekdays=draw(st.frozensets(st.integers(0, 6), min_size=1)),
        begins=dt.time(draw(st.integers(0, 12)), draw(st.sampled_from([0, 15, 30]))),
        hours=draw(st.sampled_from([0.25, 1, 6.5, 8, 10])),
        days_off=dict.fromkeys(
            draw(st.lists(st.dates(dt.date(2026, 1, 1), dt.date(2026, 12, 31)), max_size=20)), ""
        ),
    )


@given(calendars(), st.integers(0, 500_000), st.integers(0, 300))
@settings(max_examples=150, deadline=None)
def test_slots_and_instants_agree(calendar: WorkCalendar, ahead: int, slot: int) -> None:
    """A slot lies inside one working day, and the axis and the calendar count work alike."""
    begin = to_minutes(dt.datetime(2026, 1, 1, tzinfo=dt.UTC)) + ahead
    axis = Axis(calendar, begin)
    start = axis.start(slot)
    opens, closes = calendar.shift(calendar.day_of(start))
    assert opens <= start
    assert start + 15 <= closes
    assert calendar.is_workday(calendar.day_of(start))
    assert axis.at_or_after(start) == slot
    assert axis.at_or_after(start + 1) == slot + 1
    assert axis.done_by(axis.finish(slot + 1)) == slot + 1
    assert axis.done_by(start + 14) == slot
    assert calendar.work_minutes(axis.start(0), start) == slot * 15
    assert calendar.add_work(axis.start(0), slot * 15 + 15) == start + 15
