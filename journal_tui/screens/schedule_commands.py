"""What can be done on the schedule."""

from __future__ import annotations

from journal_tui.screens import commands
from journal_tui.screens.commands import Command
from journal_tui.screens.listing import Narrow


class LaterDays(Command):
    """Draw later days: the chart moves on by half of what it shows."""

    id = "schedule.later"
    name = "Later days"
    key = "right"


class EarlierDays(Command):
    """Draw earlier days, back to today."""

    id = "schedule.earlier"
    name = "Earlier days"
    key = "left"


class Closer(Command):
    """Draw a day wider, or, at its widest, as narrow as shows the whole plan again."""

    id = "schedule.closer"
    name = "Wider or narrower days"
    key = "s"


class OpenFigures(Command):
    """Open all that the plan takes the item to be, to state any of it: hours, wait, sub, order, load."""

    id = "schedule.open"
    name = "What it takes"
    key = "enter"
    foot = "figures"


class WorkWeek(Command):
    """Set the job's work week: days, hours, holidays, people, how many the room holds."""

    id = "schedule.week"
    name = "Work week"
    key = "c"


class DayOff(Command):
    """Take a day off, or say worked or usual before it: friday, worked 12/5, usual friday."""

    id = "schedule.day"
    name = "Day off"
    key = "d"


class SubDays(Command):
    """Say on which days a licensed sub can be had, such as electrician: tue, thu."""

    id = "schedule.sub"
    name = "Days of a sub"
    key = "e"


class FollowItem(Command):
    """Say what the item waits for, by words of the other item; what goes round in a circle is refused."""

    id = "schedule.link"
    name = "Link after another item"
    key = "a"
    foot = "after"


class BookHold(Command):
    """Book the day of an inspection, answer, delivery or test: friday, next thu, 12/3. It is a forecast."""

    id = "schedule.book"
    name = "Book its day"
    key = "b"
    foot = "book"


class RecordResult(Command):
    """Record what came of an inspection, answer, delivery or test; only that releases what follows."""

    id = "schedule.result"
    name = "Record its result"
    key = "r"
    foot = "result"


class NextVisit(Command):
    """Make the punch list of the next visit: what fits, what to load, what the rest waits for."""

    id = "schedule.visit"
    name = "Next visit"
    key = "v"
    foot = "visit"


class WhatMoved(Command):
    """Say what moved since the plan as of the last visit, and what the plan assumes."""

    id = "schedule.moved"
    name = "What moved, what is assumed"
    key = "m"


class Undo(commands.Undo):
    """Take back the newest change to this job, as often as you like."""


SCHEDULE_COMMANDS: tuple[type[Command], ...] = (
    OpenFigures,
    FollowItem,
    BookHold,
    RecordResult,
    NextVisit,
    WorkWeek,
    DayOff,
    SubDays,
    WhatMoved,
    EarlierDays,
    LaterDays,
    Closer,
    Narrow,
    Undo,
)
