"""A document as PDF, for printing and for people who keep papers: US letter, one font, page numbers.

Drawn from the same blocks the screens show. The same Markdown and day make the same bytes.
"""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Mapping
from importlib import resources
from typing import TYPE_CHECKING

from journal_tui.documents.blocks import blocks
from journal_tui.domain.document import Block, BlockKind, Run
from journal_tui.domain.text import REPLACEMENT, one_line

if TYPE_CHECKING:
    from fpdf import FPDF

#: Millimetres.
_MARGIN = 22.0
_INDENT = 6.0
_MARK = 7.0
_PICTURE_WIDTH = 110.0
_PICTURE_HEIGHT = 120.0
_SIZES = {1: 18.0, 2: 13.5, 3: 11.5}
_BODY = 10.5
#: Line height over letter height.
_LEADING = 1.36
_POINT = 25.4 / 72
_FAMILY = "letter"
_SOFT = (80, 80, 80)
_INK = (20, 20, 20)


def pdf_bytes(markdown: str, title: str, day: dt.date, pictures: Mapping[str, bytes] | None = None) -> bytes:
    """Return ``markdown`` as a PDF that bears ``title`` and ``day`` in its description.

    ``pictures`` are the JPEGs of the stills it names, by the place it names; one that is not given is
    left out. Letters the font lacks are shown as U+FFFD.
    """
    page = _page(title, day)
    under_heading = True
    for block in blocks(markdown):
        if block.kind is BlockKind.HEADING:
            _heading(page, block)
        elif block.kind is BlockKind.RULE:
            page.ln(3)
            page.line(_MARGIN, page.get_y(), page.w - _MARGIN, page.get_y())
            page.ln(3)
        else:
            _paragraph(page, block, pictures or {}, close=under_heading or bool(block.mark))
        under_heading = block.kind is BlockKind.HEADING
    return bytes(page.output())


def _page(title: str, day: dt.date) -> FPDF:
    from fpdf import FPDF

    class Paper(FPDF):
        def footer(self) -> None:
            self.set_y(-14)
            self.set_font(_FAMILY, size=8.5)
            self.set_text_color(*_SOFT)
            self.cell(0, 5, f"{self.page_no()} of {{nb}}", align="C")

    page = Paper(format="letter")
    page.set_creation_date(dt.datetime.combine(day, dt.time(12), dt.UTC))
    page.set_title(one_line(title) or "Document")
    page.set_lang("en")
    page.set_margins(_MARGIN, 20, _MARGIN)
    page.set_auto_page_break(True, 20)
    fonts = resources.files("journal_tui.documents").joinpath("data", "fonts")
    for style, name in (("", "DejaVuSerifCondensed.ttf"), ("B", "DejaVuSerifCondensed-Bold.ttf")):
        with resources.as_file(fonts.joinpath(name)) as path:
            page.add_font(_FAMILY, style, path)
    page.add_page()
    return page


def _heading(page: FPDF, block: Block) -> None:
    size = _SIZES.get(block.level, _BODY)
    height = size * _POINT * _LEADING
    if page.get_y() > page.t_margin:
        page.ln(height * (0.9 if block.level < 3 else 0.5))
    # A heading at the foot of a page stands with what it heads.
    if page.will_page_break(height * 2 + 2 * _BODY * _POINT * _LEADING):
        page.add_page()
    page.set_text_color(*_INK)
    page.set_font(_FAMILY, "B", size)
    page.multi_cell(0, height, _known(page, "".join(run.text for run in block.runs)), align="L")
    page.set_x(page.l_margin)
    page.ln(1.2)


def _paragraph(page: FPDF, block: Block, pictures: Mapping[str, bytes], *, close: bool) -> None:
    height = _BODY * _POINT * _LEADING
    if not close:
        page.ln(height * 0.5)
    left = _MARGIN + _INDENT * max(0, block.depth - 1) + (_MARK if block.depth else 0)
    page.set_left_margin(left)
    page.set_x(left)
    if block.mark:
        page.set_x(left - _MARK)
        page.set_font(_FAMILY, "", _BODY)
        page.set_text_color(*_INK)
        page.cell(_MARK, height, "•" if block.mark == "-" else block.mark)
    for run in block.runs:
        if run.picture:
            _picture(page, run, pictures)
        else:
            page.set_font(_FAMILY, "B" if run.strong else "", _BODY)
            page.set_text_color(*(_SOFT if run.emphasis else _INK))
            page.write(height, _known(page, run.text))
    page.ln(height)
    page.set_left_margin(_MARGIN)
    page.set_x(_MARGIN)


def _picture(page: FPDF, run: Run, pictures: Mapping[str, bytes]) -> None:
    from PIL import Image, UnidentifiedImageError

    data = pictures.get(run.picture)
    if data is None:
        return
    try:
        with Image.open(io.BytesIO(data)) as image:
            wide, high = image.size
    except (UnidentifiedImageError, OSError):
        return
    width = min(_PICTURE_WIDTH, _PICTURE_HEIGHT * wide / high)
    if page.will_page_break(width * high / wide):
        page.add_page()
    page.image(io.BytesIO(data), w=width, alt_text=run.text or None)


def _known(page: FPDF, text: str) -> str:
    """Return ``text`` with the letters the font lacks shown as such."""
    letters = getattr(page.fonts[_FAMILY], "cmap", {})
    return "".join(c if c == "\n" or ord(c) in letters else REPLACEMENT for c in text)
