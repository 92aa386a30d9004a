"""A picture as coloured character cells: two points one above the other in each. Needs Pillow."""

from __future__ import annotations

from pathlib import Path

from journal_tui.walkthrough.media.needs import VIDEO, needed

Colour = tuple[int, int, int]
#: The colours of a cell's upper and lower half.
Cell = tuple[Colour, Colour]


def cells(path: Path, columns: int, rows: int) -> tuple[tuple[Cell, ...], ...]:
    """Return the picture in ``path`` as rows of cells, as large as ``columns`` by ``rows`` lets it be.

    Half a cell is taken to be square (a cell is twice as high as wide in common terminal fonts; common
    practice, no source). Raises ``NotInstalled``; ``OSError`` for a file that is no picture.
    """
    pil = needed("PIL.Image", VIDEO, "showing a still")
    with pil.open(path) as image:
        # JPEG can be unpacked at a fraction of its size, which is all that is needed here.
        image.draft("RGB", (columns, rows * 2))
        scale = min(columns / image.width, rows * 2 / image.height)
        width = max(1, min(columns, round(image.width * scale)))
        height = max(2, min(rows * 2, round(image.height * scale)))
        height -= height % 2
        points = image.convert("RGB").resize((width, height)).tobytes()
    colours: list[Colour] = [(points[at], points[at + 1], points[at + 2]) for at in range(0, len(points), 3)]
    return tuple(
        tuple(zip(colours[at : at + width], colours[at + width : at + 2 * width], strict=True))
        for at in range(0, len(colours), 2 * width)
    )
