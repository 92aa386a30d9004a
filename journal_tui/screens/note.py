"""Typing entries, one thing a line, with what each would become shown above it."""

from __future__ import annotations

import datetime as dt

from textual.app import ComposeResult
from textual.content import Content
from textual.reactive import reactive
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import Input

from journal_tui.domain.draft import Draft
from journal_tui.domain.times import short_day
from journal_tui.journal.entries import typed_record
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import last_people, note, preview_note
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row
from journal_tui.screens.ruled import draft_line, entry_line
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.working import Progress

#: How long typing must rest before the line is drafted, in seconds.
_REST = 0.12


class BackToLine(Command):
    """Go on typing."""

    id = "note.type"
    name = "Go on typing"
    key = "t"
    foot = "type"


class OpenEntry(Command):
    """Open the selected entry to set it right."""

    id = "note.open"
    name = "Open the entry"
    key = "enter"
    foot = "open"


class WouldBe(Widget):
    """What the line being typed would become."""

    DEFAULT_CSS = """
    WouldBe { height: 2; padding: 0 1; background: $paper; color: $soft; border-top: solid $joint; }
    """
    ALLOW_SELECT = False

    drafts: reactive[tuple[Draft, ...]] = reactive(())

    def render(self) -> Content:
        if not self.drafts:
            return Content.assemble(("what the line would become is shown here as you type", "$faded"))
        return draft_line(self.drafts[0], self.size.width)


class NoteScreen(JournalScreen):
    """Entries typed on ``day`` (today when None), with ``people`` there (as at the last visit when None)."""

    HELP = (
        "Type what you saw, what was chosen, what is owed: one thing a line, as you would say it. Enter "
        "saves the line; ctrl+z takes back the last one. Kind, phase, area and whose move it is come from "
        "the words."
    )
    OWN_COMMANDS = (BackToLine, OpenEntry)
    AUTO_FOCUS = "TypingLine"
    TYPES_AT_ONCE = True

    def __init__(self, job_id: str, day: dt.date | None = None, people: str | None = None) -> None:
        super().__init__(job_id)
        self._day, self._people = day, people
        self._resting: Timer | None = None

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "Type what you saw, chose or owe, one thing a line.",
            "Such as: the joist under the tub is notched",
            "or: need a longer valve stem, tub wall",
        )
        yield LineList()
        yield WouldBe()
        yield TypingLine(f"note/{self.job_id}", placeholder="what you saw, chose or owe")

    @property
    def day(self) -> dt.date:
        """The day the entries are of."""
        return self._day or self.journal.today()

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, f"typed, {short_day(self.day)}")
        record = typed_record(self.journal, job.id, self.day)
        entries = record.entries if record else ()
        items = record.items if record else {}
        rows = [
            Row(e.id, lambda width, e=e: entry_line(e, items.get(e.id), width), e.text)  # type: ignore[misc]
            for e in entries
        ]
        lines = self.query_one(LineList)
        lines.show(rows)
        lines.display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        self._look_soon()

    # Typing --------------------------------------------------------------------------------------

    def on_input_changed(self, event: Input.Changed) -> None:
        self._look_soon()

    def _look_soon(self) -> None:
        if self._resting is not None:
            self._resting.stop()
        self._resting = self.set_timer(_REST, self._look)

    def _look(self) -> None:
        text = self.query_one(TypingLine).value
        if not text.strip():
            self.query_one(WouldBe).drafts = ()
            return
        job_id = self.job_id or ""

        def look(journal: Journal, _progress: Progress) -> object:
            return text, preview_note(journal, job_id, text)

        self.work("preview", look)

    def work_done(self, name: str, result: object) -> None:
        if isinstance(result, tuple):
            text, drafts = result
            if text == self.query_one(TypingLine).value:
                self.query_one(WouldBe).drafts = drafts

    def on_input_submitted(self, event: Input.Submitted) -> None:
        with self.trying():
            people = last_people(self.journal, self.job_id or "") if self._people is None else self._people
            saved = note(self.journal, self.job_id or "", event.value, day=self.day, people=people)
            self.query_one(TypingLine).used()
            self.query_one(WouldBe).drafts = ()
            self.reload()
            self.query_one(LineList).select(saved[-1].id)
            self.say("Saved. ctrl+z takes it back.")

    def action_back_to_line(self) -> None:
        self.query_one(TypingLine).focus()

    def action_open_entry(self) -> None:
        self.query_one(LineList).action_open()

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row:
            from journal_tui.screens.entry import EntryScreen

            self.app.push_screen(EntryScreen(self.job_id or "", event.row.key))
