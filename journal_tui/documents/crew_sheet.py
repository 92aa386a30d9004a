"""The crew sheet of a visit, as Markdown: what to do, load, watch and photograph, on one page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from journal_tui.documents.escape import escape_inline
from journal_tui.documents.pictures import picture_line
from journal_tui.documents.wording import full_day
from journal_tui.domain.crew_sheet import CrewLine, CrewPicture, CrewSheet
from journal_tui.domain.text import one_line

#: Letters of what a picture shows that stand under it; the whole of it stands on the list.
_MOST_UNDER = 60


def crew_sheet_markdown(sheet: CrewSheet) -> str:
    """Return the sheet as CommonMark, ending in one line break; user text comes out literal."""
    blocks = [f"# {escape_inline(sheet.title)}"]
    if sheet.address:
        blocks.append(escape_inline(sheet.address))
    people = "1 person" if sheet.people == 1 else f"{sheet.people} people"
    blocks.append(f"{full_day(sheet.day)}, {_clock(sheet.begins)} to {_clock(sheet.ends)}, {people}.")
    phase = ""
    rows: list[str] = []
    for line in sheet.lines:
        if line.phase != phase:
            blocks += _list(rows)
            rows = []
            phase = line.phase
            blocks.append(f"## {escape_inline(phase[:1].upper() + phase[1:])}")
        rows.append(_line(line))
    blocks += _list(rows)
    if not sheet.lines:
        blocks.append("Nothing is ready for this visit.")
    for title, things in (
        ("Do not pass yet", sheet.holds),
        ("Load", sheet.load),
        ("Tools", sheet.tools),
        ("Take care", sheet.cautions),
        ("Photograph before it is covered", sheet.photos),
    ):
        if things:
            blocks += [f"## {title}", *_list(_boxed(things) if title == "Load" else _bulleted(things))]
    if sheet.pictures:
        blocks += ["## Pictures", *_pictures(sheet)]
    return "\n\n".join(blocks) + "\n"


def _pictures(sheet: CrewSheet) -> Iterable[str]:
    for number, picture in enumerate(sheet.pictures, 1):
        shown = _under(picture)
        mark = f"{number}. "
        yield f"{mark}{shown}\n\n{' ' * len(mark)}{picture_line(shown, picture.sha256)}"
    if sheet.more_pictures:
        are = "1 more picture is" if sheet.more_pictures == 1 else f"{sheet.more_pictures} more pictures are"
        yield f"{are} in the journal."


def _under(picture: CrewPicture) -> str:
    words = one_line(f"{picture.area}: {picture.text}" if picture.area else picture.text)
    return escape_inline(words if len(words) <= _MOST_UNDER else f"{words[: _MOST_UNDER - 1].rstrip()}…")


def _line(line: CrewLine) -> str:
    area = f"**{escape_inline(line.area)}:** " if line.area else ""
    at_once = f", {line.people} at once" if line.people > 1 else ""
    notes = f"{_clock(line.begins)} to {_clock(line.ends)}{at_once}"
    if line.left_hours:
        notes += f"; {line.left_hours:g} crew-hours stay for another day"
    if line.then:
        notes += f"; {escape_inline(line.then)}"
    if line.pictures:
        notes += f"; picture{'s' if len(line.pictures) > 1 else ''} {', '.join(map(str, line.pictures))}"
    return f"- \\[ \\] {area}{escape_inline(line.text)}\n  ({notes})"


def _list(rows: Sequence[str]) -> list[str]:
    return ["\n".join(rows)] if rows else []


def _boxed(things: Iterable[str]) -> list[str]:
    return [f"- \\[ \\] {escape_inline(thing)}" for thing in things]


def _bulleted(things: Iterable[str]) -> list[str]:
    return [f"- {escape_inline(thing)}" for thing in things]


def _clock(time: dt.time) -> str:
    return f"{time.hour}:{time.minute:02d}"
