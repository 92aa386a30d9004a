"""The plan as an iCalendar file (RFC 5545)."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable

from journal_tui.domain.text import one_line, visible
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.explain import why_not_sooner
from journal_tui.planning.jobplan import JobPlan, PlanRow

#: Octets in a line, its end not counted (RFC 5545 section 3.1).
LONGEST = 75
_SPECIAL = re.compile(r"[\\;,\n]")


def escaped(text: str) -> str:
    """Return a TEXT value (RFC 5545 section 3.3.11): backslash, semicolon, comma and line end escaped."""
    plain = visible(text.replace("\r\n", "\n").replace("\r", "\n"))
    return _SPECIAL.sub(lambda m: "\\n" if m.group() == "\n" else "\\" + m.group(), plain)


def folded_line(line: str) -> str:
    """Return a content line folded at 75 octets, never inside a character, with its CRLF."""
    parts: list[bytes] = []
    room = LONGEST
    part = b""
    for character in line:
        raw = character.encode("utf-8")
        if len(part) + len(raw) > room:
            parts.append(part)
            part, room = b"", LONGEST - 1  # the blank that continues a line counts
        part += raw
    parts.append(part)
    return b"\r\n ".join(parts).decode("utf-8") + "\r\n"


def calendar_file(plan: JobPlan, job_name: str, job_id: str, stamp: dt.datetime) -> str:
    """Return the whole file: an event for each item, and one for the day the plan ends.

    Work runs from its start to its finish in UTC; an answer, a delivery or an inspection is the
    whole day it is counted on. Events keep their identifiers (the items' and the job's) from one file
    to the next, so that a calendar program moves them instead of doubling them. ``stamp`` is when
    the file is made (aware). A private item is a block of time and says nothing else.
    """
    made = _utc(stamp)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//journal-tui//plan//EN",
        "CALSCALE:GREGORIAN",
        f"X-WR-CALNAME:{escaped(one_line(job_name))}",
    ]
    for row in plan.rows:
        lines += _event(plan, row, made)
    lines += _whole_day(f"end-{job_id}", plan.end_day, made)
    lines += [f"SUMMARY:{escaped('Forecast end: ' + one_line(job_name))}", "TRANSP:TRANSPARENT", "END:VEVENT"]
    lines.append("END:VCALENDAR")
    return "".join(map(folded_line, lines))


def _event(plan: JobPlan, row: PlanRow, made: str) -> Iterable[str]:
    item = row.item
    if item.private:
        return _busy(plan, row, made)
    if row.is_hold:
        kind = item.hold.kind.value if item.hold is not None else "answer"
        how = "assumed" if row.assumed else "booked"
        head = _whole_day(item.id, plan.calendar.day_of(row.row.finish), made)
        summary = f"{kind} ({how}): {item.name}"
        head.append("TRANSP:TRANSPARENT")
    else:
        head = [*_head(item.id, made), *_from_to(row)]
        summary = item.name
    area = one_line(item.area)
    says = [f"{item.phase}, {area}" if area else item.phase]
    if not row.is_hold:
        says.append(f"{item.crew_hours:g} crew-hours, {item.people} at once")
    if row.clear > row.row.finish:
        says.append(f"then {item.wait.hours:g} h by the clock ({item.wait.source}: {item.wait.note})")
    says.append(why_not_sooner(plan, item.id))
    return [*head, f"SUMMARY:{escaped(summary)}", f"DESCRIPTION:{escaped(chr(10).join(says))}", "END:VEVENT"]


def _busy(plan: JobPlan, row: PlanRow, made: str) -> Iterable[str]:
    """Return the event of a private item. Its class alone would hide nothing from most programs."""
    if row.is_hold:
        head = _whole_day(row.item.id, plan.calendar.day_of(row.row.finish), made)
        head.append("TRANSP:TRANSPARENT")
    else:
        head = [*_head(row.item.id, made), *_from_to(row)]
    return [*head, "CLASS:PRIVATE", "SUMMARY:Busy", "END:VEVENT"]


def _from_to(row: PlanRow) -> list[str]:
    begins, ends = (_utc(from_minutes(m)) for m in (row.row.start, row.row.finish))
    return [f"DTSTART:{begins}", f"DTEND:{ends}"]


def _head(uid: str, made: str) -> list[str]:
    return ["BEGIN:VEVENT", f"UID:{escaped(uid)}", f"DTSTAMP:{made}"]


def _whole_day(uid: str, day: dt.date, made: str) -> list[str]:
    """Return the head of an all-day event; DTEND is the day after, for it is exclusive."""
    after = day + dt.timedelta(days=1)
    return [*_head(uid, made), f"DTSTART;VALUE=DATE:{day:%Y%m%d}", f"DTEND;VALUE=DATE:{after:%Y%m%d}"]


def _utc(moment: dt.datetime) -> str:
    return f"{moment.astimezone(dt.UTC):%Y%m%dT%H%M%SZ}"
