"""The plan as a bar chart in characters: one column is a stretch of clock time, equal for every day.

Everything is told by shapes and letters, nothing by colour.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.errors import BadInput
from journal_tui.planning.calendar import WorkCalendar, to_minutes
from journal_tui.planning.jobplan import JobPlan, PlanRow

WORK, WAIT, HOLD, GUESS, FLOAT = "█", "░", "◆", "◇", "╌"
TODAY, OFF = "│", "·"
LEGEND = (
    f"{WORK} work  {WAIT} wait  {HOLD} hold booked  {GUESS} hold assumed  {FLOAT} float"
    f"  {TODAY} today  {OFF} day off"
)
NARROWEST = 30
#: Columns a day may take; the widest one at which the whole plan fits is chosen.
SCALES = (8, 6, 4, 3, 2, 1)


@dataclass(frozen=True, slots=True)
class Chart:
    """A drawn chart: two lines of dates, a bar per row, and how to read it.

    Beside each bar stands its item, in ``label`` terminal columns and a blank; ``head`` is set in
    by as much. ``ids`` and ``names`` say which item each is. ``first`` is the first day shown and
    ``days`` how many there are room for; ``last`` is the plan's last day, so that a view knows
    whether it can scroll on.
    """

    head: tuple[str, str]
    bars: tuple[str, ...]
    ids: tuple[str, ...]
    names: tuple[str, ...]
    label: int
    legend: str
    first: dt.date
    days: int
    last: dt.date


def chart(plan: JobPlan, width: int = 80, first: dt.date | None = None, scale: int | None = None) -> Chart:
    """Return the chart of a plan in ``width`` columns (30 at least), from the day ``first`` on.

    ``scale`` is columns a day. Raises BadInput when the width is too small.
    """
    if width < NARROWEST:
        raise BadInput("too narrow for a chart", f"{width} columns; {NARROWEST} are needed")
    label = max(12, min(30, width * 3 // 8))
    room = width - label - 1
    begins = plan.calendar.day_of(plan.now)
    last = plan.calendar.day_of(max([plan.end, *(r.row.finish for r in plan.rows)]))
    first = first or begins
    total = (last - begins).days + 1
    if scale is None:
        scale = next((s for s in SCALES if total * s <= room), 1)
    days = max(1, room // scale)
    grid = _Grid(plan.calendar, first, days, scale)
    today = grid.column(plan.now)
    bars = tuple(_bar(plan, r, grid, today).rstrip() for r in plan.rows)
    heads = tuple((" " * (label + 1) + line).rstrip() for line in grid.head())
    ids = tuple(r.item.id for r in plan.rows)
    names = tuple(r.item.name for r in plan.rows)
    return Chart((heads[0], heads[1]), bars, ids, names, label, LEGEND, first, days, last)


@dataclass(frozen=True, slots=True)
class _Grid:
    """Days side by side, ``scale`` columns each, midnight to midnight in the job's zone."""

    calendar: WorkCalendar
    first: dt.date
    days: int
    scale: int

    @property
    def width(self) -> int:
        return self.days * self.scale

    def column(self, minutes: int, end: bool = False) -> int:
        """Return the column an instant falls in; for an ``end`` the one it closes. May lie outside.

        A working day fills its columns from its first hour to its last; night lies between days.
        """
        day = self.calendar.day_of(minutes - (1 if end else 0))
        opens, closes = self.calendar.shift(day)
        midnight = to_minutes(dt.datetime.combine(day, dt.time(0), tzinfo=self.calendar.tz))
        if not self.calendar.is_workday(day):
            opens, closes = midnight, midnight + 24 * 60
        share = (minutes - opens) / (closes - opens)
        if end:
            inside = max(0, min(self.scale - 1, -int(-share * self.scale // 1) - 1))
        else:
            inside = max(0, min(self.scale - 1, int(share * self.scale)))
        return (day - self.first).days * self.scale + inside

    def head(self) -> tuple[str, str]:
        """Return a line of months or weeks and a line of days."""
        upper, lower = [" "] * self.width, [" "] * self.width
        for n in range(self.days):
            day = self.first + dt.timedelta(days=n)
            at = n * self.scale
            if day.weekday() == 0 or n == 0 or (day.day == 1 and self.scale > 1):
                _write(upper, at, f"{day.day} {day:%b}")
            if self.scale >= 3:
                _write(lower, at, f"{day:%a}"[: self.scale - 1])
            else:
                lower[at] = "MTWTFSS"[day.weekday()]
        return "".join(upper), "".join(lower)

    def blank(self) -> list[str]:
        """Return an empty line with the days off marked."""
        cells: list[str] = []
        for n in range(self.days):
            off = not self.calendar.is_workday(self.first + dt.timedelta(days=n))
            cells += [OFF if off else " "] * self.scale
        return cells


def _write(cells: list[str], at: int, text: str) -> None:
    """Write a label unless it would touch the one before it or the edge."""
    if at + len(text) <= len(cells) and (at == 0 or cells[at - 1] == " ") and cells[at] == " ":
        cells[at : at + len(text)] = text


def _bar(plan: JobPlan, row: PlanRow, grid: _Grid, today: int) -> str:
    cells = grid.blank()
    if 0 <= today < len(cells):
        cells[today] = TODAY
    if row.row.slack > 0:
        _paint(cells, grid.column(row.clear, True) + 1, grid.column(_slack_end(plan, row), True), FLOAT)
    if row.clear > row.row.finish:
        _paint(cells, grid.column(row.row.finish), grid.column(row.clear, True), WAIT)
    if row.is_hold:
        mark = GUESS if row.assumed else HOLD
        at = grid.column(row.row.finish, True)
        _paint(cells, at, at, mark)
    else:
        _paint(cells, grid.column(row.row.start), grid.column(row.row.finish, True), WORK)
    return "".join(cells)


def _slack_end(plan: JobPlan, row: PlanRow) -> int:
    """Return the instant up to which the row may slip, its wait included."""
    return min(
        plan.end, plan.calendar.add_work(row.row.finish, row.row.slack * 15) + row.clear - row.row.finish
    )


def _paint(cells: list[str], begin: int, last: int, mark: str) -> None:
    for at in range(max(0, begin), min(len(cells), last + 1)):
        cells[at] = mark
