"""Lines of a list: how text is fitted into columns, literally and by the cells it takes."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size
from textual.content import Content

from journal_tui.domain.text import one_line, visible

#: More of one text than this, in characters, is not laid out for a place that could never show it.
MOST_SHOWN = 4000

#: A piece of a line: text as a person typed it, and a style made of theme variables.
Piece = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a list.

    ``key`` names what it shows and stays the same when the data changes. ``draw`` gives the line for a
    width in cells. ``words`` is what filtering looks at. A row that is a heading is not ``selectable``.
    """

    key: str
    draw: Callable[[int], Content]
    words: str = ""
    selectable: bool = True


def brief(text: str) -> str:
    """Return ``text`` on one line, cut where no screen could show more of it."""
    return one_line(text if len(text) <= MOST_SHOWN else f"{text[:MOST_SHOWN]}…")


def fit(text: str, width: int) -> str:
    """Return ``text`` on one line, exactly ``width`` cells wide: cut with an ellipsis, or padded."""
    if width <= 0:
        return ""
    shown = brief(text)
    if cell_len(shown) > width:
        return set_cell_size(set_cell_size(shown, width - 1).rstrip() + "…", width)
    return set_cell_size(shown, width)


def cut(text: str, width: int) -> str:
    """Return ``text`` on one line, at most ``width`` cells wide."""
    shown = brief(text)
    return shown if cell_len(shown) <= width else fit(shown, width)


def pieces(*parts: Piece) -> Content:
    """Return a line of styled pieces; their text is shown literally."""
    return Content.assemble(*((text, style) for text, style in parts if text))


def spread(left: list[Piece], right: list[Piece], width: int) -> Content:
    """Return a line with ``right`` at the edge and ``left`` cut to what that leaves of ``width`` cells."""
    right = [(literal(text), style) for text, style in right]
    right_width = sum(cell_len(text) for text, _style in right)
    if right_width >= width:
        right, right_width = [], 0
    room = width - right_width - (1 if right else 0)
    shown: list[Piece] = []
    for text, style in left:
        piece = literal(text)
        if cell_len(piece) > room:
            piece = set_cell_size(set_cell_size(piece, max(0, room - 1)) + "…", room)
        shown.append((piece, style))
        room -= cell_len(piece)
        if room <= 0:
            break
    return pieces(*shown, (" " * (max(0, room) + (1 if right else 0)), ""), *right)


def literal(text: str) -> str:
    """Return ``text`` on one line, nothing in it acting, the blanks that pad columns kept."""
    return visible(text[:MOST_SHOWN]).replace("\n", " ").replace("\t", " ")


def literal_each(text: str) -> str:
    """Return ``text`` on one line, each character of it shown as one that does not act."""
    return (
        visible(text)
        .replace("\n", "\N{SYMBOL FOR LINE FEED}")
        .replace("\t", "\N{SYMBOL FOR HORIZONTAL TABULATION}")
    )


def marked(text: str, words: str, room: int, style: str, found_style: str) -> list[Piece]:
    """Return ``text`` in pieces, the beginnings of words that ``words`` name in ``found_style``.

    When the first of them would fall outside ``room`` cells, the text begins shortly before it.
    """
    starts = [re.escape(word) for word in re.findall(r"\w+", words)]
    if not starts:
        return [(brief(text), style)]
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(starts)})", re.IGNORECASE)
    first = pattern.search(text)
    if first and first.start() > MOST_SHOWN // 2:
        text = text[first.start() - MOST_SHOWN // 2 :]
    shown = brief(text)
    first = pattern.search(shown)
    if first and cell_len(shown[: first.end()]) > room:
        before = shown.rfind(" ", 0, max(0, first.start() - room // 3))
        shown = f"…{shown[before + 1 :]}"
    found: list[Piece] = []
    at = 0
    for match in pattern.finditer(shown):
        found += [(shown[at : match.start()], style), (match.group(), found_style)]
        at = match.end()
    return [*found, (shown[at:], style)]
