"""Choosing an area by typing a few letters of it, or naming a new one."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.widgets import Input, Static

from journal_tui.journal.searching import holds_all
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, cut, pieces
from journal_tui.screens.once import Modal

_MOST_LINES = 8
_NEW = "new/"


class AreaPicker(Modal[str | None]):
    """The areas of the job, narrowed as you type; enter takes the marked one, esc leaves it as it is."""

    HELP = "Type a few letters of an area, or a new one. Up and down mark, enter takes, esc leaves it."
    DEFAULT_CSS = """
    AreaPicker { align: left bottom; background: transparent; layout: vertical; }
    AreaPicker Static { width: 100%; height: 1; background: $bench; color: $ink; padding: 0 1; }
    AreaPicker LineList { width: 100%; height: auto; max-height: 8; background: $bench; padding: 0 1; }
    AreaPicker Input, AreaPicker Input:focus {
        width: 100%; border: none; height: 1; padding: 0 1; background: $bench; color: $ink;
        background-tint: $bench 0%;
    }
    """
    BINDINGS = [Binding("escape", "leave", "Leave as it is", id="area.leave")]  # noqa: RUF012

    def __init__(self, areas: Sequence[str], current: str) -> None:
        super().__init__()
        self._areas, self._current = list(areas), current

    def compose(self) -> ComposeResult:
        words = ("area?   ", "bold $ink"), ("type a few letters, ", "$soft"), ("enter", "bold $mark")
        yield Static(pieces(*words, (" takes the marked one, ", "$soft"), ("esc", "bold $mark"),
                            (" as it is", "$soft")), markup=False)  # fmt: skip
        yield LineList()
        line = Input(select_on_focus=False)
        line.cursor_blink = False
        yield line

    def on_mount(self) -> None:
        self.query_one(LineList).can_focus = False
        self.query_one(Input).focus()
        self._narrow("")

    def on_input_changed(self, event: Input.Changed) -> None:
        self._narrow(event.value)

    def _narrow(self, typed: str) -> None:
        found = [area for area in self._areas if holds_all(area, typed)]
        found.sort(key=lambda area: not area.casefold().startswith(typed.strip().casefold()))
        rows = [Row(area, _drawn(area, " (now)" if area == self._current else "")) for area in found]
        new = " ".join(typed.split())
        if new and new.casefold() not in (area.casefold() for area in self._areas):
            rows.append(Row(_NEW + new, _drawn(new, " (new)")))
        lines = self.query_one(LineList)
        lines.styles.height = max(1, min(_MOST_LINES, len(rows)))
        lines.show(rows, select=rows[0].key if rows else None)

    def on_key(self, event: events.Key) -> None:
        line = self.query_one(Input)
        if self.focused is not line and event.character and event.is_printable:
            # Typed before the line could take it.
            event.stop()
            line.value += event.character
            line.cursor_position = len(line.value)
        elif event.key in ("up", "down"):
            event.stop()
            self.query_one(LineList).action_step(-1 if event.key == "up" else 1)

    def on_input_submitted(self) -> None:
        chosen = self.query_one(LineList).selected
        self.dismiss(chosen.key.removeprefix(_NEW) if chosen else None)

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        self.dismiss(event.row.key.removeprefix(_NEW) if event.row else None)

    def action_leave(self) -> None:
        self.dismiss(None)


def _drawn(area: str, note: str) -> Callable[[int], Content]:
    return lambda width: pieces((cut(area, width - len(note)), "$ink"), (note, "$soft"))
