"""The punch list for its owner's own eyes, as text for a terminal and as Markdown.

Work is listed in phase order; what waits on the client, the inspector or a supplier is set apart with
since when. Each item says where it came from: the day of the visit and the time in its recording.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from journal_tui.documents.cells import padded, wrapped
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.wording import full_day
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchList, PunchState
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock, short_day

_BOXES = {PunchState.OPEN: "[ ]", PunchState.DONE: "[x]", PunchState.DROPPED: "[-]"}
_AREA_CELLS = 14
_NOTHING = "Nothing is open."
_CLOSED = "done and dropped"
_WAITING = "waiting on others"


def origin(item: PunchItem) -> str:
    """Return where ``item`` came from, as ``visit Wed 11 Mar, 2:41``; empty when it was typed in."""
    if item.visit_day is None:
        return ""
    day = f"visit {_day(item.visit_day)}"
    return day if item.said_at is None else f"{day}, {clock(item.said_at)}"


def days_open(item: PunchItem, as_of: dt.date) -> str:
    """Return how long ``item`` has been owed on ``as_of``, as ``6 days``; empty on its first day."""
    days = (as_of - item.since).days
    return "" if days < 1 else "1 day" if days == 1 else f"{days} days"


def _day(day: dt.date) -> str:
    return f"{short_day(day)} {day.year}"


def _count(plist: PunchList) -> str:
    waiting = len(plist.waiting)
    text = f"{plist.count} open"
    text += f", {waiting} of them {_WAITING}" if waiting else ""
    return text + (f", {plist.on_hold} on hold" if plist.on_hold else "")


def _notes(item: PunchItem, as_of: dt.date, *, waits: bool) -> Iterator[str]:
    if item.audience is Audience.PRIVATE:
        yield "private"
    if item.closed is None:
        for hold in item.on_hold:
            yield hold.words(as_of)
    if item.closed is not None:
        yield f"{item.state} {_day(item.closed)}"
    elif item.kind is Kind.OBSERVATION:
        yield "seen, not settled"
    elif item.kind is Kind.DECISION:
        yield "to be decided"
    if waits or item.closed is not None:
        yield item.phase
    if waits:
        since = f"since {_day(item.since)}"
        yield f"{since} ({days_open(item, as_of)})" if days_open(item, as_of) else since
    elif item.who is None and item.closed is None:
        yield "nobody named"
    if item.hazards:
        yield "care: " + ", ".join(item.hazards)
    if where := origin(item):
        yield where


def _by_party(plist: PunchList) -> Iterator[tuple[Party, list[PunchItem]]]:
    for party in Party:
        items = [item for item in plist.waiting if item.who is party]
        if items:
            yield party, items


def punch_text(
    plist: PunchList,
    *,
    title: str,
    as_of: dt.date,
    width: int = 80,
    closed: Sequence[PunchItem] = (),
    handle: int = 0,
) -> str:
    """Return the punch list as plain text of at most ``width`` terminal cells (40 or more).

    ``closed`` are done and dropped items to list after the open ones; ``handle`` is how many
    characters of the end of an item's id stand before it, to call it by.
    """
    lines = wrapped(f"Punch list: {one_line(title)}", width)
    lines += wrapped(f"{full_day(as_of)}: {_count(plist)}", width)
    for group in plist.phases:
        lines += ["", *wrapped(one_line(group.phase), width)]
        for item in group.items:
            lines += _item_lines(item, as_of, width, handle, waits=False)
    for party, items in _by_party(plist):
        lines += ["", f"{_WAITING}: {party}"]
        for item in items:
            lines += _item_lines(item, as_of, width, handle, waits=True)
    if not plist.count:
        lines += ["", _NOTHING]
    if closed:
        lines += ["", _CLOSED]
    for item in closed:
        lines += _item_lines(item, as_of, width, handle, waits=False)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _item_lines(item: PunchItem, as_of: dt.date, width: int, handle: int, *, waits: bool) -> list[str]:
    head = f"{_BOXES[item.state]} {item.id[-handle:] + '  ' if handle else ''}"
    left = len(head) + 2 + _AREA_CELLS + 2
    area = wrapped(one_line(item.area), _AREA_CELLS)
    right = wrapped(one_line(item.text), width - left)
    note = one_line("; ".join(_notes(item, as_of, waits=waits)))
    right += wrapped(note, width - left) if note else []
    lines = []
    for row in range(max(len(area), len(right))):
        box = head if row == 0 else " " * len(head)
        place = area[row] if row < len(area) else ""
        lines.append(f"  {box}{padded(place, _AREA_CELLS)}  {right[row] if row < len(right) else ''}")
    return lines


def punch_markdown(plist: PunchList, *, title: str, as_of: dt.date, closed: Sequence[PunchItem] = ()) -> str:
    """Return the punch list as CommonMark, ending in one line break; user text comes out literal.

    ``closed`` are done and dropped items to list after the open ones.
    """
    blocks = [f"# Punch list: {escape_inline(title)}", f"{full_day(as_of)}: {_count(plist)}."]
    for group in plist.phases:
        blocks.append(f"## {_heading(group.phase)}")
        blocks.append("\n".join(_item_markdown(item, as_of, waits=False) for item in group.items))
    for party, items in _by_party(plist):
        blocks.append(f"## {_heading(_WAITING)}: {party}")
        blocks.append("\n".join(_item_markdown(item, as_of, waits=True) for item in items))
    if not plist.count:
        blocks.append(_NOTHING)
    if closed:
        blocks.append(f"## {_heading(_CLOSED)}")
        blocks.append("\n".join(_item_markdown(item, as_of, waits=False) for item in closed))
    return "\n\n".join(blocks) + "\n"


def _heading(phase: str) -> str:
    line = one_line(phase)
    return escape_inline(line[:1].upper() + line[1:])


def _item_markdown(item: PunchItem, as_of: dt.date, *, waits: bool) -> str:
    area = escape_inline(item.area)
    lead = f"**{area}:** " if area else ""
    note = escape_inline("; ".join(_notes(item, as_of, waits=waits)))
    line = f"- {lead}{escape_inline(item.text)}"
    return f"{line}\n  ({note})" if note else line
