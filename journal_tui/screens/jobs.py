"""The jobs: every house with its open items, the one visited last on top."""

from __future__ import annotations

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.widgets import Static

from journal_tui.domain.job import Job
from journal_tui.domain.times import short_day
from journal_tui.journal.course import PhaseCount, course
from journal_tui.journal.jobs import JobLine, get_job, list_jobs
from journal_tui.screens.commands import Command
from journal_tui.screens.course import Course
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Piece, Row, brief, fit, pieces, spread
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine
from journal_tui.screens.ruled import NARROW


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


class JobCard(Vertical):
    """The selected job: where, for whom, what, and how far each phase is."""

    DEFAULT_CSS = """
    JobCard { height: 5; background: $paper; border-top: solid $joint; }
    JobCard Static { height: 2; padding: 0 1; color: $soft; }
    JobCard.-empty { display: none; }
    """

    def compose(self) -> ComposeResult:
        yield Static("", markup=False)
        yield Course()

    def show(self, job: Job, phases: list[PhaseCount]) -> None:
        """Show a job and its course."""
        built = f"built {job.year_built}" if job.year_built else ""
        parts = [brief(part) for part in (job.scope, job.address, built) if part]
        self.query_one(Static).update(pieces((" · ".join(parts), "$soft")))
        self.query_one(Course).show(phases)


class JobsScreen(ListingScreen):
    """Every job."""

    HELP = "Your jobs, the one visited last on top, with what is open in each and what waits for review."
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012
    DEFAULT_CSS = "JobsScreen.-low JobCard { display: none; }"
    OWN_COMMANDS = (OpenJob, NewJob, EditJob, SearchAll, Narrow)
    UNDO_TAKES_VISITS = True

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No job yet.",
            "Press n to begin one: a house and a scope, such as Hall bath, 12 Elm.",
            "Then log your first walk through it, recorded or typed.",
        )
        yield LineList()
        yield NarrowLine()
        yield JobCard()

    def reload(self) -> None:
        jobs = list_jobs(self.journal)
        name_width = max((cell_len(brief(line.job.name)) for line in jobs), default=0)
        rows = [_row(line, name_width) for line in jobs]
        self.lines.show(rows)
        self.lines.display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        open_items = sum(line.open_items for line in jobs)
        self.title_is("Jobs", f"{open_items} open in {len(jobs)} jobs" if len(jobs) > 1 else "")

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
        card = self.query_one(JobCard)
        card.set_class(self.job_id is None, "-empty")
        if self.job_id:
            with self.trying():
                job = get_job(self.journal, self.job_id)
                card.show(job, course(self.journal, job))

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


def _row(line: JobLine, name_width: int) -> Row:
    job = line.job

    def draw(width: int) -> Content:
        wide = width >= NARROW
        when = short_day(line.last_day) if line.last_day else "no visit yet"
        right: list[Piece] = []
        if line.waiting_drafts:
            right.append((f"  {line.waiting_drafts} to review", "bold $care"))
        right.append((f" {line.open_items:>3} open", "$owed" if line.open_items else "$faded"))
        if wide:
            right.append((f"  {fit(when, 12)}", "$soft"))
        name = fit(job.name, min(name_width, width // 2)) if wide else job.name
        left: list[Piece] = [(name, "bold $ink")]
        if wide:
            left.append((f"  {job.client}", "$soft"))
        return spread(left, right, width)

    return Row(job.id, draw, f"{job.name} {job.address} {job.client} {job.scope}")
