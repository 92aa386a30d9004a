"""The tables of a house's record (steps 0006_record and 0007_record_photos)."""

from __future__ import annotations

from sqlite_utils import Database

from journal_tui.store.tables import create, table


def create_record_tables(db: Database) -> None:
    """Create them; see each below."""
    # Lengths are in the words of a tape, as they are printed.
    create(
        db,
        "hidden_works",
        {
            "job_id": str,
            "surface": str,
            "what": str,
            "size": str,
            "from_a": str,
            "length_a": str,
            "from_b": str,
            "length_b": str,
            "seen": str,
            "covered": str,
            "entry_id": str,
            "created_at": str,
        },
        not_null={
            "job_id",
            "surface",
            "what",
            "size",
            "from_a",
            "length_a",
            "from_b",
            "length_b",
            "seen",
            "created_at",
        },
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "hidden_works").create_index(["job_id", "id"])
    create(
        db,
        "hidden_tests",
        {"work_id": str, "what": str, "result": str, "passed": int, "by": str, "day": str, "created_at": str},
        not_null={"work_id", "what", "result", "passed", "by", "day", "created_at"},
        foreign_keys=[("work_id", "hidden_works", "id")],
    )
    table(db, "hidden_tests").create_index(["work_id", "id"])
    create(
        db,
        "finishes",
        {
            "job_id": str,
            "area": str,
            "what": str,
            "description": str,
            "lot": str,
            "care": str,
            "placed": str,
            "warranty": str,
            "created_at": str,
        },
        not_null={"job_id", "area", "what", "description", "lot", "care", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "finishes").create_index(["job_id", "id"])
    # ``id`` is the job's: a job is accepted once.
    create(
        db,
        "sign_offs",
        {"by": str, "how": str, "day": str, "note": str, "open_items": int, "created_at": str},
        not_null={"by", "how", "day", "note", "open_items", "created_at"},
        foreign_keys=[("id", "jobs", "id")],
    )
    # A picture somebody attached to an entry; its file is kept beside the journal by its hash, as stills are.
    # No foreign key: undo may take an entry back, and its photos wait for it to come again.
    create(
        db,
        "photos",
        {"entry_id": str, "sha256": str, "width": int, "height": int, "created_at": str},
        not_null={"entry_id", "sha256", "width", "height", "created_at"},
    )
    table(db, "photos").create_index(["entry_id", "id"])
    table(db, "photos").create_index(["sha256"])


def create_record_photos(db: Database) -> None:
    """Create the table of photos of what is behind a surface; ``test_id`` names the test shown, if any."""
    create(
        db,
        "record_photos",
        {"work_id": str, "test_id": str, "sha256": str, "width": int, "height": int, "created_at": str},
        not_null={"work_id", "sha256", "width", "height", "created_at"},
        foreign_keys=[("work_id", "hidden_works", "id"), ("test_id", "hidden_tests", "id")],
    )
    table(db, "record_photos").create_index(["work_id", "id"])
    table(db, "record_photos").create_index(["test_id"])
    table(db, "record_photos").create_index(["sha256"])
