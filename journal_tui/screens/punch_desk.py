"""The list the punch list screen works on: what is shown where, and all about the item in hand."""

from __future__ import annotations

from dataclasses import replace

from textual.app import ComposeResult
from textual.content import Content
from textual.widget import Widget

from journal_tui.domain.draft import Draft
from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchItem, PunchList, PunchState, punch_list
from journal_tui.journal import punch
from journal_tui.journal.course import course
from journal_tui.journal.jobs import get_job
from journal_tui.screens.course import Course
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.listing import ListingScreen, NarrowLine
from journal_tui.screens.punch_draw import closed_rows, detail, preview_lines, rows_of
from journal_tui.screens.typing_line import TypingLine


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
        assert isinstance(screen, PunchDesk)
        return Content("\n").join(detail(self._item, screen.journal.today(), width, height))


class PunchDesk(ListingScreen):
    """A job's punch items, shown.

    Lines are laid out by the items as they were first seen here: what is done, dropped or handed on
    changes its words and keeps its place until the list is entered again.
    """

    DEFAULT_CSS = """
    PunchDesk EmptyNote { display: none; }
    PunchDesk.-empty EmptyNote { display: block; }
    PunchDesk.-empty LineList, PunchDesk.-empty ItemDetail { display: none; }
    PunchDesk #adding { display: none; }
    PunchDesk.-adding #adding { display: block; }
    PunchDesk.-adding ItemDetail { display: block; }
    PunchDesk.-low ItemDetail { height: 3; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        #: The items as they were first seen here: they decide where each line stands.
        self.seen: dict[str, PunchItem] = {}
        self._now: dict[str, PunchItem] = {}
        #: True while the done and dropped ones are shown instead of the open ones.
        self.among_closed = False

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
        self.seen = {i: item for i, item in self.seen.items() if i in self._now}
        for item in closed if self.among_closed else opened:
            self.seen.setdefault(item.id, item)
        self._say_title(job, found)
        self.query_one(Course).show(course(self.journal, job))
        self._lay_out(job)

    def _say_title(self, job: Job, found: PunchList) -> None:
        waiting = f", {len(found.waiting)} with others" if found.waiting else ""
        waiting += f", {found.on_hold} on hold" if found.on_hold else ""
        what = ", done and dropped" if self.among_closed else f"   {found.count} open{waiting}"
        self.title_is(job.name, f"punch list{what}")

    def _lay_out(self, job: Job, select: str | None = None) -> None:
        # As if all were open still: the place of a line does not hang on what became of it.
        laid_out = punch_list((replace(i, state=PunchState.OPEN) for i in self.seen.values()), job.phases)
        phase = self.query_one(Course).chosen
        if phase is not None:
            laid_out = PunchList(
                tuple(group for group in laid_out.phases if group.phase == phase),
                tuple(item for item in laid_out.waiting if item.phase == phase),
            )
        as_seen = PunchList(
            tuple(replace(g, items=tuple(self.seen[i.id] for i in g.items)) for g in laid_out.phases),
            tuple(self.seen[i.id] for i in laid_out.waiting),
        )
        rows = closed_rows(as_seen, self._now) if self.among_closed else rows_of(as_seen, self._now)
        self.set_class(not rows, "-empty")
        self.lines.show(rows, select=select)
        self.show_detail()

    @property
    def here(self) -> PunchItem | None:
        """The item in hand."""
        row = self.lines.selected
        return self._now.get(row.key) if row else None

    def on_line_list_moved(self) -> None:
        self.show_detail()

    def show_detail(self) -> None:
        """Show all about the item in hand, or what the line being typed will become."""
        self.query_one(ItemDetail).show(self.here, self._typed())

    def action_next_phase(self) -> None:
        self.query_one(Course).step(1)

    def action_previous_phase(self) -> None:
        self.query_one(Course).step(-1)

    def on_course_walked(self) -> None:
        with self.trying():
            self._lay_out(get_job(self.journal, self.job_id or ""))

    @property
    def line(self) -> TypingLine:
        """The line in which items are added."""
        return self.query_one("#adding", TypingLine)

    def _typed(self) -> Draft | None:
        if not self.has_class("-adding") or not self.line.value.strip():
            return None
        with self.trying():
            return punch.preview(self.journal, get_job(self.journal, self.job_id or ""), self.line.value)
        return None
