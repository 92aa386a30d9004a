"""The app: it opens on the jobs, or straight on the timeline when there is only one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from rich.text import Text
from textual import events
from textual.app import App
from textual.reactive import Reactive
from textual.screen import Screen
from textual.theme import Theme

from journal_tui.domain.errors import JournalError
from journal_tui.journal.opening import Journal
from journal_tui.screens.autosave import Autosave
from journal_tui.screens.theme import DAYLIGHT, LAMPLIGHT, THEMES

if TYPE_CHECKING:
    from textual.command import Provider

#: Where the choice of theme is kept, beside what is half typed.
_LIGHT_PLACE = "setting/light"


def _palette() -> type[Provider]:
    from journal_tui.screens.palette import JournalCommands

    return JournalCommands


class JournalApp(App[None]):
    """The journal on screens. ``start`` is the id of the job to open on, None to let it choose."""

    TITLE = "journal_tui"
    CSS = "CommandPalette SearchIcon { display: none; }"
    COMMANDS: ClassVar[set[Any]] = {_palette}
    theme: Reactive[str] = Reactive(LAMPLIGHT.name)

    def __init__(self, journal: Journal, start: str | None = None) -> None:
        super().__init__()
        self.journal = journal
        self.start = start
        self.autosave = Autosave(journal, self._not_saved)
        self._leaving = False
        self._use_kept_light()

    # Themes -------------------------------------------------------------------------------------

    @property
    def available_themes(self) -> dict[str, Theme]:
        """Only our own: every colour in use is defined, and checked, in both."""
        return THEMES

    def _use_kept_light(self) -> None:
        from journal_tui.journal.typed import recall

        try:
            kept = recall(self.journal, _LIGHT_PLACE)
        except JournalError:
            return
        if kept in THEMES and kept != self.theme:
            self.set_reactive(JournalApp.theme, kept)
            self.stylesheet.set_variables(self.get_css_variables())

    def change_light(self) -> None:
        """Change to the other theme, and keep to it next time."""
        self.theme = DAYLIGHT.name if self.theme == LAMPLIGHT.name else LAMPLIGHT.name
        self.autosave.keep(_LIGHT_PLACE, self.theme)

    # Screens ------------------------------------------------------------------------------------

    def get_default_screen(self) -> Screen[object]:
        """Return the list of jobs, so that it is the first thing painted and lies under all else."""
        from journal_tui.screens.jobs import JobsScreen

        return JobsScreen()

    def on_key(self, event: events.Key) -> None:
        # Here all keys end up that nothing took, those on their way while a form opened among them.
        typed_early = getattr(self.screen, "typed_early", None)
        if typed_early and event.is_printable and event.character and typed_early(event.character):
            event.prevent_default()

    def on_mount(self) -> None:
        job_id = self.start or self._only_job()
        if job_id is not None:
            from journal_tui.screens.timeline import TimelineScreen

            self.push_screen(TimelineScreen(job_id))

    def _only_job(self) -> str | None:
        from journal_tui.journal.jobs import list_jobs

        try:
            jobs = list_jobs(self.journal)
        except JournalError:
            return None
        return jobs[0].job.id if len(jobs) == 1 else None

    # Leaving ------------------------------------------------------------------------------------

    async def action_quit(self) -> None:
        """Leave; with text half typed, say that it is kept and leave at the second time."""
        unfinished = [w for w in self.screen.query("*") if getattr(w, "unfinished", False)]
        say = getattr(self.screen, "say", None)
        if unfinished and say is not None and not self._leaving:
            self._leaving = True
            say("What you are typing is kept for next time. ctrl+q again leaves.")
            return
        self.autosave.close()
        self.exit()

    def on_input_changed(self) -> None:
        self._leaving = False

    def _fatal_error(self) -> None:
        # Textual would print the traceback with the values of variables, which may be private notes.
        from journal_tui.journal.faults import record_fault

        log = record_fault(self._exception) if self._exception else None
        where = f" What happened is written in {log}." if log else ""
        words = f"The journal program met a fault of its own and stopped. All confirmed is saved.{where}"
        self._exit_renderables.append(Text(words))
        self._close_messages_no_wait()

    def _not_saved(self, error: JournalError) -> None:
        self.call_later(self._say_not_saved, error)

    def _say_not_saved(self, error: JournalError) -> None:
        from journal_tui.screens.base import JournalScreen

        if isinstance(self.screen, JournalScreen):
            self.screen.fail(error)


def run_app(journal: Journal, start: str | None = None) -> None:
    """Open the screens on an open journal, on job ``start`` when one is named, until the person leaves."""
    app = JournalApp(journal, start)
    try:
        app.run()
    finally:
        app.autosave.close()
