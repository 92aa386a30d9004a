"""A document as PDF, for printing and for people who keep papers: US letter, one font, page numbers.

Drawn from the same blocks the screens show. The same Markdown and day make the same bytes.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from typing import TYPE_CHECKING

from journal_tui.documents.blocks import blocks
from journal_tui.documents.pdf_pictures import Captioned, captioned_at, draw_abreast, draw_picture
from journal_tui.domain.document import Block, BlockKind, Run
from journal_tui.domain.text import REPLACEMENT, one_line

if TYPE_CHECKING:
    from fpdf import FPDF

#: Millimetres.
_INDENT = 6.0
_MARK = 7.0
#: Letters of headings by level, over those of the text.
_HEADS = {1: 18 / 10.5, 2: 13.5 / 10.5, 3: 11.5 / 10.5}
#: Line height over letter height.
_LEADING = 1.36
_POINT = 25.4 / 72
_FAMILY = "letter"
_BOX = "[ ]"
_SOFT = (80, 80, 80)
_INK = (20, 20, 20)


@dataclass(frozen=True, slots=True)
class _Look:
    """How a page looks: margins and pictures in millimetres, letters in points, pictures side by side."""

    body: float = 10.5
    side: float = 22.0
    top: float = 20.0
    picture_width: float = 110.0
    picture_height: float = 120.0
    abreast: int = 1

    @property
    def line(self) -> float:
        """The height of a line of text."""
        return self.body * _POINT * _LEADING


_LETTER = _Look()
#: A list for the site, tried from large to small until it is one page; smaller letters are not read at
#: arm's length on a clipboard (common practice, no source).
_LISTS = tuple(_Look(body, 16.0, 13.0, 58.0, 44.0, 3) for body in (10.5, 9.5, 8.5))


@dataclass(frozen=True, slots=True)
class Drawn:
    """A document drawn: the bytes of the file, how many pages it has, and how many without its pictures."""

    data: bytes
    pages: int
    without_pictures: int


def pdf_bytes(markdown: str, title: str, day: dt.date, pictures: Mapping[str, bytes] | None = None) -> bytes:
    """Return ``markdown`` as a PDF that bears ``title`` and ``day`` in its description.

    ``pictures`` are the JPEGs of the stills it names, by the place it names; one that is not given is
    left out. Letters the font lacks are shown as U+FFFD.
    """
    return _drawn(blocks(markdown), title, day, pictures or {}, _LETTER).data


def one_page_pdf(
    markdown: str, title: str, day: dt.date, pictures: Mapping[str, bytes] | None = None
) -> Drawn:
    """Return ``markdown`` as ``pdf_bytes`` does, on one page if its letters need be no less than 8.5 points.

    Numbered pictures stand side by side; where all is more than a page, on a page of their own. What is
    more than a page without them is drawn in the usual letters.
    """
    return _one_page(markdown, title, day, tuple((pictures or {}).items()))


# The file is written and its pages are spoken of: drawn for one, it need not be drawn for the other.
@lru_cache(1)
def _one_page(markdown: str, title: str, day: dt.date, pictures: tuple[tuple[str, bytes], ...]) -> Drawn:
    parts, shown = blocks(markdown), dict(pictures)
    for look in _LISTS:
        drawn = _drawn(parts, title, day, shown, look)
        if drawn.pages == 1:
            return drawn
    for look in _LISTS:
        drawn = _drawn(parts, title, day, shown, look, apart=True)
        if drawn.without_pictures == 1:
            return drawn
    return _drawn(parts, title, day, shown, _LISTS[0])


def _drawn(
    parts: Sequence[Block],
    title: str,
    day: dt.date,
    pictures: Mapping[str, bytes],
    look: _Look,
    *,
    apart: bool = False,
) -> Drawn:
    page = _page(title, day, look)
    under_heading = True
    at, without_pictures = 0, 0
    while at < len(parts):
        block = parts[at]
        if not without_pictures and captioned_at(parts, at + 1, pictures):
            without_pictures = page.page_no()
            if apart:
                page.add_page()
        found = captioned_at(parts, at, pictures) if look.abreast > 1 else ()
        if found:
            _abreast(page, found, look)
            at += 2 * len(found)
            continue
        if look.abreast > 1 and _two_in_a_line(page, parts[at : at + 2], look):
            at += 2
            under_heading = False
            continue
        if block.kind is BlockKind.HEADING:
            _heading(page, block, look)
        elif block.kind is BlockKind.RULE:
            page.ln(3)
            page.line(look.side, page.get_y(), page.w - look.side, page.get_y())
            page.ln(3)
        else:
            _paragraph(page, block, pictures, look, close=under_heading or bool(block.mark))
        under_heading = block.kind is BlockKind.HEADING
        at += 1
    return Drawn(bytes(page.output()), page.pages_count, without_pictures or page.pages_count)


def _page(title: str, day: dt.date, look: _Look) -> FPDF:
    from fpdf import FPDF

    class Paper(FPDF):
        def footer(self) -> None:
            self.set_y(-14 if look is _LETTER else -11)
            self.set_font(_FAMILY, size=8.5)
            self.set_text_color(*_SOFT)
            self.cell(0, 5, f"{self.page_no()} of {{nb}}", align="C")

    page = Paper(format="letter")
    page.set_creation_date(dt.datetime.combine(day, dt.time(12), dt.UTC))
    page.set_title(one_line(title) or "Document")
    page.set_lang("en")
    page.set_margins(look.side, look.top, look.side)
    page.set_auto_page_break(True, look.top)
    fonts = resources.files("journal_tui.documents").joinpath("data", "fonts")
    for style, name in (("", "DejaVuSerifCondensed.ttf"), ("B", "DejaVuSerifCondensed-Bold.ttf")):
        with resources.as_file(fonts.joinpath(name)) as path:
            page.add_font(_FAMILY, style, path)
    page.add_page()
    return page


def _heading(page: FPDF, block: Block, look: _Look) -> None:
    size = _HEADS.get(block.level, 1) * look.body
    height = size * _POINT * _LEADING
    if page.get_y() > page.t_margin:
        page.ln(height * (0.9 if block.level < 3 else 0.5))
    # A heading at the foot of a page stands with what it heads.
    if page.will_page_break(height * 2 + 2 * look.line):
        page.add_page()
    page.set_text_color(*_INK)
    page.set_font(_FAMILY, "B", size)
    page.multi_cell(0, height, _known(page, "".join(run.text for run in block.runs)), align="L")
    page.set_x(page.l_margin)
    page.ln(1.2)


def _paragraph(page: FPDF, block: Block, pictures: Mapping[str, bytes], look: _Look, *, close: bool) -> None:
    if not close:
        page.ln(look.line * 0.5)
    left = look.side + _INDENT * max(0, block.depth - 1) + (_MARK if block.depth else 0)
    page.set_left_margin(left)
    page.set_x(left)
    for run in _marked(page, block, left, look):
        if run.picture:
            draw_picture(page, run, pictures, look.picture_width, look.picture_height)
        else:
            page.set_font(_FAMILY, "B" if run.strong else "", look.body)
            page.set_text_color(*(_SOFT if run.emphasis else _INK))
            _write(page, _known(page, run.text), look)
    page.ln(look.line)
    page.set_left_margin(look.side)
    page.set_x(look.side)


def _write(page: FPDF, text: str, look: _Look) -> None:
    """Write a run of text; its first word goes to the next line rather than being broken by the edge."""
    first = text.split(" ", 1)[0].split("\n", 1)[0]
    room = page.w - page.r_margin - page.get_x() - 2 * page.c_margin
    if page.get_x() > page.l_margin and room < page.get_string_width(first) < page.epw:
        page.ln(look.line)
    page.write(look.line, text)


def _marked(page: FPDF, block: Block, left: float, look: _Look) -> Sequence[Run]:
    """Draw the mark of a point before ``left``, a box to tick for one; return what is left to write."""
    runs = block.runs
    if not block.mark:
        return runs
    mark = "•" if block.mark == "-" else block.mark
    if block.mark == "-" and runs and runs[0].text.startswith(_BOX):
        mark, runs = _BOX, (replace(runs[0], text=runs[0].text.removeprefix(_BOX).lstrip()), *runs[1:])
    page.set_x(left - _MARK)
    page.set_font(_FAMILY, "", look.body)
    page.set_text_color(*_INK)
    page.cell(_MARK, look.line, mark)
    return runs


def _two_in_a_line(page: FPDF, pair: Sequence[Block], look: _Look) -> bool:
    """Draw two short points of a list on one line, and say so; draw nothing when they do not fit."""
    half = (page.w - 2 * look.side) / 2
    if len(pair) < 2 or any(block.mark != "-" or block.depth != 1 for block in pair):
        return False
    if any(_wide(page, block, look) > half - _MARK - 2 for block in pair):
        return False
    if page.will_page_break(look.line):
        page.add_page()
    top = page.get_y()
    for at, block in enumerate(pair):
        page.set_xy(look.side + at * half, top)
        for run in _marked(page, block, look.side + at * half + _MARK, look):
            page.set_font(_FAMILY, "B" if run.strong else "", look.body)
            page.write(look.line, _known(page, run.text))
    page.ln(look.line)
    return True


def _wide(page: FPDF, block: Block, look: _Look) -> float:
    wide = 0.0
    for run in block.runs:
        page.set_font(_FAMILY, "B" if run.strong else "", look.body)
        wide += page.get_string_width(_known(page, run.text))
    return wide


def _abreast(page: FPDF, found: Sequence[Captioned], look: _Look) -> None:
    page.set_font(_FAMILY, "", look.body)
    page.set_text_color(*_INK)
    for start in range(0, len(found), look.abreast):
        row = [(_known(page, c.words), c) for c in found[start : start + look.abreast]]
        draw_abreast(page, row, look.abreast, look.line, look.picture_height)


def _known(page: FPDF, text: str) -> str:
    """Return ``text`` with the letters the font lacks shown as such."""
    letters = getattr(page.fonts[_FAMILY], "cmap", {})
    return "".join(c if c == "\n" or ord(c) in letters else REPLACEMENT for c in text)
