"""A crew sheet to hand on: in each form, with its pictures, as files in a folder."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.document import SentDocument
from journal_tui.domain.job import Job
from journal_tui.domain.reading import crew_heading
from journal_tui.journal.next_visit import sheet_markdown
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import PaperForm, write_paper
from journal_tui.journal.plan import PlanInputs
from journal_tui.journal.stills import named_pictures
from journal_tui.planning.visit import VisitList
from journal_tui.store import record_queries


@dataclass(frozen=True, slots=True)
class SheetPaper:
    """A crew sheet on paper: its Markdown, its title, the day it bears, and the JPEGs it names by name."""

    markdown: str
    title: str
    day: dt.date
    pictures: dict[str, bytes]

    def longer(self) -> str:
        """Return in words that its PDF is more than one page; empty when it is not."""
        from journal_tui.documents.pdf import one_page_pdf

        drawn = one_page_pdf(self.markdown, self.title, self.day, self.pictures)
        if drawn.pages == 1:
            return ""
        if drawn.without_pictures == 1:
            return "the list is one page; its pictures are on a page of their own"
        return f"it takes {drawn.pages} pages: fewer hours, or items left out, make it one"


def visit_paper(journal: Journal, visit: VisitList, inputs: PlanInputs) -> SheetPaper:
    """Return the crew sheet of a visit on paper, dated the day of the visit."""
    return _paper(journal, inputs.job, sheet_markdown(journal, visit, inputs), visit.day)


def frozen_paper(journal: Journal, job: Job, sheet: SentDocument) -> SheetPaper:
    """Return a frozen crew sheet on paper, dated the day it was frozen.

    A picture that is gone, or that the crew may no longer see, is left out of it.
    """
    return _paper(journal, job, sheet.markdown, sheet.sent_on)


def _paper(journal: Journal, job: Job, markdown: str, day: dt.date) -> SheetPaper:
    seen = record_queries.pictures_for_crew(journal.store, job.id)
    pictures = named_pictures(journal, (h for hashes in seen.values() for h in hashes), markdown)
    return SheetPaper(markdown, f"{crew_heading(job.name, job.client)}, crew sheet", day, pictures)


def write_sheet(paper: SheetPaper, folder: Path, forms: Sequence[PaperForm] = (*PaperForm,)) -> list[Path]:
    """Write a crew sheet to ``folder`` in each of ``forms``; return the files. Raises ``CannotWrite``."""
    name = paper.title
    return write_paper(
        folder, paper.markdown, paper.title, name, paper.day, forms, paper.pictures, one_page=True
    )
