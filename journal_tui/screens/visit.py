"""One visit in full: all that was said, with the entries kept from it at the moment they were said."""

from __future__ import annotations

from functools import partial

from textual.app import ComposeResult

from journal_tui.domain.entry import Entry
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.times import clock
from journal_tui.journal.entries import VisitRecord, visit_record
from journal_tui.journal.jobs import get_job
from journal_tui.journal.review import SaidLine
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine
from journal_tui.screens.ruled import day_shown, entry_line, said_line
from journal_tui.screens.wrapping import wrapped


class OpenEntry(Command):
    """Open the selected entry with the words it rests on."""

    id = "visit.open"
    name = "Open the entry"
    key = "enter"
    foot = "open"


class ReviewVisit(Command):
    """Go over the drafts made from this visit, also those kept or dropped before."""

    id = "visit.review"
    name = "Review its drafts"
    key = "r"
    foot = "review"


class EditVisit(Command):
    """Change the visit's day, who was there, or what it was about."""

    id = "visit.edit"
    name = "Edit the visit"
    key = "e"
    foot = "edit"


class OnlyEntries(Command):
    """Show only the entries, or again all that was said between them."""

    id = "visit.only_entries"
    name = "Only entries, or all that was said"
    key = "o"
    foot = "only entries"


class VisitScreen(ListingScreen):
    """One visit in full; ``at`` is the entry's id, or the moment (seconds), to stand at."""

    HELP = "All that was said at this visit, in order, and each entry under the words it was kept from."
    OWN_COMMANDS = (OpenEntry, ReviewVisit, EditVisit, OnlyEntries, Narrow)

    def __init__(self, job_id: str, visit_id: str, at: str | float | None = None) -> None:
        super().__init__(job_id)
        self.visit_id = visit_id
        self._stand_at = at
        self._only_entries = False
        self._entries: set[str] = set()
        self._laid_out_for = 0

    def body(self) -> ComposeResult:
        yield EmptyNote("Nothing was kept of this visit yet.", "Press r to review the drafts made from it.")
        yield LineList()
        yield NarrowLine()

    def reload(self) -> None:
        record = visit_record(self.journal, self.visit_id)
        visit = record.visit
        job = get_job(self.journal, visit.job_id)
        length = f", {clock(visit.length)}" if visit.length else ""
        what = ", ".join(x for x in (visit.summary, visit.people) if x)
        self.title_is(job.name, f"{day_shown(visit.day, self.journal.today())}{length}   {what}", "")
        rows = self._rows(record)
        self._entries = {entry.id for entry in record.entries}
        self.lines.display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        self.lines.show(rows, select=self._row_at(record))
        self._stand_at = None

    def _rows(self, record: VisitRecord) -> list[Row]:
        said = () if self._only_entries else record.said
        self._laid_out_for = self.size.width
        rows: list[Row] = []
        waiting = list(record.entries)
        for number, line in enumerate(said):
            rows += _said_rows(number, line, record, self.size.width - 12)
            after = said[number + 1].start if number + 1 < len(said) else None
            while waiting and waiting[0].end is not None and (after is None or waiting[0].end <= after):
                entry = waiting.pop(0)
                rows.append(_entry_row(entry, record.items.get(entry.id)))
        rows += [_entry_row(entry, record.items.get(entry.id)) for entry in waiting]
        return rows

    def on_resize(self) -> None:
        if self.is_mounted and self._laid_out_for != self.size.width:
            with self.trying():
                self.reload()

    def _row_at(self, record: VisitRecord) -> str | None:
        if isinstance(self._stand_at, str):
            return self._stand_at
        if self._stand_at is None:
            return None
        moment = self._stand_at
        return next((f"said/{n}" for n, line in enumerate(record.said) if line.start >= moment), None)

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row and event.row.key in self._entries:
            from journal_tui.screens.entry import EntryScreen

            self.app.push_screen(EntryScreen(self.job_id or "", event.row.key))
        else:
            self.say("These are words said. The lines with a tick are entries: enter opens them.")

    def action_open_entry(self) -> None:
        self.lines.action_open()

    def action_only_entries(self) -> None:
        self._only_entries = not self._only_entries
        with self.trying():
            self.reload()

    def action_review_visit(self) -> None:
        from journal_tui.screens.review import ReviewScreen

        self.app.push_screen(ReviewScreen(self.job_id or "", self.visit_id))

    def action_edit_visit(self) -> None:
        from journal_tui.screens.visit_form import VisitForm

        self.app.push_screen(VisitForm(self.job_id or "", self.visit_id))


def _said_rows(number: int, line: SaidLine, record: VisitRecord, room: int) -> list[Row]:
    inside = any(e.start is not None and e.end is not None and line.start < e.end and line.end > e.start
                 for e in record.entries)  # fmt: skip
    marked = inside and record.timed
    return [
        Row(
            f"said/{number}" if part == 0 else f"said/{number}/{part}",
            partial(said_line, line.start if part == 0 else None, text, record.timed, marked),
            line.text,
        )
        for part, text in enumerate(wrapped(line.text, room))
    ]


def _entry_row(entry: Entry, item: PunchItem | None) -> Row:
    return Row(
        entry.id, lambda width: entry_line(entry, item, width), f"{entry.phase} {entry.area} {entry.text}"
    )
