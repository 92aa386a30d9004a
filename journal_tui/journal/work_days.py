"""A job's work calendar, its crew and room, and its licensed subs: read and set."""

from __future__ import annotations

import datetime as dt
import json
import os
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.planning.calendar import WorkCalendar, public_holidays, to_minutes, zone_named
from journal_tui.planning.dates import WEEKDAYS, date_ahead
from journal_tui.planning.items import Means, Sub, check_people, check_trade
from journal_tui.store import plan_queries
from journal_tui.store.store import Row

#: Public holidays are looked up for this many years from today on.
_YEARS = 4


@dataclass(frozen=True, slots=True)
class WorkDays:
    """When and by whom a job is worked: what is kept, and what follows from it.

    ``country`` and ``subdivision`` name whose public holidays are kept ("" for none's). ``stated``
    is False while nobody has set the week and the usual one is assumed.
    """

    calendar: WorkCalendar
    means: Means
    country: str
    subdivision: str
    stated: bool
    notices: tuple[str, ...] = field(default=())


def here_zone() -> str:
    """Return the IANA name of the zone this machine is set to, "UTC" when it does not say."""
    named = os.environ.get("TZ", "").lstrip(":")
    link = Path("/etc/localtime")
    if not named and link.is_symlink():
        named = str(link.readlink()).partition("zoneinfo/")[2]
    try:
        zone_named(named)
    except BadInput:
        return "UTC"
    return named or "UTC"


def work_days(journal: Journal, job_id: str) -> WorkDays:
    """Return when and by whom a job is worked; the usual week, crew and room where nothing is set."""
    row = plan_queries.work_calendar(journal.store, job_id)
    zone = row["zone"] if row else here_zone()
    country = row["country"] if row else "US"
    subdivision = row["subdivision"] if row else ""
    holidays, notices = _holidays(country, subdivision, journal.today())
    days = plan_queries.calendar_days(journal.store, job_id)
    calendar = WorkCalendar(
        zone=zone,
        weekdays=frozenset(json.loads(row["weekdays"])) if row else frozenset(range(5)),
        begins=dt.time.fromisoformat(row["begins"]) if row else dt.time(8),
        hours=row["hours"] if row else 8.0,
        holidays=holidays,
        days_off={dt.date.fromisoformat(r["day"]): r["why"] for r in days if not r["worked"]},
        extra_days=frozenset(dt.date.fromisoformat(r["day"]) for r in days if r["worked"]),
    )
    subs = tuple(_sub(r) for r in plan_queries.subs(journal.store, job_id))
    means = Means(row["crew"] if row else 2, row["room"] if row else 3, subs)
    return WorkDays(calendar, means, country, subdivision, row is not None, notices)


def _holidays(country: str, subdivision: str, today: dt.date) -> tuple[dict[dt.date, str], tuple[str, ...]]:
    if not country:
        return {}, ()
    try:
        years = range(today.year, today.year + _YEARS)
        return public_holidays(country, subdivision or None, years), ()
    except ImportError:
        return {}, ("public holidays are not known here: the package “holidays” is not installed",)


def _sub(row: Row) -> Sub:
    weekdays = json.loads(row["weekdays"])
    days = json.loads(row["days"])
    limited = bool(weekdays or days)
    return Sub(
        row["trade"],
        frozenset(weekdays) if limited else None,
        frozenset(map(dt.date.fromisoformat, days)) if limited else None,
        frozenset(map(dt.date.fromisoformat, json.loads(row["away"]))),
    )


@dataclass(frozen=True, slots=True)
class WeekChange:
    """What to set of a job's week and means, as typed; None leaves it as it is."""

    zone: str | None = None
    weekdays: str | None = None
    begins: str | None = None
    hours: float | None = None
    holidays: str | None = None
    crew: int | None = None
    room: int | None = None


def set_week(journal: Journal, job_id: str, change: WeekChange) -> WorkDays:
    """Set a job's work week and means. Raises ``BadInput`` when it cannot be worked."""
    job = get_job(journal, job_id)
    now = work_days(journal, job.id)
    country, subdivision = now.country, now.subdivision
    if change.holidays is not None:
        country, subdivision = _place(change.holidays, journal.today())
    calendar = replace(
        now.calendar,
        zone=change.zone or now.calendar.zone,
        weekdays=weekdays_in(change.weekdays) if change.weekdays else now.calendar.weekdays,
        begins=_time(change.begins) if change.begins else now.calendar.begins,
        hours=now.calendar.hours if change.hours is None else change.hours,
    )
    crew = now.means.crew if change.crew is None else check_people(change.crew)
    room = now.means.room if change.room is None else check_people(change.room)
    values = {
        "zone": calendar.zone,
        "weekdays": json.dumps(sorted(calendar.weekdays)),
        "begins": calendar.begins.isoformat(timespec="minutes"),
        "hours": float(calendar.hours),
        "country": country,
        "subdivision": subdivision,
        "crew": crew,
        "room": room,
    }
    with journal.store.write("set the work week", job.id) as w:
        if now.stated:
            w.change("work_calendars", job.id, **values)
        else:
            w.insert("work_calendars", {"id": job.id, **values})
    return work_days(journal, job.id)


def _place(text: str, today: dt.date) -> tuple[str, str]:
    words = text.upper().replace("-", " ").replace("/", " ").split()
    if not words or words == ["NONE"]:
        return "", ""
    if len(words) > 2:
        raise BadInput(f'"{one_line(text)}" is no place', 'give a country and a state, such as "US OH"')
    subdivision = words[1] if len(words) == 2 else ""
    public_holidays(words[0], subdivision or None, [today.year])
    return words[0], subdivision


def _time(text: str) -> dt.time:
    hour, _, minute = text.strip().partition(":")
    try:
        return dt.time(int(hour), int(minute or 0))
    except ValueError:
        raise BadInput(f'"{one_line(text)}" is no time of day', "write it like 7:30") from None


def weekdays_in(text: str) -> frozenset[int]:
    """Return the days of the week that ``text`` names: "mon-fri", "tue, thu". Raises ``BadInput``."""
    found: set[int] = set()
    for part in text.replace(",", " ").replace(" - ", "-").split():
        first, dash, last = part.partition("-")
        start = _weekday(first, text)
        end = _weekday(last, text) if dash else start
        found |= {(start + n) % 7 for n in range((end - start) % 7 + 1)}
    if not found:
        raise BadInput("no day of the week is named", 'write it like "mon-fri" or "tue, thu"')
    return frozenset(found)


def _weekday(word: str, text: str) -> int:
    fits = [n for n, name in enumerate(WEEKDAYS) if word and name.startswith(folded(word))]
    if len(fits) != 1:
        raise BadInput(
            f'"{one_line(text)}" names no days of the week', 'write it like "mon-fri" or "tue, thu"'
        )
    return fits[0]


def set_day(journal: Journal, job_id: str, day: dt.date, *, worked: bool, why: str = "") -> None:
    """Say that a day is not worked, or is worked although it usually is not."""
    job = get_job(journal, job_id)
    row_id = f"{job.id}/{day.isoformat()}"
    values = {"worked": int(worked), "why": measured(why, "the reason").strip()}
    there = any(r["id"] == row_id for r in plan_queries.calendar_days(journal.store, job.id))
    with journal.store.write("work on a day off" if worked else "take a day off", job.id) as w:
        if there:
            w.change("calendar_days", row_id, **values)
        else:
            w.insert("calendar_days", {"id": row_id, "job_id": job.id, "day": day.isoformat(), **values})


def usual_day(journal: Journal, job_id: str, day: dt.date) -> None:
    """Take back what was said of a day. Raises ``NothingFound`` when nothing was."""
    row_id = f"{job_id}/{day.isoformat()}"
    if not any(r["id"] == row_id for r in plan_queries.calendar_days(journal.store, job_id)):
        raise NothingFound(f"nothing is set for {day.isoformat()}", "It is worked as the week says.")
    with journal.store.write("work a day as usual", job_id) as w:
        w.remove("calendar_days", row_id)


def set_sub(
    journal: Journal,
    job_id: str,
    trade: str,
    *,
    weekdays: str | None = None,
    days: Iterable[str] = (),
    away: Iterable[str] = (),
) -> Sub:
    """Say on which days a licensed sub can be had; no days at all means on any working day."""
    job = get_job(journal, job_id)
    trade = check_trade(measured(trade, "the trade"))
    today = journal.today()
    row_id = f"{job.id}/{trade}"
    values = {
        "weekdays": json.dumps(sorted(weekdays_in(weekdays)) if weekdays else []),
        "days": json.dumps(sorted({date_ahead(d, today).isoformat() for d in days})),
        "away": json.dumps(sorted({date_ahead(d, today).isoformat() for d in away})),
    }
    there = any(r["id"] == row_id for r in plan_queries.subs(journal.store, job.id))
    with journal.store.write(f"set the days of the {trade}", job.id) as w:
        if there:
            w.change("subs", row_id, **values)
        else:
            w.insert("subs", {"id": row_id, "job_id": job.id, "trade": trade, **values})
    return next(s for s in work_days(journal, job.id).means.subs if s.trade == trade)


def planning_now(journal: Journal, calendar: WorkCalendar) -> int:
    """Return the instant planning starts from: now, or midnight when today is not this machine's today."""
    day = journal.today()
    real = dt.datetime.now(calendar.tz)
    if real.date() == day:
        return to_minutes(real)
    return to_minutes(dt.datetime.combine(day, dt.time(0), tzinfo=calendar.tz))
