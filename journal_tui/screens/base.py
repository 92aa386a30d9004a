"""What every screen of the journal has in common.

How a screen is made:

* declare its commands in ``OWN_COMMANDS`` (see ``commands.py``) and give an ``action_...`` for each;
* yield its widgets in ``body()``; the title, the status line and the keys stand around them;
* read its data in ``reload()``: called when the screen is mounted, when it comes to the front again and
  after undo. Small indexed reads may stay there; anything slow goes to ``work``;
* wrap what may fail in ``with self.trying():``, which shows a ``JournalError`` in words;
* long work: ``self.work("draft", do)``, where ``do(journal, progress)`` runs in a thread with a journal
  of its own; then ``work_done`` or ``work_failed`` gets the outcome, in the screen's own thread;
* of handlers (``on_...``) Textual calls every class's own, the subclass's first: do not call ``super()``;
* user text only through ``lines.pieces``/``spread``/``fit`` or ``Content``: never as markup.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.widget import Widget

from journal_tui.domain.errors import JournalError, NothingFound
from journal_tui.domain.times import short_day
from journal_tui.screens.commands import EVERYWHERE, Command, unique
from journal_tui.screens.frame import KeyLine, StatusLine, TitleLine
from journal_tui.screens.telling import TellingScreen

if TYPE_CHECKING:
    pass


#: How long keys already on their way may take to arrive, in seconds.
_LINE_OPENS = 0.15


class JournalScreen(TellingScreen):
    """A screen of the journal; see the head of this module."""

    OWN_COMMANDS: ClassVar[tuple[type[Command], ...]] = ()
    #: What F1 says of the screen as a whole.
    HELP = ""
    #: True on screens whose undo may take back a whole logged visit, when it is pressed twice.
    UNDO_TAKES_VISITS = False
    AUTO_FOCUS = "LineList, TypingLine"
    #: True on screens that begin with typing: what is typed before the line has the keys goes into it.
    TYPES_AT_ONCE = False
    DEFAULT_CSS = "JournalScreen { layout: vertical; background: $paper; color: $ink; }"

    def __init_subclass__(cls, **options: bool) -> None:
        # Before Textual gathers the bindings: they are made from the commands.
        if "OWN_COMMANDS" in cls.__dict__:
            cls.BINDINGS = [command.binding() for command in unique((*cls.OWN_COMMANDS, *EVERYWHERE))]
        super().__init_subclass__(**options)

    def __init__(self, job_id: str | None = None) -> None:
        super().__init__()
        #: The job the screen is about; undo takes back its newest change.
        self.job_id = job_id
        self._covered = False
        self._no_body: JournalError | None = None

    @classmethod
    def commands(cls) -> tuple[type[Command], ...]:
        """Return all that can be done here, the screen's own first."""
        return unique((*cls.OWN_COMMANDS, *EVERYWHERE))

    # What stands on it -------------------------------------------------------------------------

    def compose(self) -> ComposeResult:
        yield TitleLine()
        try:
            yield from self.body()
        except JournalError as error:
            self._no_body = error
        yield StatusLine()
        yield KeyLine(self.commands())

    def body(self) -> ComposeResult:
        """Yield the widgets between the title and the status line."""
        raise NotImplementedError

    def reload(self) -> None:
        """Read the screen's data again and show it."""

    def title_is(self, where: str, what: str = "", right: str | None = None) -> None:
        """Say at the top which house, what of it, and at the right what day it is."""
        line = self.query_one(TitleLine)
        line.where, line.what = where, what
        line.right = short_day(self.journal.today()) if right is None else right

    def on_mount(self) -> None:
        self._read()
        self._opened = True
        if self._early:
            self.typed_early(self._early)

    def on_screen_suspend(self) -> None:
        self._covered = True

    def on_screen_resume(self) -> None:
        if self._covered:
            self._covered = False
            self._read()

    def _read(self) -> None:
        if self._no_body is not None:
            self.fail(self._no_body)
            return
        with self.trying():
            self.reload()
        if self.focused is None:
            # What was empty, and so could not take the keys, may hold something now.
            able = next((w for w in self.query(self.AUTO_FOCUS or "*") if w.focusable), None)
            if able is not None:
                able.focus()

    # Typing --------------------------------------------------------------------------------------

    #: True from the key that begins typing until the line has the keys.
    _line_opening = False
    #: True once the screen and its lines stand; what was typed until then.
    _opened, _early = False, ""

    def type_into(self, line: Widget) -> None:
        """Give the keys to a line. A letter typed fast behind the key that did it never acts as a command."""
        self._line_opening = True
        # At once: focus() would wait for its turn behind the keys already on their way.
        self.set_focus(line)
        self.set_timer(_LINE_OPENS, self._line_opened)

    def typed_early(self, character: str) -> bool:
        """Take a character that came before the line had the keys; False when this screen does not."""
        from textual.widgets import Input

        if not self.TYPES_AT_ONCE:
            return False
        if not self._opened:
            self._early += character
            return True
        lines = [self.focused] if self.focused else list(self.query(self.AUTO_FOCUS or "*"))
        if not lines or not isinstance(lines[0], Input):
            return False
        lines[0].insert_text_at_cursor(character)
        return True

    def _line_opened(self) -> None:
        self._line_opening = False

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if self._line_opening and action in [command.action() for command in self.OWN_COMMANDS]:
            return False
        return super().check_action(action, parameters)

    # What can be done everywhere -------------------------------------------------------------------

    def action_undo(self) -> None:
        from journal_tui.journal.undoing import ground_next, undo

        if self.job_id is None:
            self.say("There is nothing to undo here.")
            return
        with self.trying():
            ground = ground_next(self.journal, self.job_id) if self.UNDO_TAKES_VISITS else None
            ask = f"z again takes a whole visit back, its drafts too: {ground}. It cannot be redone."
            if ground is not None and self.told != ask:
                self.say(ask)
                return
            label = undo(self.journal, self.job_id, keep_ground=ground is None)
            try:
                self.reload()
            except NothingFound:
                self.say(f"Undone: {label}. What stood here went with it; esc goes back.")
                return
            self.say(f"Undone: {label}.")

    def action_back(self) -> None:
        if self.stop_work() or self._left_the_line():
            return
        unfinished = self.has_unfinished_line()
        self.go_back()
        if unfinished and isinstance(self.app.screen, JournalScreen) and self.app.screen is not self:
            self.app.screen.say("What you typed is kept, and there when you go back to it.")

    def _left_the_line(self) -> bool:
        from journal_tui.screens.line_list import LineList
        from journal_tui.screens.typing_line import TypingLine

        lists: list[Widget] = [w for w in self.query(LineList) if w.display and w.can_focus]
        if isinstance(self.focused, TypingLine) and lists:
            lists[0].focus()
            if self.has_unfinished_line():
                self.say("What you typed is kept in the line.")
            return True
        return False

    def has_unfinished_line(self) -> bool:
        """True when something typed on this screen has not been used yet."""
        return any(getattr(widget, "unfinished", False) for widget in self.query("*"))

    def go_back(self) -> None:
        """Go to the screen before this one."""
        if not self.is_active:
            # The key came while this screen was closing; what is on top now is another one.
            return
        if len(self.app.screen_stack) > 1:
            self.app.pop_screen()
        else:
            self.say("This is the first screen. ctrl+q leaves the journal.")

    def action_help(self) -> None:
        from journal_tui.screens.help import HelpScreen

        self.app.push_screen(HelpScreen(self))

    def action_change_light(self) -> None:
        self.japp.change_light()

    async def action_leave_journal(self) -> None:
        await self.app.action_quit()
