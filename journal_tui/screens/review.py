"""Review of drafts: each kept, dropped or set right with one key, beside the words it rests on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from textual import events
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.content import Content

from journal_tui.domain.draft import OwnWord
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import OTHER_PHASE, Audience, Kind, Party
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal import review
from journal_tui.journal.jobs import get_job
from journal_tui.journal.review import Change, DraftState, ReviewDraft
from journal_tui.journal.stills import still_of_draft
from journal_tui.journal.visits import get_visit
from journal_tui.screens.area_picker import AreaPicker
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row
from journal_tui.screens.picker import Picker
from journal_tui.screens.review_commands import REVIEW_COMMANDS
from journal_tui.screens.review_draw import list_line
from journal_tui.screens.review_panes import DraftCard, DraftList, ReviewCourse, ReviewFinish, SaidPane
from journal_tui.screens.still import WIDE, StillPane, StillView
from journal_tui.screens.words_editor import WordsEditor

T = TypeVar("T")

_ACTIONS = {command.action() for command in REVIEW_COMMANDS}
_KINDS = list(Kind)
_PARTIES: list[Party | None] = [*Party, None]
_READERS = list(Audience)


class ReviewScreen(JournalScreen):
    """The drafts of one visit; ``draft_id`` names the one to begin at instead of the first waiting."""

    OWN_COMMANDS = REVIEW_COMMANDS
    UNDO_KEEPS_GROUND = True
    HELP = (
        "Review of drafts. At the left what was said: a heavy rule marks the words the draft rests on. At "
        "the right the draft; the letter in front of each thing changes it. Enter keeps, x drops, and both "
        "go on to the next one waiting. Nothing asks whether you are sure: z takes back whatever you did."
    )
    AUTO_FOCUS = "LineList"
    DEFAULT_CSS = """
    ReviewScreen #desk { height: 3fr; min-height: 5; layout: horizontal; margin: 1 0 0 0; }
    ReviewScreen LineList { height: 2fr; border-top: solid $tick; }
    ReviewScreen ReviewFinish { display: none; }
    ReviewScreen.-finished ReviewFinish { display: block; }
    ReviewScreen.-finished SaidPane, ReviewScreen.-finished DraftCard { display: none; }
    ReviewScreen StillPane { dock: bottom; height: 1; display: none; }
    ReviewScreen.-still StillPane { display: block; }
    ReviewScreen.-wide StillPane { dock: none; height: 1fr; }
    ReviewScreen.-finished StillPane, ReviewScreen.-low StillPane { display: none; }
    ReviewScreen.-narrow #desk { layout: vertical; margin: 0; }
    ReviewScreen.-narrow DraftCard { height: 2fr; }
    ReviewScreen.-low #desk { margin: 0; }
    ReviewScreen.-low LineList { height: 1fr; }
    """

    def __init__(self, job_id: str, visit_id: str, draft_id: str | None = None) -> None:
        super().__init__(job_id)
        self.visit_id = visit_id
        self._first = draft_id
        self._drafts: list[ReviewDraft] = []
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

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While words are edited no other command acts, however fast a key follows the one that began it."""
        if action in _ACTIONS and self.query_one(DraftCard).editor is not None:
            return False
        return super().check_action(action, parameters)

    # Reading --------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Read the drafts again; at first go to the first one waiting, or to the finish."""
        job, visit = self._job_and_visit()
        recording = f"   {visit.recording_name}" if visit.recording_name else ""
        self.title_is(job.name, f"review{recording}", short_day(visit.day))
        self._drafts = review.drafts(self.journal, self.visit_id)
        self._show_list()
        if not self._started:
            self._started = True
            if self._first in [d.id for d in self._drafts]:
                self._going_over = True
                self._go_to(self._first or "")
            else:
                self._onward(-1)

    def _job_and_visit(self) -> tuple[Job, Visit]:
        visit = get_visit(self.journal, self.visit_id)
        return get_job(self.journal, visit.job_id), visit

    def _renew(self, draft_id: str) -> None:
        """Read one draft again."""
        self._drafts[self._place(draft_id)] = review.get_draft(self.journal, draft_id)
        self._show_list()

    def _show_list(self, select: str | None = None) -> None:
        rows = [Row(d.id, _liner(n, d)) for n, d in enumerate(self._drafts, 1)]
        self.query_one(LineList).show(rows, select=select)

    def _place(self, draft_id: str) -> int:
        return next(i for i, d in enumerate(self._drafts) if d.id == draft_id)

    @property
    def here(self) -> ReviewDraft | None:
        """The draft in hand; None when there are none, or the review is at its finish."""
        row = self.query_one(LineList).selected
        if row is None or self.has_class("-finished"):
            return None
        return next((d for d in self._drafts if d.id == row.key), None)

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
        at = self._place(here.id) if here else len(self._drafts)
        self.query_one(ReviewCourse).show([d.state for d in self._drafts], at)
        if here is None:
            return
        unfinished = self.japp.autosave.recall(_words_place(here.id))
        self.query_one(DraftCard).show(here.draft, review.reader_reason(here.draft), unfinished)
        with self.trying():
            said = review.said_around(self.journal, here)
            self.query_one(SaidPane).show(said, timed=any(line.end > 0 for line in said))
            still = still_of_draft(self.journal, here.id)
            self.set_class(still is not None, "-still")
            self.query_one(StillPane).show(still)

    def _look_ahead(self) -> None:
        """Keep the draft in hand in the upper part of the list, so that what comes next is in sight."""
        lines = self.query_one(LineList)
        at = next((i for i, row in enumerate(lines.rows) if row is lines.selected), 0)
        lines.scroll_to(y=max(0, at - lines.size.height // 3), animate=False, force=True, immediate=True)

    # Going on -------------------------------------------------------------------------------------

    def _onward(self, at: int) -> None:
        """Go to the first draft waiting behind ``at``, else to the first waiting at all, else finish."""
        waiting = [i for i, d in enumerate(self._drafts) if d.state is DraftState.WAITING]
        later = [i for i in waiting if i > at]
        if waiting:
            self._go_to(self._drafts[(later or waiting)[0]].id)
            if not later and at >= 0:
                self.say("These were left for later.")
        elif self._going_over and at + 1 < len(self._drafts):
            self._go_to(self._drafts[at + 1].id)
        else:
            self._finish()

    def _go_to(self, draft_id: str) -> None:
        self._leave_finish()
        self.query_one(LineList).select(draft_id)

    def _finish(self) -> None:
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
        if self.has_class("-finished") and self._drafts and event.key in ("up", "down"):
            event.stop()
            self._leave_finish()
            self.show_here()

    def on_line_list_opened(self) -> None:
        self.action_keep_draft()

    # One key each -----------------------------------------------------------------------------------

    def action_keep_draft(self) -> None:
        here = self.here
        if here is None:
            self.action_punch_list()
            return
        with self.trying():
            review.keep(self.journal, [here.id])
            self._renew(here.id)
            self.say("")
            self._onward(self._place(here.id))

    def action_drop_draft(self) -> None:
        if here := self._in_hand():
            with self.trying():
                review.drop(self.journal, here.id)
                self._renew(here.id)
                self.say("Dropped. z takes it back.")
                self._onward(self._place(here.id))

    def action_next_waiting(self) -> None:
        if here := self._in_hand():
            self._onward(self._place(here.id))

    def action_keep_rest(self) -> None:
        with self.trying():
            count = review.keep_rest(self.journal, self.visit_id)
            self.reload()
            self._finish()
            self.say(
                f"Kept the {count} that were waiting. z takes that back." if count else "None is waiting."
            )

    def action_join_previous(self) -> None:
        if here := self._in_hand():
            with self.trying():
                joined = review.join_previous(self.journal, here.id)
                self.reload()
                self._go_to(joined.id)
                self.say("Joined with the one before.")

    def action_change_kind(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(kind=_after(_KINDS, here.draft.kind)))

    def action_change_who(self) -> None:
        if here := self._in_hand():
            who = _after(_PARTIES, here.draft.who)
            self._change(here, Change(who=who, nobody=who is None))

    def action_change_reader(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(audience=_after(_READERS, here.draft.audience)))

    def action_open_or_closed(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(open=not here.draft.open))

    def action_change_phase(self) -> None:
        if here := self._in_hand():
            job, _visit = self._job_and_visit()
            phases = list(dict.fromkeys([*job.phases, here.draft.phase, OTHER_PHASE]))

            def chosen(phase: str | None) -> None:
                if phase is not None:
                    self._change(here, Change(phase=phase))

            self.app.push_screen(Picker("phase", phases, here.draft.phase), chosen)

    def action_change_area(self) -> None:
        if here := self._in_hand():

            def chosen(area: str | None) -> None:
                if area is not None:
                    self._change(here, Change(area=area))

            areas = review.area_choices(self.journal, self.visit_id)
            self.app.push_screen(AreaPicker(areas, here.draft.area), chosen)

    def _in_hand(self) -> ReviewDraft | None:
        here = self.here
        if here is None:
            self.say("No draft is in hand. Up goes back over them.")
        return here

    def _change(self, here: ReviewDraft, changes: Change) -> None:
        with self.trying():
            known = {word_id for word_id, _word in review.own_words(self.journal, self.job_id or "")}
            review.change(self.journal, here.id, changes)
            self._renew(here.id)
            words = review.own_words(self.journal, self.job_id or "")
            self.say(" ".join(_learned(word) for word_id, word in words if word_id not in known))

    # Words ------------------------------------------------------------------------------------------

    def action_edit_words(self) -> None:
        if here := self._in_hand():
            self.query_one(DraftCard).edit(_words_place(here.id), here.draft.text)
            self.say("enter takes the words, esc leaves them half edited")

    def on_words_editor_taken(self, event: WordsEditor.Taken) -> None:
        here = self.here
        if here is None:
            return
        with self.trying():
            review.change(self.journal, here.id, Change(text=event.words))
            self.japp.autosave.keep(_words_place(here.id), "")
            self._put_editor_away()
            self._renew(here.id)
            self.say("")

    def on_words_editor_left(self) -> None:
        self._put_editor_away()
        self.say("")
        self.show_here()

    def _put_editor_away(self) -> None:
        self.query_one(DraftCard).close_editor()
        self.query_one(LineList).focus()

    # Elsewhere ----------------------------------------------------------------------------------------

    def action_undo(self) -> None:
        before = {d.id: d for d in self._drafts}
        super().action_undo()
        changed = next((d for d in self._drafts if before.get(d.id) != d), None)
        if changed is not None:
            self._go_to(changed.id)

    def action_show_more_said(self) -> None:
        self.query_one(SaidPane).shift(1)

    def action_show_earlier_said(self) -> None:
        self.query_one(SaidPane).shift(-1)

    def action_view_still(self) -> None:
        if here := self._in_hand():
            with self.trying():
                still = still_of_draft(self.journal, here.id)
                if still is None:
                    self.say("No still was taken for this draft.")
                else:
                    self.app.push_screen(StillView(still))

    def action_punch_list(self) -> None:
        from journal_tui.screens.punch import PunchScreen

        self.app.push_screen(PunchScreen(self.job_id or ""))

    def action_client_update(self) -> None:
        from journal_tui.screens.update import UpdateScreen

        self.app.push_screen(UpdateScreen(self.job_id or ""))


def _words_place(draft_id: str) -> str:
    return f"draft/{draft_id}"


def _after(values: Sequence[T], value: T) -> T:
    return values[(values.index(value) + 1) % len(values)]


def _liner(number: int, draft: ReviewDraft) -> Callable[[int], Content]:
    return lambda width: list_line(number, draft, width)


def _learned(word: OwnWord) -> str:
    where = " and ".join(filter(None, (word.area, word.phase)))
    return f"Learned: “{one_line(word.phrase)}” belongs to {one_line(where)}."
