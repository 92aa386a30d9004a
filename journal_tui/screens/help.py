"""F1: what the thing in use is for, and every key of the screen."""

from __future__ import annotations

import inspect
from typing import Any

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.content import Content
from textual.geometry import Size
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import EVERYWHERE
from journal_tui.screens.frame import TitleLine
from journal_tui.screens.lines import Piece, fit, pieces
from journal_tui.screens.once import Modal
from journal_tui.screens.wrapping import hanging, wrapped

_KEY_WIDTH = 9


class HelpText(Widget):
    """The help, each command's text standing under its own first word."""

    DEFAULT_CSS = "HelpText { height: auto; color: $ink; }"

    def __init__(self, about: Screen[Any]) -> None:
        super().__init__()
        self._about = about
        self._focused = about.focused
        self._commands = about.commands() if isinstance(about, JournalScreen) else ()

    def render(self) -> Content:
        return pieces(*self.parts(self.size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(pieces(*self.parts(width)).plain.splitlines())

    def parts(self, width: int) -> list[Piece]:
        """Return the help in pieces: the screen, the thing in use, the keys here, the keys everywhere."""
        parts: list[Piece] = []
        if about := getattr(self._about, "HELP", ""):
            parts.append(("\n".join(wrapped(about, width)) + "\n\n", "$ink"))
        if self._focused is not None and (said := _said_of(self._focused)):
            parts.append(("\n".join(wrapped(f"In use now: {said}", width)) + "\n\n", "$ink"))
        own = [c for c in self._commands if c not in EVERYWHERE]
        everywhere = [c for c in self._commands if c in EVERYWHERE]
        for heading, commands in (("Keys of this screen", own), ("Keys everywhere", everywhere)):
            if commands:
                parts.append((f"{heading}\n", "bold $ink"))
                for command in commands:
                    parts += _entry(command.key_shown(), command.help(), width)
                parts.append(("\n", ""))
        if not self._commands:
            return parts
        return parts + _entry("ctrl+p", "Find a command by typing a part of its name.", width)


class HelpScreen(Modal[None]):
    """What the thing in use is for, and every key of the screen it was asked on."""

    BINDINGS = [Binding("escape,f1,q", "dismiss", "Close", id="help.close")]  # noqa: RUF012
    DEFAULT_CSS = """
    HelpScreen { background: $paper; layout: vertical; }
    HelpScreen VerticalScroll { padding: 0 1; height: 1fr; scrollbar-size-vertical: 1; }
    HelpScreen #close { height: 1; padding: 0 1; background: $bench; }
    """

    def __init__(self, about: Screen[Any]) -> None:
        super().__init__()
        self._about = about

    def compose(self) -> ComposeResult:
        yield TitleLine()
        with VerticalScroll():
            yield HelpText(self._about)
        foot = pieces(
            ("esc", "bold $mark"), (" back   ", "$soft"), ("up down", "bold $mark"), (" more", "$soft")
        )
        yield Static(foot, id="close", markup=False)

    def on_mount(self) -> None:
        self.query_one(TitleLine).where = "Help"


def _entry(key: str, said: str, width: int) -> list[Piece]:
    first, *more = hanging(fit(key, _KEY_WIDTH), said, width)
    rest = "".join(f"\n{line}" for line in more)
    return [(first[:_KEY_WIDTH], "bold $mark"), (f"{first[_KEY_WIDTH:]}{rest}\n", "$soft")]


def _said_of(widget: Widget) -> str:
    said = getattr(widget, "HELP", None)
    return " ".join(inspect.cleandoc(said).split()) if isinstance(said, str) else ""
