"""Schedules on a calendar: dates, floats and slack, days of a sub, drivers; how it grows."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.planning.axis import Axis
from journal_tui.planning.calendar import WorkCalendar, from_minutes
from journal_tui.planning.network import Activity, Precedence, critical_path
from journal_tui.planning.schedule import DrivenBy, Schedule, schedule
from journal_tui.planning.timeline import Resource, View, build_network, decode
from tests.planning.making import CALENDAR, moment

CREW = Resource("crew", 2)
MONDAY = moment("2026-03-02T08:00")


def day(minutes: int) -> str:
    return from_minutes(minutes, CALENDAR.tz).strftime("%a %d %H:%M")


def test_people_are_shared_and_the_order_given_is_kept() -> None:
    jobs = [Activity(n, 16, {"crew": 1}) for n in "abc"]
    made = schedule(jobs, (), [CREW], CALENDAR, MONDAY)
    assert [day(made.rows[n].start) for n in "abc"] == ["Mon 02 08:00", "Mon 02 08:00", "Mon 02 12:00"]
    assert day(made.end) == "Mon 02 16:00"
    assert made.rows["c"].driver.kind is DrivenBy.RESOURCE
    assert made.rows["c"].driver.by in ("a", "b")
    assert made.rows["c"].driver.resource == "crew"
    # without thought for people nothing is in the way of any of the three
    assert {made.rows[n].total_float for n in "abc"} == {0}


def test_a_sub_works_on_its_days_only() -> None:
    """Electrician on Tuesdays and Thursdays: 12 h are one Tuesday and half the Thursday."""
    sub = Resource("electrician", 1, weekdays=frozenset({1, 3}))
    jobs = [Activity("wire", 48, {"electrician": 1}), Activity("close", 4, {"crew": 1})]
    made = schedule(jobs, [Precedence("wire", "close")], [CREW, sub], CALENDAR, MONDAY)
    assert (day(made.rows["wire"].start), day(made.rows["wire"].finish)) == ("Tue 03 08:00", "Thu 05 12:00")
    assert made.rows["wire"].driver.kind is DrivenBy.DAYS
    assert made.rows["wire"].driver.resource == "electrician"
    assert day(made.rows["close"].start) == "Thu 05 12:00"
    away = replace(sub, away=frozenset({dt.date(2026, 3, 3)}))
    made = schedule(jobs, [Precedence("wire", "close")], [CREW, away], CALENDAR, MONDAY)
    assert day(made.rows["wire"].start) == "Thu 05 08:00"


def test_a_sub_without_a_day_left_is_said() -> None:
    sub = Resource("electrician", 1, days=frozenset({dt.date(2026, 3, 3)}))
    with pytest.raises(BadInput) as caught:
        schedule([Activity("wire", 48, {"electrician": 1})], (), [sub], CALENDAR, MONDAY)
    assert "electrician" in caught.value.title


def test_a_small_room_holds_two() -> None:
    jobs = [Activity(n, 8, {"crew": 1, "room": 1}) for n in "abc"]
    made = schedule(jobs, (), [Resource("crew", 4), Resource("room", 2)], CALENDAR, MONDAY)
    assert [day(made.rows[n].start) for n in "abc"] == ["Mon 02 08:00", "Mon 02 08:00", "Mon 02 10:00"]
    assert made.rows["c"].driver.resource == "room"


def test_a_booked_day_is_not_before() -> None:
    jobs = [Activity("look", 0), Activity("close", 8, {"crew": 1})]
    booked = moment("2026-03-05T16:00")
    made = schedule(jobs, [Precedence("look", "close")], [CREW], CALENDAR, MONDAY, {"look": booked})
    assert made.rows["look"].start == booked
    assert made.rows["look"].driver.kind is DrivenBy.BOOKED
    assert day(made.rows["close"].start) == "Fri 06 08:00"
    assert made.chain == ("look", "close")


def test_nobody_able_is_refused_with_the_items_words() -> None:
    with pytest.raises(BadInput) as caught:
        schedule([Activity("i", 4, {"crew": 4})], (), [CREW], CALENDAR, MONDAY, names={"i": "carry the tub"})
    assert "carry the tub" in caught.value.title
    with pytest.raises(BadInput):
        schedule([Activity("i", 4, {"plumber": 1})], (), [CREW], CALENDAR, MONDAY)
    with pytest.raises(BadInput):  # days need a calendar
        schedule([Activity("i", 4, {"x": 1})], (), [Resource("x", 1, frozenset({1}))])


def random_plan(seed: int, count: int) -> tuple[list[Activity], list[Precedence], list[Resource]]:
    rng = random.Random(seed)
    jobs = [
        Activity(str(n), rng.choice((0, rng.randint(1, 40))), {"crew": rng.randint(1, 2), "room": 1})
        for n in range(count)
    ]
    for n in range(0, count, 7):
        jobs[n] = Activity(str(n), rng.randint(1, 20), {"sub": 1, "room": 1})
    links = [
        Precedence(str(rng.randrange(max(0, b - 30), b)), str(b), rng.choice((0, 0, 1, 96, 300)))
        for b in range(1, count)
        for _ in range(rng.randint(0, 2))
    ]
    sub = Resource("sub", 1, frozenset({1, 3}), away=frozenset({dt.date(2026, 3, 10)}))
    return jobs, links, [CREW, Resource("room", 3), sub]


def check(
    made: Schedule,
    jobs: list[Activity],
    links: list[Precedence],
    resources: list[Resource],
    calendar: WorkCalendar,
) -> None:
    """Look over a schedule quarter hour by quarter hour, from the calendar alone."""
    rows = made.rows
    limits = {r.name: r for r in resources}
    for p in links:
        assert rows[p.after].start >= rows[p.before].finish + p.lag * 15
        assert rows[p.after].early_start >= rows[p.before].early_finish + p.lag * 15
        assert rows[p.after].late_start >= rows[p.before].late_finish + p.lag * 15
    used: dict[tuple[str, int], int] = {}
    for job in jobs:
        row, worked = rows[job.id], 0
        assert row.early_start <= row.start
        assert row.early_finish <= row.finish
        for at in range(row.start, row.finish, 15):
            on = calendar.day_of(at)
            opens, closes = calendar.shift(on)
            if not (calendar.is_workday(on) and opens <= at < closes):
                continue
            if job.duration and not all(limits[n].there(on) for n in job.needs):
                continue
            worked += 1
            for name, units in job.needs.items():
                used[name, at] = used.get((name, at), 0) + units
        assert worked == job.duration
        assert 0 <= row.free_float <= row.total_float
        assert row.slack >= 0
    assert all(units <= limits[name].capacity for (name, _), units in used.items())
    assert made.end == max(r.finish for r in rows.values())


@given(st.integers(0, 10_000), st.integers(1, 30))
@settings(max_examples=60, deadline=None)
def test_every_schedule_keeps_every_rule(seed: int, count: int) -> None:
    jobs, links, resources = random_plan(seed, count)
    made = schedule(jobs, links, resources, CALENDAR, MONDAY)
    check(made, jobs, links, resources, CALENDAR)
    assert schedule(jobs, links, resources, CALENDAR, MONDAY) == made
    for job in jobs:  # the chain back from any activity ends, and every step is earlier
        here, seen = job.id, set()
        while (by := made.rows[here].driver.by) is not None:
            assert by not in seen
            seen.add(by)
            assert made.rows[by].finish <= made.rows[here].start
            here = by


@given(st.integers(0, 10_000))
@settings(max_examples=30, deadline=None)
def test_slack_is_real(seed: int) -> None:
    """Holding one activity back by its slack, all else in the order it was, still ends in time."""
    jobs, links, _ = random_plan(seed, 14)
    jobs = [Activity(j.id, j.duration, {"crew": j.needs.get("crew", 1)}) for j in jobs]
    made = schedule(jobs, links, [CREW], CALENDAR, MONDAY)
    pick = random.Random(seed).choice([j for j in jobs if j.duration] or jobs)
    row = made.rows[pick.id]
    if not pick.duration:
        return
    held = CALENDAR.add_work(row.start, row.slack * 15)
    ordered = sorted(jobs, key=lambda j: (made.rows[j.id].start, made.rows[j.id].finish))
    later = schedule(ordered, links, [CREW], CALENDAR, MONDAY, {pick.id: held})
    assert later.end <= made.end


@given(st.integers(0, 5_000))
@settings(max_examples=40, deadline=None)
def test_without_a_calendar_early_and_late_times_are_the_critical_path_methods(seed: int) -> None:
    jobs, links, _ = random_plan(seed, 20)
    bare = [Activity(j.id, j.duration) for j in jobs]
    made = schedule(bare, links)
    known = critical_path(bare, links)
    for i, t in known.timings.items():
        row = made.rows[i]
        assert (row.early_start, row.early_finish, row.late_start, row.late_finish) == (
            t.es,
            t.ef,
            t.ls,
            t.lf,
        )
        assert (row.total_float, row.free_float) == (t.total_float, t.free_float)
        assert row.start == row.early_start  # people enough


def test_two_thousand_activities_make_a_sound_plan() -> None:
    jobs, links, resources = random_plan(5, 2000)
    made = schedule(jobs, links, resources, CALENDAR, MONDAY)
    assert len(made.rows) == 2000
    check(made, jobs, links, resources, CALENDAR)


@pytest.mark.parametrize("seed", range(12))
def test_on_a_calendar_no_order_of_a_few_activities_ends_sooner(seed: int) -> None:
    """Every order that precedence allows is tried: with waits that only run on, one of them is best."""
    jobs, links, resources = random_plan(seed, 6)
    net = build_network(jobs, links, resources, MONDAY, {}, 15, {})
    before = [{p for p, _ in row} for row in net.before]
    axis, views = Axis(CALENDAR, MONDAY), dict[tuple[str, ...], View]()

    def orders(done: list[int], left: frozenset[int]) -> Iterator[list[int]]:
        if not left:
            yield done
        for j in left:
            if not before[j] & left:
                yield from orders([*done, j], left - {j})

    best = min(decode(net, axis, views, order).end for order in orders([], frozenset(range(len(jobs)))))
    assert schedule(jobs, links, resources, CALENDAR, MONDAY).end == best
