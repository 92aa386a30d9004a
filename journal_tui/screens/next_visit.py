"""The next visit: what fits, what to bring, what the rest waits for; then frozen as a crew sheet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from journal_tui.domain.punch import PunchState
from journal_tui.domain.times import short_day
from journal_tui.journal import punch
from journal_tui.journal.jobs import get_job
from journal_tui.journal.next_visit import (
    VisitPlan,
    freeze,
    keep_visit_plan,
    left_out,
    next_visit,
    taken_first,
    visit_plan,
)
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import PlanInputs
from journal_tui.journal.plan_entry import hours_wanted, people_typed
from journal_tui.journal.plan_text import bring_lines, not_yet_words, short_head, visit_item_words
from journal_tui.planning.dates import date_ahead
from journal_tui.planning.visit import NotYet, VisitItem, VisitList
from journal_tui.screens.answering import AnsweringScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, cut, fit, pieces
from journal_tui.screens.next_visit_commands import NEXT_VISIT_COMMANDS
from journal_tui.screens.working import Progress, WorkDone
from journal_tui.screens.wrapping import wrapped

_VISIT = "visit"
_AREA = 14


class VisitNotes(Widget):
    """About the item in hand, or all that is to bring and ask."""

    DEFAULT_CSS = """
    VisitNotes { height: 6; padding: 0 1; border-top: solid $tick; }
    """
    ALLOW_SELECT = False

    def __init__(self, more: str = "l shows all of it") -> None:
        super().__init__()
        self._texts: tuple[str, ...] = ()
        #: What stands in the last line when there is more than fits.
        self._more = more

    def show(self, texts: tuple[str, ...]) -> None:
        """Show these texts, each on lines of its own."""
        self._texts = texts
        self.refresh()

    def render(self) -> Content:
        width, height = self.size.width, self.size.height
        lines = [line for text in self._texts for line in wrapped(text, width)]
        if len(lines) > height > 0:
            lines = [*lines[: height - 1], self._more]
        return Content("\n").join(pieces((line, "$ink")) for line in lines)


class NextVisitScreen(AnsweringScreen):
    """The next visit of a job."""

    OWN_COMMANDS = NEXT_VISIT_COMMANDS
    HELP = (
        "The next visit: what is ready and fits into its hours, in the order the work goes; below it what is "
        "not, and why. n leaves an item out, t takes it first. What you change here is kept until the "
        "visit is frozen as a crew sheet."
    )
    DEFAULT_CSS = """
    NextVisitScreen.-lists LineList { display: none; }
    NextVisitScreen.-lists VisitNotes { height: 1fr; border-top: none; }
    NextVisitScreen.-low VisitNotes { height: 3; }
    NextVisitScreen.-low.-lists VisitNotes { height: 1fr; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._plan: VisitPlan | None = None
        self._visit: VisitList | None = None
        self._inputs: PlanInputs | None = None
        self._chosen: dict[str, VisitItem] = {}
        self._not_yet: dict[str, NotYet] = {}

    def body(self) -> ComposeResult:
        yield LineList()
        yield VisitNotes()

    def on_resize(self) -> None:
        self.set_class(self.size.height < 20, "-low")

    # Reading ----------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Put the visit together again, in a thread."""
        job_id = self.job_id or ""
        self.title_is(get_job(self.journal, job_id).name, "next visit")

        def do(journal: Journal, progress: Progress) -> tuple[VisitPlan, VisitList, PlanInputs]:
            job = get_job(journal, job_id)
            plan = visit_plan(journal, job)
            return plan, *next_visit(journal, job, plan.day, plan.hours, plan.people, plan.wish)

        self.work(_VISIT, do)

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if event.name != _VISIT or not isinstance(event.result, tuple):
            return
        self._plan, self._visit, self._inputs = event.result
        assert self._visit is not None and self._inputs is not None
        self._chosen = {v.item.id: v for v in self._visit.items}
        self._not_yet = {n.item.id: n for n in self._visit.not_yet}
        self.title_is(self._inputs.job.name, short_head(self._visit))
        self.query_one(LineList).show(self._rows())
        self._show_notes()
        self.tell_said()

    def _rows(self) -> list[Row]:
        rows: list[Row] = []
        heading = None
        for v in self._chosen.values():
            if v.heading != heading:
                heading = v.heading
                rows.append(_heading(heading))
            rows.append(Row(v.item.id, _chosen(v), v.item.text))
        if not self._chosen:
            rows.append(_heading("nothing is ready for this visit"))
        if self._not_yet:
            rows.append(_heading("not on this visit"))
        rows += [Row(n.item.id, _waiting(n), n.item.text) for n in self._not_yet.values()]
        return rows

    def on_line_list_moved(self) -> None:
        self._show_notes()

    def _show_notes(self) -> None:
        if self._visit is None or self._inputs is None:
            return
        here = self._here
        about: tuple[str, ...] = ()
        if not self.has_class("-lists") and here in self._chosen:
            about = (visit_item_words(self._chosen[here], self._inputs),)
        elif not self.has_class("-lists") and here in self._not_yet:
            about = (not_yet_words(self._not_yet[here]),)
        self.query_one(VisitNotes).show((*about, *bring_lines(self._visit, self._inputs)))

    @property
    def _here(self) -> str:
        row = self.query_one(LineList).selected
        return row.key if row else ""

    # One key each -------------------------------------------------------------------------------------

    def _keep(self, plan: VisitPlan, said: str = "") -> None:
        with self.trying():
            keep_visit_plan(self.journal, get_job(self.journal, self.job_id or ""), plan)
            self.said = said
            self.reload()

    def _in_hand(self) -> str:
        here = self._here
        if here not in self._chosen and here not in self._not_yet:
            self.say("No item is in hand.")
            return ""
        return here

    def action_not_this_time(self) -> None:
        if (here := self._in_hand()) and self._plan:
            back = here in self._plan.wish.leave_out
            self._keep(left_out(self._plan, here), "Back in, if it fits." if back else "Not this time.")

    def action_take_first(self) -> None:
        here = self._in_hand()
        if not here or self._plan is None:
            return
        waiting = self._not_yet.get(here)
        if waiting is not None and waiting.why.startswith("waits for"):
            self.say(f"It cannot come in: it {waiting.why}.")
            return
        self._keep(taken_first(self._plan, here), "Taken first, as far as it fits.")

    def action_finish_item(self) -> None:
        if here := self._in_hand():
            with self.trying():
                if punch.get_item(self.journal, here).state is PunchState.OPEN:
                    punch.finish(self.journal, here)
                self.said = "Done. z takes it back."
                self.reload()

    def action_add_item(self) -> None:
        def add(text: str) -> str:
            punch.add(self.journal, self.job_id or "", text)
            return "On the punch list."

        self.ask("what is owed?", "visit-add", add)

    def action_change_day(self) -> None:
        def then(plan: VisitPlan, text: str) -> VisitPlan:
            return replace(plan, day=date_ahead(text, self.journal.today()))

        self._ask_plan("which day?", "day", then)

    def action_change_hours(self) -> None:
        self._ask_plan("how many hours?", "hours", lambda plan, text: replace(plan, hours=hours_wanted(text)))

    def action_change_people(self) -> None:
        self._ask_plan(
            "how many people?", "people", lambda plan, text: replace(plan, people=people_typed(text))
        )

    def _ask_plan(self, what: str, about: str, then: Callable[[VisitPlan, str], VisitPlan]) -> None:
        def keep(text: str) -> str:
            assert self._plan is not None
            keep_visit_plan(self.journal, get_job(self.journal, self.job_id or ""), then(self._plan, text))
            return ""

        if self._plan is not None:
            self.ask(what, f"next-visit-{about}", keep)

    def action_what_to_bring(self) -> None:
        self.toggle_class("-lists")
        if not self.has_class("-lists"):
            self.query_one(LineList).focus()
        self.call_after_refresh(self._show_notes)

    def action_freeze_sheet(self) -> None:
        if self._visit is None or self._inputs is None:
            return
        with self.trying():
            freeze(self.journal, self._visit, self._inputs)
            day = short_day(self._visit.day)
            self.say(f"Frozen: the crew sheet for {day}. s shows it and writes it to files.")

    def action_see_sheet(self) -> None:
        from journal_tui.screens.next_visit_sheet import CrewSheetScreen

        self.app.push_screen(CrewSheetScreen(self.job_id or ""))


def _heading(words: str) -> Row:
    def draw(width: int) -> Content:
        label = cut(words, width - 2) + " "
        return pieces((label, "bold $ink"), ("─" * max(0, width - len(label)), "$tick"))

    return Row(f"heading/{words}", draw, selectable=False)


def _chosen(v: VisitItem) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        hours = f"{v.item.crew_hours - v.left_hours:g} h"
        area = fit(v.item.area, _AREA) + " " if width >= 60 else ""
        room = width - 4 - len(area) - 8
        return pieces(
            ("[ ] ", "$owed"), (area, "$soft"), (fit(v.item.text, room), "$ink"), (f"{hours:>8}", "$ink")
        )

    return draw


def _waiting(n: NotYet) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        who = fit(n.whose or "crew", 10)
        half = max(10, (width - 10) * 2 // 5)
        text = fit(n.item.text, half) + " "
        return pieces((who, "$owed"), (text, "$ink"), (cut(n.why, max(0, width - 11 - half)), "$soft"))

    return draw
