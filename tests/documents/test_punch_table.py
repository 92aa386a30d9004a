"""The punch list as CSV (RFC 4180) and JSON (RFC 8259)."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import re

import pytest
from hypothesis import given

from journal_tui.documents import punch_csv, punch_json
from journal_tui.documents.punch_table import COLUMNS, guarded
from journal_tui.domain.kinds import Hazard, Party
from journal_tui.domain.punch import PunchItem, PunchList, PunchState
from journal_tui.domain.text import storable, visible
from tests.documents.samples import DAY, HOSTILE, item, lines, plist, punch_lists

FORMULAS = ("=1+1", "+1", "-3 in from the wall", "@SUM(A1)", "\t=1", " =1", "＝1", "'quoted", "\n+1")


def _items(some: PunchList) -> list[PunchItem]:
    return [*(i for group in some.phases for i in group.items), *some.waiting]


def _rows(table: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(table, newline=""), strict=True))


def _unguarded(cell: str) -> str:
    return cell.removeprefix("'")


@given(punch_lists)
def test_the_table_is_read_back(some: PunchList) -> None:
    head, *rows = _rows(punch_csv(some, as_of=DAY))
    assert head == list(COLUMNS)
    read = [dict(zip(head, map(_unguarded, row), strict=True)) for row in rows]
    assert [(r["id"], r["phase"], r["area"], r["text"], r["since"]) for r in read] == [
        (i.id, visible(i.phase), visible(i.area), visible(i.text), i.since.isoformat()) for i in _items(some)
    ]


@given(punch_lists)
def test_no_cell_is_run_by_a_spreadsheet(some: PunchList) -> None:
    for row in _rows(punch_csv(some, as_of=DAY)):
        for cell in row:
            assert not re.match(r"\s*[=+\-@＝＋－＠]", cell)
            assert not cell.startswith(("\t", "\r", "\n"))


@pytest.mark.parametrize("text", FORMULAS)
def test_a_formula_gets_an_apostrophe_and_gives_it_back(text: str) -> None:
    assert guarded(text) == "'" + text
    row = _rows(punch_csv(plist(item(text)), as_of=DAY))[1]
    assert row[COLUMNS.index("text")] == "'" + visible(text)


def test_plain_text_is_left_as_it_is() -> None:
    assert guarded("3 in = 76 mm") == "3 in = 76 mm"
    assert guarded("") == ""


def test_rfc_4180_to_the_letter() -> None:
    # Section 2, rules 1 (CRLF), 3 (header), 6 (quotes around commas, quotes, line breaks), 7 (doubled).
    table = punch_csv(plist(item('a "b", c\nd', "tub, left", hazards=(Hazard.LEAD, Hazard.FALL))), as_of=DAY)
    assert table == (
        "phase,area,text,kind,who,waiting,since,days_open,visit_day,said_at,hazards,audience,state,closed,id,on_hold,on_hold_since\r\n"
        'subfloor,"tub, left","a ""b"", c\nd",next_step,crew,no,2026-03-11,6,,,'
        "lead fall,client,open,,0192,,\r\n"
    )


def test_who_waits_and_where_it_came_from() -> None:
    owed = item("x", who=Party.SUPPLIER, visit_day=dt.date(2026, 3, 11), said_at=3661.0)
    row = dict(zip(COLUMNS, _rows(punch_csv(plist(owed), as_of=DAY))[1], strict=True))
    assert (row["who"], row["waiting"], row["visit_day"], row["said_at"]) == (
        "supplier", "yes", "2026-03-11", "1:01:01",
    )  # fmt: skip


def test_closed_items_come_last_and_wait_on_nobody() -> None:
    done = item("x", who=Party.CLIENT, state=PunchState.DONE, closed=dt.date(2026, 3, 13), id="2")
    table = punch_csv(plist(item("y")), as_of=DAY, closed=[done])
    row = dict(zip(COLUMNS, _rows(table)[2], strict=True))
    assert (row["id"], row["state"], row["closed"], row["days_open"], row["waiting"]) == (
        "2", "done", "2026-03-13", "2", "no",
    )  # fmt: skip
    read = json.loads(punch_json(plist(), title="t", as_of=DAY, closed=[done]))
    assert (read["open"], read["items"][0]["state"], read["items"][0]["waiting"]) == (0, "done", False)


@given(punch_lists, lines)
def test_json_gives_the_same_text_back(some: PunchList, title: str) -> None:
    read = json.loads(punch_json(some, title=title, as_of=DAY))
    assert read["title"] == storable(title)
    assert (read["open"], read["waiting"]) == (some.count, len(some.waiting))
    assert [(i["id"], i["phase"], i["area"], i["text"], i["said_at"]) for i in read["items"]] == [
        (i.id, storable(i.phase), storable(i.area), storable(i.text), i.said_at) for i in _items(some)
    ]


@pytest.mark.parametrize("text", HOSTILE)
def test_json_and_csv_hold_nothing_a_terminal_obeys(text: str) -> None:
    some = plist(item(text, text))
    made = punch_json(some, title=text, as_of=DAY)
    assert visible(made) == made
    table = punch_csv(some, as_of=DAY)
    assert visible(table.replace("\r\n", "\n")) == table.replace("\r\n", "\n")
