"""A page to read: lines laid out for the width there is, drawn only where they are seen."""

from __future__ import annotations

from collections.abc import Callable

from textual.content import Content
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.visual import Visual

#: Gives the lines of a page for a width in cells.
Layout = Callable[[int], list[Content]]


class Page(ScrollView, can_focus=True):
    """A page to read; arrows and page keys move it."""

    HELP = "The page as it reads. Up, down and the page keys move it; home and end go to its ends."
    DEFAULT_CSS = """
    Page { height: 1fr; background: $paper; color: $ink; overflow-x: hidden; scrollbar-size-vertical: 1; }
    """
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._layout: Layout | None = None
        self._lines: list[Content] = []
        self._width = -1

    def show(self, layout: Layout) -> None:
        """Show another page, or the same one changed; the place it is read at stays."""
        self._layout, self._width = layout, -1
        self._lay_out()

    def _lay_out(self) -> None:
        width = self.scrollable_content_region.width
        if self._layout is not None and width > 0 and width != self._width:
            self._width = width
            self._lines = self._layout(width)
            self.virtual_size = Size(width, len(self._lines))
            self.refresh()

    @property
    def text(self) -> str:
        """What the page says, line by line as laid out."""
        return "\n".join(line.plain for line in self._lines)

    def on_resize(self) -> None:
        self._lay_out()

    def watch_show_vertical_scrollbar(self) -> None:
        self.call_after_refresh(self._lay_out)

    def render_line(self, y: int) -> Strip:
        at = y + round(self.scroll_offset.y)
        width = self.scrollable_content_region.width
        if at >= len(self._lines):
            return Strip.blank(width, self.rich_style)
        strips = Visual.to_strips(
            self, self._lines[at], width, 1, self.visual_style, pad=True, apply_selection=False
        )
        return strips[0] if strips else Strip.blank(width, self.rich_style)
