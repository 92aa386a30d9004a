"""A list of lines that draws only what is seen, and keeps its place when the data changes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip
from textual.visual import Visual

from journal_tui.screens.lines import Row

#: How near its end the list asks for the next page, in lines.
_NEAR = 40


class LineList(ScrollView, can_focus=True):
    """A list: arrows move, enter (or a second click) opens, ``/`` narrows it where the screen offers that.

    Rows are given in pages: ``show`` replaces them, ``add`` appends the next page; ``NearEnd`` asks
    for one while ``more`` is true. The selected row is known by its key: it stays selected when rows
    come and go around it, and when it goes itself, the one that takes its place is.
    """

    HELP = "A list. Up and down move, page up and page down leap, home and end go to its ends, enter opens."
    DEFAULT_CSS = """
    LineList { height: 1fr; background: $paper; color: $ink; overflow-x: hidden; scrollbar-size-vertical: 1; }
    LineList > .line-list--chosen { background: $chosen; color: $ink; }
    """
    COMPONENT_CLASSES: ClassVar[set[str]] = {"line-list--chosen"}
    ALLOW_SELECT = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", "Up", show=False, id="list.up"),
        Binding("down", "step(1)", "Down", show=False, id="list.down"),
        Binding("pageup", "page(-1)", "Page up", show=False, id="list.page_up"),
        Binding("pagedown", "page(1)", "Page down", show=False, id="list.page_down"),
        Binding("home", "edge(0)", "First", show=False, id="list.first"),
        Binding("end", "edge(1)", "Last", show=False, id="list.last"),
        Binding("enter", "open", "Open", show=False, id="list.open"),
    ]

    class _About(Message):
        def __init__(self, lines: LineList, row: Row | None) -> None:
            super().__init__()
            self.lines, self.row = lines, row

        @property
        def control(self) -> LineList:
            """The list it is about."""
            return self.lines

    class Opened(_About):
        """A row was opened."""

    class Moved(_About):
        """Another row is selected now, or its data changed; ``row`` is None when none is."""

    class NearEnd(_About):
        """The end of the rows given so far is near: add the next page."""

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._all: list[Row] = []
        self._rows: list[Row] = []
        self._narrowed = ""
        self._at = -1
        self._asked = False
        self.more = False

    # What is shown ---------------------------------------------------------------------------

    def show(self, rows: Sequence[Row], *, more: bool = False, select: str | None = None) -> None:
        """Show these rows instead; ``select`` names the one to select, else the selected one stays."""
        wanted = select or (self.selected.key if self.selected else None)
        self._all = list(rows)
        self._lay_out(wanted, more)

    def add(self, rows: Sequence[Row], *, more: bool) -> None:
        """Append the next page of rows."""
        self._all.extend(rows)
        self._lay_out(self.selected.key if self.selected else None, more)

    def narrow(self, words: str) -> None:
        """Show only rows holding every word of ``words``; "" shows all again."""
        self._narrowed = words
        self._lay_out(self.selected.key if self.selected else None, self.more)

    def _lay_out(self, wanted: str | None, more: bool) -> None:
        from journal_tui.journal.searching import holds_all

        self.more, self._asked = more, False
        if self._narrowed.strip():
            self._rows = [r for r in self._all if r.selectable and holds_all(r.words, self._narrowed)]
        else:
            self._rows = self._all
        self.virtual_size = Size(self.size.width, len(self._rows))
        at = next((i for i, row in enumerate(self._rows) if row.key == wanted and row.selectable), None)
        self._at = at if at is not None else self._nearest(max(self._at, 0))
        self.refresh()
        self._follow()
        self._told()

    def _nearest(self, at: int) -> int:
        """Return the first selectable place from ``at`` on, else the last before it, else -1."""
        after = (i for i in range(at, len(self._rows)) if self._rows[i].selectable)
        before = (i for i in range(min(at, len(self._rows)) - 1, -1, -1) if self._rows[i].selectable)
        return next(after, next(before, -1))

    # What is selected ------------------------------------------------------------------------

    @property
    def rows(self) -> Sequence[Row]:
        """The rows shown, in order."""
        return self._rows

    @property
    def selected(self) -> Row | None:
        """The selected row."""
        return self._rows[self._at] if 0 <= self._at < len(self._rows) else None

    def select(self, key: str) -> bool:
        """Select the row called ``key``; False when it is not shown."""
        for at, row in enumerate(self._rows):
            if row.key == key and row.selectable:
                self._go(at)
                return True
        return False

    def _go(self, at: int) -> None:
        if at != self._at and 0 <= at < len(self._rows):
            self._at = at
            self.refresh()
            self._follow()
            self._told()
        self._ask_for_more()

    def _told(self) -> None:
        self.post_message(self.Moved(self, self.selected))
        self._ask_for_more()

    def _ask_for_more(self) -> None:
        seen = max(self._at, round(self.scroll_offset.y) + self.size.height)
        if self.more and not self._asked and seen + _NEAR >= len(self._rows):
            self._asked = True
            self.post_message(self.NearEnd(self, None))

    def _follow(self) -> None:
        if self._at < 0:
            return
        # A heading right above the selected row is kept in sight with it.
        above = 1 if self._at and not self._rows[self._at - 1].selectable else 0
        region = Region(0, self._at - above, max(1, self.size.width), 1 + above)
        self.scroll_to_region(region, animate=False, force=True, immediate=True)

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        super().watch_scroll_y(old_value, new_value)
        self._ask_for_more()

    # Keys and mouse --------------------------------------------------------------------------

    def action_step(self, by: int) -> None:
        at = self._at + by
        while 0 <= at < len(self._rows) and not self._rows[at].selectable:
            at += by
        if 0 <= at < len(self._rows):
            self._go(at)
        elif by < 0:
            self.scroll_to(y=0, animate=False)

    def action_page(self, by: int) -> None:
        at = max(0, min(len(self._rows) - 1, self._at + by * max(1, self.size.height - 1)))
        self._go(self._nearest(at))

    def action_edge(self, last: int) -> None:
        self._go(self._nearest(len(self._rows) if last else 0))

    def action_open(self) -> None:
        if self.selected:
            self.post_message(self.Opened(self, self.selected))

    def on_click(self, event: events.Click) -> None:
        # Counted from inside the border, which a screen may draw above its list.
        offset = event.get_content_offset(self)
        at = offset.y + round(self.scroll_offset.y) if offset is not None else -1
        if 0 <= at < len(self._rows) and self._rows[at].selectable:
            again = at == self._at
            self._go(at)
            if again:
                self.action_open()

    # Drawing ---------------------------------------------------------------------------------

    def on_resize(self) -> None:
        self.virtual_size = Size(self.size.width, len(self._rows))
        self._follow()

    def watch_show_vertical_scrollbar(self) -> None:
        # Lines drawn before it came or went are as wide as it left them.
        self.refresh()

    def render_line(self, y: int) -> Strip:
        at = y + round(self.scroll_offset.y)
        # Without the scroll bar, which ``size`` counts in.
        width = self.scrollable_content_region.width
        if at >= len(self._rows):
            return Strip.blank(width, self.rich_style)
        chosen = at == self._at
        style = self.get_visual_style("line-list--chosen") if chosen else self.visual_style
        # The mark in front says which line is selected where colour cannot.
        mark = "▸" if chosen else " "
        line = Content.assemble(
            (mark, "bold $mark" if self.has_focus else "$soft"), self._rows[at].draw(width - 2)
        )
        strips = Visual.to_strips(self, line, width, 1, style, pad=True, apply_selection=False)
        return strips[0] if strips else Strip.blank(width, self.rich_style)
