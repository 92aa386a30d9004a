"""Text broken into lines that fit a width in cells, literally."""

from __future__ import annotations

from rich.cells import cell_len, chop_cells

from journal_tui.domain.text import one_line

#: More of one text than this is not laid out for a screen that could never show it.
MOST_SHOWN = 4000


def wrapped(text: str, width: int) -> list[str]:
    """Return ``text`` in lines of at most ``width`` cells, broken between words where it can be."""
    width = max(width, 2)
    lines: list[str] = []
    line, taken = "", 0
    shown = text if len(text) <= MOST_SHOWN else text[:MOST_SHOWN] + "…"
    for word in one_line(shown).split(" "):
        wide = cell_len(word)
        if line and taken + 1 + wide <= width:
            line, taken = f"{line} {word}", taken + 1 + wide
            continue
        if line:
            lines.append(line)
        *whole, word = chop_cells(word, width) or [""]
        lines += whole
        line, taken = word, cell_len(word)
    return [*lines, line] if line else lines


def hanging(first: str, text: str, width: int) -> list[str]:
    """Return ``text`` wrapped behind ``first``, its further lines indented to stand under the first."""
    room = width - cell_len(first)
    lines = wrapped(text, room) or [""]
    blank = " " * cell_len(first)
    return [first + lines[0], *(blank + line for line in lines[1:])]
