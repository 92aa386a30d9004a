"""Typed text: kept at every key while it is unfinished, and measured when it is handed in."""

from __future__ import annotations

from journal_tui.domain.errors import BadInput
from journal_tui.journal.opening import Journal
from journal_tui.store import queries

#: Characters in one typed line: some ten pages, more than anyone types and little enough to read.
MOST_TYPED = 20_000


def measured(text: str, what: str) -> str:
    """Return a typed text as it is. Raises ``BadInput`` when it is too long to have been typed."""
    if len(text) > MOST_TYPED:
        raise BadInput(
            f"{what} is too long ({len(text):,} characters)",
            f"One typed text may have {MOST_TYPED:,}. Break it into lines, or log it as a recording's text.",
        )
    return text


def remember(journal: Journal, place: str, text: str) -> None:
    """Keep the unfinished text of a place (such as ``note/JOB-ID``); empty text forgets it."""
    journal.store.scribble(place, text)


def recall(journal: Journal, place: str) -> str:
    """Return the text left unfinished in a place, "" when there is none."""
    return queries.typed(journal.store, place)


def heard_place(sha256: str) -> str:
    """Return where what was heard of a recording (by hash) is kept until it is logged."""
    return f"speech/{sha256}"
