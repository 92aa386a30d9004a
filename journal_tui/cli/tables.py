"""Lists in columns of terminal cells, each thing a block of lines; nothing is cut off."""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from typing import TYPE_CHECKING

from journal_tui.cli.output import say
from journal_tui.domain.kinds import Audience, Hazard, Kind, Party
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock

if TYPE_CHECKING:
    from journal_tui.domain.draft import Draft
    from journal_tui.domain.entry import Entry

#: Narrower ones are laid out as if they were this wide; a reader of prose gains nothing above the other.
_NARROWEST = 60
_WIDEST = 110

_NUMBER, _CLOCK, _KIND, _PLACE = 3, 7, 5, 15


def width() -> int:
    """Return how many cells wide lists are laid out: the terminal's width, 80 when there is none."""
    return max(_NARROWEST, min(_WIDEST, shutil.get_terminal_size().columns))


def columns(cells: Sequence[tuple[str, int]], gap: int = 2) -> list[str]:
    """Lay texts side by side, each wrapped to its width in cells, a line break in one kept.

    A negative width sets its text against the right of the column.
    """
    from journal_tui.journal.formats import padded, wrapped

    stacks = []
    for text, wide in cells:
        lines = [line for part in text.split("\n") for line in wrapped(part, abs(wide))]
        stacks.append([line.rjust(-wide) if wide < 0 else line for line in lines])
    rows = []
    for at in range(max(len(stack) for stack in stacks)):
        row = [
            padded(stack[at] if at < len(stack) else "", abs(wide))
            for stack, (_text, wide) in zip(stacks, cells, strict=True)
        ]
        rows.append((" " * gap).join(row).rstrip())
    return rows


def paragraph(text: str, indent: int = 0) -> list[str]:
    """Return ``text`` on lines that fit, set in by ``indent`` cells."""
    from journal_tui.journal.formats import wrapped

    return [" " * indent + line for line in wrapped(one_line(text), width() - indent)]


def say_wrapped(text: str, indent: int = 0) -> None:
    """Print ``text`` as one paragraph, set in by ``indent`` cells."""
    for line in paragraph(text, indent):
        say(line)


def remarks(
    who: Party | None, hazards: Sequence[Hazard], audience: Audience, *, opened: bool, kind: Kind
) -> str:
    """Return what stands below an entry's text: open or not, whose move, what danger, who may read it."""
    said = []
    if opened and kind is not Kind.NEXT_STEP:
        said.append("open")
    if who is not None:
        said.append(who.value)
    if hazards:
        said.append("care: " + ", ".join(hazards))
    if audience is not Audience.CLIENT:
        said.append("private" if audience is Audience.PRIVATE else "crew only")
    return "; ".join(said)


def draft_lines(number: int, draft: Draft, mark: str = "", *, timed: bool = True) -> list[str]:
    """Return a draft as a block: number, when said (where that is known), kind, place, text and remarks."""
    below = remarks(draft.who, draft.hazards, draft.audience, opened=draft.open, kind=draft.kind)
    return _block(
        [(str(number), -_NUMBER), (clock(draft.start) if timed else "", -_CLOCK)],
        (draft.kind, draft.phase, draft.area, draft.text),
        "; ".join(part for part in (mark, below) if part),
    )


def entry_lines(entry: Entry) -> list[str]:
    """Return an entry as a block: when said, kind, place, text and remarks."""
    said = clock(entry.start) if entry.start is not None else ""
    below = remarks(entry.who, entry.hazards, entry.audience, opened=entry.open, kind=entry.kind)
    return _block([("", 0), (said, -_CLOCK)], (entry.kind, entry.phase, entry.area, entry.text), below)


def _block(left: list[tuple[str, int]], thing: tuple[Kind, str, str, str], below: str) -> list[str]:
    kind, phase, area, text = thing
    place = "\n".join(filter(None, (one_line(phase), one_line(area))))
    cells = [*left, (kind.spoken, _KIND), (place, _PLACE)]
    room = width() - sum(abs(wide) + 2 for _text, wide in cells)
    return columns([*cells, ("\n".join(filter(None, (one_line(text), one_line(below)))), room)])
