"""Search as you type, over entries and over all that was said."""

from __future__ import annotations

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.timer import Timer
from textual.widgets import Input

from journal_tui.domain.times import clock
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.searching import Hit, search
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Piece, Row, fit, marked, pieces, spread
from journal_tui.screens.ruled import KIND_WIDTH, NARROW, day_shown
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.working import Progress

#: How long typing must rest before the search begins, in seconds.
_REST = 0.1
_MOST = 100


class OpenHit(Command):
    """Open the visit where it was kept or said, at that place."""

    id = "search.open"
    name = "Open the visit there"
    key = "enter"
    foot = "open"


class OtherWords(Command):
    """Go back to the line and search for other words."""

    id = "search.words"
    name = "Other words"
    key = "slash"
    foot = "other words"


class SearchLine(TypingLine):
    """The line in which words to find are typed."""

    HELP = "Type words to find, whole or only begun, in any order. Up and down pick a line, enter opens it."
    BINDINGS = [  # noqa: RUF012
        Binding("up", "walk(-1)", "Up", show=False, id="search.up"),
        Binding("down", "walk(1)", "Down", show=False, id="search.down"),
        Binding("pageup", "leap(-1)", "Page up", show=False, id="search.page_up"),
        Binding("pagedown", "leap(1)", "Page down", show=False, id="search.page_down"),
    ]

    def __init__(self, place: str, *, placeholder: str = "") -> None:
        super().__init__(place, placeholder=placeholder)
        # The words of last time stand there still; typing takes their place.
        self.select_on_focus = True

    def action_walk(self, by: int) -> None:
        self.screen.query_one(LineList).action_step(by)

    def action_leap(self, by: int) -> None:
        self.screen.query_one(LineList).action_page(by)


class SearchScreen(JournalScreen):
    """Find words in one job, or in all when ``job_id`` is None."""

    HELP = "Entries that hold every word come first, then words said in recordings; the newest on top."
    OWN_COMMANDS = (OpenHit, OtherWords)
    AUTO_FOCUS = "SearchLine"

    def __init__(self, job_id: str | None) -> None:
        super().__init__(job_id)
        self._resting: Timer | None = None
        self._hits: dict[str, Hit] = {}

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "Type what you are looking for.",
            "Words may be begun only, in any order: valve tub finds every tub valve.",
            "Entries and everything said in recordings are searched.",
        )
        yield LineList()
        yield SearchLine(f"search/{self.job_id or 'all'}", placeholder="words to find")

    def reload(self) -> None:
        where = get_job(self.journal, self.job_id).name if self.job_id else "All jobs"
        self.title_is(where, "search")
        self._look()

    def on_input_changed(self, event: Input.Changed) -> None:
        if self._resting is not None:
            self._resting.stop()
        self._resting = self.set_timer(_REST, self._look)

    def _look(self) -> None:
        words, job_id = self.query_one(SearchLine).value, self.job_id

        def look(journal: Journal, _progress: Progress) -> object:
            return words, search(journal, words, job_id=job_id, limit=_MOST)

        self.work("search", look)

    def work_done(self, name: str, result: object) -> None:
        if isinstance(result, tuple):
            words, hits = result
            if words == self.query_one(SearchLine).value:
                self._show(words, hits)

    def _show(self, words: str, hits: list[Hit]) -> None:
        self._hits = {f"{'entry' if hit.kind else 'said'}/{hit.id}/{hit.visit_id}": hit for hit in hits}
        lines, empty = self.query_one(LineList), self.query_one(EmptyNote)
        lines.display, empty.display = bool(words.strip()), not words.strip()
        rows: list[Row] = []
        for heading, wanted in (("kept", True), ("said", False)):
            found = {key: hit for key, hit in self._hits.items() if bool(hit.kind) is wanted}
            if found:
                most = " newest" if len(found) == _MOST else ""
                rows.append(_heading(f"{heading}: {len(found)}{most}"))
                rows += [self._row(key, hit, words) for key, hit in found.items()]
        lines.show(rows)
        self.say("" if rows or not words.strip() else "No entry and nothing said holds all of these words.")

    def _row(self, key: str, hit: Hit, words: str) -> Row:
        today = self.journal.today()
        many = self.job_id is None

        def draw(width: int) -> Content:
            left: list[Piece] = [(fit(day_shown(hit.day, today), 11 if width < NARROW else 15), "$soft")]
            if hit.kind:
                left.append((f"{hit.kind.spoken:<{KIND_WIDTH}}", "$soft"))
                if width >= NARROW:
                    left.append((f"{fit(hit.area, 12)} ", "$soft"))
            else:
                said_at = clock(hit.start) if hit.start is not None else ""
                left.append((f"{said_at:>6}  ", "$faded"))
            room = width - sum(cell_len(text) for text, _style in left) - (20 if many else 0)
            found = marked(hit.text, words, room, "$ink", "bold underline $mark")
            right: list[Piece] = (
                [(f"  {fit(hit.job_name, 18)}", "$faded")] if many and width >= NARROW else []
            )
            return spread([*left, *found], right, width)

        return Row(key, draw, hit.text)

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        self._open(event.row.key if event.row else "")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        chosen = self.query_one(LineList).selected
        self._open(chosen.key if chosen else "")

    def _open(self, key: str) -> None:
        hit = self._hits.get(key)
        if hit is None:
            self.say("Type words that are found, then enter opens the line.")
            return
        from journal_tui.screens.visit import VisitScreen

        self.app.push_screen(VisitScreen(hit.job_id, hit.visit_id, hit.id if hit.kind else hit.start))

    def action_open_hit(self) -> None:
        self.query_one(LineList).action_open()

    def action_other_words(self) -> None:
        self.query_one(SearchLine).focus()


def _heading(text: str) -> Row:
    return Row(f"heading/{text}", lambda _width: pieces((text, "bold $soft")), selectable=False)
