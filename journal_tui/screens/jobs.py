"""The jobs: every house with its open items, the one visited last on top."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.times import short_day
from journal_tui.journal.jobs import JobLine, list_jobs
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Piece, Row, fit, spread
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine


class OpenJob(Command):
    """Open the timeline of the selected job."""

    id = "jobs.open"
    name = "Open the job"
    key = "enter"
    foot = "open"


class NewJob(Command):
    """Begin a job: a house and a scope. Only the name is needed; the rest can be filled in later."""

    id = "jobs.new"
    name = "New job"
    key = "n"
    foot = "new job"


class EditJob(Command):
    """Change what is written of the selected job: name, client, address, year built, scope, private note."""

    id = "jobs.edit"
    name = "Edit the job"
    key = "e"
    foot = "edit"


class SearchAll(Command):
    """Find words in every job: in entries and in what was said."""

    id = "jobs.search"
    name = "Search every job"
    key = "s"
    foot = "search"


class JobsScreen(ListingScreen):
    """Every job."""

    HELP = "Your jobs, the one visited last on top, with what is open in each and what waits for review."
    OWN_COMMANDS = (OpenJob, NewJob, EditJob, SearchAll, Narrow)

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No job yet.",
            "Press n to begin one: a house and a scope, such as Hall bath, 12 Elm.",
            "Then log your first walk through it, recorded or typed.",
        )
        yield LineList()
        yield NarrowLine()

    def reload(self) -> None:
        jobs = list_jobs(self.journal)
        rows = [_row(line) for line in jobs]
        self.lines.show(rows)
        self.lines.display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        open_items = sum(line.open_items for line in jobs)
        self.title_is("Jobs", f"{open_items} open in {len(jobs)}" if jobs else "")

    @property
    def chosen_id(self) -> str | None:
        """The id of the selected job."""
        return self.lines.selected.key if self.lines.selected else None

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row:
            from journal_tui.screens.timeline import TimelineScreen

            self.app.push_screen(TimelineScreen(event.row.key))

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        self.job_id = event.row.key if event.row else None

    def action_open_job(self) -> None:
        self.lines.action_open()

    def action_new_job(self) -> None:
        from journal_tui.screens.job_form import JobForm

        self.app.push_screen(JobForm(None), self._formed)

    def action_edit_job(self) -> None:
        from journal_tui.screens.job_form import JobForm

        if self.chosen_id:
            self.app.push_screen(JobForm(self.chosen_id), self._formed)
        else:
            self.say("There is no job to edit yet: n begins one.")

    def _formed(self, job_id: object) -> None:
        if isinstance(job_id, str):
            self.reload()
            self.lines.select(job_id)

    def action_search_all(self) -> None:
        from journal_tui.screens.search import SearchScreen

        self.app.push_screen(SearchScreen(None))


def _row(line: JobLine) -> Row:
    job = line.job

    def draw(width: int) -> Content:
        when = short_day(line.last_day) if line.last_day else "no visit yet"
        right: list[Piece] = []
        if line.waiting_drafts:
            right.append((f"{line.waiting_drafts} to review   ", "bold $care"))
        right += [(f"{line.open_items:>3} open", "$owed" if line.open_items else "$faded")]
        right.append((f"  {fit(when, 12)}", "$soft"))
        about = ", ".join(part for part in (job.address, job.client) if part)
        left: list[Piece] = [(f"{job.name}", "bold $ink"), (f"   {about}", "$soft")]
        return spread(left, right, width)

    return Row(job.id, draw, f"{job.name} {job.address} {job.client} {job.scope}")
