"""Search over entries and over everything that was said."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.kinds import Kind
from journal_tui.domain.text import folded
from journal_tui.journal.opening import Journal
from journal_tui.store.search import find


@dataclass(frozen=True, slots=True)
class Hit:
    """Something found: an entry (``kind`` set) or words said in a recording (``kind`` None).

    ``id`` is the entry's or the caption's; ``start`` is None where nothing says when it was said.
    """

    id: str
    job_id: str
    job_name: str
    visit_id: str
    day: dt.date
    text: str
    start: float | None
    kind: Kind | None
    phase: str
    area: str


def search(journal: Journal, words: str, *, job_id: str | None = None, limit: int = 50) -> list[Hit]:
    """Return entries, then words said, that hold every one of ``words``; newest saved first.

    ``limit`` bounds each of the two. The last word may be unfinished. Nothing typed acts as syntax.
    """
    return [
        Hit(
            id=row["id"],
            job_id=row["job_id"],
            job_name=row["job_name"],
            visit_id=row["visit_id"],
            day=dt.date.fromisoformat(row["day"]),
            text=row["text"],
            start=row["start"],
            kind=Kind(row["kind"]) if row["kind"] else None,
            phase=row["phase"] or "",
            area=row["area"] or "",
        )
        for row in find(journal.store, words, job_id, limit)
    ]


def holds_all(text: str, words: str) -> bool:
    """True when ``text`` holds every one of ``words``, in any order, case and accents' form apart."""
    inside = folded(text)
    return all(word in inside for word in folded(words).split())
