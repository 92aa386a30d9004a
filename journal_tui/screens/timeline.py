"""A job's timeline: its visits, newest first, and what was seen, chosen and owed at each."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from journal_tui.domain.entry import Entry
from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.times import short_day
from journal_tui.journal.course import course
from journal_tui.journal.entries import entry_detail
from journal_tui.journal.jobs import get_job
from journal_tui.journal.standing import Standing, standing
from journal_tui.journal.visits import TimelineVisit, timeline
from journal_tui.screens import timeline_commands as do
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.beside import Beside
from journal_tui.screens.course import Course
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Piece, Row, brief, literal, pieces
from journal_tui.screens.ruled import entry_line, readers_mark, visit_line

#: Visits read at a time; thirty entries each make a page of some 300 lines.
_PAGE = 10


class StandingLines(Widget):
    """What to do next: drafts to review, who is waited on, where the crew goes on."""

    DEFAULT_CSS = """
    StandingLines { height: auto; max-height: 3; padding: 0 1; background: $paper; border-top: solid $joint; }
    """
    ALLOW_SELECT = False

    lines: reactive[tuple[tuple[Piece, ...], ...]] = reactive((), layout=True)

    def render(self) -> Content:
        width = self.size.width
        return Content("\n").join(_cut_pieces(line, width) for line in self.lines)

    def show(self, now: Standing) -> None:
        """Show where a job stands, the most pressing first."""
        lines: list[tuple[Piece, ...]] = []
        if now.to_review:
            lines.append(
                (
                    ("r", "bold $mark"),
                    (" reviews ", "$ink"),
                    (f"{now.drafts} drafts", "bold $care"),
                    (f", beginning with {short_day(now.to_review.day)}", "$ink"),
                )
            )
        if now.waiting:
            parts: list[Piece] = [("waits on  ", "$soft")]
            for one in now.waiting:
                more = f" and {one.count - 1} more" if one.count > 1 else ""
                parts += [
                    (one.party.value, "bold $owed"),
                    (": ", "$ink"),
                    (readers_mark(one.longest.audience), "$care"),
                    (f"{brief(one.longest.text)}{more}   ", "$ink"),
                ]
            lines.append(tuple(parts))
        if now.next_item:
            where = f"{now.next_item.phase}, {now.next_item.area}: " if now.next_item.area else ""
            mark = readers_mark(now.next_item.audience)
            lines.append((("crew next ", "$soft"), (mark, "$care"), (f"{where}{now.next_item.text}", "$ink")))
        self.lines = tuple(lines[:2])


def _cut_pieces(line: tuple[Piece, ...], width: int) -> Content:
    shown = pieces(*((literal(text), style) for text, style in line))
    return shown.truncate(width, ellipsis=True) if shown.cell_length > width else shown


class TimelineScreen(JournalScreen):
    """A job's timeline."""

    HELP = (
        "What happened at this house, newest visit on top. Each short tick on the rule is one entry: saw, "
        "chose or owed, where, the words, and whose move it is; ! marks a hazard; what is closed is greyed "
        "and says when."
    )
    OWN_COMMANDS = do.TIMELINE
    UNDO_TAKES_VISITS = True
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (60, "-middle"), (100, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012
    DEFAULT_CSS = """
    TimelineScreen #middle { height: 1fr; layout: vertical; }
    TimelineScreen.-wide #middle { layout: horizontal; }
    TimelineScreen.-narrow Course { height: 1; }
    TimelineScreen.-wide Beside { height: 1fr; width: 38%; border-top: none; border-left: solid $joint; }
    TimelineScreen.-narrow Beside, TimelineScreen.-low Beside { display: none; }
    TimelineScreen.-low StandingLines { display: none; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._visits: dict[str, TimelineVisit] = {}
        self._loaded: list[TimelineVisit] = []

    def body(self) -> ComposeResult:
        yield Course()
        with Container(id="middle"):
            yield EmptyNote(
                "No visit yet.",
                "Press l to log the first one: load the captions of a recorded walk, "
                "or t to type what you see, one thing a line.",
            )
            yield LineList()
            yield Beside()
        yield StandingLines()

    # Data ----------------------------------------------------------------------------------------

    @property
    def _phase(self) -> str | None:
        return self.query_one(Course).chosen

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, job.address)
        self.query_one(Course).show(course(self.journal, job))
        self.query_one(StandingLines).show(standing(self.journal, job))
        self._read_visits(job, max(_PAGE, len(self._loaded)))

    def _read_visits(self, job: Job, limit: int) -> None:
        self._loaded = timeline(self.journal, job.id, limit=limit, phase=self._phase)
        self._visits = {shown.visit.id: shown for shown in self._loaded}
        rows = [row for shown in self._loaded for row in self._rows_of(shown)]
        lines = self.query_one(LineList)
        empty = not rows and self._phase is None
        self.query_one(EmptyNote).display = empty
        lines.display = not empty
        lines.show(rows, more=len(self._loaded) >= limit)
        if not rows:
            self.query_one(Beside).clear()

    def on_line_list_near_end(self, event: LineList.NearEnd) -> None:
        if not self._loaded:
            return
        with self.trying():
            page = timeline(
                self.journal, self.job_id or "", limit=_PAGE, before=self._loaded[-1].visit, phase=self._phase
            )
            self._loaded += page
            self._visits |= {shown.visit.id: shown for shown in page}
            event.lines.add([r for shown in page for r in self._rows_of(shown)], more=len(page) == _PAGE)

    def _rows_of(self, shown: TimelineVisit) -> list[Row]:
        today = self.journal.today()
        kept, drafts = len(shown.entries), shown.waiting_drafts
        head = Row(shown.visit.id, lambda width: visit_line(shown.visit, kept, drafts, today, width))
        return [head, *(_entry_row(entry, shown.items.get(entry.id)) for entry in shown.entries)]

    # What is selected ----------------------------------------------------------------------------

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        beside = self.query_one(Beside)
        if event.row is None or not beside.display:
            return
        today = self.journal.today()
        if event.row.key in self._visits:
            beside.show_visit(self._visits[event.row.key], today)
            return
        with self.trying():
            beside.show_entry(entry_detail(self.journal, event.row.key), today)

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row is None:
            return
        if event.row.key in self._visits:
            from journal_tui.screens.visit import VisitScreen

            self.app.push_screen(VisitScreen(self.job_id or "", event.row.key))
        else:
            from journal_tui.screens.entry import EntryScreen

            self.app.push_screen(EntryScreen(self.job_id or "", event.row.key))

    def on_course_walked(self, event: Course.Walked) -> None:
        with self.trying():
            self._read_visits(get_job(self.journal, self.job_id or ""), _PAGE)
            lines = self.query_one(LineList)
            if lines.rows:
                lines.select(lines.rows[0].key)
            if event.phase and not self._loaded:
                self.say(f"Nothing of {event.phase} at any visit yet.")
            else:
                self.say("")

    # Commands ------------------------------------------------------------------------------------

    def action_open_line(self) -> None:
        self.query_one(LineList).action_open()

    def action_next_phase(self) -> None:
        self.query_one(Course).step(1)

    def action_phase_before(self) -> None:
        self.query_one(Course).step(-1)

    def action_log_visit(self) -> None:
        from journal_tui.screens.logging import LogScreen

        self.app.push_screen(LogScreen(self.job_id or ""))

    def action_type_lines(self) -> None:
        from journal_tui.screens.note import NoteScreen

        self.app.push_screen(NoteScreen(self.job_id or ""))

    def action_punch_list(self) -> None:
        from journal_tui.screens.punch import PunchScreen

        self.app.push_screen(PunchScreen(self.job_id or ""))

    def action_schedule_plan(self) -> None:
        from journal_tui.screens.schedule import ScheduleScreen

        self.app.push_screen(ScheduleScreen(self.job_id or ""))

    def action_next_visit(self) -> None:
        from journal_tui.screens.next_visit import NextVisitScreen

        self.app.push_screen(NextVisitScreen(self.job_id or ""))

    def action_measures(self) -> None:
        from journal_tui.screens.measures import MeasuresScreen

        self.app.push_screen(MeasuresScreen(self.job_id or ""))

    def action_change_orders(self) -> None:
        from journal_tui.screens.change_orders import ChangeOrdersScreen

        self.app.push_screen(ChangeOrdersScreen(self.job_id or ""))

    def action_house_record(self) -> None:
        from journal_tui.screens.house_record import RecordScreen

        self.app.push_screen(RecordScreen(self.job_id or ""))

    def action_client_update(self) -> None:
        from journal_tui.screens.update import UpdateScreen

        self.app.push_screen(UpdateScreen(self.job_id or ""))

    def action_review_drafts(self) -> None:
        with self.trying():
            now = standing(self.journal, get_job(self.journal, self.job_id or ""))
            if now.to_review is None:
                self.say("No drafts wait for review. l logs a recorded visit and drafts from it.")
                return
            from journal_tui.screens.review import ReviewScreen

            self.app.push_screen(ReviewScreen(self.job_id or "", now.to_review.id))

    def action_search_job(self) -> None:
        from journal_tui.screens.search import SearchScreen

        self.app.push_screen(SearchScreen(self.job_id))

    def action_edit_job(self) -> None:
        from journal_tui.screens.job_form import JobForm

        self.app.push_screen(JobForm(self.job_id))

    def action_jobs(self) -> None:
        self.go_back()


def _entry_row(entry: Entry, item: PunchItem | None) -> Row:
    return Row(
        entry.id, lambda width: entry_line(entry, item, width), f"{entry.phase} {entry.area} {entry.text}"
    )
