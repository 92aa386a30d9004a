"""What can be done while logging a visit."""

from __future__ import annotations

from journal_tui.screens.commands import Command


class LoadCaptions(Command):
    """Load the selected recording or captions: the visit is logged, drafted, and you go on to review it."""

    id = "log.load"
    name = "Load it"
    key = "enter"
    foot = "load"


class TypeInstead(Command):
    """No recording: type the visit, one thing a line."""

    id = "log.type"
    name = "Type the visit instead"
    key = "t"
    foot = "type instead"


class SetDay(Command):
    """Say which day the visit was: today, Friday, 3/11 or 2026-03-11."""

    id = "log.day"
    name = "Set the day"
    key = "d"
    foot = "day"


class SetPeople(Command):
    """Say who was there."""

    id = "log.people"
    name = "Say who was there"
    key = "w"
    foot = "who"


class SetSummary(Command):
    """Say in a few words what the visit was about."""

    id = "log.summary"
    name = "Say what it was about"
    key = "a"
    foot = "about"


class TypePath(Command):
    """Type words of a file's name to narrow the list, or a path; tab carries a path on."""

    id = "log.path"
    name = "Type a name or path"
    key = "slash"
    foot = "path"


class LogAgain(Command):
    """Log a recording that is in the journal already a second time."""

    id = "log.again"
    name = "Log it again"
    key = "g"


LOG: tuple[type[Command], ...] = (
    LoadCaptions,
    TypeInstead,
    SetDay,
    SetPeople,
    SetSummary,
    TypePath,
    LogAgain,
)
