"""The rule: time as a rule at the left edge, a long tick for a visit and a short one for an entry."""

from __future__ import annotations

import datetime as dt

from textual.content import Content

from journal_tui.domain.draft import Draft
from journal_tui.domain.entry import Entry
from journal_tui.domain.job import Visit
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.times import clock, short_day
from journal_tui.screens.lines import Piece, brief, fit, spread

#: The fixed column of ``saw``, ``chose`` and ``owed``.
KIND_WIDTH = 6
AREA_WIDTH = 14
#: Below this many cells a line is only its tick, its kind and its words.
NARROW = 60

#: The longer the tick, the more it matters: a visit, what is still open, all else.
_LONG_TICK = "┝━━━ "
_OPEN_TICK = "├── "
_SHORT_TICK = "├╴  "
_KIND_STYLE = {Kind.OBSERVATION: "$soft", Kind.DECISION: "$chose", Kind.NEXT_STEP: "$owed"}
_READERS = {Audience.CREW: "crew only", Audience.PRIVATE: "private"}


def readers_mark(audience: Audience) -> str:
    """Return what stands before the words of a thing that not everybody may read; "" for the rest."""
    return f"{_READERS[audience]} · " if audience in _READERS else ""


def day_shown(day: dt.date, today: dt.date) -> str:
    """Return a date as a list shows it: with the year when that is another one."""
    return short_day(day) if day.year == today.year else f"{short_day(day)} {day.year}"


def visit_line(visit: Visit, entries: int, drafts: int, today: dt.date, width: int) -> Content:
    """Return a visit's line: when, what about, who was there, how much was recorded or waits."""
    when = day_shown(visit.day, today)
    left: list[Piece] = [(_LONG_TICK, "$tick"), (when, "bold $ink")]
    if visit.summary:
        left.append((f"  {brief(visit.summary)}", "$ink"))
    right: list[Piece] = []
    if drafts:
        right.append((f"  {drafts} to review", "bold $care"))
    if entries and width >= NARROW:
        right.append((f"  {entries} kept", "$soft"))
    if width >= NARROW:
        said = clock(visit.length) if visit.length else ("recorded" if visit.recording_id else "typed")
        right.append((f"  {said}", "$soft"))
    return spread(left, right, width)


def entry_line(entry: Entry, item: PunchItem | None, width: int) -> Content:
    """Return an entry's line: what kind, where, its words, and whose move it is or what became of it."""
    closed = item is not None and item.state is not PunchState.OPEN
    text_style = "$faded" if closed else "$ink"
    left: list[Piece] = [(_OPEN_TICK if item is not None and not closed else _SHORT_TICK, "$tick")]
    left.append((f"{entry.kind.spoken:<{KIND_WIDTH}}", "$faded" if closed else _KIND_STYLE[entry.kind]))
    if width >= NARROW:
        left.append((f"{fit(entry.area, AREA_WIDTH - 1)} ", "$faded" if closed else "$soft"))
    if entry.hazards:
        left.append(("! ", "bold $care"))
    left.append((brief(entry.text), text_style))
    return spread(left, _became(entry, item), width)


def _became(entry: Entry, item: PunchItem | None) -> list[Piece]:
    right: list[Piece] = []
    if entry.audience in _READERS:
        right.append((f"  {_READERS[entry.audience]}", "$care"))
    if item is None:
        return right
    if item.state is PunchState.OPEN:
        right.append((f"  {item.who.value if item.who else 'open'}", "$owed"))
    else:
        when = f" {item.closed.day} {item.closed:%b}" if item.closed else ""
        right.append((f"  {item.state.value}{when}", "$faded"))
    return right


def draft_line(draft: Draft, width: int) -> Content:
    """Return the line of what a typed or spoken line would become."""
    left: list[Piece] = [
        (_OPEN_TICK if draft.open else _SHORT_TICK, "$tick"),
        (f"{draft.kind.spoken:<{KIND_WIDTH}}", _KIND_STYLE[draft.kind]),
    ]
    where = f"{draft.phase}, {draft.area}" if draft.area else draft.phase
    left += [(f"{brief(where)}  ", "$soft")]
    if draft.hazards:
        left.append((f"! {', '.join(draft.hazards)}  ", "bold $care"))
    left.append((brief(draft.text), "$ink"))
    right: list[Piece] = []
    if draft.audience in _READERS:
        right.append((f"  {_READERS[draft.audience]}", "$care"))
    if draft.open:
        right.append((f"  {draft.who.value if draft.who else 'open'}", "$owed"))
    return spread(left, right, width)


def said_line(start: float | None, text: str, timed: bool, marked: bool, width: int) -> Content:
    """Return a line of a caption (``start`` None: going on from the line above).

    What an entry rests on is marked with a bar in front.
    """
    when = f"{clock(start) if start is not None else '':>7} " if timed else " "
    bar = "▌" if marked else " "
    # Quieter than an entry's own line: the eye is to land on what was kept.
    return spread([("│", "$tick"), (when, "$faded"), (bar, "$tick"), (brief(text), "$soft")], [], width)


def facts_of(entry: Entry, item: PunchItem | None, today: dt.date) -> str:
    """Return what is known of an entry besides its words, in a line of running text."""
    facts = [entry.kind.plain, entry.phase]
    if entry.area:
        facts.append(entry.area)
    if item is not None and item.state is PunchState.OPEN:
        facts.append(
            f"open since {day_shown(item.since, today)}, {item.who.value if item.who else 'nobody'} to move"
        )
    elif item is not None:
        when = f" {day_shown(item.closed, today)}" if item.closed else ""
        facts.append(f"{item.state.value}{when}")
    if entry.hazards:
        facts.append(f"hazard: {', '.join(entry.hazards)}")
    if entry.audience in _READERS:
        facts.append(_READERS[entry.audience])
    return brief(" · ".join(facts))
