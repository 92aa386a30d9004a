"""The client update: read as it will be sent, edited, frozen and written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from textual import events
from textual.app import ComposeResult
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import TextArea

from journal_tui.domain.document import Block, Length, SentDocument
from journal_tui.journal import update_changes, updates
from journal_tui.journal.formats import send_to_folder, usual_folder
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.updates import UpdateDraft
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.lines import pieces
from journal_tui.screens.literal_area import LiteralArea
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.update_commands import UPDATE_COMMANDS
from journal_tui.screens.update_draw import Beside, facts_lines, page_lines, source_lines
from journal_tui.screens.working import Progress, WorkDone

#: The question asked before an update is frozen.
FOLDER_QUESTION = "folder for the files?"


class FactsLine(Widget):
    """What is to be known of the update above it."""

    DEFAULT_CSS = "FactsLine { height: auto; max-height: 9; padding: 0 1; border-bottom: solid $tick; }"
    ALLOW_SELECT = False

    def __init__(self) -> None:
        super().__init__()
        self._layout: Callable[[int], list[Content]] | None = None

    def show(self, layout: Callable[[int], list[Content]]) -> None:
        """Show these lines, laid out for the width there is."""
        self._layout = layout
        self.refresh(layout=True)

    def render(self) -> Content:
        width = self.size.width or self.app.size.width - 2
        return Content("\n").join(self._layout(width) if self._layout else [])


class UpdateEditor(LiteralArea):
    """The Markdown of the update, to be changed; every key is kept."""

    HELP = (
        "The update as Markdown. It is saved at every key: lose the window and it is here when you come "
        "back. esc ends editing and keeps what stands here."
    )
    DEFAULT_CSS = """
    UpdateEditor, UpdateEditor:focus {
        height: 1fr; border: none; padding: 0 2; background: $bench; color: $ink; display: none;
        scrollbar-size-vertical: 1;
    }
    """

    def __init__(self) -> None:
        super().__init__(soft_wrap=True, show_line_numbers=False, tab_behavior="focus")
        self.cursor_blink = False
        self.highlight_cursor_line = False

    class Ended(Message):
        """Editing was ended with esc."""

    async def on_key(self, event: events.Key) -> None:
        if event.key == "escape":
            event.stop()
            event.prevent_default()
            self.post_message(self.Ended())


@dataclass(frozen=True, slots=True)
class _Shown:
    """An update made ready for the screen."""

    draft: UpdateDraft
    beside: Beside
    page: tuple[Block, ...]


class UpdateScreen(JournalScreen):
    """What the client would be told now."""

    OWN_COMMANDS = UPDATE_COMMANDS
    HELP = (
        "The client update: everything the client may read that is new since the last one, in plain words, "
        "as it will be sent. Private things and door codes are never in it. Edit it as you like; what you "
        "wrote stays when the facts change. Freezing keeps this exact text and writes it to files."
    )
    AUTO_FOCUS = "Page"
    DEFAULT_CSS = """
    UpdateScreen.-editing UpdateEditor { display: block; }
    UpdateScreen.-editing Page { display: none; }
    """

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._shown: _Shown | None = None
        self._source = False
        self._length = Length.STANDARD
        #: What the edit in hand began from: what the journal said, and the text as it stood.
        self._base, self._begun = "", ""
        self._folder: Path | None = None
        self._set_aside: tuple[str, str] | None = None

    def body(self) -> ComposeResult:
        yield FactsLine()
        yield Page()
        yield UpdateEditor()

    # Reading ------------------------------------------------------------------------------------------

    def reload(self) -> None:
        """Make the update anew, in a thread; it is shown when it is ready."""
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, f"client update, {self._length.value}")
        job_id, length = job.id, self._length
        if self._shown is None:
            self.query_one(FactsLine).show(
                lambda _width: [pieces(("put together from the journal …", "$soft"))]
            )

        def make(journal: Journal, _progress: Progress) -> _Shown:
            draft = updates.client_update(journal, job_id, length=length)
            beside = Beside(
                updates.reading(draft.markdown),
                update_changes.check(draft),
                len(update_changes.changes(journal, job_id, draft, length)),
            )
            return _Shown(draft, beside, updates.page(draft.markdown))

        self.work("update", make)

    def on_work_done(self, event: WorkDone) -> None:
        super().on_work_done(event)
        if isinstance(event.result, _Shown):
            self._shown = event.result
            self.show_update()
        elif event.name == "freeze" and isinstance(event.result, tuple):
            self._frozen(*event.result)

    def show_update(self) -> None:
        """Show the update as it reads, or as Markdown."""
        shown = self._shown
        if shown is None:
            return
        self.query_one(FactsLine).show(lambda width: facts_lines(shown.draft, shown.beside, width))
        page = self.query_one(Page)
        if self._source:
            page.show(lambda width: source_lines(shown.draft.markdown, width))
        else:
            page.show(lambda width: page_lines(shown.page, width))

    def action_show_source(self) -> None:
        self._source = not self._source
        self.show_update()

    def action_change_length(self) -> None:
        order = list(Length)
        self._length = order[(order.index(self._length) + 1) % len(order)]
        self._set_aside = None
        with self.trying():
            self.reload()

    def action_check_update(self) -> None:
        from journal_tui.screens.update_check import CheckScreen

        if self._shown is not None:
            self.app.push_screen(CheckScreen(self._shown.draft, self._shown.beside.check))

    def action_differences(self) -> None:
        from journal_tui.screens.update_differences import DifferencesScreen

        if self._shown is None:
            return
        if not self._shown.beside.differences:
            self.say("Your version and the journal's do not differ.")
            return
        self.app.push_screen(DifferencesScreen(self.job_id or "", self._length))

    # Editing ------------------------------------------------------------------------------------------

    def action_edit_update(self) -> None:
        if self._shown is None:
            return
        if len(self._shown.draft.markdown) > updates.MOST_SHOWN:
            self.say("Too long to edit here: change it in a file, then journal-tui update JOB --edited FILE")
            return
        self._base, self._begun = self._shown.draft.made, self._shown.draft.markdown
        editor = self.query_one(UpdateEditor)
        with editor.prevent(TextArea.Changed):
            editor.text = self._begun
        self.add_class("-editing")
        self.type_into(editor)
        self.say("esc ends editing; what you type is kept at every key")

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        if not self.has_class("-editing"):
            return
        text = event.text_area.text
        kept = updates.typing_text(self._base, text) if text != self._begun else ""
        self.japp.autosave.keep(updates.typing_place(self.job_id or "", self._length), kept)

    def on_update_editor_ended(self) -> None:
        text = self.query_one(UpdateEditor).text
        with self.trying():
            if text != self._begun:
                # What is still on its way to the disk must not come after what is saved here.
                self.japp.autosave.flush()
                updates.save_edit(self.journal, self.job_id or "", self._base, text, self._length)
            self.remove_class("-editing")
            self.query_one(Page).focus()
            self.reload()
            self.say(
                "Kept as you wrote it. D goes back to what the journal says." if text != self._begun else ""
            )

    def action_discard_edit(self) -> None:
        if self._shown is None or not self._shown.draft.edited:
            self.say("There is no edit of yours to discard.")
            return
        with self.trying():
            self._set_aside = (self._shown.draft.made, self._shown.draft.markdown)
            updates.discard_edit(self.journal, self.job_id or "", self._length)
            self.reload()
            self.say("Your edit is set aside. z brings it back.")

    def action_undo(self) -> None:
        if self._set_aside is None:
            super().action_undo()
            return
        with self.trying():
            updates.save_edit(self.journal, self.job_id or "", *self._set_aside, self._length)
            self._set_aside = None
            self.reload()
            self.say("Your edit is back.")

    # Sending ------------------------------------------------------------------------------------------

    def action_freeze_update(self) -> None:
        if self._shown is None:
            return
        draft = self._shown.draft
        folder = self._folder or usual_folder(self.journal)

        def answered(words: str | None) -> None:
            if words is not None and words.strip():
                self._folder = target = Path(words.strip())
                self.work("freeze", lambda journal, _progress: send_to_folder(journal, draft, target))

        question = f"freeze as sent today; {FOLDER_QUESTION}"
        self.app.push_screen(Ask(question, f"folder/{self.job_id}", str(folder)), answered)

    def _frozen(self, sent: SentDocument, files: list[Path]) -> None:
        from journal_tui.screens.update_sent import SentScreen

        self._set_aside = None
        self.app.push_screen(SentScreen(sent, files))

    def action_sent_updates(self) -> None:
        from journal_tui.screens.update_sent import SentListScreen

        self.app.push_screen(SentListScreen(self.job_id or ""))
