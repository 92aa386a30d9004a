"""The punch list: what is open by phase, what waits on others, and what was closed."""

from __future__ import annotations

from dataclasses import replace

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchItem, PunchList, PunchState, punch_list
from journal_tui.domain.times import short_day
from journal_tui.journal import punch
from journal_tui.journal.course import course
from journal_tui.journal.jobs import get_job
from journal_tui.screens.course import Course
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.listing import ListingScreen, NarrowLine
from journal_tui.screens.punch_commands import PUNCH_COMMANDS
from journal_tui.screens.punch_draw import closed_rows, detail, preview_lines, rows_of
from journal_tui.screens.typing_line import TypingLine

_PARTIES = list(Party)


class ItemDetail(Widget):
    """All about the item in hand, or what the line being typed will become."""

    DEFAULT_CSS = """
    ItemDetail { height: 5; padding: 0 1; border-top: solid $tick; }
    """
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._item: PunchItem | None = None
        self._typed: Draft | None = None

    def show(self, item: PunchItem | None, typed: Draft | None = None) -> None:
        """Show an item, or a draft of one being typed."""
        self._item, self._typed = item, typed
        self.refresh()

    def render(self) -> Content:
        width, height = self.size.width, self.size.height
        if self._typed is not None:
            return Content("\n").join(preview_lines(self._typed, width)[:height])
        if self._item is None:
            return Content("")
        screen = self.screen
        assert isinstance(screen, PunchScreen)
        return Content("\n").join(detail(self._item, screen.journal.today(), width, height))


class PunchScreen(ListingScreen):
    """A job's punch list.

    Lines are laid out by the items as they were first seen here: what is done, dropped or handed on
    changes its words and keeps its place until the list is entered again.
    """

    OWN_COMMANDS = PUNCH_COMMANDS
    UNDO_KEEPS_GROUND = True
    HELP = (
        "The punch list: open work and open answers, phase by phase in the order the work goes. What waits "
        "on the client, the inspector or a supplier stands apart at the end, with since when. Left and "
        "right walk the phases."
    )
    DEFAULT_CSS = """
    PunchScreen EmptyNote { display: none; }
    PunchScreen.-empty EmptyNote { display: block; }
    PunchScreen.-empty LineList, PunchScreen.-empty ItemDetail { display: none; }
    PunchScreen #adding { display: none; }
    PunchScreen.-adding #adding { display: block; }
    PunchScreen.-adding ItemDetail { display: block; }
    PunchScreen.-low ItemDetail { height: 3; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._seen: dict[str, PunchItem] = {}
        self._now: dict[str, PunchItem] = {}
        self._among_closed = False

    def body(self) -> ComposeResult:
        yield Course()
        yield EmptyNote(
            "Nothing is open.",
            "+ types something onto the list.",
            "What you keep in a review and leave open comes here by itself.",
            "c shows what is done and dropped.",
        )
        yield LineList()
        yield ItemDetail()
        yield NarrowLine()
        yield TypingLine(
            f"punch/{self.job_id}",
            placeholder="what is owed, as you would say it: strap the new supply, tub wall",
            id="adding",
        )

    def on_resize(self) -> None:
        self.set_class(self.size.height < 20, "-low")

    # Reading ----------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Read the items again; those seen before keep their places."""
        job = get_job(self.journal, self.job_id or "")
        found = punch.open_list(self.journal, job)
        closed = punch.closed_items(self.journal, job)
        opened = [*(i for group in found.phases for i in group.items), *found.waiting]
        self._now = {item.id: item for item in (*opened, *closed)}
        self._seen = {i: item for i, item in self._seen.items() if i in self._now}
        for item in closed if self._among_closed else opened:
            self._seen.setdefault(item.id, item)
        self._say_title(job, found)
        self.query_one(Course).show(course(self.journal, job))
        self._lay_out(job)

    def _say_title(self, job: Job, found: PunchList) -> None:
        waiting = f", {len(found.waiting)} with others" if found.waiting else ""
        what = ", done and dropped" if self._among_closed else f"   {found.count} open{waiting}"
        self.title_is(job.name, f"punch list{what}")

    def _lay_out(self, job: Job, select: str | None = None) -> None:
        # As if all were open still: the place of a line does not hang on what became of it.
        laid_out = punch_list((replace(i, state=PunchState.OPEN) for i in self._seen.values()), job.phases)
        phase = self.query_one(Course).chosen
        if phase is not None:
            laid_out = PunchList(
                tuple(group for group in laid_out.phases if group.phase == phase),
                tuple(item for item in laid_out.waiting if item.phase == phase),
            )
        as_seen = PunchList(
            tuple(replace(g, items=tuple(self._seen[i.id] for i in g.items)) for g in laid_out.phases),
            tuple(self._seen[i.id] for i in laid_out.waiting),
        )
        rows = closed_rows(as_seen, self._now) if self._among_closed else rows_of(as_seen, self._now)
        self.set_class(not rows, "-empty")
        self.lines.show(rows, select=select)
        self._show_detail()

    @property
    def here(self) -> PunchItem | None:
        """The item in hand."""
        row = self.lines.selected
        return self._now.get(row.key) if row else None

    def on_line_list_moved(self) -> None:
        self._show_detail()

    def _show_detail(self) -> None:
        self.query_one(ItemDetail).show(self.here, self._typed())

    # One key each -------------------------------------------------------------------------------------

    def action_finish_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.DONE, "Done. z takes it back.")

    def action_drop_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.DROPPED, "Dropped, not done. z takes it back.")

    def action_reopen_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.OPEN, "Open again.")

    def _set(self, item: PunchItem, state: PunchState, said: str) -> None:
        if item.state is state:
            self.say(f"It is {state} already.")
            return
        do = {
            PunchState.DONE: punch.finish,
            PunchState.DROPPED: punch.drop,
            PunchState.OPEN: punch.reopen,
        }[state]
        with self.trying():
            changed = do(self.journal, item.id)
            self.reload()
            self.say(f"{said}{self._held(changed)}")

    def _held(self, item: PunchItem) -> str:
        from journal_tui.journal.plan_items import still_held

        held = still_held(self.journal, item)
        return " What follows waits for its result: s, then r, records it." if held else ""

    def action_hand_on(self) -> None:
        if here := self._in_hand():
            who = _PARTIES[(_PARTIES.index(here.who or Party.CREW) + 1) % len(_PARTIES)]
            with self.trying():
                punch.hand_to(self.journal, here.id, who)
                self.reload()
                self.say(f"Now the {who}'s move.")

    def _in_hand(self) -> PunchItem | None:
        if self.here is None:
            self.say("Nothing is on this list. + adds something.")
        return self.here

    def action_show_closed(self) -> None:
        self._among_closed = not self._among_closed
        self._seen = {}
        with self.trying():
            self.reload()

    def on_line_list_opened(self) -> None:
        self.action_open_item()

    def action_open_item(self) -> None:
        from journal_tui.journal.review import draft_of_entry

        if here := self._in_hand():
            with self.trying():
                draft = draft_of_entry(self.journal, here.entry_id) if here.entry_id else None
                if draft is None:
                    raise NothingFound(
                        "nothing was said of this", f"It was typed on {short_day(here.since)}."
                    )
                from journal_tui.screens.review import ReviewScreen

                self.app.push_screen(ReviewScreen(self.job_id or "", draft.visit_id, draft.id))

    def action_next_phase(self) -> None:
        self.query_one(Course).step(1)

    def action_previous_phase(self) -> None:
        self.query_one(Course).step(-1)

    def on_course_walked(self) -> None:
        with self.trying():
            self._lay_out(get_job(self.journal, self.job_id or ""))

    def action_next_visit(self) -> None:
        from journal_tui.screens.next_visit import NextVisitScreen

        self.app.push_screen(NextVisitScreen(self.job_id or ""))

    def action_schedule_plan(self) -> None:
        from journal_tui.screens.schedule import ScheduleScreen

        self.app.push_screen(ScheduleScreen(self.job_id or ""))

    def action_client_update(self) -> None:
        from journal_tui.screens.update import UpdateScreen

        self.app.push_screen(UpdateScreen(self.job_id or ""))

    # Adding -------------------------------------------------------------------------------------------

    @property
    def _line(self) -> TypingLine:
        return self.query_one("#adding", TypingLine)

    def action_add_item(self) -> None:
        self.add_class("-adding")
        self.type_into(self._line)
        self._show_detail()

    def _typed(self) -> Draft | None:
        if not self.has_class("-adding") or not self._line.value.strip():
            return None
        with self.trying():
            return punch.preview(self.journal, get_job(self.journal, self.job_id or ""), self._line.value)
        return None

    def on_input_changed(self, event: Input.Changed) -> None:
        super().on_input_changed(event)
        if event.input is self._line:
            self._show_detail()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        super().on_input_submitted(event)
        if event.input is not self._line:
            return
        with self.trying():
            item = punch.add(self.journal, self.job_id or "", self._line.value)
            self._line.used()
            self.query_one(Course).pick(None)
            self.reload()
            self.lines.select(item.id)
            self.say("On the list. Type the next one, or esc.")

    def action_back(self) -> None:
        adding = self.focused is self._line
        super().action_back()
        if adding:
            self.remove_class("-adding")
            self.lines.focus()
            self._show_detail()
