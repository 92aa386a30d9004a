"""Moments in a recording and dates, as people write and read them."""

from __future__ import annotations

import datetime as dt

#: Visits outside these years are a slip of the keys, not history.
EARLIEST_VISIT = dt.date(1990, 1, 1)
YEARS_AHEAD = 1


def clock(seconds: float) -> str:
    """Return a moment in a recording as ``m:ss`` or ``h:mm:ss`` (seconds cut, not rounded)."""
    whole = max(0, int(seconds))
    minutes, secs = divmod(whole, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{secs:02d}" if hours else f"{minutes}:{secs:02d}"


def webvtt_stamp(seconds: float) -> str:
    """Return a moment as a WebVTT timestamp, ``hh:mm:ss.ttt``."""
    minutes, rest = divmod(round(seconds * 1000), 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{rest // 1000:02d}.{rest % 1000:03d}"


def short_day(day: dt.date) -> str:
    """Return a date as ``Wed 11 Mar``."""
    return f"{day:%a} {day.day} {day:%b}"


def long_day(day: dt.date) -> str:
    """Return a date as ``Wednesday, March 11, 2026``."""
    return f"{day:%A}, {day:%B} {day.day}, {day.year}"


def visit_day_fault(day: dt.date, today: dt.date) -> str | None:
    """Return why ``day`` cannot be the date of a visit, or None when it can."""
    if day < EARLIEST_VISIT:
        return f"{day.isoformat()} is before {EARLIEST_VISIT.isoformat()}; check the year"
    latest = (
        today.replace(year=today.year + YEARS_AHEAD)
        if (today.month, today.day) != (2, 29)
        else (dt.date(today.year + YEARS_AHEAD, 2, 28))
    )
    if day > latest:
        return f"{day.isoformat()} is more than a year ahead; check the year"
    return None
