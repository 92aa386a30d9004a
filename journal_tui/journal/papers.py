"""A document in each form it is handed on in, and as files in a folder."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from enum import StrEnum
from pathlib import Path

from journal_tui.domain.text import storable
from journal_tui.journal.paths import expanded
from journal_tui.journal.writing import CannotWrite, file_name, put_file


class PaperForm(StrEnum):
    """What a document can be written as; Markdown is what the others are made from."""

    MARKDOWN = "md"
    HTML = "html"
    TEXT = "text"
    PDF = "pdf"
    EMAIL = "eml"

    @property
    def ending(self) -> str:
        """The ending of its files, without a dot."""
        return "txt" if self is PaperForm.TEXT else self.value

    @property
    def is_text(self) -> bool:
        """True when it can be read on a terminal."""
        return self not in (PaperForm.PDF, PaperForm.EMAIL)


def paper_text(
    markdown: str, title: str, form: PaperForm, pictures: Mapping[str, bytes] | None = None
) -> str:
    """Return a document as Markdown, as one HTML page, or as the text of a message."""
    from journal_tui import documents

    if form is PaperForm.HTML:
        return documents.html_page(markdown, title, pictures)
    return documents.plain_text(markdown) if form is PaperForm.TEXT else markdown


def paper_bytes(
    markdown: str,
    title: str,
    day: dt.date,
    form: PaperForm,
    pictures: Mapping[str, bytes] | None = None,
    *,
    one_page: bool = False,
) -> bytes:
    """Return a document in any form as the bytes of its file; ``title`` and ``day`` are what it bears.

    ``one_page`` has the PDF drawn small enough for one page, where that can still be read.
    """
    if form is PaperForm.PDF:
        from journal_tui.documents.pdf import one_page_pdf, pdf_bytes

        if one_page:
            return one_page_pdf(markdown, title, day, pictures).data
        return pdf_bytes(markdown, title, day, pictures)
    if form is PaperForm.EMAIL:
        from journal_tui.documents.email_draft import email_bytes

        return email_bytes(markdown, title, day, pictures)
    return storable(paper_text(markdown, title, form, pictures)).encode()


def write_paper(
    folder: Path,
    markdown: str,
    title: str,
    name: str,
    day: dt.date,
    forms: Sequence[PaperForm] = (*PaperForm,),
    pictures: Mapping[str, bytes] | None = None,
    *,
    one_page: bool = False,
) -> list[Path]:
    """Write a document to ``folder`` in each of ``forms``; return the files. Raises ``CannotWrite``.

    ``name`` is what the files are called, before the day. Pictures are inside all but the Markdown, and
    in a folder beside that.
    """
    if PaperForm.MARKDOWN in forms:
        _write_pictures(folder, pictures or {})
    return [
        put_file(
            folder,
            file_name(name, day, form.ending),
            paper_bytes(markdown, title, day, form, pictures, one_page=one_page),
        )
        for form in forms
    ]


def _write_pictures(folder: Path, pictures: Mapping[str, bytes]) -> None:
    made: list[Path] = []
    try:
        for place, jpeg in pictures.items():
            target = expanded(folder) / place
            if not target.exists():
                made.append(put_file(target.parent, target.name, jpeg))
    except CannotWrite:
        for path in made:
            path.unlink(missing_ok=True)
        raise
