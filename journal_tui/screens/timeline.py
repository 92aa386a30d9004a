"""A job's timeline: its visits, newest first, and what was seen, chosen and owed at each."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.entry import Entry
from journal_tui.domain.times import clock, short_day
from journal_tui.journal.course import course
from journal_tui.journal.jobs import get_job
from journal_tui.journal.visits import TimelineVisit, timeline
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.course import Course
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, spread


class TimelineScreen(JournalScreen):
    """A job's timeline."""

    OWN_COMMANDS = ()

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)

    def body(self) -> ComposeResult:
        yield Course()
        yield LineList()

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, job.address)
        self.query_one(Course).show(course(self.journal, job))
        rows: list[Row] = []
        for visit in timeline(self.journal, job.id):
            rows.append(_visit_row(visit))
            rows.extend(_entry_row(entry) for entry in visit.entries)
        self.query_one(LineList).show(rows)


def _visit_row(shown: TimelineVisit) -> Row:
    visit = shown.visit

    def draw(width: int) -> Content:
        return spread(
            [("┝━━ ", "$tick"), (short_day(visit.day), "bold $ink"), (f"  {visit.summary}", "$ink")],
            [(f"{visit.people} {clock(visit.length)}", "$soft")],
            width,
        )

    return Row(visit.id, draw)


def _entry_row(entry: Entry) -> Row:
    def draw(width: int) -> Content:
        return spread(
            [("├─ ", "$tick"), (f"{entry.kind.spoken:<6}{entry.area:<14} ", "$soft"), (entry.text, "$ink")],
            [(entry.who.value if entry.who and entry.open else "", "$owed")],
            width,
        )

    return Row(entry.id, draw)
