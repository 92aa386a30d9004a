"""The crew sheet of the next visit as the crew reads it; frozen and written to files from here."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult

from journal_tui.journal.crew_papers import visit_paper, write_sheet
from journal_tui.journal.formats import usual_folder
from journal_tui.journal.jobs import get_job
from journal_tui.journal.next_visit import freeze, next_visit, visit_plan
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import PlanInputs
from journal_tui.journal.plan_text import short_head
from journal_tui.journal.updates import page
from journal_tui.journal.writing import checked_folder
from journal_tui.planning.visit import VisitList
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.update import FOLDER_QUESTION
from journal_tui.screens.update_draw import page_lines
from journal_tui.screens.working import Progress

_SHEET, _WRITE = "sheet", "write"


class FreezeAndWrite(Command):
    """Freeze the sheet with its date, and write it to a folder in every form: paper, e-mail, phone."""

    id = "sheet.write"
    name = "Freeze and write files"
    key = "f"
    foot = "freeze & write"


class CrewSheetScreen(JournalScreen):
    """The crew sheet of the visit being put together."""

    OWN_COMMANDS = (FreezeAndWrite,)
    HELP = (
        "The crew sheet as the crew reads it: no prices, no codes, nothing private. Written, its PDF is one "
        "page unless the visit is too much for one, and its pictures are inside."
    )
    AUTO_FOCUS = "Page"

    def body(self) -> ComposeResult:
        yield Page()

    def reload(self) -> None:
        """Make the sheet, in a thread."""
        job_id = self.job_id or ""
        self.title_is(get_job(self.journal, job_id).name, "crew sheet")

        def do(journal: Journal, _progress: Progress) -> tuple[str, str]:
            visit, inputs = _visit(journal, job_id)
            return short_head(visit), visit_paper(journal, visit, inputs).markdown

        self.work(_SHEET, do)

    def work_done(self, name: str, result: object) -> None:
        if name == _SHEET and isinstance(result, tuple):
            head, markdown = result
            blocks = page(markdown)
            self.title_is(get_job(self.journal, self.job_id or "").name, f"crew sheet   {head}")
            self.query_one(Page).show(lambda width: page_lines(blocks, width))
        elif name == _WRITE and isinstance(result, str):
            self.say(result)

    def action_freeze_and_write(self) -> None:
        job_id = self.job_id or ""

        def answered(words: str | None) -> None:
            if words is None or not words.strip():
                return
            folder = Path(words.strip())

            def do(journal: Journal, _progress: Progress) -> str:
                checked_folder(folder)
                visit, inputs = _visit(journal, job_id)
                paper = visit_paper(journal, visit, inputs)
                freeze(journal, visit, inputs)
                (first, *_rest) = write_sheet(paper, folder)
                longer = paper.longer()
                return f"Frozen and written: {first.parent}" + (f"; {longer}." if longer else "")

            self.work(_WRITE, do)

        folder = str(usual_folder(self.journal))
        self.app.push_screen(
            Ask(f"freeze and write; {FOLDER_QUESTION}", f"folder/{job_id}", folder), answered
        )


def _visit(journal: Journal, job_id: str) -> tuple[VisitList, PlanInputs]:
    job = get_job(journal, job_id)
    plan = visit_plan(journal, job)
    return next_visit(journal, job, plan.day, plan.hours, plan.people, plan.wish)
