"""The record of a house as its owner reads it: previewed, frozen and written."""

from __future__ import annotations

from pathlib import Path

from textual.app import ComposeResult

from journal_tui.domain.reading import client_heading
from journal_tui.journal.formats import usual_folder
from journal_tui.journal.house_record import freeze_record, record_markdown
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import write_paper
from journal_tui.journal.stills import pictures_for_client
from journal_tui.journal.updates import page
from journal_tui.journal.writing import checked_folder
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.record_commands import ClosingFile, FreezeRecord
from journal_tui.screens.update import FOLDER_QUESTION
from journal_tui.screens.update_draw import page_lines
from journal_tui.screens.working import Progress


class RecordPage(JournalScreen):
    """The record of a house as its owner reads it."""

    OWN_COMMANDS = (ClosingFile, FreezeRecord)
    HELP = (
        "The record as whoever owns the house reads it. The closing file has, besides what is hidden, what "
        "it was finished with and who accepted it. Names and codes are never in it; photos are in the files."
    )
    AUTO_FOCUS = "Page"

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._whole = False

    def body(self) -> ComposeResult:
        yield Page()

    def reload(self) -> None:
        """Show the record."""
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, "closing file" if self._whole else "hidden work")
        blocks = page(record_markdown(self.journal, job, closing=self._whole))
        self.query_one(Page).show(lambda width: page_lines(blocks, width))

    def action_closing_file(self) -> None:
        self._whole = not self._whole
        with self.trying():
            self.reload()
            self.say("The closing file." if self._whole else "The hidden work alone.")

    def action_freeze_record(self) -> None:
        job_id, closing = self.job_id or "", self._whole

        def answered(words: str | None) -> None:
            if words is not None and words.strip():
                folder = Path(words.strip())

                def do(journal: Journal, progress: Progress) -> list[Path]:
                    progress("writing the files", None)
                    checked_folder(folder)
                    sent = freeze_record(journal, get_job(journal, job_id), closing=closing)
                    title = f"{client_heading(get_job(journal, job_id).name)}, record"
                    pictures = pictures_for_client(journal, job_id, sent.markdown)
                    return write_paper(folder, sent.markdown, title, title, sent.sent_on, pictures=pictures)

                self.work("freeze", do)

        folder = str(usual_folder(self.journal))
        self.app.push_screen(
            Ask(f"freeze and write; {FOLDER_QUESTION}", f"folder/{job_id}", folder), answered
        )

    def work_done(self, name: str, result: object) -> None:
        if isinstance(result, list):
            self.say(f"Written: {result[0].parent}")
