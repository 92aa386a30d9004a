"""The frame of every screen: a title line on top; a line for messages and long work, and the keys, below."""

from __future__ import annotations

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from journal_tui.domain.text import visible
from journal_tui.screens.commands import Command, Help
from journal_tui.screens.lines import MOST_SHOWN, Piece, literal, pieces, spread

_BAR = 10
_MOST_KEYS = 7


class TitleLine(Widget):
    """The house, what is being looked at, and the date."""

    DEFAULT_CSS = "TitleLine { dock: top; height: 1; background: $bench; color: $ink; padding: 0 1; }"
    ALLOW_SELECT = False

    where: reactive[str] = reactive("")
    what: reactive[str] = reactive("")
    right: reactive[str] = reactive("")

    def render(self) -> Content:
        left: list[Piece] = [(self.where, "bold $ink")]
        if self.what:
            left.append((f"   {self.what}" if self.where else self.what, "$soft"))
        return spread(left, [(self.right, "$soft")] if self.right else [], self.size.width)


class StatusLine(Widget):
    """Messages in words, faults with the way out, and how far long work is."""

    DEFAULT_CSS = """
    StatusLine { height: auto; min-height: 1; max-height: 5; padding: 0 1; background: $paper; color: $ink; }
    """
    ALLOW_SELECT = False

    message: reactive[Content] = reactive(Content(""), layout=True)

    def render(self) -> Content:
        return self.message

    def say(self, text: str) -> None:
        """Show a message literally."""
        self.message = pieces((visible(text[:MOST_SHOWN]), "$ink"))

    def fault(self, title: str, body: str) -> None:
        """Show what is wrong and what to do; the mark in front says so without colour."""
        title, body = visible(title[:MOST_SHOWN]), visible(body[:MOST_SHOWN])
        rest = (f"\n{body}", "$ink") if body else ("", "")
        self.message = pieces(("! ", "bold $care"), (title, "bold $care"), rest)

    def progress(self, what: str, share: float | None) -> None:
        """Show how far long work is (``share`` from 0 to 1, None when that is not known) and how to stop."""
        bar = ""
        if share is not None:
            full = round(max(0.0, min(1.0, share)) * _BAR)
            bar = f"  {'▓' * full}{'░' * (_BAR - full)} {round(share * 100)} %"
        self.message = pieces((literal(what), "$ink"), (bar, "$soft"), ("   esc stops", "$mark"))


class KeyLine(Widget):
    """The keys that matter now, as many as fit; F1 lists the rest. A click does what the key does."""

    DEFAULT_CSS = "KeyLine { dock: bottom; height: 1; background: $bench; color: $soft; padding: 0 1; }"
    ALLOW_SELECT = False

    def __init__(self, commands: tuple[type[Command], ...]) -> None:
        super().__init__()
        self._shown = [c for c in commands if c.foot and c is not Help][: _MOST_KEYS - 1]
        self._spans: list[tuple[int, int, type[Command]]] = []

    def fitting(self, width: int) -> list[type[Command]]:
        """Return the commands whose keys fit in ``width`` cells, help always among them."""
        room = width - self._length(Help)
        kept: list[type[Command]] = []
        for command in self._shown:
            room -= self._length(command) + 3
            if room < 0:
                break
            kept.append(command)
        return [*kept, Help]

    @staticmethod
    def _length(command: type[Command]) -> int:
        return cell_len(f"{command.key_shown()} {command.foot}")

    def render(self) -> Content:
        parts: list[Piece] = []
        self._spans = []
        at = 0
        for command in self.fitting(self.size.width):
            if parts:
                parts.append(("   ", ""))
                at += 3
            end = at + self._length(command)
            self._spans.append((at, end, command))
            parts += [(command.key_shown(), "bold $mark"), (f" {command.foot}", "$soft")]
            at = end
        return pieces(*parts)

    async def on_click(self, event: events.Click) -> None:
        offset = event.get_content_offset(self)
        if offset is None:
            return
        for start, end, command in self._spans:
            if start <= offset.x < end:
                await self.screen.run_action(command.action())
