"""A screen that asks for a line, does something with it, and says what came of it once all is read anew."""

from __future__ import annotations

from collections.abc import Callable

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.picker import Ask


class AnsweringScreen(JournalScreen):
    """Asks and says. Call ``tell_said`` when what was asked for has been read again."""

    def __init__(self, job_id: str | None = None) -> None:
        super().__init__(job_id)
        self.said = ""

    def ask(self, what: str, place: str, then: Callable[[str], str]) -> None:
        """Ask for a line, kept under ``place`` while typed; do ``then``, read anew, say what it gives."""

        def got(text: str | None) -> None:
            if text is not None:
                with self.trying():
                    self.said = then(text)
                    self.reload()

        self.app.push_screen(Ask(what, f"{place}/{self.job_id}"), got)

    def filled_in(self, said: object) -> None:
        """Take what a form gives back, to be said."""
        if isinstance(said, str):
            self.said = said

    def tell_said(self) -> None:
        """Say what came of the last answer."""
        if self.said:
            self.say(self.said)
            self.said = ""
