"""How wide text is in a terminal, and fitting it to a width.

Width is counted in cells: two for East Asian wide and full-width characters (Unicode Standard Annex
#11), none for combining marks and other characters that are drawn on or between their neighbours.
"""

from __future__ import annotations

import unicodedata

_NO_WIDTH = frozenset({"Mn", "Me", "Cf"})


def cell_width(text: str) -> int:
    """Return how many terminal cells ``text`` takes; it must hold no control characters."""
    if text.isascii():
        return len(text)
    return sum(_cells(char) for char in text)


def _cells(char: str) -> int:
    if unicodedata.category(char) in _NO_WIDTH or "\u1160" <= char <= "\u11ff":
        return 0
    return 2 if unicodedata.east_asian_width(char) in "WF" else 1


def padded(text: str, width: int) -> str:
    """Return ``text`` filled with blanks to ``width`` cells; longer text is left as it is."""
    return text + " " * (width - cell_width(text))


def wrapped(text: str, width: int) -> list[str]:
    """Return ``text`` in lines of at most ``width`` cells (2 or more), broken at blanks where it can be.

    Nothing but the blanks at breaks is dropped. An empty text is one empty line.
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        joined = f"{line} {word}" if line else word
        if cell_width(joined) <= width:
            line = joined
            continue
        if line:
            lines.append(line)
        *full, line = _chopped(word, width)
        lines += full
    return [*lines, line]


def _chopped(word: str, width: int) -> list[str]:
    pieces, start, used = [], 0, 0
    for at, char in enumerate(word):
        cells = _cells(char)
        if used + cells > width:
            pieces.append(word[start:at])
            start, used = at, 0
        used += cells
    return [*pieces, word[start:]]
