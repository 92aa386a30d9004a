"""The tables of the contract and its change orders (steps 0005_changes and 0008_line_sources).

All sums are whole cents.
"""

from __future__ import annotations

from sqlite_utils import Database

from journal_tui.store.tables import create, table


def create_change_tables(db: Database) -> None:
    """Create them; see each below."""
    # ``id`` is the job's. ``markup`` and ``tax`` are basis points: how new change orders are priced.
    create(
        db,
        "contracts",
        {
            "cents": int,
            "finish": str,
            "markup": int,
            "tax": int,
            "tax_base": str,
            "created_at": str,
        },
        not_null={"markup", "tax", "tax_base", "created_at"},
        foreign_keys=[("id", "jobs", "id")],
    )
    create(
        db,
        "change_orders",
        {
            "job_id": str,
            "number": int,
            "title": str,
            "found": str,
            "offer": str,
            "left": str,
            "markup": int,
            "tax": int,
            "tax_base": str,
            "days": int,
            "state": str,
            "drafted_on": str,
            "sent_on": str,
            "answer_by": str,
            "answered_by": str,
            "answered_how": str,
            "answered_on": str,
            "answered_note": str,
            "moved_at": str,
            "entry_id": str,
            "item_id": str,
            "created_at": str,
        },
        not_null={
            "job_id",
            "title",
            "found",
            "offer",
            "left",
            "markup",
            "tax",
            "tax_base",
            "days",
            "state",
            "drafted_on",
            "moved_at",
            "created_at",
        },
        foreign_keys=[("job_id", "jobs", "id")],
    )
    # A number is given once; drafts have none, and NULLs do not collide.
    table(db, "change_orders").create_index(["job_id", "number"], unique=True)
    table(db, "change_orders").create_index(["item_id"])
    create(
        db,
        "change_lines",
        {
            "order_id": str,
            "kind": str,
            "text": str,
            "quantity": int,
            "unit": str,
            "each": int,
            "marked_up": int,
            "created_at": str,
        },
        not_null={"order_id", "kind", "text", "quantity", "unit", "each", "marked_up", "created_at"},
        foreign_keys=[("order_id", "change_orders", "id")],
    )
    table(db, "change_lines").create_index(["order_id", "id"])
    # Work that waits for an answer; ``id`` is "order/item". No foreign key on the item: a review may
    # take it back, and it waits again when it comes again.
    create(
        db,
        "change_holds",
        {"job_id": str, "order_id": str, "item_id": str, "created_at": str},
        not_null={"job_id", "order_id", "item_id", "created_at"},
        foreign_keys=[("order_id", "change_orders", "id")],
    )
    table(db, "change_holds").create_index(["job_id"])


def create_line_sources(db: Database) -> None:
    """Create what says from which line of the materials list a line was made, and from which measures.

    ``id`` of a source is its line's. The measures are no foreign keys: they may be taken out, and what a
    line was made from stays.
    """
    create(
        db,
        "line_sources",
        {
            "name": str,
            "phase": str,
            "packages": int,
            "packed": str,
            "package": float,
            "unit": str,
            "amount": float,
            "waste": float,
            "basis": str,
            "day": str,
            "created_at": str,
        },
        not_null=set("name phase packages packed package unit amount waste basis day created_at".split()),
        foreign_keys=[("id", "change_lines", "id")],
    )
    create(
        db,
        "line_measures",
        {"line_id": str, "measure_id": str, "name": str, "amount": float, "created_at": str},
        not_null={"line_id", "measure_id", "name", "amount", "created_at"},
        foreign_keys=[("line_id", "line_sources", "id")],
    )
    table(db, "line_measures").create_index(["line_id", "id"])
