"""Text that is still being typed: kept at every key, so that nothing is lost with the window."""

from __future__ import annotations

from journal_tui.journal.opening import Journal
from journal_tui.store import queries


def remember(journal: Journal, place: str, text: str) -> None:
    """Keep the unfinished text of a place (such as ``note/JOB-ID``); empty text forgets it."""
    journal.store.scribble(place, text)


def recall(journal: Journal, place: str) -> str:
    """Return the text left unfinished in a place, "" when there is none."""
    return queries.typed(journal.store, place)
