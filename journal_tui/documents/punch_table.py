"""The punch list for other programs: a table (CSV, RFC 4180) and JSON."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import re
from collections.abc import Iterator, Sequence

from journal_tui.domain.punch import PunchItem, PunchList, PunchState
from journal_tui.domain.text import storable, visible
from journal_tui.domain.times import clock

COLUMNS = (
    "phase",
    "area",
    "text",
    "kind",
    "who",
    "waiting",
    "since",
    "days_open",
    "visit_day",
    "said_at",
    "hazards",
    "audience",
    "state",
    "closed",
    "id",
    "on_hold",
    "on_hold_since",
)

#: A spreadsheet takes a cell that begins so for a formula; an apostrophe too, or the guard itself
#: could not be told from the text.
_FORMULA = tuple("=+-@＝＋－＠'")

#: Characters JSON may hold raw but a terminal would obey: C1 controls and direction marks.
_ACTING = re.compile("[\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029\ufeff]")


def _all_items(plist: PunchList, closed: Sequence[PunchItem]) -> Iterator[PunchItem]:
    for group in plist.phases:
        yield from group.items
    yield from plist.waiting
    yield from closed


def guarded(cell: str) -> str:
    """Return ``cell`` so that no spreadsheet runs it: an apostrophe goes in front of one that begins
    (after blanks) with ``= + - @``, their full-width forms or an apostrophe, or with a tab or a line
    break. Taking one leading apostrophe away gives the text back exactly.
    """
    if cell.lstrip().startswith(_FORMULA) or cell.startswith(("\t", "\r", "\n")):
        return "'" + cell
    return cell


def punch_csv(plist: PunchList, *, as_of: dt.date, closed: Sequence[PunchItem] = ()) -> str:
    """Return the punch list as a table after RFC 4180: a header row, commas, CRLF, quotes doubled.

    One item a row, in the order of the list, those that wait on others after, ``closed`` ones
    (done and dropped) last. Dates are ISO 8601, ``said_at`` is ``m:ss`` in the recording of the
    visit, ``on_hold`` the change orders whose answer an item waits for. Cells that a spreadsheet would
    run as a formula are guarded by an apostrophe in front (see ``guarded``); control characters are
    made visible, line breaks and tabs kept.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for item in _all_items(plist, closed):
        writer.writerow([guarded(visible(cell)) for cell in _cells(item, as_of)])
    return out.getvalue()


def _waits(item: PunchItem) -> bool:
    return item.state is PunchState.OPEN and item.waits_elsewhere


def _days_open(item: PunchItem, as_of: dt.date) -> int:
    return max(0, ((item.closed or as_of) - item.since).days)


def _cells(item: PunchItem, as_of: dt.date) -> list[str]:
    return [
        item.phase,
        item.area,
        item.text,
        item.kind.value,
        item.who or "",
        "yes" if _waits(item) else "no",
        item.since.isoformat(),
        str(_days_open(item, as_of)),
        item.visit_day.isoformat() if item.visit_day else "",
        clock(item.said_at) if item.said_at is not None else "",
        " ".join(item.hazards),
        item.audience.value,
        item.state.value,
        item.closed.isoformat() if item.closed else "",
        item.id,
        ", ".join(f"change order {hold.number}" for hold in item.on_hold),
        min(hold.since for hold in item.on_hold).isoformat() if item.on_hold else "",
    ]


def punch_json(plist: PunchList, *, title: str, as_of: dt.date, closed: Sequence[PunchItem] = ()) -> str:
    """Return the punch list as a JSON object (RFC 8259) with ``title``, ``as_of`` and ``items``.

    Items are in the order of the list, those that wait on others after, ``closed`` ones (done and
    dropped) last. ``said_at`` is seconds in the recording. Text comes back exactly; characters a
    terminal would obey are written as escapes.
    """
    body = {
        "title": storable(title),
        "as_of": as_of.isoformat(),
        "open": plist.count,
        "waiting": len(plist.waiting),
        "on_hold": plist.on_hold,
        "items": [_record(item, as_of) for item in _all_items(plist, closed)],
    }
    text = json.dumps(body, ensure_ascii=False, indent=2)
    return _ACTING.sub(lambda m: f"\\u{ord(m.group()):04x}", text) + "\n"


def _record(item: PunchItem, as_of: dt.date) -> dict[str, object]:
    return {
        "phase": storable(item.phase),
        "area": storable(item.area),
        "text": storable(item.text),
        "kind": item.kind.value,
        "who": item.who.value if item.who else None,
        "waiting": _waits(item),
        "since": item.since.isoformat(),
        "days_open": _days_open(item, as_of),
        "visit_day": item.visit_day.isoformat() if item.visit_day else None,
        "said_at": item.said_at,
        "hazards": [hazard.value for hazard in item.hazards],
        "audience": item.audience.value,
        "state": item.state.value,
        "closed": item.closed.isoformat() if item.closed else None,
        "id": item.id,
        "on_hold": [
            {
                "change_order": hold.number,
                "waits_for": "the client's answer",
                "since": hold.since.isoformat(),
                "days": max(0, (as_of - hold.since).days),
                "asked_by": hold.by.isoformat() if hold.by else None,
            }
            for hold in item.on_hold
        ],
    }
