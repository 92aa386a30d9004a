"""The tables of the contract and its change orders (step 0005_changes). All sums are whole cents."""

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
