"""How the punch list looks: a line an item, and all about the one in hand below."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence

from rich.cells import cell_len
from textual.content import Content

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchList, PunchState
from journal_tui.domain.times import clock, short_day
from journal_tui.screens.lines import Piece, Row, cut, fit, pieces
from journal_tui.screens.ruled import readers_mark
from journal_tui.screens.wrapping import MOST_SHOWN, wrapped

_AREA_WIDTH = 14
_WHO_WIDTH = 10
_SIDE_WIDTH = 16
_NARROW = 60


def brief_day(day: dt.date) -> str:
    """Return a date as ``11 Mar``, for a narrow column; the weekday stands below, with all the rest."""
    return f"{day.day} {day:%b}"


def origin(item: PunchItem) -> str:
    """Return where an item came from: the visit and the moment it was said, or that it was typed."""
    if item.visit_day is None:
        return f"typed {brief_day(item.since)}"
    if item.said_at is None:
        return f"typed {brief_day(item.visit_day)}"
    return f"{brief_day(item.visit_day)} {clock(item.said_at)}"


def rows_of(laid_out: PunchList, now: dict[str, PunchItem]) -> list[Row]:
    """Return the open list as rows: a heading a phase, then what waits on others, set apart."""
    rows: list[Row] = []
    for group in laid_out.phases:
        rows.append(_heading(group.phase, _open_count([now[i.id] for i in group.items])))
        rows += [_row(seen, now[seen.id], waiting=False) for seen in group.items]
    if laid_out.waiting:
        rows.append(_heading("waiting on others", _open_count([now[i.id] for i in laid_out.waiting])))
        rows += [_row(seen, now[seen.id], waiting=True) for seen in laid_out.waiting]
    return rows


def closed_rows(laid_out: PunchList, now: dict[str, PunchItem]) -> list[Row]:
    """Return done and dropped items as rows, a heading a phase; those of others come last too."""
    rows: list[Row] = []
    groups = [(group.phase, group.items) for group in laid_out.phases]
    for name, items in [*groups, ("was waiting on others", laid_out.waiting)]:
        if items:
            closed = len(items) - _open_count([now[i.id] for i in items])
            rows.append(_heading(name, closed, "closed"))
            rows += [_row(seen, now[seen.id], waiting=False) for seen in items]
    return rows


def _open_count(items: Sequence[PunchItem]) -> int:
    return sum(item.state is PunchState.OPEN for item in items)


def _heading(name: str, count: int, word: str = "open") -> Row:
    def draw(width: int) -> Content:
        label = f"{cut(name, max(1, width - 12))}  {count} {word} "
        return pieces(
            (label, "$ink bold" if count else "$soft"), ("─" * max(0, width - cell_len(label)), "$tick")
        )

    return Row(f"heading/{name}", draw, selectable=False)


def _row(seen: PunchItem, item: PunchItem, *, waiting: bool) -> Row:
    words = f"{item.phase} {item.area} {item.text[:MOST_SHOWN]} {item.who or Party.CREW}"
    return Row(item.id, _drawer(seen, item, waiting), words)


def _drawer(seen: PunchItem, item: PunchItem, waiting: bool) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        closed = item.state is not PunchState.OPEN
        body = "$faded" if closed else "$ink"
        parts: list[Piece] = [("  ", "")]
        room = width - 2
        if waiting:
            parts.append((fit(seen.who or Party.CREW, _WHO_WIDTH), "$faded" if closed else "$owed"))
            room -= _WHO_WIDTH
        side, style = _side(seen, item, waiting)
        if width >= _NARROW:
            parts.append((fit(item.area, _AREA_WIDTH - 1) + " ", "$faded" if closed else "$soft"))
            room -= _AREA_WIDTH + _SIDE_WIDTH
            end = " " * max(1, _SIDE_WIDTH - cell_len(side)) + cut(side, _SIDE_WIDTH - 1)
        else:
            word = side if item != seen or item.on_hold else ""
            end = f" {word}" if word else ""
            room -= cell_len(end)
        return pieces(
            *parts, (fit(readers_mark(item.audience) + item.text[:MOST_SHOWN], room), body), (end, style)
        )

    return draw


def _side(seen: PunchItem, item: PunchItem, waiting: bool) -> tuple[str, str]:
    if item.state is not PunchState.OPEN:
        day = f" {brief_day(item.closed)}" if item.closed else ""
        return f"{item.state.value}{day}", "$chose" if item.state is PunchState.DONE else "$soft"
    if seen.state is not PunchState.OPEN:
        return "open again", "$owed"
    if item.who is not seen.who:
        return f"now: {item.who or Party.CREW}", "$owed"
    if item.on_hold:
        return f"hold: change {item.on_hold[0].number}", "$owed"
    return (f"since {brief_day(item.since)}" if waiting else origin(item)), "$soft"


def detail(item: PunchItem, today: dt.date, width: int, height: int) -> list[Content]:
    """Return all about an item: its whole text, whose move it is, since when, where it came from."""
    text = wrapped(item.text, width) or [""]
    room = max(1, height - 2)
    if len(text) > room:
        text = [*text[: room - 1], cut(text[room - 1] + " …", width)]
    facts = [f"{item.phase}, {item.area}", f"{_owed_by(item)} since {_since(item, today)}", _whence(item)]
    if item.state is PunchState.OPEN:
        facts[1:1] = [hold.words(today) for hold in item.on_hold]
    if item.hazards:
        facts.append(f"hazard: {', '.join(item.hazards)}")
    if item.audience is not Audience.CLIENT:
        facts.append("private" if item.audience is Audience.PRIVATE else "crew only")
    if item.state is not PunchState.OPEN and item.closed:
        facts.append(f"{item.state.value} {short_day(item.closed)}")
    lines = [pieces((line, "$ink bold")) for line in text]
    lines += [pieces((line, "$soft")) for line in wrapped(" · ".join(facts), width)]
    return lines[:height]


def _owed_by(item: PunchItem) -> str:
    who = item.who or Party.CREW
    if item.state is not PunchState.OPEN:
        return "owed"
    if item.kind is Kind.OBSERVATION and who is Party.CREW:
        return "seen, still open"
    return f"waits on the {who}" if item.waits_elsewhere else f"owed by the {who}"


def _since(item: PunchItem, today: dt.date) -> str:
    days = (today - item.since).days
    age = {0: "today", 1: "yesterday"}.get(days, f"{short_day(item.since)}, {days} days")
    return age if days >= 0 else short_day(item.since)


def _whence(item: PunchItem) -> str:
    if item.said_at is not None and item.visit_day is not None:
        return f"said {short_day(item.visit_day)} at {clock(item.said_at)}"
    return f"typed {short_day(item.visit_day or item.since)}"


def preview_lines(draft: Draft, width: int) -> list[Content]:
    """Return what a typed line will become."""
    who = (draft.who or Party.CREW).value
    lines = [pieces((line, "$ink bold")) for line in (wrapped(draft.text, width)[:2] or [""])]
    facts = f"{draft.phase}, {draft.area} · {'for the crew' if who == 'crew' else f'waits on the {who}'}"
    if draft.hazards:
        facts += f" · hazard: {', '.join(draft.hazards)}"
    if draft.audience is not Audience.CLIENT:
        facts += f" · {draft.audience}"
    return [*lines, pieces((cut(facts, width), "$owed"))]
