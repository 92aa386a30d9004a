"""What can be done with the next visit."""

from __future__ import annotations

from journal_tui.screens import commands
from journal_tui.screens.commands import Command


class NotThisTime(Command):
    """Leave the item out of this visit, or take it back in."""

    id = "visit.leave_out"
    name = "Not this time, or back in"
    key = "n"
    foot = "not now"


class TakeFirst(Command):
    """Move the item to the front of this visit; one that did not fit comes in, if it is ready."""

    id = "visit.first"
    name = "Take it first"
    key = "t"
    foot = "first"


class FinishItem(Command):
    """Mark the item done today."""

    id = "visit.done"
    name = "Done"
    key = "space"
    foot = "done"


class AddItem(Command):
    """Type something that is owed; it goes on the punch list, and into the visit if it is ready and fits."""

    # The line of keys is full; F1 and the palette have it.
    id = "visit.add"
    name = "Add something"
    key = "plus"


class ChangeDay(Command):
    """Change the day of the visit: friday, next thu, 12/3."""

    id = "visit.day"
    name = "Change the day"
    key = "d"
    foot = "day"


class ChangeHours(Command):
    """Change how many hours the visit has."""

    id = "visit.hours"
    name = "Change the hours"
    key = "h"


class ChangePeople(Command):
    """Change how many people there are."""

    id = "visit.people"
    name = "Change the people"
    key = "p"


class WhatToBring(Command):
    """Show all that is to load, to bring, to heed, to photograph and to ask; again for the items."""

    id = "visit.bring"
    name = "What to bring and ask"
    key = "l"


class FreezeSheet(Command):
    """Freeze the visit as a crew sheet: this exact list, with the date. Nothing private is on it."""

    id = "visit.freeze"
    name = "Freeze as a crew sheet"
    key = "f"
    foot = "freeze"


class SeeSheet(Command):
    """See the crew sheet as the crew reads it, and write it to files."""

    id = "visit.sheet"
    name = "The crew sheet"
    key = "s"
    foot = "sheet"


class Undo(commands.Undo):
    """Take back the newest change to this job, as often as you like."""


NEXT_VISIT_COMMANDS: tuple[type[Command], ...] = (
    FinishItem,
    NotThisTime,
    TakeFirst,
    AddItem,
    ChangeDay,
    SeeSheet,
    FreezeSheet,
    WhatToBring,
    ChangeHours,
    ChangePeople,
    Undo,
)
