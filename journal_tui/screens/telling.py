"""What a screen tells while it is open: messages, faults, and how far long work has come."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, cast

from textual.screen import Screen

from journal_tui.domain.errors import JournalError
from journal_tui.journal.opening import Journal
from journal_tui.screens.frame import StatusLine
from journal_tui.screens.working import Progress, WorkDone, WorkFailed, WorkMoved, begin

if TYPE_CHECKING:
    from journal_tui.screens.app import JournalApp


class TellingScreen(Screen[object]):
    """A screen with a status line: it says things, and runs long work that can be stopped."""

    #: The long work shown in the status line.
    _working: str | None = None

    @property
    def journal(self) -> Journal:
        """The journal, for use in the screen's own thread."""
        return self.japp.journal

    @property
    def japp(self) -> JournalApp:
        """The app."""
        return cast("JournalApp", self.app)

    def say(self, text: str) -> None:
        """Show a message in the status line, literally."""
        self.query_one(StatusLine).say(text)

    @property
    def told(self) -> str:
        """What the status line says now."""
        return self.query_one(StatusLine).message.plain

    def fail(self, error: JournalError) -> None:
        """Show what is wrong and the way out."""
        self.query_one(StatusLine).fault(error.title, error.body)

    @contextmanager
    def trying(self) -> Iterator[None]:
        """Show a ``JournalError`` raised inside instead of letting it through."""
        try:
            yield
        except JournalError as error:
            self.fail(error)

    # Long work -----------------------------------------------------------------------------------

    def work(self, name: str, do: Callable[[Journal, Progress], object]) -> None:
        """Run ``do(journal, progress)`` in a thread; see ``working.begin``."""
        begin(self, name, do)

    def on_work_moved(self, event: WorkMoved) -> None:
        self._working = event.name
        self.query_one(StatusLine).progress(event.what, event.share)

    def on_work_done(self, event: WorkDone) -> None:
        self._work_ended(event.name)
        with self.trying():
            self.work_done(event.name, event.result)

    def on_work_failed(self, event: WorkFailed) -> None:
        self._work_ended(event.name)
        self.work_failed(event.name, event.error)

    def work_done(self, name: str, result: object) -> None:
        """Use what the work called ``name`` returned."""

    def work_failed(self, name: str, error: JournalError) -> None:
        """Say that the work called ``name`` could not be done."""
        self.fail(error)

    def _work_ended(self, name: str) -> None:
        if self._working == name:
            self._working = None
            self.say("")

    def stop_work(self) -> bool:
        """Stop the long work shown in the status line; False when there is none."""
        if self._working is None:
            return False
        self.workers.cancel_group(self, self._working)
        self._working = None
        self.say("Stopped. Nothing was saved.")
        return True
