"""The one line in which things are typed, kept as they are typed."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from rich.text import Text
from textual.widgets import Input

from journal_tui.journal.typed import MOST_TYPED
from journal_tui.screens.lines import literal_each

if TYPE_CHECKING:
    from journal_tui.screens.app import JournalApp


class LiteralInput(Input):
    """A line to type in whose text is shown literally: no control or direction character in it acts."""

    @property
    def _value(self) -> Text:
        # Textual writes a line's text to the terminal as it is, escape sequences and all. Every
        # character stands for one, so that the cursor stays where it is.
        return Text(literal_each(self.value), no_wrap=True, overflow="ignore", end="")


class TypingLine(LiteralInput):
    """A line to type in. What stands in it is saved at every key under ``place`` and comes back with it.

    ``place`` names the line for good, such as ``note/JOB-ID``. After the text was used for what it was
    typed for, call ``used()``.
    """

    HELP = (
        "A line to type in. It is saved at every key: leave it with esc, or lose the window, and the text is "
        "here when you come back. ctrl+u empties it."
    )
    DEFAULT_CSS = """
    TypingLine, TypingLine:focus {
        border: none; border-left: outer $tick; height: 1; padding: 0 1; background: $bench; color: $ink;
        background-tint: $bench 0%;
    }
    TypingLine:focus { border-left: outer $mark; }
    TypingLine > .input--placeholder { color: $faded; }
    """

    def __init__(self, place: str, *, value: str = "", placeholder: str = "", id: str | None = None) -> None:
        super().__init__(placeholder=placeholder, id=id, select_on_focus=False, max_length=MOST_TYPED)
        self.cursor_blink = False
        self.place = place
        #: What stands in the line when nothing was left half typed.
        self.given = value

    def on_mount(self) -> None:
        self.move_to(self.place, self.given)

    def move_to(self, place: str, given: str = "") -> None:
        """Type for another place from now on: show what was left half typed there, else ``given``."""
        self.place, self.given = place, given
        with self.prevent(Input.Changed):
            self.value = cast("JournalApp", self.app).autosave.recall(place) or given
        self.cursor_position = len(self.value)

    def restricted(self) -> None:
        """Say why what was typed or pasted is not taken."""
        say = getattr(self.screen, "say", None)
        if say is not None:
            say(f"A line holds at most {MOST_TYPED:,} characters; what was pasted is longer and not taken.")

    @property
    def unfinished(self) -> bool:
        """True when something typed here has not been used yet."""
        return self.value != self.given and bool(self.value.strip())

    def on_input_changed(self, event: Input.Changed) -> None:
        if event.input is self:
            kept = self.value if self.value != self.given else ""
            cast("JournalApp", self.app).autosave.keep(self.place, kept)

    def used(self) -> None:
        """Empty the line: its text has been saved as what it was typed for."""
        with self.prevent(Input.Changed):
            self.value = self.given = ""
        cast("JournalApp", self.app).autosave.keep(self.place, "")
