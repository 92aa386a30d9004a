"""The tables a plan needs (step 0002_plan).

Where a thing can have but one row of a kind, the row's id says so (an item's id, "job/day"), so
that two copies never make two of it. Nothing here refers to punch items by a foreign key: a
review may take an item back, and what was stated of it waits for it to come again.
"""

from __future__ import annotations

from sqlite_utils import Database

from journal_tui.store.tables import create, table


def create_plan_tables(db: Database) -> None:
    """Create them; see each below."""
    _create_items(db)
    _create_holds(db)
    _create_days(db)


def _create_items(db: Database) -> None:
    # What somebody stated of an item; ``id`` is the punch item's. Empty fields keep the usual figures.
    create(
        db,
        "item_plans",
        {
            "job_id": str,
            "crew_hours": float,
            "people": int,
            "wait_hours": float,
            "wait_note": str,
            "sub": str,
            "free": int,
            "closes": int,
            "materials": str,
            "task": str,
            "created_at": str,
        },
        not_null={"job_id", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "item_plans").create_index(["job_id"])
    # ``id`` is "before/after".
    create(
        db,
        "links",
        {"job_id": str, "before_id": str, "after_id": str, "lag_hours": float, "created_at": str},
        not_null={"job_id", "before_id", "after_id", "lag_hours", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "links").create_index(["job_id"])


def _create_holds(db: Database) -> None:
    # ``id`` is the punch item's; ``again_id`` the item that stands for it after a failure.
    create(
        db,
        "holds",
        {"job_id": str, "kind": str, "who": str, "booked": str, "again_id": str, "created_at": str},
        not_null={"job_id", "kind", "who", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "holds").create_index(["job_id"])
    create(
        db,
        "hold_results",
        {
            "hold_id": str,
            "day": str,
            "by": str,
            "passed": int,
            "found": str,
            "evidence": str,
            "created_at": str,
        },
        not_null={"hold_id", "day", "by", "passed", "found", "evidence", "created_at"},
        foreign_keys=[("hold_id", "holds", "id")],
    )
    table(db, "hold_results").create_index(["hold_id", "id"])


def _create_days(db: Database) -> None:
    # ``id`` is the job's.
    create(
        db,
        "work_calendars",
        {
            "zone": str,
            "weekdays": str,
            "begins": str,
            "hours": float,
            "country": str,
            "subdivision": str,
            "crew": int,
            "room": int,
            "created_at": str,
        },
        not_null={
            "zone",
            "weekdays",
            "begins",
            "hours",
            "country",
            "subdivision",
            "crew",
            "room",
            "created_at",
        },
        foreign_keys=[("id", "jobs", "id")],
    )
    # ``id`` is "job/day"; ``worked`` 1 is a day worked although it usually is not.
    create(
        db,
        "calendar_days",
        {"job_id": str, "day": str, "worked": int, "why": str, "created_at": str},
        not_null={"job_id", "day", "worked", "why", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "calendar_days").create_index(["job_id", "day"])
    # ``id`` is "job/trade"; days as JSON lists, ``weekdays`` empty for any.
    create(
        db,
        "subs",
        {"job_id": str, "trade": str, "weekdays": str, "days": str, "away": str, "created_at": str},
        not_null={"job_id", "trade", "weekdays", "days", "away", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "subs").create_index(["job_id"])
    # A plan as it stood, to say later what moved; ``id`` is "job/visit" (or "job/" before any).
    create(
        db,
        "kept_plans",
        {"job_id": str, "as_of": int, "end": int, "items": str, "created_at": str},
        not_null={"job_id", "as_of", "end", "items", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "kept_plans").create_index(["job_id", "created_at"])
