"""What can be done on a screen: one small class a command.

A screen declares its commands once and everything reads them: key bindings, the line of keys at the
foot, the palette (ctrl+p) and the F1 screen::

    class LogVisit(Command):
        \"\"\"Log a visit: load a recording's captions, or type what you saw.\"\"\"

        id = "timeline.log"          # public and stable: keys are remapped by it
        name = "Log a visit"         # in the palette and in F1
        key = "l"
        foot = "log a visit"         # at the foot of the screen; "" keeps it in F1 and the palette

    class TimelineScreen(JournalScreen):
        OWN_COMMANDS = (LogVisit, ...)

        def action_log_visit(self) -> None: ...

The action is the class's name in small letters (``LogVisit`` → ``action_log_visit``). The docstring is
the help. At most six commands of a screen have a ``foot``; F1 is always the seventh.
"""

from __future__ import annotations

import inspect
import re
from typing import ClassVar

from textual.binding import Binding

#: How keys are written for people; others are shown as they are.
_SHOWN = {
    "escape": "esc",
    "question_mark": "?",
    "slash": "/",
    "plus": "+",
    "minus": "-",
    "right_square_bracket": "]",
    "left_square_bracket": "[",
    "full_stop": ".",
    "comma": ",",
    "left": "left",
}


class Command:
    """One thing that can be done. Subclasses say what in class attributes and in their docstring."""

    id: ClassVar[str]
    name: ClassVar[str]
    key: ClassVar[str]
    foot: ClassVar[str] = ""
    #: True for keys that work while a line is being typed too.
    always: ClassVar[bool] = False

    @classmethod
    def action(cls) -> str:
        """Return the name of the screen's action that does it."""
        return re.sub(r"(?<!^)(?=[A-Z])", "_", cls.__name__).lower()

    @classmethod
    def help(cls) -> str:
        """Return what it does, in a sentence or two."""
        return " ".join(inspect.cleandoc(cls.__doc__ or "").split())

    @classmethod
    def key_shown(cls) -> str:
        """Return the key as it is shown."""
        first = cls.key.split(",")[0]
        return _SHOWN.get(first, first.upper() if re.fullmatch(r"f\d+", first) else first)

    @classmethod
    def binding(cls) -> Binding:
        """Return the key binding."""
        return Binding(
            cls.key,
            cls.action(),
            cls.name,
            show=bool(cls.foot),
            key_display=cls.key_shown(),
            priority=cls.always,
            id=cls.id,
        )


class Help(Command):
    """Say what the thing in use is for, and list every key of this screen."""

    id = "everywhere.help"
    name = "Help for this screen"
    key = "f1"
    foot = "help"
    always = True


class Undo(Command):
    """Take back the newest change to this job, as often as you like; ctrl+z does it while typing.

    A whole logged visit goes only from the timeline or the jobs, and only after a second z.
    """

    id = "everywhere.undo"
    name = "Undo"
    key = "z,ctrl+z"


class Back(Command):
    """Go back one screen. While typing: leave the line; what is typed stays and is there next time."""

    id = "everywhere.back"
    name = "Back"
    key = "escape"


class ChangeLight(Command):
    """Change between lamplight, the dark theme, and daylight, the light one; the choice is kept."""

    id = "everywhere.light"
    name = "Change between lamplight and daylight"
    key = "f3"


class LeaveJournal(Command):
    """Leave the program. All is saved already; anything half typed is kept and is there next time."""

    id = "everywhere.leave"
    name = "Leave the journal"
    key = "ctrl+q"
    always = True


#: On every screen, after its own.
EVERYWHERE: tuple[type[Command], ...] = (Undo, Back, Help, ChangeLight, LeaveJournal)


def unique(commands: tuple[type[Command], ...]) -> tuple[type[Command], ...]:
    """Return commands in order, a later one with a key already taken left out."""
    taken: set[str] = set()
    kept = []
    for command in commands:
        keys = set(command.key.split(","))
        if not keys & taken:
            kept.append(command)
            taken |= keys
    return tuple(kept)
