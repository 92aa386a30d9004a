"""Making a draft an entry, and what it leaves open a punch item."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Kind
from journal_tui.domain.punch import PunchState
from journal_tui.store import rows
from journal_tui.store.store import Writer


def leaves_open(draft: Draft) -> bool:
    """True when a draft goes on the punch list: a next step, or an observation still owed something."""
    return draft.open and draft.kind is not Kind.DECISION


def keep_draft(w: Writer, draft: Draft, job_id: str, visit_id: str, day: dt.date, *, timed: bool) -> str:
    """Save a draft as an entry, with a punch item when it leaves something open; return the entry's id."""
    entry_id = w.insert("entries", rows.entry_row(draft, job_id, visit_id, timed=timed))
    if leaves_open(draft):
        add_item(w, draft, job_id, entry_id, day, visit_id)
    return entry_id


def add_item(
    w: Writer, draft: Draft, job_id: str, entry_id: str | None, day: dt.date, visit_id: str | None
) -> str:
    """Put what a draft leaves open on the punch list; return the item's id."""
    item_id = w.insert("punch_items", rows.punch_row(draft, job_id, entry_id, day))
    record_state(w, item_id, PunchState.OPEN, day, visit_id)
    return item_id


def record_state(
    w: Writer, item_id: str, state: PunchState, day: dt.date, visit_id: str | None, note: str = ""
) -> None:
    """Leave a dated record of an item's change of state."""
    w.insert(
        "punch_changes",
        {
            "item_id": item_id,
            "state": state.value,
            "day": day.isoformat(),
            "visit_id": visit_id,
            "note": note,
        },
    )
