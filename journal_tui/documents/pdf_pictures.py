"""Pictures in a PDF: one under the words it belongs to, or several side by side with words above each."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from journal_tui.domain.document import Block, Run

if TYPE_CHECKING:
    from fpdf import FPDF

#: Millimetres between pictures side by side, and below a row of them.
_GAP = 5.0


@dataclass(frozen=True, slots=True)
class Captioned:
    """A picture of a numbered list: its words with the number, its JPEG, and what is said for it."""

    words: str
    jpeg: bytes
    told: str


def captioned_at(parts: Sequence[Block], at: int, pictures: Mapping[str, bytes]) -> tuple[Captioned, ...]:
    """Return the numbered pictures that begin at ``parts[at]``: words, then a picture, again and again."""
    found: list[Captioned] = []
    while at + 1 < len(parts):
        words, shown = parts[at], parts[at + 1]
        run = shown.runs[0] if len(shown.runs) == 1 else Run("")
        jpeg = pictures.get(run.picture) if run.picture else None
        if not words.mark.endswith(".") or jpeg is None or _size(jpeg) is None:
            break
        found.append(Captioned(f"{words.mark} {''.join(r.text for r in words.runs)}", jpeg, run.text))
        at += 2
    return tuple(found)


def _size(jpeg: bytes) -> tuple[int, int] | None:
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(io.BytesIO(jpeg)) as image:
            return image.size
    except (UnidentifiedImageError, OSError):
        return None


def draw_picture(page: FPDF, run: Run, pictures: Mapping[str, bytes], widest: float, highest: float) -> None:
    """Draw the picture a run names where the page stands, at most so wide and high (millimetres).

    One that is not among ``pictures``, or is none, is left out.
    """
    data = pictures.get(run.picture)
    size = _size(data) if data is not None else None
    if data is None or size is None:
        return
    wide, high = size
    width = min(widest, highest * wide / high)
    if page.will_page_break(width * high / wide):
        page.add_page()
    page.image(io.BytesIO(data), w=width, alt_text=run.text or None)


def _height(page: FPDF, cell: float, line: float, words: str) -> float:
    height = page.multi_cell(cell, line, words, align="L", dry_run=True, output="HEIGHT")
    assert isinstance(height, float)  # one thing was asked for
    return height


def draw_abreast(
    page: FPDF, row: Sequence[tuple[str, Captioned]], abreast: int, line: float, highest: float
) -> None:
    """Draw up to ``abreast`` pictures side by side, the words given with each above it."""
    cell = (page.w - page.l_margin - page.r_margin - _GAP * (abreast - 1)) / abreast
    above = max(_height(page, cell, line, words) for words, _picture in row)
    widths, heights = [], []
    for _words, picture in row:
        wide, high = _size(picture.jpeg) or (1, 1)
        widths.append(min(cell, highest * wide / high))
        heights.append(widths[-1] * high / wide)
    if page.will_page_break(above + max(heights) + _GAP):
        page.add_page()
    top, left = page.get_y(), page.l_margin
    for at, (words, picture) in enumerate(row):
        x = left + at * (cell + _GAP)
        page.set_xy(x, top)
        page.multi_cell(cell, line, words, align="L")
        page.image(
            io.BytesIO(picture.jpeg), x=x, y=top + above + 1, w=widths[at], alt_text=picture.told or None
        )
    page.set_xy(left, top + above + 1 + max(heights) + _GAP - 1)
