"""Undo: the newest change to a job, put back; each step is itself recorded."""

from __future__ import annotations

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.journal.opening import Journal
from journal_tui.store.history import ChangedSince, last_action, put_back


def undo(journal: Journal, job_id: str) -> str:
    """Undo the newest change to a job that still stands; return what it was, in words.

    Raises ``NothingFound`` when there is none and ``BadInput`` when later changes stand on it.
    """
    found = last_action(journal.store.conn, job_id)
    if found is None:
        raise NothingFound("nothing to undo", "No change to this job is left to take back.")
    action_id, label = found
    with journal.store.write(f"undo: {label}", job_id, undoes=action_id) as w:
        try:
            put_back(w.conn, action_id)
        except ChangedSince as error:
            raise BadInput(
                f'cannot undo "{label}"', f"What it changed ({error}) has been changed again since."
            ) from error
    return label
