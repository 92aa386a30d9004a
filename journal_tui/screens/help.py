"""F1: what the thing in use is for, and every key of the screen."""

from __future__ import annotations

import inspect

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Static

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import EVERYWHERE, Command
from journal_tui.screens.frame import TitleLine
from journal_tui.screens.lines import Piece, fit, pieces

_KEY_WIDTH = 9


class HelpScreen(ModalScreen[None]):
    """What the thing in use is for, and every key of the screen it was asked on."""

    BINDINGS = [Binding("escape,f1,q", "dismiss", "Close", id="help.close")]  # noqa: RUF012
    DEFAULT_CSS = """
    HelpScreen { background: $paper; layout: vertical; }
    HelpScreen VerticalScroll { padding: 0 1; height: 1fr; scrollbar-size-vertical: 1; }
    HelpScreen #close { height: 1; padding: 0 1; background: $bench; }
    """

    def __init__(self, about: JournalScreen) -> None:
        super().__init__()
        self._about = about
        self._focused = about.focused

    def compose(self) -> ComposeResult:
        yield TitleLine()
        with VerticalScroll():
            yield Static(pieces(*self.text()), markup=False)
        yield Static(pieces(("esc", "bold $mark"), (" back", "$soft")), id="close", markup=False)

    def on_mount(self) -> None:
        self.query_one(TitleLine).where = "Help"

    def text(self) -> list[Piece]:
        """Return the help in pieces: the screen, the thing in use, the keys here, the keys everywhere."""
        parts: list[Piece] = []
        if self._about.HELP:
            parts.append((f"{self._about.HELP}\n\n", "$ink"))
        if self._focused is not None and (said := _said_of(self._focused)):
            parts += [("In use now: ", "bold $ink"), (f"{said}\n\n", "$ink")]
        own = [c for c in self._about.commands() if c not in EVERYWHERE]
        for heading, commands in (("Keys of this screen", own), ("Keys everywhere", list(EVERYWHERE))):
            if commands:
                parts.append((f"{heading}\n", "bold $ink"))
                for command in commands:
                    parts += _entry(command)
                parts.append(("\n", ""))
        parts += [(fit("ctrl+p", _KEY_WIDTH), "bold $mark"), ("find a command by typing its name\n", "$ink")]
        return parts


def _entry(command: type[Command]) -> list[Piece]:
    return [
        (fit(command.key_shown(), _KEY_WIDTH), "bold $mark"),
        (f"{command.name}. ", "bold $ink"),
        (f"{command.help()}\n", "$soft"),
    ]


def _said_of(widget: Widget) -> str:
    said = getattr(widget, "HELP", None)
    return " ".join(inspect.cleandoc(said).split()) if isinstance(said, str) else ""
