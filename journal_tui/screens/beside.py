"""The words beside a list: the selected entry in full, what is known of it, and what was said."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from textual.content import Content
from textual.reactive import reactive
from textual.widget import Widget

from journal_tui.domain.times import clock
from journal_tui.journal.entries import EntryDetail
from journal_tui.journal.review import SaidLine
from journal_tui.journal.visits import TimelineVisit
from journal_tui.screens.lines import Piece, brief, pieces
from journal_tui.screens.ruled import day_shown, facts_of


class Beside(Widget):
    """What is selected, in full: under the list where the screen is narrow, beside it where it is wide."""

    DEFAULT_CSS = """
    Beside { height: 4; padding: 0 1; background: $paper; color: $ink; border-top: solid $joint; }
    """
    ALLOW_SELECT = False

    shown: reactive[Content] = reactive(Content(""))

    def render(self) -> Content:
        return self.shown

    def clear(self) -> None:
        """Show nothing."""
        self.shown = Content("")

    def show_entry(self, detail: EntryDetail, today: dt.date) -> None:
        """Show an entry, what is known of it, and the words said around it."""
        parts: list[Piece] = [(brief(detail.entry.text), "$ink")]
        parts.append((f"\n{facts_of(detail.entry, detail.item, today)}", "$soft"))
        wide = self.screen.has_class("-wide")
        if detail.said:
            said = from_marked(detail.said) if wide else [line for line in detail.said if line.marked]
            parts += [("\n\n" if wide else "\n", ""), *said_pieces(said)]
        elif wide:
            parts.append(("\n\nTyped, not said.", "$soft"))
        self.shown = pieces(*parts)

    def show_visit(self, shown: TimelineVisit, today: dt.date) -> None:
        """Show a visit: when, who was there, what it was recorded in."""
        visit = shown.visit
        head = f"{day_shown(visit.day, today)}   {brief(visit.summary)}".rstrip()
        parts: list[Piece] = [(head, "bold $ink")]
        who = f"With {brief(visit.people)}. " if visit.people else ""
        if visit.recording_id:
            length = f", {clock(visit.length)}" if visit.length else ""
            how = f"Recorded in {brief(visit.recording_name)}{length}."
        else:
            how = "Typed."
        count, waiting = len(shown.entries), shown.waiting_drafts
        parts.append((f"\n{who}{how} {count} {'entry' if count == 1 else 'entries'}.", "$soft"))
        if waiting:
            one = waiting == 1
            parts += [
                (f"\n{waiting} {'draft waits' if one else 'drafts wait'} for review: ", "$care"),
                ("r", "bold $mark"),
                (f" reviews {'it' if one else 'them'}.", "$ink"),
            ]
        else:
            parts += [("\nenter", "bold $mark"), (" shows all that was said and kept.", "$soft")]
        self.shown = pieces(*parts)


def from_marked(said: Sequence[SaidLine]) -> Sequence[SaidLine]:
    """Return what was said from shortly before the words the entry rests on, so that they are in sight."""
    first = next((at for at, line in enumerate(said) if line.marked), 0)
    return said[max(0, first - 2) :]


def said_pieces(said: Sequence[SaidLine]) -> list[Piece]:
    """Return the words said, those an entry rests on marked by a bar and not by colour alone."""
    parts: list[Piece] = []
    for line in said:
        style = "$ink" if line.marked else "$faded"
        parts += [
            ("▌" if line.marked else " ", "$mark"),
            (f"{clock(line.start):>5} ", "$faded"),
            (f"{brief(line.text)}\n", style),
        ]
    return parts
