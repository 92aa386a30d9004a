"""What an empty screen says: what this is, and what to do first."""

from __future__ import annotations

from textual.content import Content
from textual.widget import Widget

from journal_tui.screens.lines import Piece, pieces


class EmptyNote(Widget):
    """A few lines in the middle of an empty screen: the first says what is missing, the rest what to do."""

    DEFAULT_CSS = """
    EmptyNote { height: 1fr; content-align: left middle; padding: 0 4; background: $paper; }
    """
    ALLOW_SELECT = False

    def __init__(self, head: str, *lines: str, id: str | None = None) -> None:
        super().__init__(id=id)
        self._head, self._lines = head, lines

    def render(self) -> Content:
        parts: list[Piece] = [(self._head, "bold $ink")]
        parts += [(f"\n{line}", "$soft") for line in self._lines]
        return pieces(*parts)
