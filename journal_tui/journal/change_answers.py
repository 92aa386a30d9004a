"""Sending a change order, and recording what came of it: yes, no, or taken back."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from journal_tui.domain import change_order as rules
from journal_tui.domain.change_order import Answer, ChangeOrder
from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import OTHER_PHASE, Audience, Kind, Party
from journal_tui.domain.punch import PunchState
from journal_tui.journal.changes import change_orders, get_order
from journal_tui.journal.contracts import contract_view
from journal_tui.journal.keeping import record_state
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.store import change_queries, queries
from journal_tui.store.store import Writer


def send_order(journal: Journal, order_id: str) -> ChangeOrder:
    """Freeze a draft as sent, with the next number; the work it holds waits from now on.

    The page is kept as a sent document, and the client's answer goes on the punch list as theirs to
    give. Raises ``BadInput`` for what cannot be sent.
    """
    from journal_tui.journal.change_pages import frozen_page

    # No job on the action: what was sent cannot be unsent by undo.
    with journal.store.write("send a change order") as w:
        # Read again inside the one writer, so that two copies never give the same number.
        order = get_order(journal, order_id)
        number = rules.next_number(change_orders(journal, order.job_id))
        out = rules.sent(order, number, journal.today())
        rules.within_contract(out, contract_view(journal, order.job_id).standing)
        item_id = _put_answer_item(w, out)
        w.change(
            "change_orders",
            order.id,
            state=out.state.value,
            number=number,
            sent_on=journal.today().isoformat(),
            moved_at=w.now,
            item_id=item_id,
        )
        for held in change_queries.holds_of(journal.store, order.id):
            _link(w, order.job_id, item_id, held)
        frozen_page(journal, w, replace(out, item_id=item_id))
    return get_order(journal, order_id)


def _put_answer_item(w: Writer, order: ChangeOrder) -> str:
    day = order.sent_on or order.drafted_on
    item_id = w.insert(
        "punch_items",
        {
            "job_id": order.job_id,
            "entry_id": None,
            "kind": Kind.NEXT_STEP.value,
            "phase": OTHER_PHASE,
            "area": "",
            "text": f"answer {order.name}",
            "who": Party.CLIENT.value,
            "hazards": "[]",
            "audience": Audience.CLIENT.value,
            "state": PunchState.OPEN.value,
            "since": day.isoformat(),
            "closed": None,
        },
    )
    record_state(w, item_id, PunchState.OPEN, day, None)
    return item_id


def _link(w: Writer, job_id: str, before: str, after: str) -> None:
    # The plan knows no change orders; it knows that one item waits for another.
    w.insert(
        "links",
        {
            "id": f"{before}/{after}",
            "job_id": job_id,
            "before_id": before,
            "after_id": after,
            "lag_hours": 0.0,
        },
    )


def answer_order(journal: Journal, order_id: str, accepted: bool, answer: Answer) -> ChangeOrder:
    """Record the client's answer with its proof; the work held goes on.

    Raises ``BadInput`` when it was not sent, is answered already, or the answer lacks a name or a day.
    """
    by = measured(answer.by, "the name").strip()
    note = measured(answer.note, "what was said").strip()
    if answer.day > journal.today():
        raise BadInput("the day of the answer", "It is still to come.")
    with journal.store.write("record the answer to a change order") as w:
        order = get_order(journal, order_id)
        now = rules.answered(order, accepted, replace(answer, by=by, note=note))
        w.change(
            "change_orders",
            order.id,
            state=now.state.value,
            answered_by=by,
            answered_how=answer.how.value,
            answered_on=answer.day.isoformat(),
            answered_note=note,
            moved_at=w.now,
        )
        _close_item(journal, w, now, PunchState.DONE, answer.day, str(now.state))
    return get_order(journal, order_id)


def withdraw_order(journal: Journal, order_id: str) -> ChangeOrder:
    """Take an order back that is not answered; one never sent takes no number. Raises ``BadInput``."""
    with journal.store.write("withdraw a change order") as w:
        order = get_order(journal, order_id)
        now = rules.withdrawn(order)
        w.change("change_orders", order.id, state=now.state.value, moved_at=w.now)
        _close_item(journal, w, now, PunchState.DROPPED, journal.today(), "withdrawn")
    return get_order(journal, order_id)


def _close_item(
    journal: Journal, w: Writer, order: ChangeOrder, state: PunchState, day: dt.date, note: str
) -> None:
    item = queries.punch_item(journal.store, order.item_id) if order.item_id else None
    if item is not None and item.state is PunchState.OPEN:
        w.change("punch_items", item.id, state=state.value, closed=day.isoformat())
        record_state(w, item.id, state, day, None, note)
