"""Dates as people type them."""

from __future__ import annotations

import datetime as dt
import re

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_LONGEST = 40
_AGO = re.compile(r"(\d{1,3}) (day|week)s? ago")


def day_typed(text: str, today: dt.date) -> dt.date:
    """Return the date of a visit that ``text`` means: a day named in passing is the last such day.

    ``today``, ``yesterday``, ``tomorrow``, ``3 days ago``, a weekday, or a date in digits or words
    (month before day when only digits leave it open). Raises ``BadInput`` for anything else.
    """
    words = folded(text).removeprefix("last ").removeprefix("on ")
    if words in ("today", "yesterday"):
        return today - dt.timedelta(days=words == "yesterday")
    if words == "tomorrow":
        return today + dt.timedelta(days=1)
    if ago := _AGO.fullmatch(words):
        return today - dt.timedelta(days=int(ago[1]) * (7 if ago[2] == "week" else 1))
    for number, name in enumerate(_WEEKDAYS):
        if len(words) >= 3 and name.startswith(words):
            return today - dt.timedelta(days=(today.weekday() - number) % 7 or 7)
    return _written(text, today)


def day_ahead(text: str, today: dt.date) -> dt.date:
    """Return the date to come that ``text`` means. Raises ``BadInput`` for what is none."""
    from journal_tui.planning.dates import date_ahead

    return date_ahead(text, today)


def _written(text: str, today: dt.date) -> dt.date:
    if len(text) > _LONGEST:
        raise _no_date(text)
    from dateutil import parser

    # Read against two different dates: what the text leaves open comes out different.
    first, second = (dt.datetime(year, month, day) for year, month, day in ((2004, 2, 3), (2008, 5, 6)))
    try:
        one, two = parser.parse(text, default=first).date(), parser.parse(text, default=second).date()
    except (ValueError, OverflowError, TypeError):
        raise _no_date(text) from None
    if (one.month, one.day) != (two.month, two.day):
        raise _no_date(text)
    if one.year == two.year:
        return one
    # Without a year: the last such day, for a visit has been.
    for year in range(today.year, today.year - 9, -1):
        try:
            day = dt.date(year, one.month, one.day)
        except ValueError:
            continue
        if day <= today:
            return day
    raise _no_date(text)


def _no_date(text: str) -> BadInput:
    return BadInput(
        f'"{one_line(text)[:_LONGEST]}" is no date',
        "Write it like today, yesterday, Friday, 11/20 or 2026-11-20.",
    )
