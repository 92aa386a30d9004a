"""Logging a visit: which day, who was there, and the recording or its captions, or typed lines instead."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Input, Label

from journal_tui.domain.errors import AlreadyLogged, JournalError
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.days import day_typed
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.recordings import (
    Folder,
    FolderEntry,
    Logged,
    finished_path,
    first_folder,
    is_media,
    keep_folder,
    log_file,
    look_in,
    path_typed,
)
from journal_tui.journal.visits import last_people
from journal_tui.screens import log_commands as do
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, spread
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.working import Progress

_UP = "up"


class PathLine(TypingLine):
    """The line a recording's or caption file's name or path is typed in."""

    HELP = (
        "Type words of a file's name to narrow the list, or a path such as ~/talks/; tab carries a path on "
        "as far as there is one way. Enter loads the file or opens the folder."
    )
    BINDINGS = [Binding("tab", "finish", "Carry the path on", show=False, id="log.finish_path")]  # noqa: RUF012

    def action_finish(self) -> None:
        screen = self.screen
        if isinstance(screen, LogScreen):
            self.value = finished_path(self.value, screen.folder)
            self.cursor_position = len(self.value)


class LogScreen(JournalScreen):
    """Log a visit to a job."""

    HELP = (
        "Pick the recording of your walk, or its captions (.vtt, .srt or .txt): drafts are made from the "
        "words, and you go over those next. A recording's words are taken from captions of the same name "
        "beside it, from a text track inside it, or from its speech; a video gives each draft a still "
        "picture. Esc stops; the same recording then goes on where it stopped. No recording? t types the "
        "visit instead."
    )
    OWN_COMMANDS = do.LOG
    AUTO_FOCUS = "LineList"
    TYPES_AT_ONCE = True
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012
    DEFAULT_CSS = """
    LogScreen .fields { height: 1; }
    LogScreen Label { width: 9; color: $soft; padding: 0 1; }
    LogScreen #where, LogScreen #day-read { width: 1fr; color: $soft; padding: 0 1; }
    LogScreen #where { border-top: solid $joint; height: 2; width: 100%; }
    LogScreen TypingLine { width: 1fr; }
    LogScreen PathLine { width: 100%; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self.folder = Path()
        self._in_folder: dict[str, FolderEntry] = {}
        self._refused: Path | None = None

    def body(self) -> ComposeResult:
        for name, label, value, hint in (
            ("day", "day", "today", "today, Friday, 3/11 or 2026-03-11"),
            ("people", "who", last_people(self.journal, self.job_id or ""), "who was there: Rui, Dana"),
            ("summary", "about", "", "in a few words: second walk, after demo"),
        ):
            with Horizontal(classes="fields"):
                yield Label(label, markup=False)
                yield TypingLine(f"log/{self.job_id}/{name}", value=value, placeholder=hint, id=f"log-{name}")
                if name == "day":
                    yield Label("", id="day-read", markup=False)
        yield Label("", id="where", markup=False)
        yield LineList()
        yield PathLine(f"log/{self.job_id}/path", placeholder="or type its name or path", id="log-path")

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, "log a visit")
        self._read_day()
        if not self._in_folder:
            self.open_folder(first_folder(self.journal))

    # The day -------------------------------------------------------------------------------------

    def _value(self, name: str) -> str:
        return self.query_one(f"#log-{name}", TypingLine).value

    def _day(self) -> dt.date:
        return day_typed(self._value("day") or "today", self.journal.today())

    def _read_day(self) -> None:
        label = self.query_one("#day-read", Label)
        try:
            day = self._day()
            ahead = ", still to come" if day > self.journal.today() else ""
            label.update(Content(f"{short_day(day)} {day.year}{ahead}"))
        except JournalError as error:
            label.update(Content(error.title))

    # Folders -------------------------------------------------------------------------------------

    def open_folder(self, folder: Path) -> None:
        """List the recordings and caption files of a folder."""
        self.work("folder", lambda _journal, _progress: look_in(folder))

    def _show_folder(self, folder: Folder) -> None:
        self.folder = folder.path
        today = self.journal.today()
        self._in_folder = {str(entry.path): entry for entry in folder.entries}
        rows = [Row(key, _drawn(entry, today), entry.name) for key, entry in self._in_folder.items()]
        if folder.path.parent != folder.path:
            rows.append(
                Row(_UP, lambda width: spread([("../", "$mark"), ("  the folder above", "$soft")], [], width))
            )
        files = sum(not e.is_folder for e in folder.entries)
        said = f"{files} recordings and captions"
        more = f", {folder.more} more not shown" if folder.more else ""
        self.query_one("#where", Label).update(
            Content(f"{said} in {one_line(_short(folder.path))}, newest first{more}")
        )
        self.query_one(LineList).show(rows, select=rows[0].key if rows else None)

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row is None:
            return
        if event.row.key == _UP:
            self.open_folder(self.folder.parent)
            return
        chosen = self._in_folder[event.row.key]
        self.take(chosen.path, is_folder=chosen.is_folder)

    def take(self, path: Path, *, is_folder: bool, again: bool = False) -> None:
        """Open a folder, or log the visit from a recording or caption file."""
        if is_folder:
            self.open_folder(path)
            return
        with self.trying():
            day, people, summary = self._day(), self._value("people"), self._value("summary")
            job_id = self.job_id or ""

            def load(journal: Journal, progress: Progress) -> object:
                logged = log_file(
                    journal, job_id, path, day=day, people=people, summary=summary, again=again, told=progress
                )
                keep_folder(journal, path.parent)
                return logged

            self._refused = path
            self.work("load", load)

    # What is typed ---------------------------------------------------------------------------------

    def on_input_changed(self, event: Input.Changed) -> None:
        if isinstance(event.input, PathLine):
            self.query_one(LineList).narrow("" if "/" in event.value else event.value)
        elif event.input.id == "log-day":
            self._read_day()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        if not isinstance(event.input, PathLine):
            self.query_one(LineList).focus()
            return
        rows = self.query_one(LineList).rows
        if "/" not in event.value and len(rows) == 1:
            self.query_one(LineList).action_open()
            return
        with self.trying():
            path = path_typed(event.value, self.folder)
            self.work("typed path", lambda _journal, _progress: (path, path.is_dir()))

    # Outcomes ----------------------------------------------------------------------------------------

    def work_done(self, name: str, result: object) -> None:
        if isinstance(result, Folder):
            self._show_folder(result)
        elif isinstance(result, Logged):
            self._logged(result)
        elif isinstance(result, tuple):
            path, is_folder = result
            if is_folder:
                self.query_one(PathLine).used()
                self.query_one(LineList).narrow("")
                self.query_one(LineList).focus()
            self.take(path, is_folder=is_folder)

    def work_failed(self, name: str, error: JournalError) -> None:
        if isinstance(error, AlreadyLogged):
            self.fail(JournalError(error.title, f"{error.body} g logs it again."))
            self.query_one(LineList).focus()
            return
        self.fail(error)
        if name == "load":
            self._refused = None

    def _logged(self, logged: Logged) -> None:
        for line in self.query(TypingLine):
            line.used()
        stills = f", {logged.stills} stills" if logged.stills else ""
        said = f"Logged {short_day(logged.visit.day)}: {logged.drafts} drafts{stills}. "
        if logged.notices:
            more = f" (and {len(logged.notices) - 1} more)" if len(logged.notices) > 1 else ""
            said += f"{one_line(logged.notices[0])}{more}"
        job_id = self.job_id or ""
        screen: JournalScreen
        if logged.drafts:
            from journal_tui.screens.review import ReviewScreen

            screen = ReviewScreen(job_id, logged.visit.id)
        else:
            from journal_tui.screens.visit import VisitScreen

            screen = VisitScreen(job_id, logged.visit.id)
        self.app.switch_screen(screen)
        screen.call_after_refresh(screen.say, said)

    # Commands ------------------------------------------------------------------------------------------

    def stop_work(self) -> bool:
        """Stop loading; of a recording the words heard so far are kept."""
        loaded = self._refused if self._working == "load" else None
        stopped = super().stop_work()
        if stopped and loaded and is_media(loaded):
            self.say("Stopped. The words heard so far are kept: enter goes on from there.")
        return stopped

    def action_load_captions(self) -> None:
        self.query_one(LineList).action_open()

    def action_type_instead(self) -> None:
        from journal_tui.screens.note import NoteScreen

        with self.trying():
            self.app.push_screen(NoteScreen(self.job_id or "", self._day(), self._value("people")))

    def action_set_day(self) -> None:
        self.type_into(self.query_one("#log-day", TypingLine))

    def action_set_people(self) -> None:
        self.type_into(self.query_one("#log-people", TypingLine))

    def action_set_summary(self) -> None:
        self.type_into(self.query_one("#log-summary", TypingLine))

    def action_type_path(self) -> None:
        self.type_into(self.query_one(PathLine))

    def action_log_again(self) -> None:
        if self._refused is None:
            self.say("This is for a recording that is in the journal already.")
        else:
            self.take(self._refused, is_folder=False, again=True)


def _drawn(entry: FolderEntry, today: dt.date) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        if entry.is_folder:
            return spread([(f"{entry.name}/", "$mark")], [], width)
        when = f"{short_day(entry.changed.date())} {entry.changed:%H:%M}"
        if entry.changed.year != today.year:
            when = f"{short_day(entry.changed.date())} {entry.changed.year}"
        return spread([(entry.name, "$ink")], [(_size(entry.size), "$soft"), (f"{when:>18}", "$soft")], width)

    return draw


def _size(size: int) -> str:
    return f"{max(1, round(size / 1024))} KB" if size < 1_000_000 else f"{size / 1_000_000:.0f} MB"


def _short(path: Path) -> str:
    home = Path.home()
    return f"~/{path.relative_to(home)}" if path != home and path.is_relative_to(home) else str(path)
