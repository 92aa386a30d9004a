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


class StateHours(Command):
    """State the crew-hours of the item: the hours of all people together. Empty: common practice again."""

    id = "schedule.hours"
    name = "State its hours"
    key = "h"
    foot = "hours"


class StatePeople(Command):
    """State how many people work on the item at once."""

    id = "schedule.people"
    name = "State its people"
    key = "p"


class StateWait(Command):
    """State the hours by the clock after the item before what follows may start; the label wins."""

    id = "schedule.wait"
    name = "State its wait"
    key = "w"


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
    StateHours,
    FollowItem,
    BookHold,
    RecordResult,
    NextVisit,
    StateWait,
    StatePeople,
    WhatMoved,
    EarlierDays,
    LaterDays,
    Closer,
    Narrow,
    Undo,
)
