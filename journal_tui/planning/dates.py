"""Dates ahead, as people type them: for bookings, visits and days off."""

from __future__ import annotations

import datetime as dt
import re

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
LONGEST = 40
_IN = re.compile(r"in (\d{1,3}|a|an|one|two|three|four) (day|week|month)s?")
_NUMBERS = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4}
_SLASHED = re.compile(r"(\d{1,2})[/.\-](\d{1,2})(?:[/.\-](\d{4}|\d{2}))?")
_ISO = re.compile(r"\d{4}-\d{1,2}-\d{1,2}")
#: A date further ahead than this is a slip of the keys.
YEARS_AHEAD = 3


def date_ahead(text: str, today: dt.date, day_first: bool = False) -> dt.date:
    """Return the date that ``text`` means, today or later unless a year is given.

    "today", "tomorrow", "friday" (the next one, not today), "next thu" (in the week after this
    one), "in 2 weeks", "12/3" (month first, unless ``day_first``), "3 dec", "dec 3 2026",
    "2026-12-03". Raises BadInput, saying why, for what is no date or could be several.
    """
    if len(text) > LONGEST:
        raise _no_date(text)
    words = folded(text).removeprefix("on ").removeprefix("by ").strip(" .,")
    found = _named(words, text, today)
    if found is None and (slashed := _SLASHED.fullmatch(words)) and not _ISO.fullmatch(words):
        found = _slashed(slashed, text, today, day_first)
    found = found or _written(words, text, today)
    if abs(found.year - today.year) > YEARS_AHEAD:
        raise BadInput(f'"{one_line(text)}" is far off', f"it reads as {found.isoformat()}; check the year")
    return found


def _named(words: str, text: str, today: dt.date) -> dt.date | None:
    if words in ("today", "tomorrow"):
        return today + dt.timedelta(days=words == "tomorrow")
    if words == "yesterday" or words.startswith("last ") or words.endswith(" ago"):
        raise BadInput(f'"{one_line(text)}" is past', "Give a day to come, or today.")
    if ahead := _IN.fullmatch(words):
        count = _NUMBERS.get(ahead[1]) or int(ahead[1])
        if ahead[2] == "month":
            from dateutil.relativedelta import relativedelta

            return today + relativedelta(months=count)
        return today + dt.timedelta(days=count * (7 if ahead[2] == "week" else 1))
    if words == "next week":
        raise BadInput(f'"{one_line(text)}" is seven days', "say which: next mon, next thu")
    is_next, is_this = words.startswith("next "), words.startswith("this ")
    name = words.removeprefix("next ").removeprefix("this ")
    fits = [n for n, full in enumerate(WEEKDAYS) if name and full.startswith(name)]
    if name in ("tues", "thurs", "thur", "weds"):
        fits = [{"tues": 1, "weds": 2}.get(name, 3)]
    if len(fits) > 1:
        both = " or ".join(WEEKDAYS[n].capitalize() for n in fits)
        raise BadInput(f'"{one_line(text)}" could be {both}', "give one more letter")
    if not fits:
        return None
    if is_next:
        monday = today - dt.timedelta(days=today.weekday()) + dt.timedelta(days=7)
        return monday + dt.timedelta(days=fits[0])
    gap = (fits[0] - today.weekday()) % 7
    return today + dt.timedelta(days=gap if is_this else gap or 7)


def _slashed(found: re.Match[str], text: str, today: dt.date, day_first: bool) -> dt.date:
    first, second = int(found[1]), int(found[2])
    month, day = (second, first) if day_first else (first, second)
    if month > 12 >= day:
        month, day = day, month  # 13/5 leaves only one reading
    if found[3]:
        year = int(found[3]) + (2000 if len(found[3]) == 2 else 0)
        return _date(year, month, day, text)
    return _next_such(month, day, text, today)


def _written(words: str, text: str, today: dt.date) -> dt.date:
    from dateutil import parser

    # Read against two unlike dates: whatever the text leaves open comes out different.
    one, two = dt.datetime(2028, 2, 4), dt.datetime(2032, 5, 6)
    try:
        a, b = parser.parse(words, default=one).date(), parser.parse(words, default=two).date()
    except (ValueError, OverflowError, TypeError):
        raise _no_date(text) from None
    if (a.month, a.day) != (b.month, b.day):
        raise BadInput(f'"{one_line(text)}" leaves the day open', "write it like friday, 12/3 or 2026-12-03")
    return a if a.year == b.year else _next_such(a.month, a.day, text, today)


def _next_such(month: int, day: int, text: str, today: dt.date) -> dt.date:
    """Return the first such day not before today: a date ahead without a year is the next one."""
    this_year = None
    for year in range(today.year, today.year + 9):
        try:
            this_year = dt.date(year, month, day)
        except ValueError:
            continue
        if this_year >= today:
            return this_year
    raise _no_date(text)


def _date(year: int, month: int, day: int, text: str) -> dt.date:
    try:
        return dt.date(year, month, day)
    except ValueError:
        raise _no_date(text) from None


def _no_date(text: str) -> BadInput:
    return BadInput(
        f'"{one_line(text)[:LONGEST]}" is no date',
        "write it like tomorrow, friday, next thu, 12/3, 3 dec or 2026-12-03",
    )
