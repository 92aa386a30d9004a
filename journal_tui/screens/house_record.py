"""The record of a house: what is behind its surfaces, and the closing file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from textual.app import ComposeResult

from journal_tui.domain.reading import client_heading
from journal_tui.journal import paper_forms
from journal_tui.journal.formats import usual_folder
from journal_tui.journal.house_record import freeze_record, record_markdown
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import write_paper
from journal_tui.journal.stills import pictures_for_client
from journal_tui.journal.updates import page
from journal_tui.journal.writing import checked_folder
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.form import Field, FormScreen
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.update import FOLDER_QUESTION
from journal_tui.screens.update_draw import page_lines
from journal_tui.screens.working import Progress, WorkDone


class AddWork(Command):
    """Put something behind a surface on record, with its distance from points that stay."""

    id = "record.work"
    name = "Add hidden work"
    key = "n"
    foot = "hidden work"


class AddFinish(Command):
    """Put a finish on record: what it is, its lot, how to care for it, how long its warranty runs."""

    id = "record.finish"
    name = "Add a finish"
    key = "a"
    foot = "finish"


class ClosingFile(Command):
    """See the closing file with finishes, care, warranties and acceptance, or the hidden work alone."""

    id = "record.closing"
    name = "Closing file or hidden work"
    key = "c"
    foot = "closing file"


class FreezeRecord(Command):
    """Keep the record as it stands today and write it to a folder."""

    id = "record.freeze"
    name = "Freeze and write files"
    key = "f"
    foot = "freeze & write"


class WorkForm(FormScreen):
    """Something behind a surface."""

    HELP = (
        "What is behind a wall, floor or ceiling, and how far from one or two points that will still be "
        "there in twenty years: a jamb, a corner, the finished floor. Lengths as on a tape."
    )

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self.place = f"record-work/{job_id}"

    def fields(self) -> Sequence[Field]:
        return (
            Field("surface", "behind", "", "long wall"),
            Field("what", "what", "", "blocking for the grab bar"),
            Field("size", "size", "", "2x8"),
            Field("from_a", "from", "", "the door jamb"),
            Field("length_a", "how far", "", "34 1/2 in"),
            Field("from_b", "and from", "", "the floor"),
            Field("length_b", "how far", "", "33 in"),
            Field("seen", "seen", "", "today unless you say"),
            Field("covered", "covered", "", "the day it was covered, when it is"),
        )

    def reload(self) -> None:
        self.title_is("Hidden work")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_work(self.journal, self.job_id or "", values)
        return self.job_id


class FinishForm(FormScreen):
    """Something the house was finished with."""

    HELP = "A finish, told without its maker: what is needed to match a piece later and to keep it well."

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self.place = f"record-finish/{job_id}"

    def fields(self) -> Sequence[Field]:
        return (
            Field("area", "where", "", "floor"),
            Field("what", "what", "", "hex tile"),
            Field("description", "looks", "", "white porcelain, one inch, matte"),
            Field("lot", "lot", "", "C12; one box left in the basement"),
            Field("care", "care", "", "wipe with water and mild soap"),
            Field("placed", "put in", "", "the day it was put in"),
            Field("warranty", "warranty to", "", "such as 2036-03-12"),
        )

    def reload(self) -> None:
        self.title_is("A finish")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_finish(self.journal, self.job_id or "", values)
        return self.job_id


class RecordScreen(JournalScreen):
    """The record of a house as its owner reads it."""

    OWN_COMMANDS = (AddWork, AddFinish, ClosingFile, FreezeRecord)
    HELP = (
        "What the house should remember: what is behind each surface, where, and how it was tested; in the "
        "closing file also what it was finished with and who accepted it. Names and codes are never in it."
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

    def _again(self, result: object) -> None:
        if result is not None:
            with self.trying():
                self.reload()

    def action_add_work(self) -> None:
        self.app.push_screen(WorkForm(self.job_id or ""), self._again)

    def action_add_finish(self) -> None:
        self.app.push_screen(FinishForm(self.job_id or ""), self._again)

    def action_closing_file(self) -> None:
        self._whole = not self._whole
        with self.trying():
            self.reload()

    def action_freeze_record(self) -> None:
        job_id, closing = self.job_id or "", self._whole

        def answered(words: str | None) -> None:
            if words is not None and words.strip():
                folder = Path(words.strip())

                def do(journal: Journal, _progress: Progress) -> list[Path]:
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

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if isinstance(event.result, list):
            self.say(f"Written: {event.result[0].parent}")
