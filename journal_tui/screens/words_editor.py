"""A few lines to edit an entry's words in, saved at every key."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from textual import events
from textual.message import Message
from textual.widgets import TextArea

from journal_tui.screens.literal_area import LiteralArea

if TYPE_CHECKING:
    from journal_tui.screens.app import JournalApp


class WordsEditor(LiteralArea):
    """The words of a draft while they are edited: enter takes them, esc leaves them for later."""

    HELP = (
        "The words of the draft. They are saved at every key: leave with esc, or lose the window, and they "
        "are here when you come back. Enter takes them."
    )
    DEFAULT_CSS = """
    WordsEditor, WordsEditor:focus {
        height: auto; min-height: 2; max-height: 6; border: none; padding: 0; margin: 0 0 1 2;
        background: $bench; color: $ink; scrollbar-size-vertical: 1;
    }
    """

    class Taken(Message):
        """The words were finished with enter."""

        def __init__(self, words: str) -> None:
            super().__init__()
            self.words = words

    class Left(Message):
        """The editor was left; what was typed is kept."""

    def __init__(self, place: str, words: str) -> None:
        super().__init__(soft_wrap=True, show_line_numbers=False, tab_behavior="focus")
        self.cursor_blink = False
        self.highlight_cursor_line = False
        self.place, self._given = place, words

    def on_mount(self) -> None:
        kept = cast("JournalApp", self.app).autosave.recall(self.place)
        with self.prevent(TextArea.Changed):
            self.text = kept or self._given
        self.move_cursor(self.document.end)

    @property
    def unfinished(self) -> bool:
        """True when what is typed is not what the draft says."""
        return self.text != self._given

    def on_text_area_changed(self) -> None:
        kept = self.text if self.unfinished else ""
        cast("JournalApp", self.app).autosave.keep(self.place, kept)

    async def on_key(self, event: events.Key) -> None:
        if event.key in ("enter", "escape"):
            event.stop()
            event.prevent_default()
            self.post_message(self.Taken(self.text) if event.key == "enter" else self.Left())
