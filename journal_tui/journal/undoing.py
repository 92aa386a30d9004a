"""Undo: the newest change to a job, put back; each step is itself recorded."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.journal.opening import Journal
from journal_tui.store import queries
from journal_tui.store.history import ChangedSince, last_action, put_back


@dataclass(frozen=True, slots=True)
class Deed:
    """Something that was done on a job: when (aware, UTC), what in words, and whether it was taken back."""

    at: dt.datetime
    label: str
    undone: bool


def history(journal: Journal, job_id: str, limit: int = 50) -> list[Deed]:
    """Return what was done on a job, its sent updates included, newest first."""
    return [
        Deed(dt.datetime.fromisoformat(row["at"]), row["label"], bool(row["undone"]))
        for row in queries.actions(journal.store, job_id, limit)
    ]


#: How the changes begin that a job's lists stand on.
_GROUND = ("log the visit", "begin the job")


def ground_next(journal: Journal, job_id: str) -> str | None:
    """Return the newest change that still stands, in words, when lists stand on it; else None.

    Undoing it takes a whole visit away, its drafts with it, so it is worth asking first.
    """
    found = last_action(journal.store.conn, job_id)
    return found[1] if found and found[1].startswith(_GROUND) else None


def undo(journal: Journal, job_id: str, *, keep_ground: bool = False) -> str:
    """Undo the newest change to a job that still stands; return what it was, in words.

    With ``keep_ground`` the logging of a visit and the beginning of the job are left alone: a key
    pressed once too often in a list must not take away what the list is of. Raises ``NothingFound``
    when there is none and ``BadInput`` when later changes stand on it.
    """
    found = last_action(journal.store.conn, job_id)
    if found is None:
        raise NothingFound("nothing to undo", "No change to this job is left to take back.")
    action_id, label = found
    if keep_ground and label.startswith(_GROUND):
        raise NothingFound(
            "nothing more to undo here", f"The change before is: {label}. Undo that from the timeline."
        )
    with journal.store.write(f"undo: {label}", job_id, undoes=action_id) as w:
        try:
            put_back(w.conn, action_id)
        except ChangedSince as error:
            raise BadInput(
                f'cannot undo "{label}"', f"What it changed ({error}) has been changed again since."
            ) from error
    return label
