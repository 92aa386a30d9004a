"""A screen whose middle is one list, narrowed by ``/`` as words are typed."""

from __future__ import annotations

from textual.widgets import Input

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.line_list import LineList
from journal_tui.screens.typing_line import LiteralInput


class Narrow(Command):
    """Show only the lines that hold the words you type. Enter keeps them, esc shows all again."""

    id = "list.narrow"
    name = "Narrow the list"
    key = "slash"
    foot = "narrow"


class NarrowLine(LiteralInput):
    """The line in which words to narrow the list by are typed."""

    HELP = "Only lines that hold every word typed here are shown. Enter keeps them, esc shows all again."
    DEFAULT_CSS = """
    NarrowLine, NarrowLine:focus {
        border: none; border-left: outer $mark; height: 1; padding: 0 1; background: $bench; color: $ink;
        background-tint: $bench 0%; display: none;
    }
    NarrowLine.shown { display: block; }
    NarrowLine > .input--placeholder { color: $faded; }
    """

    def __init__(self) -> None:
        super().__init__(placeholder="words to narrow the list by", select_on_focus=False)
        self.cursor_blink = False


class ListingScreen(JournalScreen):
    """A screen with one ``LineList`` and a ``NarrowLine`` in its ``body``; declare ``Narrow`` to offer it."""

    @property
    def lines(self) -> LineList:
        """The list."""
        return self.query_one(LineList)

    def action_narrow(self) -> None:
        line = self.query_one(NarrowLine)
        line.add_class("shown")
        self.type_into(line)

    def on_input_changed(self, event: Input.Changed) -> None:
        if isinstance(event.input, NarrowLine):
            self.lines.narrow(event.value)
            if event.value.strip():
                count = len(self.lines.rows)
                self.say(f"{count} of them" if count else "None of them holds these words.")
            else:
                self.say("")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        if isinstance(event.input, NarrowLine):
            self.lines.focus()

    def widen(self) -> bool:
        """Show every line again; False when the list was not narrowed."""
        line = self.query_one(NarrowLine)
        if not line.has_class("shown"):
            return False
        line.remove_class("shown")
        with line.prevent(Input.Changed):
            line.value = ""
        self.lines.narrow("")
        self.lines.focus()
        self.say("")
        return True

    def action_back(self) -> None:
        if not self.widen():
            super().action_back()
