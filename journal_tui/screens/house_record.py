"""The record of a house as its keeper works on it: hidden work and its tests, finishes, the acceptance."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from journal_tui.journal.house_record import get_work
from journal_tui.journal.jobs import get_job
from journal_tui.journal.record_changes import drop_finish, drop_test, drop_work, uncover
from journal_tui.journal.record_forms import save_cover
from journal_tui.journal.record_lines import FinishLine, RecordLines, TestedLine, WorkLine, record_lines
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import brief, pieces
from journal_tui.screens.listing import ListingScreen, NarrowLine
from journal_tui.screens.record_commands import RECORD_COMMANDS
from journal_tui.screens.record_draw import (
    ACCEPTANCE,
    about_acceptance,
    about_finish,
    about_test,
    about_work,
    rows_of,
)
from journal_tui.screens.ruled import day_shown
from journal_tui.screens.wrapping import wrapped

Line = WorkLine | TestedLine | FinishLine


class AboutLine(Widget):
    """All about the line in hand."""

    DEFAULT_CSS = "AboutLine { height: 5; padding: 0 1; border-top: solid $tick; }"
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._texts: list[str] = []

    def show(self, texts: list[str]) -> None:
        """Show these texts, the first as what it is."""
        self._texts = texts
        self.refresh()

    def render(self) -> Content:
        width, height = max(1, self.size.width), self.size.height
        lines = [
            pieces((row, "$ink" if at == 0 else "$soft"))
            for at, text in enumerate(self._texts)
            for row in wrapped(brief(text), width)
        ]
        return Content("\n").join(lines[:height])


class RecordScreen(ListingScreen):
    """What is on record of a job's house."""

    OWN_COMMANDS = RECORD_COMMANDS
    HELP = (
        "What the house should remember: what is behind each surface, where, and how it was tested; what it "
        "was finished with and who accepted it. Put things on record before they are covered. v shows how "
        "it reads to whoever owns the house: names and codes are never in it."
    )
    DEFAULT_CSS = """
    RecordScreen EmptyNote { display: none; }
    RecordScreen.-empty EmptyNote { display: block; }
    RecordScreen.-empty LineList, RecordScreen.-empty AboutLine { display: none; }
    RecordScreen.-low AboutLine { height: 3; }
    """
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._record: RecordLines | None = None
        self._lines: dict[str, Line] = {}

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "Nothing is on record yet.",
            "n puts on record what is behind a surface, before it is covered.",
            "a puts a finish on record: lot, care, warranty.",
            "s records that the client accepted the finished job.",
        )
        yield LineList()
        yield AboutLine()
        yield NarrowLine()

    def reload(self) -> None:
        """Read the record."""
        self._show(None)

    def _show(self, select: str | None) -> None:
        job = get_job(self.journal, self.job_id or "")
        self._record = record = record_lines(self.journal, job)
        works = [work for _surface, found in record.surfaces for work in found]
        every: list[Line] = [*works, *(t for work in works for t in work.tests), *record.finishes]
        self._lines = {line.id: line for line in every}
        self.title_is(job.name, "record of the house")
        self.set_class(not every and record.accepted is None, "-empty")
        self.lines.show(rows_of(record, self.journal.today()), select=select)
        if self.focused is None and self.lines.display:
            self.lines.focus()
        self._show_about()

    # What is in hand -------------------------------------------------------------------------------

    @property
    def here(self) -> Line | None:
        """The line in hand, None on that of the acceptance."""
        row = self.lines.selected
        return self._lines.get(row.key) if row else None

    @property
    def work_here(self) -> WorkLine | None:
        """The hidden work in hand, that of a test in hand too."""
        here = self.here
        if isinstance(here, TestedLine):
            here = self._lines[here.work_id]
        return here if isinstance(here, WorkLine) else None

    def on_line_list_moved(self) -> None:
        self._show_about()

    def _show_about(self) -> None:
        if self._record is None:
            return
        today, here = self.journal.today(), self.here
        if isinstance(here, WorkLine):
            about = about_work(here, today)
        elif isinstance(here, TestedLine):
            about = about_test(here, today)
        elif isinstance(here, FinishLine):
            about = about_finish(here, today)
        else:
            about = about_acceptance(self._record.accepted, self._record.open_items, today)
        self.query_one(AboutLine).show(about)

    # Putting on record, and setting right ---------------------------------------------------------

    def _kept(self, said: str) -> Callable[[object], None]:
        def after(line_id: object) -> None:
            if isinstance(line_id, str):
                with self.trying():
                    self._show(line_id)
                    self.say(said)

        return after

    def action_add_work(self) -> None:
        from journal_tui.screens.record_forms import WorkForm

        said = "On record. t puts a test of it on record, i attaches photos, c covers it."
        self.app.push_screen(WorkForm(self.job_id or ""), self._kept(said))

    def action_add_test(self) -> None:
        from journal_tui.screens.record_forms import WorkTestForm

        if work := self._work_in_hand("tested"):
            form = WorkTestForm(self.job_id or "", work.id, work.what)
            self.app.push_screen(form, self._kept("On record. i attaches a photo of the test."))

    def action_add_finish(self) -> None:
        from journal_tui.screens.record_forms import FinishForm

        self.app.push_screen(FinishForm(self.job_id or ""), self._kept("On record."))

    def _work_in_hand(self, done: str) -> WorkLine | None:
        work = self.work_here
        if work is None:
            self.say(f"First select what was {done}: a line behind a surface. n puts one on record.")
        return work

    def on_line_list_opened(self) -> None:
        self.action_open_line()

    def action_open_line(self) -> None:
        from journal_tui.screens.record_forms import FinishForm, WorkForm, WorkTestForm

        job_id, after = self.job_id or "", self._kept("Set right. z takes it back.")
        here = self.here
        if isinstance(here, WorkLine):
            self.app.push_screen(WorkForm(job_id, here.id), after)
        elif isinstance(here, TestedLine):
            form = WorkTestForm(job_id, here.work_id, self.work_here.what if self.work_here else "", here.id)
            self.app.push_screen(form, after)
        elif isinstance(here, FinishLine):
            self.app.push_screen(FinishForm(job_id, here.id), after)
        elif self.lines.selected and self.lines.selected.key == ACCEPTANCE:
            self.action_sign_off()

    def action_cover_work(self) -> None:
        work = self._work_in_hand("covered")
        if work is None:
            return
        if work.covered:
            with self.trying():
                uncover(self.journal, get_work(self.journal, work.id))
                self.reload()
                self.say("Not covered after all. z takes that back.")
            return
        from journal_tui.screens.picker import Ask

        def given(text: str | None) -> None:
            if text is not None:
                with self.trying():
                    day = save_cover(self.journal, work.id, text)
                    self.reload()
                    failed = f" Its {work.failed.what} did not pass yet." if work.failed else ""
                    when = day_shown(day, self.journal.today())
                    self.say(f"Covered {when}.{failed} c again takes that back.")

        self.app.push_screen(Ask("covered on which day?", f"record-cover/{work.id}", "today"), given)

    def action_show_photos(self) -> None:
        from journal_tui.screens.photos import PhotosScreen

        here = self.here
        if isinstance(here, WorkLine | TestedLine):
            self.app.push_screen(PhotosScreen(self.job_id or "", here.id))
        else:
            self.say("Photos are of what is behind a surface, and of its tests: select one of those.")

    def action_drop_line(self) -> None:
        here = self.here
        if here is None:
            self.say("Nothing here can be taken off the record.")
            return
        with self.trying():
            if isinstance(here, WorkLine):
                drop_work(self.journal, get_work(self.journal, here.id))
            elif isinstance(here, TestedLine):
                drop_test(self.journal, here.id)
            else:
                drop_finish(self.journal, here.id)
            self.reload()
            self.say("Off the record. z brings it back.")

    def action_sign_off(self) -> None:
        from journal_tui.screens.record_forms import SignOffForm

        if self._record is None:
            return
        if self._record.accepted:
            self.say("The job is accepted already. That stands.")
            return

        def after(result: object) -> None:
            if result is not None:
                with self.trying():
                    self._show(ACCEPTANCE)
                    self.say("The job is accepted. v, then c, shows the closing file.")

        self.app.push_screen(SignOffForm(self.job_id or "", self._record.open_items), after)

    def action_read_record(self) -> None:
        from journal_tui.screens.record_page import RecordPage

        self.app.push_screen(RecordPage(self.job_id or ""))
