"""Dates ahead as people type them."""

from __future__ import annotations

import datetime as dt

import pytest
from dateutil.relativedelta import FR, MO, TH, relativedelta
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.planning.dates import date_ahead

WEDNESDAY = dt.date(2026, 3, 11)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("today", "2026-03-11"),
        ("tomorrow", "2026-03-12"),
        ("friday", "2026-03-13"),
        ("Fri", "2026-03-13"),
        ("wed", "2026-03-18"),  # not today: the next one
        ("this wed", "2026-03-11"),
        ("next thu", "2026-03-19"),
        ("next mon", "2026-03-16"),
        ("by friday", "2026-03-13"),
        ("thurs", "2026-03-12"),
        ("in 2 weeks", "2026-03-25"),
        ("in a week", "2026-03-18"),
        ("in three days", "2026-03-14"),
        ("in 1 month", "2026-04-11"),
        ("12/3", "2026-12-03"),
        ("3/10", "2027-03-10"),  # gone by: the next one
        ("3/11", "2026-03-11"),
        ("13/5", "2026-05-13"),  # only one reading
        ("12/3/26", "2026-12-03"),
        ("12/3/2025", "2025-12-03"),
        ("3 dec", "2026-12-03"),
        ("dec 3", "2026-12-03"),
        ("December 3rd", "2026-12-03"),
        ("2026-12-03", "2026-12-03"),
        ("2/29", "2028-02-29"),
    ],
)
def test_what_people_type(text: str, day: str) -> None:
    assert date_ahead(text, WEDNESDAY).isoformat() == day


@pytest.mark.parametrize(
    "text",
    ["", "t", "s", "next week", "soon", "2/30", "13/13", "0/0", "12/3/1826", "march", "9" * 50,
     "in 999 months", "\x00", "now()", "10:30", "2026-13-45"],
)  # fmt: skip
def test_what_is_no_date_or_several(text: str) -> None:
    with pytest.raises(BadInput) as caught:
        date_ahead(text, WEDNESDAY)
    assert caught.value.body


def test_two_readings_are_named() -> None:
    with pytest.raises(BadInput) as caught:
        date_ahead("t", WEDNESDAY)
    assert "Tuesday or Thursday" in caught.value.title


def test_day_first_where_the_user_says_so() -> None:
    assert date_ahead("12/3", WEDNESDAY, day_first=True) == dt.date(2026, 3, 12)


@given(st.dates(dt.date(2020, 1, 1), dt.date(2035, 12, 31)))
def test_named_days_agree_with_dateutil(today: dt.date) -> None:
    """relativedelta's own weekday arithmetic: the first such day after today."""
    assert date_ahead("friday", today) == today + relativedelta(days=1, weekday=FR)
    assert date_ahead("next thu", today) == today + relativedelta(days=1, weekday=MO) + relativedelta(
        weekday=TH
    )
    assert date_ahead("in 2 weeks", today) == today + relativedelta(weeks=2)
