"""The plan as a chart, as an iCalendar file two parsers open, and as CSV and JSON."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
from dataclasses import replace
from typing import Any

import icalendar
import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.chart import FLOAT, GUESS, HOLD, OFF, TODAY, WAIT, WORK, Chart, chart
from journal_tui.planning.ics import calendar_file, escaped, folded_line
from journal_tui.planning.jobplan import JobPlan, plan_job
from journal_tui.planning.rows import plan_csv, plan_json, plan_rows
from tests.planning.making import CALENDAR, NOW, hall_bath, item

STAMP = dt.datetime(2026, 3, 11, 22, 30, tzinfo=dt.UTC)
NASTY = [
    "need [/] here; comma, back\\slash",
    "line\nbreak\r\nand\x1b[31m escape\x07",
    "é" * 90,
    "床の下地を張り替える" * 12,
    "e\u0301" * 60 + "\u202egnp.exe",
    "BEGIN:VEVENT\r\nSUMMARY:mine",
]


def plan(nasty: bool = False) -> JobPlan:
    items = hall_bath()
    if nasty:
        items += [item(text, "tile", f"area {n}; {text}", id=f"n{n}") for n, text in enumerate(NASTY)]
    return plan_job(items, [], STANDARD_PHASES, None, CALENDAR, NOW)


# --- iCalendar: RFC 5545 ---------------------------------------------------------------------


def test_two_parsers_read_the_same_events() -> None:
    made = plan(nasty=True)
    text = calendar_file(made, "Alder Lane; 14, hall", "j1", STAMP)
    one = icalendar.Calendar.from_ical(text)
    events: list[Any] = list(one.walk("VEVENT"))
    other = vobject.readOne(text)
    assert len(events) == len(made.rows) + 1 == len(other.vevent_list)
    by_uid = {str(e["UID"]): e for e in events}
    second = {e.uid.value: e for e in other.vevent_list}
    assert by_uid.keys() == second.keys()
    for row in made.rows:
        event, same = by_uid[row.item.id], second[row.item.id]
        assert str(event["SUMMARY"]) == same.summary.value
        begin, end = event["DTSTART"].dt, event["DTEND"].dt
        assert (begin, end) == (same.dtstart.value, same.dtend.value)
        assert event["DTSTAMP"].dt == STAMP
        if row.is_hold:
            day = made.calendar.day_of(row.row.finish)
            assert (begin, end) == (day, day + dt.timedelta(days=1))  # the end is exclusive
        else:
            assert begin == from_minutes(row.row.start)
            assert end == from_minutes(row.row.finish)


def test_lines_are_folded_at_75_octets_with_crlf() -> None:
    """RFC 5545 section 3.1, on the raw octets."""
    raw = calendar_file(plan(nasty=True), "x", "j1", STAMP).encode()
    assert raw.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert b"\r" not in raw.replace(b"\r\n", b"")
    for line in raw.split(b"\r\n"):
        assert len(line) <= 75
        line.decode("utf-8")  # no character is split
    assert raw.replace(b"\r\n ", b"").count(b"\r\nBEGIN:VEVENT\r\n") == len(plan(nasty=True).rows) + 1


@given(st.text(max_size=300))
def test_folding_is_undone_by_unfolding(text: str) -> None:
    line = "SUMMARY:" + escaped(text.encode("utf-8", "replace").decode())
    folded = folded_line(line)
    assert folded.replace("\r\n ", "") == line + "\r\n"
    assert all(len(part.encode()) <= 75 for part in folded.split("\r\n"))


def test_events_keep_their_identifiers_when_the_plan_changes() -> None:
    def uids(made: JobPlan) -> set[str]:
        text = calendar_file(made, "x", "j1", STAMP)
        return {str(e["UID"]) for e in icalendar.Calendar.from_ical(text).walk("VEVENT")}

    later = plan_job(hall_bath()[3:], [], STANDARD_PHASES, None, CALENDAR, NOW + 10_000)
    assert uids(later) < uids(plan())


def test_text_is_escaped_as_section_3_3_11_has_it() -> None:
    assert escaped("a\\b;c,d\ne") == r"a\\b\;c\,d\ne"
    assert "\x1b" not in escaped("\x1b[31m")


def test_a_plan_with_nothing_open_is_still_a_calendar() -> None:
    text = calendar_file(plan_job([], calendar=CALENDAR, now=NOW), "x", "j1", STAMP)
    assert len(icalendar.Calendar.from_ical(text).walk("VEVENT")) == 1


# --- CSV and JSON -----------------------------------------------------------------------------


def test_csv_and_json_say_the_same() -> None:
    made = plan(nasty=True)
    rows = plan_rows(made)
    read = list(csv.DictReader(io.StringIO(plan_csv(made), newline="")))
    data = json.loads(plan_json(made, "Alder"))
    assert [r["id"] for r in read] == [r["id"] for r in data["items"]] == [r["id"] for r in rows]
    for row, same in zip(data["items"], read, strict=True):
        assert same["start"] == row["start"]
        assert same["why_not_sooner"] == row["why_not_sooner"]
    offset = dt.datetime.fromisoformat(data["items"][0]["start"]).utcoffset()
    assert offset == dt.timedelta(hours=-5)
    assert dt.datetime.fromisoformat(data["end"]) == from_minutes(made.end)


def test_a_cell_is_never_a_formula() -> None:
    made = plan_job([item('=HYPERLINK("x")', "tile")], calendar=CALENDAR, now=NOW)
    (row,) = csv.DictReader(io.StringIO(plan_csv(made), newline=""))
    assert row["item"].startswith("'=")


# --- the chart --------------------------------------------------------------------------------


def lines(drawn: Chart) -> list[str]:
    """Return the bars with their items before them, as any view lays them out."""
    return [
        f"{name[: drawn.label]:<{drawn.label}} {bar}"
        for name, bar in zip(drawn.names, drawn.bars, strict=True)
    ]


def test_the_chart_shows_work_waits_holds_float_and_today() -> None:
    drawn = chart(plan(), 80)
    assert all(len(line) <= 80 for line in (*drawn.head, *lines(drawn), drawn.legend))
    whole = "\n".join(lines(drawn))
    for mark in (WORK, WAIT, GUESS, FLOAT, TODAY, OFF):
        assert mark in whole
    assert drawn.ids == tuple(r.item.id for r in plan().rows)
    today = {line.index(TODAY) for line in lines(drawn)}
    assert len(today) == 1
    line = next(text for text in lines(drawn) if text.startswith("grout"))
    assert line.index(WORK) < line.index(WAIT)


def test_a_booked_hold_looks_different_from_an_assumed_one() -> None:
    items = [
        replace(i, hold=replace(i.hold, booked=dt.date(2026, 3, 13)))
        if i.text == "rough inspection" and i.hold
        else i
        for i in hall_bath()
    ]
    drawn = chart(plan_job(items, [], STANDARD_PHASES, None, CALENDAR, NOW), 80)
    line = drawn.bars[drawn.ids.index("rough inspection")]
    assert HOLD in line
    assert GUESS not in line


def test_bars_stand_under_their_days() -> None:
    """One column a day is easy to read off: the bar of an item lies on the days it is worked."""
    made = plan()
    drawn = chart(made, 80, scale=1)
    for row, cells in zip(made.rows, drawn.bars, strict=True):
        if row.is_hold:
            continue
        first = (made.calendar.day_of(row.row.start) - drawn.first).days
        last = (made.calendar.day_of(row.row.finish - 1) - drawn.first).days
        assert [n for n, c in enumerate(cells) if c == WORK] == list(range(first, last + 1))


def test_it_scrolls_and_fits_narrow_places() -> None:
    made = plan()
    later = chart(made, 80, first=dt.date(2026, 3, 23), scale=3)
    assert "23 Mar" in later.head[0]
    assert not any(WORK in line for line in later.bars[:2])
    assert all(len(line) <= 40 for line in lines(chart(made, 40)))
    with pytest.raises(BadInput):
        chart(made, 20)
    assert chart(plan_job([], calendar=CALENDAR, now=NOW), 80).bars == ()


def test_nothing_a_person_wrote_acts_in_the_chart() -> None:
    drawn = chart(plan(nasty=True), 80)
    whole = "".join((*drawn.names, *drawn.bars, *drawn.head))
    assert not any(c in whole for c in "\x1b\x07\r\n\u202e")
