"""Working time laid end to end in quarter hours, and back to instants.

Slot k is the k-th quarter hour of work from a given moment on. Work occupies slots; waits are
minutes between instants; this is the only place where one becomes the other.
"""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left, bisect_right

from journal_tui.domain.errors import BadInput
from journal_tui.planning.calendar import SLOT_MINUTES, WorkCalendar

#: Plans longer than this are refused: a slip of the keys, not a job.
MOST_DAYS = 36_600


class Axis:
    """The slots of a work calendar from an instant on; grows as it is asked.

    The first slot is the first whole quarter hour of a shift not before ``begin`` (minutes since
    the epoch).
    """

    def __init__(self, calendar: WorkCalendar, begin: int) -> None:
        self.calendar = calendar
        self.begin = begin
        self.days: list[dt.date] = []
        self._opens: list[int] = []  # instant of the first slot of each day
        self._first: list[int] = []  # number of the first slot of each day
        self.size = 0
        self._next = calendar.day_of(begin)
        self._grow()

    def _grow(self) -> None:
        """Add the next working day."""
        day = self.calendar.next_workday(self._next)
        if len(self.days) >= MOST_DAYS:
            raise BadInput("The plan does not end", f"it runs past {day.year}; check the hours of its items")
        opens, closes = self.calendar.shift(day)
        self._next = day + dt.timedelta(days=1)
        if not self.days and opens < self.begin:
            opens += -(-(self.begin - opens) // SLOT_MINUTES) * SLOT_MINUTES
            if opens >= closes:
                self._grow()
                return
        self.days.append(day)
        self._opens.append(opens)
        self._first.append(self.size)
        self.size += (closes - opens) // SLOT_MINUTES

    def reach(self, slot: int) -> None:
        """Make sure that ``slot`` exists."""
        while self.size <= slot:
            self._grow()

    def day(self, slot: int) -> dt.date:
        """Return the date of a slot."""
        self.reach(slot)
        return self.days[bisect_right(self._first, slot) - 1]

    def span(self, day_number: int) -> tuple[int, int]:
        """Return the first slot of the n-th working day and the first of the next one."""
        while len(self._first) <= day_number + 1:
            self._grow()
        return self._first[day_number], self._first[day_number + 1]

    def start(self, slot: int) -> int:
        """Return the instant at which a slot begins."""
        self.reach(slot)
        d = bisect_right(self._first, slot) - 1
        return self._opens[d] + (slot - self._first[d]) * SLOT_MINUTES

    def finish(self, slot: int) -> int:
        """Return the instant at which the slot before ``slot`` ends: work up to there is done."""
        return self.start(slot - 1) + SLOT_MINUTES if slot > 0 else self.start(0)

    def at_or_after(self, instant: int) -> int:
        """Return the first slot that begins at or after an instant."""
        while self._opens[-1] < instant:
            self._grow()
        d = bisect_right(self._opens, instant) - 1
        if d < 0:
            return 0
        ahead = -(-(instant - self._opens[d]) // SLOT_MINUTES)
        closes = self._first[d + 1] if d + 1 < len(self._first) else self.size
        return min(self._first[d] + ahead, closes)

    def done_by(self, instant: int) -> int:
        """Return how many slots, counted from the beginning, are over at an instant."""
        while self._opens[-1] < instant:
            self._grow()
        d = bisect_left(self._opens, instant) - 1
        if d < 0:
            return 0
        behind = (instant - self._opens[d]) // SLOT_MINUTES
        closes = self._first[d + 1] if d + 1 < len(self._first) else self.size
        return min(self._first[d] + behind, closes)
