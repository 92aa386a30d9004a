"""The lines of a change order, and the materials of the job that can be taken into it."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.change_order import ChangeOrder
from journal_tui.domain.money import money
from journal_tui.domain.text import one_line
from journal_tui.journal import changes
from journal_tui.journal.change_lists import line_words
from journal_tui.journal.change_materials import Offered, changes_since, counted, offered, trace_words
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.change_order_forms import LineForm, MaterialForm
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, pieces, spread
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine
from journal_tui.screens.next_visit import VisitNotes
from journal_tui.screens.working import Progress

_Found = tuple[ChangeOrder, list[Offered], dict[int, str]]


class OpenLine(Command):
    """Set the line right, or take the material into the order: how many, at which price."""

    id = "order_lines.open"
    name = "Set right, or take in"
    key = "enter"
    foot = "change or take"


class AddTypedLine(Command):
    """Type a line: labor, material, a sub, or a difference to an allowance."""

    id = "order_lines.add"
    name = "Type a line"
    key = "a"
    foot = "add line"


class DropLine(Command):
    """Take the line out of the order; undo brings it back."""

    id = "order_lines.drop"
    name = "Take the line out"
    key = "x"
    foot = "take out"


class OrderLinesScreen(ListingScreen):
    """The lines of a change order over the materials list of its job."""

    OWN_COMMANDS = (OpenLine, AddTypedLine, DropLine, Narrow)
    HELP = (
        "The lines of the change order at cost, and below them what the job's take-offs call for. Enter sets "
        "a line right, or takes a material in at your price; the price is kept for this job. When the "
        "measures change later, the line stays as it is and says that they did."
    )

    def __init__(self, job_id: str, order_id: str) -> None:
        super().__init__(job_id)
        self._order_id = order_id
        self._order: ChangeOrder | None = None
        self._offered: dict[str, Offered] = {}
        self._since: dict[int, str] = {}

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No lines yet.",
            "a types one. A take-off kept with the job (its measures) would list materials here.",
        )
        yield LineList()
        yield VisitNotes("…")
        yield NarrowLine()

    def reload(self) -> None:
        """Work the take-offs out again, in a thread; the list is shown when it is ready."""
        self.title_is(get_job(self.journal, self.job_id or "").name, "lines of the change order")
        order_id = self._order_id

        def do(journal: Journal, _progress: Progress) -> _Found:
            order = changes.get_order(journal, order_id)
            return order, offered(journal, order_id), changes_since(journal, order)

        self.work("lines", do)

    def work_done(self, name: str, result: object) -> None:
        if name == "lines":
            order, choices, self._since = cast(_Found, result)
            self._order = order
            self._offered = {f"material/{n}": choice for n, choice in enumerate(choices)}
            self._show(order)

    def _show(self, order: ChangeOrder) -> None:
        rows = [_heading("lines, at cost")] if order.lines else []
        rows += [
            Row(f"line/{n}", _line(n, line_words(line), line.cents, n in self._since), line.text)
            for n, line in enumerate(order.lines, 1)
        ]
        phase = None
        for key, choice in self._offered.items():
            if choice.made.phase != phase:
                phase = choice.made.phase
                rows.append(_heading(f"materials for {one_line(phase)}"))
            rows.append(Row(key, _material(choice), f"{choice.made.name} {choice.made.phase}"))
        self.lines.show(rows)
        self.lines.display = self.query_one(VisitNotes).display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        if rows and self.focused is None:
            self.lines.focus()
        self._tell()

    def on_line_list_moved(self) -> None:
        self._tell()

    def on_line_list_opened(self) -> None:
        self.action_open_line()

    @property
    def _number(self) -> int | None:
        row = self.lines.selected
        return int(row.key.removeprefix("line/")) if row and row.key.startswith("line/") else None

    @property
    def _choice(self) -> Offered | None:
        row = self.lines.selected
        return self._offered.get(row.key) if row else None

    def _tell(self) -> None:
        texts: list[str] = []
        number, choice = self._number, self._choice
        if number is not None and self._order is not None and number <= len(self._order.lines):
            line = self._order.lines[number - 1]
            texts = [line_words(line)]
            texts += [f"made from: {trace_words(line.made_from)}"] if line.made_from else []
            texts += [f"! {self._since[number]}"] if number in self._since else []
        elif choice is not None:
            texts = [f"{one_line(choice.made.name)}: {trace_words(choice.made)}"]
        self.query_one(VisitNotes).show(tuple(texts))

    def _again(self, result: object) -> None:
        if result is not None:
            with self.trying():
                self.reload()

    def action_open_line(self) -> None:
        job_id, number, choice = self.job_id or "", self._number, self._choice
        if number is not None:
            self.app.push_screen(LineForm(job_id, self._order_id, number), self._again)
        elif choice is not None:
            self.app.push_screen(MaterialForm(job_id, self._order_id, choice), self._again)

    def action_add_typed_line(self) -> None:
        self.app.push_screen(LineForm(self.job_id or "", self._order_id), self._again)

    def action_drop_line(self) -> None:
        number = self._number
        if number is None:
            self.say("Only a line of the order can be taken out.")
            return
        with self.trying():
            changes.drop_line(self.journal, self._order_id, number)
            self.reload()
            self.say("Taken out. z takes it back.")


def _heading(words: str) -> Row:
    def draw(_width: int) -> Content:
        return pieces((words, "bold $soft"))

    return Row(f"heading/{words}", draw, selectable=False)


def _line(number: int, words: str, cents: int, changed: bool) -> Callable[[int], Content]:
    mark = "! " if changed else "  "

    def draw(width: int) -> Content:
        return spread([(mark, "$care"), (f"{number}. {words}", "$ink")], [(money(cents), "$soft")], width)

    return draw


def _material(choice: Offered) -> Callable[[int], Content]:
    made = choice.made
    price = "no price yet" if choice.each is None else f"{money(choice.each)} each"
    state = f"in line {choice.line}" if choice.line else price

    def draw(width: int) -> Content:
        words = f"  {counted(made.packages, made)} {one_line(made.name)}"
        return spread([(words, "$ink")], [(state, "$chose" if choice.line else "$owed")], width)

    return draw
