"""What can be done with a client update, and with those that were sent."""

from __future__ import annotations

from journal_tui.screens import commands
from journal_tui.screens.commands import Command


class EditUpdate(Command):
    """Change the words yourself, as Markdown. Kept at every key; esc ends it. New facts are worked in."""

    id = "update.edit"
    name = "Edit the update"
    key = "e"
    foot = "edit"


class FreezeUpdate(Command):
    """Freeze the update as sent today and write it as Markdown, web page and text into a folder."""

    id = "update.freeze"
    name = "Freeze and write files"
    key = "f"
    foot = "freeze & write"


class ShowSource(Command):
    """See the Markdown itself, or the page as it reads."""

    id = "update.source"
    name = "Markdown or page"
    key = "m"
    foot = "Markdown"


class ChangeLength(Command):
    """Go round the lengths: standard, full, then a short message. Each keeps an edit of its own."""

    id = "update.length"
    name = "Short, standard or full"
    key = "l"
    foot = "length"


class CheckUpdate(Command):
    """See what is left out of the update and why, and words in it that blame or alarm. Nothing is changed."""

    id = "update.check"
    name = "What is left out, words to think of"
    key = "c"


class Differences(Command):
    """See, change by change, what the journal says now against your own version, and take single ones."""

    id = "update.differences"
    name = "Your version and the journal's"
    key = "d"


class TakeJournals(Command):
    """Take the journal's wording of this difference."""

    id = "difference.take"
    name = "Take the journal's"
    key = "t"
    foot = "take the journal's"


class KeepYours(Command):
    """Keep your own wording of this difference."""

    id = "difference.keep"
    name = "Keep yours"
    key = "k"
    foot = "keep yours"


class SentUpdates(Command):
    """See the updates already sent, as they were."""

    id = "update.sent"
    name = "Updates sent"
    key = "s"
    foot = "sent ones"


class DiscardEdit(Command):
    """Go back to what the journal says, without your own words. z brings them back."""

    id = "update.discard"
    name = "Discard your edit"
    key = "D"


class Undo(commands.Undo):
    """Bring back an edit just discarded or a difference settled, else undo the newest change to this job."""


class OpenSent(Command):
    """Read the update as it was sent."""

    id = "sent.open"
    name = "Open"
    key = "enter"
    foot = "open"


class WriteAgain(Command):
    """Write the sent update as Markdown, web page and text into a folder; it stays as it was sent."""

    id = "sent.write"
    name = "Write files again"
    key = "f"
    foot = "write files"


UPDATE_COMMANDS: tuple[type[Command], ...] = (
    EditUpdate,
    FreezeUpdate,
    ShowSource,
    ChangeLength,
    CheckUpdate,
    Differences,
    SentUpdates,
    DiscardEdit,
    Undo,
)
DIFFERENCE_COMMANDS: tuple[type[Command], ...] = (TakeJournals, KeepYours, Undo)
SENT_LIST_COMMANDS: tuple[type[Command], ...] = (OpenSent,)
SENT_COMMANDS: tuple[type[Command], ...] = (WriteAgain, ShowSource)
