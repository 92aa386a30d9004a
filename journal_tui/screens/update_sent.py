"""Updates that were sent: a list of them, and each as it was."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.document import SentDocument
from journal_tui.domain.times import long_day
from journal_tui.journal import updates
from journal_tui.journal.formats import usual_folder, write_sent
from journal_tui.journal.jobs import get_job
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, spread
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.update import FOLDER_QUESTION, FactsLine
from journal_tui.screens.update_commands import SENT_COMMANDS, SENT_LIST_COMMANDS
from journal_tui.screens.update_draw import page_lines, sent_lines, source_lines
from journal_tui.screens.working import WorkDone


class SentListScreen(JournalScreen):
    """The updates sent for a job, newest first."""

    OWN_COMMANDS = SENT_LIST_COMMANDS
    HELP = "The updates sent for this job, newest first. Each is kept as it was sent, word for word."
    DEFAULT_CSS = """
    SentListScreen EmptyNote { display: none; }
    SentListScreen.-empty EmptyNote { display: block; }
    SentListScreen.-empty LineList { display: none; }
    """

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No update has been sent for this job.", "esc goes back to it; f there freezes and writes it."
        )
        yield LineList()

    def reload(self) -> None:
        """Read the list."""
        job = get_job(self.journal, self.job_id or "")
        self._sent = {sent.id: sent for sent in updates.sent_updates(self.journal, job.id)}
        self.title_is(job.name, f"updates sent   {len(self._sent)}")
        self.set_class(not self._sent, "-empty")
        self.query_one(LineList).show([Row(s.id, _liner(s)) for s in self._sent.values()])

    def on_line_list_opened(self) -> None:
        self.action_open_sent()

    def action_open_sent(self) -> None:
        row = self.query_one(LineList).selected
        if row is not None:
            self.app.push_screen(SentScreen(self._sent[row.key]))


def _liner(sent: SentDocument) -> Callable[[int], Content]:
    words = len(sent.markdown.split())
    left = [(long_day(sent.sent_on), "$ink"), (f"  {sent.frozen_at.astimezone():%H:%M}", "$soft")]
    return lambda width: spread(left, [(f"{words} words   {sent.sha256[:8]}", "$soft")], width)


class SentScreen(JournalScreen):
    """An update as it was sent; ``files`` are those it was just written to."""

    OWN_COMMANDS = SENT_COMMANDS
    HELP = "An update as it was sent, word for word. It cannot be changed; its files can be written again."
    AUTO_FOCUS = "Page"

    def __init__(self, sent: SentDocument, files: Sequence[Path] = ()) -> None:
        super().__init__(sent.job_id)
        self._sent, self._files = sent, list(files)
        self._source = False

    def body(self) -> ComposeResult:
        yield FactsLine()
        yield Page()

    def reload(self) -> None:
        """Show the document."""
        job = get_job(self.journal, self._sent.job_id)
        self.title_is(job.name, "client update, sent")
        reading = updates.reading(self._sent.markdown)
        self.query_one(FactsLine).show(lambda width: sent_lines(self._sent, reading, self._files, width))
        if self._source:
            self.query_one(Page).show(lambda width: source_lines(self._sent.markdown, width))
        else:
            blocks = updates.page(self._sent.markdown)
            self.query_one(Page).show(lambda width: page_lines(blocks, width))

    def action_show_source(self) -> None:
        self._source = not self._source
        self.reload()

    def action_write_again(self) -> None:
        def answered(words: str | None) -> None:
            if words is not None and words.strip():
                target = Path(words.strip())
                self.work("write", lambda journal, _progress: write_sent(journal, self._sent, target))

        question = f"write the files again; {FOLDER_QUESTION}"
        folder = str(usual_folder(self.journal))
        self.app.push_screen(Ask(question, f"folder/{self.job_id}", folder), answered)

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if isinstance(event.result, list):
            self._files = event.result
            with self.trying():
                self.reload()
