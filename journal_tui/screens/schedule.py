"""The schedule: a bar for every open item on the work calendar, and why each is not sooner."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from journal_tui.domain.text import one_line
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import PlanView, job_plan, why
from journal_tui.journal.plan_entry import booking_typed, day_off_typed, link_typed, sub_days_typed
from journal_tui.journal.plan_text import item_lines, moved_lines, short_end
from journal_tui.planning.chart import Chart, chart
from journal_tui.planning.items import PlanItem
from journal_tui.planning.jobplan import JobPlan, PlanRow
from journal_tui.screens.answering import AnsweringScreen
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, fit, pieces
from journal_tui.screens.listing import ListingScreen, NarrowLine
from journal_tui.screens.schedule_commands import SCHEDULE_COMMANDS
from journal_tui.screens.working import Progress, WorkDone
from journal_tui.screens.wrapping import wrapped

_PLAN = "plan"
#: Columns a day; None is as wide as shows the whole plan.
_SCALES = (None, 2, 4, 8)


@dataclass(slots=True)
class ChartWindow:
    """Which days of a plan are drawn, and how wide."""

    first: dt.date | None = None
    scale: int | None = None

    def draw(self, plan: JobPlan, lines: LineList) -> Chart:
        """Return the chart of these days, as wide as a list has room for."""
        return chart(plan, max(30, lines.scrollable_content_region.width - 2), self.first, self.scale)

    def move(self, plan: JobPlan, lines: LineList, way: int) -> bool:
        """Go on (1) or back (-1) by half of what is drawn; False at the end."""
        drawn = self.draw(plan, lines)
        if way > 0 and drawn.first + dt.timedelta(days=drawn.days) > drawn.last:
            return False
        step = dt.timedelta(days=max(1, drawn.days // 2))
        self.first = max(plan.calendar.day_of(plan.now), drawn.first + way * step)
        return True

    def change_scale(self) -> None:
        """Draw a day wider, or after the widest as narrow as shows everything."""
        self.scale = _SCALES[(_SCALES.index(self.scale) + 1) % len(_SCALES)]


class DatesLine(Widget):
    """The days above the bars."""

    DEFAULT_CSS = "DatesLine { height: 2; padding: 0 1; }"
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._lines: tuple[str, ...] = ()

    def show(self, lines: tuple[str, ...]) -> None:
        """Show these lines."""
        self._lines = lines
        self.refresh()

    def render(self) -> Content:
        return Content("\n").join(pieces((line, "$soft")) for line in self._lines)


class ReasonLines(Widget):
    """Why the item in hand is not sooner, and what the plan takes it to be."""

    DEFAULT_CSS = "ReasonLines { height: 7; padding: 0 1; border-top: solid $tick; }"
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._texts: tuple[str, ...] = ()

    def show(self, *texts: str) -> None:
        """Show these texts, each on lines of its own, the first one strongest."""
        self._texts = texts
        self.refresh()

    def render(self) -> Content:
        width, height = self.size.width, self.size.height
        lines = [
            pieces((line, "$ink" if n == 0 else "$soft"))
            for n, text in enumerate(self._texts)
            for line in wrapped(text, width)
        ]
        return Content("\n").join(lines[:height])


class ScheduleScreen(AnsweringScreen, ListingScreen):
    """A job's schedule."""

    OWN_COMMANDS = SCHEDULE_COMMANDS
    HELP = (
        "The schedule: one bar for each open item, in the order they start. █ is work, ░ a wait by the "
        "clock, ◆ a booked inspection, answer or delivery, ◇ one whose day is only assumed, ╌ how far it "
        "may slip, │ today, · a day off. Below stands why the item in hand is not sooner, and what the "
        "plan takes it to be. Left and right move through the days."
    )
    DEFAULT_CSS = """
    ScheduleScreen EmptyNote { display: none; }
    ScheduleScreen.-empty EmptyNote { display: block; }
    ScheduleScreen.-empty LineList, ScheduleScreen.-empty ReasonLines, ScheduleScreen.-empty DatesLine {
        display: none;
    }
    ScheduleScreen.-low ReasonLines { height: 4; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._view: PlanView | None = None
        self._rows: dict[str, PlanRow] = {}
        self._window = ChartWindow()

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "Nothing is open, so there is nothing to schedule.",
            "What you keep in a review and leave owed comes here by itself; p on the timeline adds more.",
        )
        yield DatesLine()
        yield LineList()
        yield ReasonLines()
        yield NarrowLine()

    def on_resize(self) -> None:
        self.set_class(self.size.height < 20, "-low")
        self._draw()

    # Reading --------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Plan again, in a thread: large jobs and the first look at the holidays take a moment."""
        job_id = self.job_id or ""
        self.title_is(get_job(self.journal, job_id).name, "schedule")

        def do(journal: Journal, progress: Progress) -> PlanView:
            return job_plan(journal, get_job(journal, job_id))

        self.work(_PLAN, do)

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if event.name == _PLAN and isinstance(event.result, PlanView):
            self._view = event.result
            self._rows = {r.item.id: r for r in event.result.plan.rows}
            self.set_class(not self._rows, "-empty")
            self.title_is(event.result.inputs.job.name, f"schedule   {short_end(event.result)}")
            self._draw()
            self.tell_said()
            if self.focused is None and self._rows:
                self.lines.focus()

    def _draw(self) -> None:
        if self._view is None:
            return
        drawn = self._window.draw(self._view.plan, self.lines)
        self.query_one(DatesLine).show(drawn.head)
        critical = set(self._view.plan.schedule.chain)
        rows = [
            Row(i, _drawer(name, bar, drawn.label, i in critical), name)
            for i, name, bar in zip(drawn.ids, drawn.names, drawn.bars, strict=True)
        ]
        self.lines.show(rows)
        self.on_line_list_moved()

    # The item in hand -----------------------------------------------------------------------------

    @property
    def here(self) -> PlanRow | None:
        """The row in hand."""
        row = self.lines.selected
        return self._rows.get(row.key) if row else None

    def on_line_list_moved(self) -> None:
        here = self.here
        if here is None or self._view is None:
            self.query_one(ReasonLines).show()
            return
        facts = [" ".join(line.split()) for line in item_lines(here.item, 500)[1:]]
        slack = f"may slip {here.row.slack / 4:g} h" if here.row.slack else "any slip moves the end"
        self.query_one(ReasonLines).show(why(self._view, here.item.id), " · ".join([*facts, slack]))

    def _in_hand(self) -> PlanItem | None:
        if self.here is None:
            self.say("Nothing is on the schedule.")
            return None
        return self.here.item

    # Days -------------------------------------------------------------------------------------------

    def action_later_days(self) -> None:
        self._move_days(1)

    def action_earlier_days(self) -> None:
        self._move_days(-1)

    def _move_days(self, way: int) -> None:
        if self._view is None:
            return
        if not self._window.move(self._view.plan, self.lines, way):
            self.say("The plan ends here.")
        self._draw()

    def action_closer(self) -> None:
        self._window.change_scale()
        self._draw()

    # One key each -------------------------------------------------------------------------------------

    def action_open_figures(self) -> None:
        if item := self._in_hand():
            from journal_tui.screens.plan_forms import ItemForm

            self.app.push_screen(ItemForm(self.job_id or "", item.id, one_line(item.text)), self.filled_in)

    def action_work_week(self) -> None:
        from journal_tui.screens.plan_forms import WeekForm

        self.app.push_screen(WeekForm(self.job_id or ""), self.filled_in)

    def action_day_off(self) -> None:
        what = "which day is off? (or: worked DAY, usual DAY)"
        self.ask(what, "schedule-day", lambda text: day_off_typed(self.journal, self.job_id or "", text))

    def action_sub_days(self) -> None:
        what = "which sub, on which days? electrician: tue, thu"
        self.ask(what, "schedule-sub", lambda text: sub_days_typed(self.journal, self.job_id or "", text))

    def action_follow_item(self) -> None:
        if item := self._in_hand():
            what = "after which item? words of it"
            self.ask(what, f"schedule-after/{item.id}", lambda text: link_typed(self.journal, item.id, text))

    def action_book_hold(self) -> None:
        if item := self._hold_in_hand():
            what = "booked for which day? (none takes it back)"
            self.ask(
                what, f"schedule-book/{item.id}", lambda text: booking_typed(self.journal, item.id, text)
            )

    def _hold_in_hand(self) -> PlanItem | None:
        item = self._in_hand()
        if item is not None and item.hold is None:
            self.say(
                "It is no hold: only an inspection, answer, delivery or test is booked and has a result."
            )
            return None
        return item

    def action_record_result(self) -> None:
        if item := self._hold_in_hand():
            from journal_tui.screens.result_form import ResultForm

            self.app.push_screen(ResultForm(self.job_id or "", item.id, one_line(item.text)), self.filled_in)

    def action_next_visit(self) -> None:
        from journal_tui.screens.next_visit import NextVisitScreen

        self.app.push_screen(NextVisitScreen(self.job_id or ""))

    def action_what_moved(self) -> None:
        if self._view is None:
            return
        moved = moved_lines(self._view, 3) or ["There is no plan of an earlier day to compare with yet."]
        self.query_one(ReasonLines).show(" · ".join(m.strip() for m in moved), *self._view.notices)

    def on_line_list_opened(self) -> None:
        self.action_open_figures()


def _drawer(name: str, bar: str, label: int, critical: bool) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        return pieces(
            (fit(name, label) + " ", "bold $ink" if critical else "$ink"), (bar[: width - label - 1], "$ink")
        )

    return draw
