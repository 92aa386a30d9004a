"""The desk a review works at: the drafts, the one in hand, what was said around it, and going on."""

from __future__ import annotations

from collections.abc import Callable

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content

from journal_tui.domain.job import Job, Visit
from journal_tui.domain.times import short_day
from journal_tui.journal import review
from journal_tui.journal.jobs import get_job
from journal_tui.journal.review import DraftState, ReviewDraft
from journal_tui.journal.stills import still_of_draft
from journal_tui.journal.visits import get_visit
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row
from journal_tui.screens.review_draw import list_line
from journal_tui.screens.review_panes import DraftCard, DraftList, ReviewCourse, ReviewFinish, SaidPane
from journal_tui.screens.still import WIDE, StillPane


def words_place(draft_id: str) -> str:
    """Return the place where a draft's words are kept while they are edited."""
    return f"draft/{draft_id}"


class ReviewDesk(JournalScreen):
    """The drafts of one visit, shown; ``draft_id`` names the one to begin at, else the first waiting."""

    AUTO_FOCUS = "LineList"
    DEFAULT_CSS = """
    ReviewDesk #desk { height: 3fr; min-height: 5; layout: horizontal; margin: 1 0 0 0; }
    ReviewDesk LineList { height: 2fr; border-top: solid $tick; }
    ReviewDesk ReviewFinish { display: none; }
    ReviewDesk.-finished ReviewFinish { display: block; }
    ReviewDesk.-finished SaidPane, ReviewDesk.-finished DraftCard { display: none; }
    ReviewDesk StillPane { dock: bottom; height: 1; display: none; }
    ReviewDesk.-still StillPane { display: block; }
    ReviewDesk.-wide StillPane { dock: none; height: 1fr; }
    ReviewDesk.-finished StillPane, ReviewDesk.-low StillPane { display: none; }
    ReviewDesk.-narrow #desk { layout: vertical; margin: 0; }
    ReviewDesk.-narrow DraftCard { height: 2fr; }
    ReviewDesk.-low #desk { margin: 0; }
    ReviewDesk.-low LineList { height: 1fr; }
    """

    def __init__(self, job_id: str, visit_id: str, draft_id: str | None = None) -> None:
        super().__init__(job_id)
        self.visit_id = visit_id
        self._first = draft_id
        self.drafts: list[ReviewDraft] = []
        self._started = False
        #: The row that was selected when the review came to its finish.
        self._finished_on: str | None = None
        #: True while going back over drafts after the finish.
        self._going_over = False

    def body(self) -> ComposeResult:
        yield ReviewCourse()
        with Horizontal(id="desk"):
            yield SaidPane()
            yield DraftCard()
            yield StillPane()
            yield ReviewFinish()
        yield DraftList()

    def on_resize(self) -> None:
        self.set_class(self.size.width < 60, "-narrow")
        self.set_class(self.size.width >= WIDE, "-wide")
        self.set_class(self.size.height < 20, "-low")

    # Reading --------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Read the drafts again; at first go to the first one waiting, or to the finish."""
        job, visit = self.job_and_visit()
        recording = f"   {visit.recording_name}" if visit.recording_name else ""
        self.title_is(job.name, f"review{recording}", short_day(visit.day))
        self.drafts = review.drafts(self.journal, self.visit_id)
        self._show_list()
        if not self._started:
            self._started = True
            if self._first in [d.id for d in self.drafts]:
                self._going_over = True
                self.go_to(self._first or "")
            else:
                self.onward(-1)

    def job_and_visit(self) -> tuple[Job, Visit]:
        """Return the job and the visit as they stand."""
        visit = get_visit(self.journal, self.visit_id)
        return get_job(self.journal, visit.job_id), visit

    def renew(self, draft_id: str) -> None:
        """Read one draft again."""
        self.drafts[self.place_of(draft_id)] = review.get_draft(self.journal, draft_id)
        self._show_list()

    def _show_list(self, select: str | None = None) -> None:
        rows = [Row(d.id, _liner(n, d)) for n, d in enumerate(self.drafts, 1)]
        self.query_one(LineList).show(rows, select=select)

    def place_of(self, draft_id: str) -> int:
        """Return where in the list a draft stands, from 0."""
        return next(i for i, d in enumerate(self.drafts) if d.id == draft_id)

    @property
    def here(self) -> ReviewDraft | None:
        """The draft in hand; None when there are none, or the review is at its finish."""
        row = self.query_one(LineList).selected
        if row is None or self.has_class("-finished"):
            return None
        return next((d for d in self.drafts if d.id == row.key), None)

    # Showing --------------------------------------------------------------------------------------

    def on_line_list_moved(self, event: LineList.Moved) -> None:
        # The list also tells of itself when its rows are drawn anew; only another row ends the finish.
        if event.row is not None and event.row.key != self._finished_on:
            self._leave_finish()
        self.show_here()

    def show_here(self) -> None:
        """Show the draft in hand and what was said around it."""
        here = self.here
        self._look_ahead()
        at = self.place_of(here.id) if here else len(self.drafts)
        self.query_one(ReviewCourse).show([d.state for d in self.drafts], at)
        if here is None:
            return
        unfinished = self.japp.autosave.recall(words_place(here.id))
        self.query_one(DraftCard).show(here.draft, review.reader_reason(here.draft), unfinished)
        with self.trying():
            said = review.said_around(self.journal, here)
            self.query_one(SaidPane).show(said, timed=any(line.end > 0 for line in said))
            still = still_of_draft(self.journal, here.id)
            self.set_class(still is not None, "-still")
            self.query_one(StillPane).show(still)

    def action_show_more_said(self) -> None:
        self.query_one(SaidPane).shift(1)

    def action_show_earlier_said(self) -> None:
        self.query_one(SaidPane).shift(-1)

    def _look_ahead(self) -> None:
        """Keep the draft in hand in the upper part of the list, so that what comes next is in sight."""
        lines = self.query_one(LineList)
        at = next((i for i, row in enumerate(lines.rows) if row is lines.selected), 0)
        lines.scroll_to(y=max(0, at - lines.size.height // 3), animate=False, force=True, immediate=True)

    # Going on -------------------------------------------------------------------------------------

    def onward(self, at: int) -> None:
        """Go to the first draft waiting behind ``at``, else to the first waiting at all, else finish."""
        waiting = [i for i, d in enumerate(self.drafts) if d.state is DraftState.WAITING]
        later = [i for i in waiting if i > at]
        if waiting:
            self.go_to(self.drafts[(later or waiting)[0]].id)
            if not later and at >= 0:
                self.say("These were left for later.")
        elif self._going_over and at + 1 < len(self.drafts):
            self.go_to(self.drafts[at + 1].id)
        else:
            self.finish()

    def go_to(self, draft_id: str) -> None:
        """Take a draft in hand."""
        self._leave_finish()
        self.query_one(LineList).select(draft_id)

    def finish(self) -> None:
        """Show what the review came to."""
        row = self.query_one(LineList).selected
        self._finished_on = row.key if row else None
        self._going_over = False
        self.add_class("-finished")
        self.query_one(ReviewFinish).show(review.summary(self.journal, self.visit_id))
        self.show_here()

    def _leave_finish(self) -> None:
        if self.has_class("-finished"):
            self.remove_class("-finished")
            self._finished_on = None
            self._going_over = True

    def on_key(self, event: events.Key) -> None:
        if self.has_class("-finished") and self.drafts and event.key in ("up", "down"):
            event.stop()
            self._leave_finish()
            self.show_here()


def _liner(number: int, draft: ReviewDraft) -> Callable[[int], Content]:
    return lambda width: list_line(number, draft, width)
