"""What can be done on the record of a house, on its preview, and with the photos of a thing."""

from __future__ import annotations

from journal_tui.screens import commands, listing
from journal_tui.screens.commands import Command


class AddWork(Command):
    """Put something behind a surface on record, with its distance from points that stay."""

    id = "record.work"
    name = "Add hidden work"
    key = "n"
    foot = "hidden work"


class AddTest(Command):
    """Put a test of the selected work on record: what it was, passed or failed, what was read, by whom."""

    id = "record.test"
    name = "Add a test"
    key = "t"
    foot = "test"


class CoverWork(Command):
    """Say on what day the selected work was covered; on one that is covered, take that back."""

    id = "record.cover"
    name = "Covered, or not after all"
    key = "c"
    foot = "cover"


class ShowPhotos(Command):
    """See the photos of the selected work or test, attach more, or take one away."""

    id = "record.photos"
    name = "Photos"
    key = "i"
    foot = "photos"


class AddFinish(Command):
    """Put a finish on record: what it is, its lot, how to care for it, how long its warranty runs."""

    id = "record.finish"
    name = "Add a finish"
    key = "a"
    foot = "finish"


class ReadRecord(Command):
    """Read the record as the owner of the house will, or the whole closing file, and write it to files."""

    id = "record.read"
    name = "As it reads"
    key = "v"
    foot = "read"


class OpenLine(Command):
    """Set the selected line right in its form: a work, a test, a finish; the acceptance is recorded by it."""

    id = "record.open"
    name = "Set it right"
    key = "enter"


class DropLine(Command):
    """Take the selected work, test or finish off the record; a work goes with its tests and photos."""

    id = "record.drop"
    name = "Take off the record"
    key = "x"


class SignOff(Command):
    """Record that the finished job was accepted: by whom, how, when. What is still open needs a note."""

    id = "record.sign"
    name = "The job is accepted"
    key = "s"


class Narrow(listing.Narrow):
    """Show only the lines that hold the words you type. Enter keeps them, esc shows all again."""

    # The line of keys is full; F1 and the palette have it.
    foot = ""


RECORD_COMMANDS: tuple[type[Command], ...] = (
    AddWork,
    AddTest,
    CoverWork,
    ShowPhotos,
    AddFinish,
    ReadRecord,
    OpenLine,
    DropLine,
    SignOff,
    Narrow,
)


class ClosingFile(Command):
    """See the closing file with finishes, care, warranties and acceptance, or the hidden work alone."""

    id = "record.closing"
    name = "Closing file or hidden work"
    key = "c"
    foot = "closing file / hidden work"


class FreezeRecord(Command):
    """Keep the record as it stands today and write it to a folder."""

    id = "record.freeze"
    name = "Freeze and write files"
    key = "f"
    foot = "freeze & write"


class AttachPhoto(Command):
    """Type the path of a photo, or several; dropping files on the window does it too."""

    id = "photos.attach"
    name = "Attach a photo"
    key = "n"
    foot = "attach"


class TakeAway(Command):
    """Take the selected photo away; the file you gave is left alone."""

    id = "photos.drop"
    name = "Take away"
    key = "x"
    foot = "take away"


class ShowLarge(Command):
    """Show the selected photo over the whole screen; any key goes back."""

    id = "photos.large"
    name = "Over the whole screen"
    key = "v,enter"
    foot = "large"


class Undo(commands.Undo):
    """Take back the newest change to this job, as often as you like."""

    foot = "undo"


PHOTO_COMMANDS: tuple[type[Command], ...] = (AttachPhoto, TakeAway, ShowLarge, Undo)
