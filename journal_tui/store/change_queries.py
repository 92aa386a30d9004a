"""What is asked of a journal file for the contract and its change orders."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.change_order import (
    Answer,
    ChangeLine,
    ChangeOrder,
    ChangeState,
    Channel,
    Contract,
    LineKind,
    Pricing,
    TaxBase,
)
from journal_tui.domain.made_from import FromMeasure, MadeFrom
from journal_tui.domain.punch import OnHold
from journal_tui.store.store import Row, Store


def contract(store: Store, job_id: str) -> Contract | None:
    """Return what is set of a job's contract, None when nothing is."""
    row = store.row("SELECT * FROM contracts WHERE id = ?", [job_id])
    if row is None:
        return None
    return Contract(row["cents"], _day(row["finish"]), _pricing(row))


def change_orders(store: Store, job_id: str) -> list[ChangeOrder]:
    """Return a job's change orders: those sent by number, then the drafts by age."""
    found = store.rows(
        "SELECT * FROM change_orders WHERE job_id = ? ORDER BY number IS NULL, number, id", [job_id]
    )
    sources = line_sources(store, job_id)
    lines: dict[str, list[ChangeLine]] = {}
    for row in priced_lines(store, job_id):
        lines.setdefault(row["order_id"], []).append(_line(row, sources.get(row["id"])))
    return [_order(row, tuple(lines.get(row["id"], ()))) for row in found]


def change_order(store: Store, order_id: str) -> ChangeOrder | None:
    """Return one change order."""
    row = store.row("SELECT job_id FROM change_orders WHERE id = ?", [order_id])
    orders = change_orders(store, row["job_id"]) if row else []
    return next((order for order in orders if order.id == order_id), None)


def line_sources(store: Store, job_id: str) -> dict[str, MadeFrom]:
    """Return what the lines of a job's change orders were made from, by line, oldest line first."""
    where = "JOIN change_lines l ON l.id = s.id JOIN change_orders o ON o.id = l.order_id WHERE o.job_id = ?"
    parts: dict[str, list[FromMeasure]] = {}
    for row in store.rows(
        f"SELECT m.* FROM line_measures m JOIN line_sources s ON s.id = m.line_id {where} ORDER BY m.id",
        [job_id],
    ):
        part = FromMeasure(row["measure_id"], row["name"], row["amount"])
        parts.setdefault(row["line_id"], []).append(part)
    return {
        row["id"]: MadeFrom(
            row["name"],
            row["phase"],
            row["packages"],
            row["packed"],
            row["package"],
            row["unit"],
            row["amount"],
            row["waste"],
            row["basis"],
            dt.date.fromisoformat(row["day"]),
            tuple(parts.get(row["id"], ())),
        )
        for row in store.rows(f"SELECT s.* FROM line_sources s {where} ORDER BY s.id", [job_id])
    }


def priced_lines(store: Store, job_id: str) -> list[Row]:
    """Return the lines of a job's change orders, oldest first."""
    return list(
        store.rows(
            "SELECT l.* FROM change_lines l JOIN change_orders o ON o.id = l.order_id WHERE o.job_id = ?"
            " ORDER BY l.id",
            [job_id],
        )
    )


def measures_of_line(store: Store, line_id: str) -> list[str]:
    """Return the ids of the rows that say which measures a line was made from."""
    found = store.rows("SELECT id FROM line_measures WHERE line_id = ? ORDER BY id", [line_id])
    return [row["id"] for row in found]


def line_rows(store: Store, order_id: str) -> list[Row]:
    """Return the lines of a change order as rows, in order."""
    return list(store.rows("SELECT * FROM change_lines WHERE order_id = ? ORDER BY id", [order_id]))


def holds_of(store: Store, order_id: str) -> list[str]:
    """Return the punch items that wait for an order's answer."""
    found = store.rows("SELECT item_id FROM change_holds WHERE order_id = ? ORDER BY id", [order_id])
    return [row["item_id"] for row in found]


def on_hold(store: Store, job_id: str) -> dict[str, tuple[OnHold, ...]]:
    """Return the sent, unanswered change orders that items of a job wait for, by item, lowest number first.

    They are read off the links the plan is made from: what it lets wait is on hold, and nothing else.
    """
    found = store.rows(
        "SELECT l.after_id, o.number, o.sent_on, o.answer_by FROM change_orders o"
        " JOIN links l ON l.before_id = o.item_id WHERE o.job_id = ? AND o.state = 'sent'"
        " ORDER BY o.number",
        [job_id],
    )
    held: dict[str, tuple[OnHold, ...]] = {}
    for row in found:
        hold = OnHold(row["number"], dt.date.fromisoformat(row["sent_on"]), _day(row["answer_by"]))
        held[row["after_id"]] = (*held.get(row["after_id"], ()), hold)
    return held


def waiting_for(store: Store, job_id: str) -> dict[str, int]:
    """Return the number of the sent, unanswered change order that each item on hold waits for first."""
    return {item_id: holds[0].number for item_id, holds in on_hold(store, job_id).items()}


def order_of_answer_item(store: Store, item_id: str) -> str | None:
    """Return the id of the sent, unanswered change order a punch item stands for."""
    row = store.row("SELECT id FROM change_orders WHERE item_id = ? AND state = 'sent'", [item_id])
    return row["id"] if row else None


def moved_since(store: Store, job_id: str, after: str) -> list[str]:
    """Return ids of a job's orders that wait for an answer, or were answered after an instant (UTC)."""
    found = store.rows(
        "SELECT id FROM change_orders WHERE job_id = ? AND (state = 'sent' OR"
        " (state IN ('accepted', 'declined') AND moved_at > ?)) ORDER BY number",
        [job_id, after],
    )
    return [row["id"] for row in found]


def _pricing(row: Row) -> Pricing:
    return Pricing(row["markup"], row["tax"], TaxBase(row["tax_base"]))


def _day(value: str | None) -> dt.date | None:
    return dt.date.fromisoformat(value) if value else None


def _line(row: Row, made_from: MadeFrom | None) -> ChangeLine:
    return ChangeLine(
        LineKind(row["kind"]),
        row["text"],
        row["quantity"],
        row["unit"],
        row["each"],
        bool(row["marked_up"]),
        made_from,
    )


def _order(row: Row, lines: tuple[ChangeLine, ...]) -> ChangeOrder:
    answer = None
    if row["answered_on"]:
        answer = Answer(
            row["answered_by"],
            Channel(row["answered_how"]),
            dt.date.fromisoformat(row["answered_on"]),
            row["answered_note"] or "",
        )
    return ChangeOrder(
        id=row["id"],
        job_id=row["job_id"],
        title=row["title"],
        found=row["found"],
        offer=row["offer"],
        left=row["left"],
        lines=lines,
        pricing=_pricing(row),
        days=row["days"],
        state=ChangeState(row["state"]),
        number=row["number"],
        drafted_on=dt.date.fromisoformat(row["drafted_on"]),
        sent_on=_day(row["sent_on"]),
        answer_by=_day(row["answer_by"]),
        answer=answer,
        entry_id=row["entry_id"],
        item_id=row["item_id"],
    )
