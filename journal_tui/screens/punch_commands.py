"""What can be done on the punch list."""

from __future__ import annotations

from journal_tui.screens import commands, listing
from journal_tui.screens.commands import Command


class FinishItem(Command):
    """Mark the item done today. Its line stays where it is until you leave the list, so nothing jumps."""

    id = "punch.done"
    name = "Done"
    key = "d"
    foot = "done"


class DropItem(Command):
    """Decide against the item: it is off the list, not done, and kept in the history."""

    id = "punch.drop"
    name = "Drop"
    key = "x"
    foot = "drop"


class ReopenItem(Command):
    """Put a done or dropped item back on the list. Since when it was owed stays as it was."""

    id = "punch.reopen"
    name = "Reopen"
    key = "o"


class AddItem(Command):
    """Type what is owed, as you would say it; phase, area and whose move it is are read from the words."""

    id = "punch.add"
    name = "Add to the list"
    key = "plus"
    foot = "add"


class HandOn(Command):
    """Change whose move it is: crew, client, inspector, supplier."""

    id = "punch.who"
    name = "Change whose move it is"
    key = "w"
    foot = "who"


class ShowClosed(Command):
    """Show what is done and dropped instead of what is open, and back again."""

    id = "punch.closed"
    name = "Done and dropped, or open"
    key = "c"
    foot = "closed"


class Narrow(listing.Narrow):
    """Show only the items that hold the words you type. Enter keeps them, esc shows all again."""

    # The line of keys is full; F1 and the palette have it.
    foot = ""


class OpenItem(Command):
    """Go to the words the item came from, in the review of its visit."""

    id = "punch.open"
    name = "Where it was said"
    key = "enter"


class NextPhase(Command):
    """Walk the course of phases to the right: the list shows only that phase."""

    id = "punch.next_phase"
    name = "Next phase"
    key = "right"


class PreviousPhase(Command):
    """Walk the course of phases to the left, back to the whole job."""

    id = "punch.previous_phase"
    name = "Previous phase"
    key = "left"


class ClientUpdate(Command):
    """See what the client would be told: the update, not yet sent."""

    id = "punch.update"
    name = "Client update"
    key = "u"


class NextVisit(Command):
    """Put the next visit together: what is ready and fits, what to load, what the rest waits for."""

    id = "punch.visit"
    name = "Next visit"
    key = "v"


class SchedulePlan(Command):
    """Draw when all that is open can be done, why nothing is sooner, and when the job ends."""

    id = "punch.schedule"
    name = "Schedule"
    key = "s"


class Undo(commands.Undo):
    """Take back the newest change to this job, as often as you like."""

    foot = "undo"


PUNCH_COMMANDS: tuple[type[Command], ...] = (
    FinishItem,
    DropItem,
    AddItem,
    HandOn,
    ShowClosed,
    Undo,
    ReopenItem,
    Narrow,
    OpenItem,
    NextPhase,
    PreviousPhase,
    ClientUpdate,
    NextVisit,
    SchedulePlan,
)
