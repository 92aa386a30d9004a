"""The photos of an entry, of something behind a surface, or of a test: attached, looked at, taken away."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Container
from textual.content import Content
from textual.widgets import Input

from journal_tui.domain.errors import JournalError
from journal_tui.journal.opening import Journal
from journal_tui.journal.photos import (
    Attached,
    Photo,
    add_photos,
    drop_photo,
    photos_of,
    pictures_typed,
    subject,
)
from journal_tui.journal.recordings import finished_path
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, brief, spread
from journal_tui.screens.record_commands import PHOTO_COMMANDS
from journal_tui.screens.still import StillPane, StillView
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.working import Progress

#: Rows of the list at most where it stands above the picture.
_MOST_ROWS = 4
_ENDINGS = (".jpg", ".jpeg", ".png")


class FilesLine(TypingLine):
    """The line in which the path of a photo is typed, or what a terminal writes of files dropped on it."""

    HELP = (
        "The path of a JPEG or PNG file, such as ~/Pictures/wall.jpg; several with blanks between. Tab "
        "carries a path on as far as there is one way. Files dropped on the window are taken at once."
    )
    BINDINGS = [Binding("tab", "finish", "Carry the path on", show=False, id="photos.finish_path")]  # noqa: RUF012

    def action_finish(self) -> None:
        self.value = finished_path(self.value, Path(), _ENDINGS)
        self.cursor_position = len(self.value)

    def _on_paste(self, event: events.Paste) -> None:
        # Several files come one a line, of which a line to type in takes only the first.
        event.prevent_default()
        event.stop()
        fresh = not self.value.strip()
        self.insert_text_at_cursor(" ".join(event.text.split("\n")).strip())
        if fresh:
            self.post_message(self.Submitted(self, self.value))


class PhotosScreen(JournalScreen):
    """The photos of what has the id ``of_id``: an entry, a hidden work or a test."""

    OWN_COMMANDS = PHOTO_COMMANDS
    HELP = (
        "Photos of one thing. Each is turned upright, made small enough to send, and kept without place, "
        "time and camera; your own file is left alone. They stand in the papers of whoever may read of it."
    )
    AUTO_FOCUS = ""
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012
    DEFAULT_CSS = """
    PhotosScreen #photos { height: 1fr; layout: vertical; }
    PhotosScreen.-wide #photos { layout: horizontal; }
    PhotosScreen.-wide LineList { width: 40; height: 1fr; }
    PhotosScreen StillPane { border-top: solid $joint; }
    PhotosScreen.-wide StillPane { border-top: none; border-left: solid $joint; }
    PhotosScreen EmptyNote { display: none; }
    PhotosScreen.-empty EmptyNote { display: block; }
    PhotosScreen.-empty #photos { display: none; }
    """

    def __init__(self, job_id: str, of_id: str) -> None:
        super().__init__(job_id)
        self.of_id = of_id
        self._photos: dict[str, Photo] = {}
        self._begun = False

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No photo of it yet.",
            "Type the path of a JPEG or PNG file below, or drop files on this window.",
            "Your file is left alone; what is kept has no place, time or camera in it.",
        )
        with Container(id="photos"):
            yield LineList()
            yield StillPane()
        yield FilesLine(f"photos/{self.of_id}", placeholder="path of a JPEG or PNG file, or drop it here")

    def reload(self) -> None:
        """Read the photos."""
        self._show(None)

    def _show(self, select: str | None) -> None:
        of = subject(self.journal, self.of_id)
        photos = photos_of(self.journal, self.of_id)
        self._photos = {photo.id: photo for photo in photos}
        self.title_is("Photos", of.words)
        self.set_class(not photos, "-empty")
        lines = self.query_one(LineList)
        lines.styles.height = None if self.has_class("-wide") else min(max(1, len(photos)), _MOST_ROWS)
        lines.show([Row(p.id, _liner(n, p)) for n, p in enumerate(photos, 1)], select=select)
        lines.can_focus = bool(photos)
        if not self._begun and not photos:
            self.query_one(FilesLine).focus()
        elif photos and self.focused is None:
            lines.focus()
        self._begun = True
        self._show_picture()

    def on_resize(self) -> None:
        if self.is_mounted:
            with self.trying():
                self.reload()

    @property
    def here(self) -> Photo | None:
        """The photo in hand."""
        row = self.query_one(LineList).selected
        return self._photos.get(row.key) if row else None

    def on_line_list_moved(self) -> None:
        self._show_picture()

    def _show_picture(self) -> None:
        self.query_one(StillPane).show(self.here)

    # Attaching ---------------------------------------------------------------------------------------

    def action_attach_photo(self) -> None:
        self.type_into(self.query_one(FilesLine))

    def on_paste(self, event: events.Paste) -> None:
        # Dropped on the window while the list has the keys.
        line = self.query_one(FilesLine)
        line.value = " ".join(event.text.split("\n")).strip()
        self._take(line.value)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        self._take(event.value)

    def _take(self, text: str) -> None:
        of_id = self.of_id

        def do(journal: Journal, progress: Progress) -> Attached:
            return add_photos(journal, of_id, pictures_typed(text), progress)

        self.work("attach", do)

    def work_done(self, name: str, result: object) -> None:
        if not isinstance(result, Attached):
            return
        if not result.refused:
            self.query_one(FilesLine).used()
        for photo in (*result.known, *result.photos)[-1:]:
            self._show(photo.id)
        self._tell(result)

    def _tell(self, came: Attached) -> None:
        count = len(came.photos)
        kept = "1 photo is" if count == 1 else f"{count} photos are"
        if not came.refused:
            self.query_one(LineList).focus()
            new = f"{kept} attached. n attaches another, z takes {'it' if count == 1 else 'the last'} back."
            self.say(new if count else "That is attached already.")
            return
        first, more = came.refused[0], len(came.refused) - 1
        others = f" {more} more cannot be kept." if more else ""
        self.fail(JournalError(first.title, f"{first.body}{others}{f' {kept} attached.' if count else ''}"))
        self.query_one(FilesLine).focus()

    # One key each --------------------------------------------------------------------------------------

    def on_line_list_opened(self) -> None:
        self.action_show_large()

    def on_click(self, event: events.Click) -> None:
        if isinstance(event.widget, StillPane):
            self.action_show_large()

    def action_show_large(self) -> None:
        if self.here is None:
            self.say("No photo of it yet: n attaches one.")
        else:
            self.app.push_screen(StillView(self.here))

    def action_take_away(self) -> None:
        here = self.here
        if here is None:
            self.say("No photo of it is left.")
            return
        with self.trying():
            drop_photo(self.journal, self.of_id, list(self._photos).index(here.id) + 1)
            self.reload()
            self.say("Taken away. z brings it back, n attaches another.")
            if not self._photos:
                # No line takes the keys: z is to undo, not to be typed.
                self.call_after_refresh(self.set_focus, None)


def _liner(number: int, photo: Photo) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        size = f"{photo.width} by {photo.height} points"
        return spread([(f"{number}  photo", "$ink")], [(brief(size), "$soft")], width)

    return draw
