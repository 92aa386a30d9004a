"""Moments and dates as people read them."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.domain.times import clock, long_day, short_day, visit_day_fault


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0, "0:00"),
        (9.99, "0:09"),
        (161.2, "2:41"),
        (3599, "59:59"),
        (3600, "1:00:00"),
        (36061, "10:01:01"),
        (-3, "0:00"),
    ],
)
def test_clock(seconds: float, shown: str) -> None:
    assert clock(seconds) == shown


def test_days() -> None:
    day = dt.date(2026, 3, 11)
    assert short_day(day) == "Wed 11 Mar"
    assert long_day(day) == "Wednesday, March 11, 2026"


@pytest.mark.parametrize("today", [dt.date(2026, 3, 12), dt.date(2028, 2, 29)])
def test_only_days_a_visit_can_have(today: dt.date) -> None:
    assert visit_day_fault(today, today) is None
    assert visit_day_fault(today + dt.timedelta(days=364), today) is None
    for year in (1899, 2099):
        fault = visit_day_fault(dt.date(year, 1, 5), today)
        assert fault is not None
        assert str(year) in fault
