"""Text broken into lines that fit a width in cells, literally."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len, chop_cells

from journal_tui.domain.text import one_line

#: More of one text than this is not laid out for a screen that could never show it.
MOST_SHOWN = 4000


#: Words of one line and whether they are marked.
Run = tuple[str, bool]


def wrapped(text: str, width: int) -> list[str]:
    """Return ``text`` in lines of at most ``width`` cells, broken between words where it can be."""
    shown = text if len(text) <= MOST_SHOWN else text[:MOST_SHOWN] + "…"
    lines = wrapped_runs([(word, False) for word in one_line(shown).split(" ") if word], width)
    return ["".join(words for words, _marked in line) for line in lines]


def wrapped_runs(words: Sequence[Run], width: int) -> list[list[Run]]:
    """Return words in lines of at most ``width`` cells, neighbours marked alike run together."""
    width = max(width, 2)
    lines: list[list[Run]] = []
    taken = width
    for word, marked in words:
        wide = cell_len(word)
        if lines and taken + 1 + wide <= width:
            taken += 1 + wide
            last, was = lines[-1][-1]
            if was == marked:
                lines[-1][-1] = (f"{last} {word}", was)
            else:
                lines[-1] += [(" ", False), (word, marked)]
            continue
        for part in chop_cells(word, width) or [""]:
            lines.append([(part, marked)])
            taken = cell_len(part)
    return lines


def hanging(first: str, text: str, width: int) -> list[str]:
    """Return ``text`` wrapped behind ``first``, its further lines indented to stand under the first."""
    room = width - cell_len(first)
    lines = wrapped(text, room) or [""]
    blank = " " * cell_len(first)
    return [first + lines[0], *(blank + line for line in lines[1:])]
