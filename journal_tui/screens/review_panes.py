"""The panes of a review: the words said, the draft made of them, the course of drafts, the finish."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.widget import Widget

from journal_tui.domain.draft import Draft
from journal_tui.journal.review import DraftState, ReviewSummary, SaidLine
from journal_tui.screens import review_draw as draw
from journal_tui.screens.commands import Command
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import pieces
from journal_tui.screens.review_commands import REVIEW_COMMANDS

if TYPE_CHECKING:
    from journal_tui.screens.words_editor import WordsEditor


#: A key in front of what it changes, as the card draws it.
_KEYED = re.compile(r"(?:^|(?<=   ))([ekpaowth]) ")
_BY_KEY: dict[str, type[Command]] = {c.key: c for c in REVIEW_COMMANDS}


def stacked(lines: Sequence[Content]) -> Content:
    """Return lines one under the other."""
    return Content("\n").join(lines)


class DraftList(LineList):
    """The drafts; enter keeps the one in hand."""

    HELP = "The drafts in the order they were said. Up and down move, enter keeps, x drops."
    #: At once and not by a message: what is typed fast behind it must find it done.
    BINDINGS = [Binding("enter", "screen.keep_draft", "Keep", show=False, id="list.open")]  # noqa: RUF012


class ReviewCourse(Widget):
    """Every draft a tile, and in words how far the review has come."""

    HELP = "The drafts as tiles: kept, dropped and still waiting, with the one in hand marked."
    DEFAULT_CSS = "ReviewCourse { height: 1; padding: 0 1; }"
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._states: list[DraftState] = []
        self._current = 0

    def show(self, states: Sequence[DraftState], current: int) -> None:
        """Show these states with the draft at ``current`` in hand."""
        self._states, self._current = list(states), current
        self.refresh()

    def render(self) -> Content:
        words = draw.tally(self._states, self._current)
        room = self.size.width - cell_len(words) - 2
        tiles = draw.course(self._states, self._current, room)
        gap = " " * (max(0, room - tiles.cell_length) + 2 if room > 0 else 0)
        return Content.assemble(tiles, gap, (words, "$soft"))


class SaidPane(Widget):
    """What was said around the draft, along a rule; the words it rests on stand at a heavy rule."""

    HELP = "The words as they were said. A heavy rule and bold mark the ones the draft rests on."
    DEFAULT_CSS = "SaidPane { width: 1fr; height: 1fr; padding: 0 1; }"

    def __init__(self) -> None:
        super().__init__()
        self._said: list[SaidLine] = []
        self._timed = True
        self._shift = 0

    def show(self, said: Sequence[SaidLine], *, timed: bool) -> None:
        """Show these captions, the marked ones in sight."""
        self._said, self._timed, self._shift = list(said), timed, 0
        self.refresh()

    def shift(self, by: int) -> None:
        """Look ``by`` half panes further on, or back."""
        self._shift += by * max(1, self.size.height // 2)
        self.refresh()

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        self._shift += 2
        self.refresh()

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        self._shift -= 2
        self.refresh()

    def render(self) -> Content:
        if not self._said:
            return pieces(("No recording: these were typed.", "$soft"))
        width, height = self.size.width, self.size.height
        lines, marked = draw.said_lines(self._said, width, timed=self._timed)
        last = max(0, len(lines) - height)
        natural = max(0, min(marked - max(1, height // 4), last))
        top = max(0, min(natural + self._shift, last))
        self._shift = top - natural
        return stacked(lines[top : top + height])


class DraftText(Widget):
    """What the draft says, and everything about it that a key, or a click on it, can change."""

    DEFAULT_CSS = "DraftText { height: 1fr; }"

    def __init__(self) -> None:
        super().__init__()
        self._draft: Draft | None = None
        self._reason = ""
        self._unfinished = ""
        self._editing = False
        self._drawn: list[Content] = []

    def show(self, draft: Draft, reason: str, unfinished: str) -> None:
        """Show a draft, why it is not for the client, and words of it left half edited."""
        self._draft, self._reason, self._unfinished = draft, reason, unfinished
        self.refresh()

    def editing(self, on: bool) -> None:
        """Leave out the words while they are edited above."""
        self._editing = on
        self.refresh()

    async def on_click(self, event: events.Click) -> None:
        offset = event.get_content_offset(self)
        if offset is None or offset.y >= len(self._drawn):
            return
        keys = [m for m in _KEYED.finditer(self._drawn[offset.y].plain) if m.start() <= offset.x]
        if keys:
            await self.screen.run_action(_BY_KEY[keys[-1].group(1)].action())

    def render(self) -> Content:
        self._drawn = self._lines()
        return stacked(self._drawn)

    def _lines(self) -> list[Content]:
        if self._draft is None:
            return []
        width, height = self.size.width, self.size.height
        fields = draw.card_fields(self._draft, self._reason, width)
        notes = draw.card_notes(self._draft, width)
        if self._unfinished and not self._editing:
            notes = [*draw.unfinished_lines(self._unfinished, width), *notes]
        if self._editing:
            return [*fields, Content(""), *notes][:height]
        words = draw.behind_key("e", self._draft.text, width, "$ink bold")
        room = max(1, height - len(fields) - 1)
        if len(words) > room:
            words = [*words[: room - 1], pieces(("  … e shows it all", "$soft"))] if room > 1 else words[:1]
        gap = [Content("")] if height > len(words) + len(fields) else []
        spare = [Content("")] if height > len(words) + len(fields) + len(notes) + 1 else []
        return [*words, *gap, *fields, *spare, *notes][:height]


class DraftCard(Vertical):
    """The draft in hand; its words can be edited in place."""

    DEFAULT_CSS = "DraftCard { width: 1fr; height: 1fr; padding: 0 1; }"

    def __init__(self) -> None:
        super().__init__()
        self._editor: WordsEditor | None = None

    def compose(self) -> ComposeResult:
        yield DraftText()

    def show(self, draft: Draft, reason: str, unfinished: str) -> None:
        """Show a draft."""
        self.query_one(DraftText).show(draft, reason, unfinished)

    @property
    def editor(self) -> WordsEditor | None:
        """The editor of the words while it is open."""
        return self._editor

    def edit(self, place: str, words: str) -> None:
        """Open the words for editing, as they were left half edited in ``place`` if they were."""
        from journal_tui.screens.words_editor import WordsEditor

        if self.editor is None:
            self._editor = WordsEditor(place, words)
            self.mount(self._editor, before=0)
            self._editor.focus()
            self.query_one(DraftText).editing(True)

    def close_editor(self) -> None:
        """Put the editor away."""
        if self._editor is not None:
            self._editor.remove()
            self._editor = None
        self.query_one(DraftText).editing(False)


class ReviewFinish(Widget):
    """What the review came to, and where to go from here."""

    DEFAULT_CSS = "ReviewFinish { height: 1fr; padding: 0 2; }"

    def __init__(self) -> None:
        super().__init__()
        self._summary: ReviewSummary | None = None

    def show(self, summary: ReviewSummary) -> None:
        """Show this sum."""
        self._summary = summary
        self.refresh()

    def render(self) -> Content:
        if self._summary is None:
            return Content("")
        return stacked(draw.summary_lines(self._summary, self.size.width)[: self.size.height])
