"""The still of a draft, or a photo: painted in half cells where there are the colours, told in words else."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from textual import events
from textual.app import ComposeResult
from textual.color import Color
from textual.content import Content
from textual.style import Style
from textual.widget import Widget

from journal_tui.domain.errors import JournalError
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock
from journal_tui.journal.photos import Photo
from journal_tui.journal.stills import StillShown, painted
from journal_tui.screens.lines import pieces
from journal_tui.screens.once import Modal
from journal_tui.screens.wrapping import wrapped

if TYPE_CHECKING:
    from journal_tui.walkthrough.media.cells import Cell

#: From this width on a still has a pane of its own beside the draft.
WIDE = 100
_HALF = "▀"
#: Fewer columns or rows than this show nothing anyone could make out.
_LEAST_COLUMNS, _LEAST_ROWS = 12, 5

#: A picture that can be shown.
Picture = StillShown | Photo


class StillPane(Widget):
    """A still as large as the pane lets it be, and the moment it shows; or a photo."""

    HELP = "The sharpest picture near the moment the words were said. v shows it over the whole screen."
    DEFAULT_CSS = "StillPane { width: 1fr; height: 1fr; padding: 0 1; }"
    ALLOW_SELECT = False

    def __init__(self, still: Picture | None = None, aside: str = "") -> None:
        super().__init__()
        self._still = still
        self.aside = aside

    def show(self, still: Picture | None) -> None:
        """Show this still, or nothing."""
        if still != self._still:
            self._still = still
            self.refresh()

    def render(self) -> Content:
        still, width, height = self._still, self.size.width, self.size.height
        if still is None or height < 1:
            return Content("")
        if height == 1:
            return pieces(("v", "bold $mark"), (f"  shows the {_called(still)}", "$soft"))
        if not self._colours() or width < _LEAST_COLUMNS or height < _LEAST_ROWS:
            return in_words(still, width, "")
        try:
            rows = painted(still, width, height - 1)
        except JournalError as error:
            return in_words(still, width, f"{error.title}: {error.body}")
        if not rows:
            return in_words(still, width, "It cannot be shown here.")
        lines = [Content.assemble(*_runs(row)) for row in rows]
        return Content("\n").join([*lines, pieces((f"{_caption(still)}{self.aside}", "$soft"))])

    def _colours(self) -> bool:
        return self.app.console.color_system in ("256", "truecolor")


def _runs(row: tuple[Cell, ...]) -> list[tuple[str, Style]]:
    """Return a row of cells, neighbours of the same colours run together."""
    return [
        (_HALF * len(list(same)), Style(foreground=Color(*upper), background=Color(*lower)))
        for (upper, lower), same in groupby(row)
    ]


def _called(picture: Picture) -> str:
    return "photo" if isinstance(picture, Photo) else f"still of {clock(picture.moment)}"


def _caption(picture: Picture) -> str:
    if isinstance(picture, Photo):
        return f"{picture.width} by {picture.height} points"
    return f"at {clock(picture.moment)}"


def in_words(still: Picture, width: int, why: str) -> Content:
    """Return where a picture is and what it is, for where it cannot be drawn."""
    name = "Photo" if isinstance(still, Photo) else f"Still at {clock(still.moment)}"
    text = f"{name}, {still.width} x {still.height}. {why}".strip()
    lines = [*wrapped(text, max(1, width)), *wrapped(one_line(str(still.path)), max(1, width))]
    return Content("\n").join(pieces((line, "$soft")) for line in lines)


class StillView(Modal[None]):
    """A still or a photo over the whole screen; any key goes back."""

    DEFAULT_CSS = """
    StillView { background: $paper; }
    StillView StillPane { width: 100%; height: 100%; padding: 0; content-align: center middle; }
    """

    def __init__(self, still: Picture) -> None:
        super().__init__()
        self._still = still

    def compose(self) -> ComposeResult:
        yield StillPane(self._still, "   any key goes back")

    def on_key(self, event: events.Key) -> None:
        event.stop()
        self.dismiss()

    def on_click(self) -> None:
        self.dismiss()
