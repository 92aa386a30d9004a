"""What the journal says now against the writer's own version, change by change."""

from __future__ import annotations

from collections.abc import Callable

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.document import Length
from journal_tui.journal import update_changes, updates
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.update_changes import Change, Side, rows
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, pieces, spread
from journal_tui.screens.page import Page
from journal_tui.screens.update_commands import DIFFERENCE_COMMANDS
from journal_tui.screens.working import Progress, WorkDone
from journal_tui.screens.wrapping import hanging

_STYLE = {"-": "$care", "+": "$chose", "~": "$ink", " ": "$soft"}


class DifferencesScreen(JournalScreen):
    """Every difference in a list, the selected one in full below it."""

    OWN_COMMANDS = DIFFERENCE_COMMANDS
    HELP = (
        "Where your version of the update and what the journal says now differ. Below, a line that begins "
        "with - is only in yours, one with + only in the journal's; in a line with ~ the words between [- "
        "and -] are yours and those between {+ and +} the journal's. t takes the journal's wording of the "
        "selected difference, k keeps yours; all others stay as they are. z takes that back."
    )
    DEFAULT_CSS = """
    DifferencesScreen LineList { height: 1fr; }
    DifferencesScreen Page { height: 2fr; border-top: solid $tick; }
    DifferencesScreen EmptyNote { display: none; }
    DifferencesScreen.-empty EmptyNote { display: block; }
    DifferencesScreen.-empty LineList, DifferencesScreen.-empty Page { display: none; }
    """

    def __init__(self, job_id: str, length: Length) -> None:
        super().__init__(job_id)
        self._length = length
        self._changes: list[Change] = []
        #: What was kept before each change settled here, the last at the end.
        self._before: list[tuple[str, str]] = []

    def body(self) -> ComposeResult:
        yield EmptyNote("Your version and the journal's do not differ.", "esc goes back to the update.")
        yield LineList()
        yield Page()

    def reload(self) -> None:
        """Find the differences anew, in a thread."""
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, "your version and the journal's")
        job_id, length = job.id, self._length

        def find(journal: Journal, _progress: Progress) -> list[Change]:
            draft = updates.client_update(journal, job_id, length=length)
            return update_changes.changes(journal, job_id, draft, length)

        self.work("differences", find)

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if event.name == "differences" and isinstance(event.result, list):
            self._changes = event.result
            self.set_class(not self._changes, "-empty")
            self.query_one(LineList).show(
                [Row(str(n), _liner(n, change)) for n, change in enumerate(self._changes, 1)]
            )

    def on_line_list_moved(self) -> None:
        selected = self._selected()
        if selected is not None:
            change = selected[1]
            self.query_one(Page).show(lambda width: change_lines(change, width))

    def _selected(self) -> tuple[int, Change] | None:
        row = self.query_one(LineList).selected
        number = int(row.key) if row is not None else 0
        return (number, self._changes[number - 1]) if 0 < number <= len(self._changes) else None

    def action_take_journals(self) -> None:
        self._settle(Side.JOURNAL, "Taken as the journal says it. z brings yours back.")

    def action_keep_yours(self) -> None:
        self._settle(Side.YOURS, "Kept as you have it. z takes that back.")

    def _settle(self, side: Side, told: str) -> None:
        selected = self._selected()
        if selected is None:
            return
        number, change = selected
        with self.trying():
            before = update_changes.settle(
                self.journal, self.job_id or "", number, side, self._length, seen=change
            )
            self._before.append(before)
            self.reload()
            self.say(told)

    def action_undo(self) -> None:
        if not self._before:
            super().action_undo()
            return
        with self.trying():
            update_changes.put_back(self.journal, self.job_id or "", self._before[-1], self._length)
            self._before.pop()
            self.reload()
            self.say("As it was before that.")


def _liner(number: int, change: Change) -> Callable[[int], Content]:
    words = " ".join(line for line in (change.yours or change.journal) if line.strip())
    left = [(f"{number:>3}  ", "$soft"), (f"{change.what}  ", "$ink"), (words, "$soft")]
    return lambda width: spread(left, [], width)


def change_lines(change: Change, width: int) -> list[Content]:
    """Return a difference in lines for a width in cells, readable without color."""
    lines: list[Content] = []
    for row in rows(change):
        style = _STYLE[row.sign]
        lines += [pieces((line, style)) for line in hanging(f" {row.sign} ", row.text, width - 2)]
    return lines
