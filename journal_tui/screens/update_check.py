"""What to think of before an update is sent: words in it, and what is left out of it."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.journal.update_changes import SUMMED_UP, Check, LeftOut, Remark, parts
from journal_tui.journal.updates import UpdateDraft
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.lines import pieces
from journal_tui.screens.page import Page
from journal_tui.screens.wrapping import hanging, wrapped

_MARGIN = "  "


class CheckScreen(JournalScreen):
    """Words to think of and notes not told, for the remodeler alone."""

    OWN_COMMANDS = ()
    HELP = (
        "For your eyes only. Words in the update that blame, alarm beyond the facts or swear, with their "
        "line in the Markdown; then what the client may read and is not told, with the reason. To have a "
        "note told, set its entry right; to change a word, edit the update. Nothing here keeps you from "
        "sending it as it is."
    )
    AUTO_FOCUS = "Page"
    DEFAULT_CSS = """
    CheckScreen EmptyNote { display: none; }
    CheckScreen.-empty EmptyNote { display: block; }
    CheckScreen.-empty Page { display: none; }
    """

    def __init__(self, draft: UpdateDraft, check: Check) -> None:
        super().__init__(draft.job.id)
        self._draft, self._check = draft, check

    def body(self) -> ComposeResult:
        yield EmptyNote("Nothing is left out, and no word needs a second thought.", "esc goes back to it.")
        yield Page()

    def reload(self) -> None:
        """Show the list."""
        self.title_is(self._draft.job.name, "before it is sent")
        self.set_class(not (self._check.remarks or parts(self._check)), "-empty")
        self.query_one(Page).show(lambda width: check_page(self._check, width))


def check_page(check: Check, width: int) -> list[Content]:
    """Return all that is to be thought of, in lines for a width in cells."""
    lines: list[Content] = []
    if check.remarks:
        lines += _title(f"Words to think of ({len(check.remarks)})", width)
        for remark in check.remarks:
            lines += _remark(remark, width)
    if check.not_told_line:
        lines += _title(check.not_told_line, width)
    for title, some in parts(check):
        lines += _title(f"{title} ({len(some)})", width)
        for one in some:
            lines += _named(one, width)
    return lines


def _title(words: str, width: int) -> list[Content]:
    return [Content(""), *(pieces((f" {row}", "$owed bold")) for row in wrapped(words, width - 2))]


def _remark(remark: Remark, width: int) -> list[Content]:
    words = f"line {remark.line}: “{remark.words}”"
    shown = [pieces((row, "$care")) for row in hanging(_MARGIN, words, width - 2)]
    return shown + [pieces((row, "$soft")) for row in hanging(_MARGIN * 3, remark.advice, width - 2)]


def _named(one: LeftOut, width: int) -> list[Content]:
    place = f"{one.area}: " if one.area.strip() else ""
    lines = [pieces((row, "$ink")) for row in hanging(_MARGIN, place + one.words, width - 2)]
    if one.why != SUMMED_UP:
        lines += [pieces((row, "$soft")) for row in hanging(_MARGIN * 3, one.why, width - 2)]
    return lines
