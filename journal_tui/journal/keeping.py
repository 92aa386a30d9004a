"""Making a draft an entry, and what it leaves open a punch item."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import Kind
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import one_line
from journal_tui.store import change_queries, rows
from journal_tui.store.store import Store, Writer


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


def refuse_answer_item(store: Store, item: PunchItem) -> None:
    """Raise ``BadInput`` for an item that stands for a change order waiting to be answered.

    It is closed by the answer, with its proof, and by nothing else.
    """
    if change_queries.order_of_answer_item(store, item.id):
        raise BadInput(
            f"“{one_line(item.text)}” waits for the client's answer",
            "Record the answer: journal-tui change-order answer JOB NUMBER yes --by NAME --how signed",
        )


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
