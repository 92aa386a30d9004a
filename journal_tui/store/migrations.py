"""How a journal file comes to be and grows, step by named step.

A step that has shipped is never edited; a change to the schema is a new step, with a test that
builds the old schema by hand and migrates it.
"""

from __future__ import annotations

from sqlite_utils import Database, Migrations

from journal_tui.store.change_tables import create_change_tables, create_line_sources
from journal_tui.store.measure_tables import create_measure_tables
from journal_tui.store.plan_tables import create_plan_tables
from journal_tui.store.record_tables import create_record_photos, create_record_tables
from journal_tui.store.tables import create, table
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_SET

migrations = Migrations(MIGRATION_SET)


@migrations(name="0001_spine")
def spine(db: Database) -> None:
    """Jobs, visits, recordings, drafts, entries, punch items, documents, and the history of all."""
    db.conn.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    _create_history(db)
    create(
        db,
        "jobs",
        {
            "name": str,
            "client": str,
            "address": str,
            "scope": str,
            "year_built": int,
            "phases": str,
            "private_note": str,
            "created_at": str,
        },
        not_null={"name", "client", "address", "scope", "phases", "private_note", "created_at"},
    )
    create(
        db,
        "recordings",
        {
            "name": str,
            "form": str,
            "sha256": str,
            "timed": int,
            "length": float,
            "verbatim": str,
            "notices": str,
            "created_at": str,
        },
        not_null={"name", "form", "sha256", "timed", "length", "verbatim", "notices", "created_at"},
    )
    table(db, "recordings").create_index(["sha256"])
    create(
        db,
        "cues",
        {"recording_id": str, "line": int, "start": float, "end": float, "speaker": str, "text": str},
        not_null={"recording_id", "line", "start", "end", "text"},
        foreign_keys=[("recording_id", "recordings", "id")],
    )
    table(db, "cues").create_index(["recording_id", "start"])
    create(
        db,
        "visits",
        {
            "job_id": str,
            "day": str,
            "people": str,
            "summary": str,
            "recording_id": str,
            "created_at": str,
        },
        not_null={"job_id", "day", "people", "summary", "created_at"},
        foreign_keys=[("job_id", "jobs", "id"), ("recording_id", "recordings", "id")],
    )
    table(db, "visits").create_index(["job_id", "day", "id"])
    table(db, "visits").create_index(["recording_id"])
    _create_entries(db)
    _create_drafts(db)
    _create_punch(db)
    _create_documents(db)
    for name, columns in (("entries", ["text", "area"]), ("cues", ["text"])):
        table(db, name).enable_fts(columns, tokenize="porter unicode61", create_triggers=True)


def _create_history(db: Database) -> None:
    table(db, "actions").create(
        {"id": str, "at": str, "label": str, "job_id": str, "undoes": str},
        pk="id",
        strict=True,
        not_null={"at", "label"},
    )
    table(db, "actions").create_index(["job_id", "id"])
    table(db, "actions").create_index(["undoes"])
    # One row, rewritten at the start of each write: triggers read from it which action they serve.
    db.conn.execute(
        "CREATE TABLE acting (id INTEGER PRIMARY KEY CHECK (id = 1), action_id TEXT NOT NULL) STRICT"
    )
    db.conn.execute(
        'CREATE TABLE history ("seq" INTEGER PRIMARY KEY AUTOINCREMENT, "action_id" TEXT, "at" TEXT NOT NULL,'
        ' "table_name" TEXT NOT NULL, "row_id" TEXT NOT NULL, "op" TEXT NOT NULL, "field" TEXT,'
        ' "before" ANY, "after" ANY) STRICT'
    )
    table(db, "history").create_index(["action_id"])
    table(db, "history").create_index(["table_name", "row_id"])


def _create_entries(db: Database) -> None:
    create(
        db,
        "entries",
        {
            "job_id": str,
            "visit_id": str,
            "kind": str,
            "phase": str,
            "area": str,
            "text": str,
            "who": str,
            "hazards": str,
            "audience": str,
            "start": float,
            "end": float,
            "created_at": str,
        },
        not_null={"job_id", "visit_id", "kind", "phase", "area", "text", "hazards", "audience", "created_at"},
        foreign_keys=[("job_id", "jobs", "id"), ("visit_id", "visits", "id")],
    )
    table(db, "entries").create_index(["visit_id", "id"])
    table(db, "entries").create_index(["job_id", "id"])


def _create_drafts(db: Database) -> None:
    create(
        db,
        "drafts",
        {
            "visit_id": str,
            "kind": str,
            "phase": str,
            "area": str,
            "text": str,
            "open": int,
            "who": str,
            "hazards": str,
            "audience": str,
            "start": float,
            "end": float,
            "why": str,
            "heard": str,
            "measures": str,
            "repairs": str,
            "learned": str,
            "state": str,
            "entry_id": str,
            "joined_into": str,
            "created_at": str,
        },
        not_null={
            "visit_id",
            "kind",
            "phase",
            "area",
            "text",
            "open",
            "hazards",
            "audience",
            "start",
            "end",
            "why",
            "heard",
            "state",
            "created_at",
        },
        foreign_keys=[("visit_id", "visits", "id"), ("entry_id", "entries", "id")],
    )
    table(db, "drafts").create_index(["visit_id", "state"])
    create(
        db,
        "own_words",
        {"job_id": str, "phrase": str, "area": str, "phase": str, "in_use": int, "created_at": str},
        not_null={"job_id", "phrase", "in_use", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "own_words").create_index(["job_id"])


def _create_punch(db: Database) -> None:
    create(
        db,
        "punch_items",
        {
            "job_id": str,
            "entry_id": str,
            "kind": str,
            "phase": str,
            "area": str,
            "text": str,
            "who": str,
            "hazards": str,
            "audience": str,
            "state": str,
            "since": str,
            "closed": str,
            "created_at": str,
        },
        not_null={
            "job_id",
            "kind",
            "phase",
            "area",
            "text",
            "hazards",
            "audience",
            "state",
            "since",
            "created_at",
        },
        foreign_keys=[("job_id", "jobs", "id"), ("entry_id", "entries", "id")],
    )
    table(db, "punch_items").create_index(["job_id", "state"])
    table(db, "punch_items").create_index(["entry_id"])
    create(
        db,
        "punch_changes",
        {"item_id": str, "state": str, "day": str, "visit_id": str, "note": str, "created_at": str},
        not_null={"item_id", "state", "day", "created_at"},
        foreign_keys=[("item_id", "punch_items", "id"), ("visit_id", "visits", "id")],
    )
    table(db, "punch_changes").create_index(["item_id", "id"])


def _create_documents(db: Database) -> None:
    create(
        db,
        "documents",
        {
            "job_id": str,
            "kind": str,
            "sent_on": str,
            "markdown": str,
            "sha256": str,
            "created_at": str,
        },
        not_null={"job_id", "kind", "sent_on", "markdown", "sha256", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "documents").create_index(["job_id", "kind", "id"])
    # A document being edited: what it was made from, and what its writer has made of it so far.
    create(
        db,
        "working_documents",
        {"job_id": str, "kind": str, "made": str, "edited": str, "created_at": str},
        not_null={"job_id", "kind", "made", "edited", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "working_documents").create_index(["job_id", "kind"], unique=True)
    # Text being typed and not yet handed in; ``id`` says in which field of which screen.
    # It changes with every key, so it is the one table whose history is not kept.
    table(db, "typed").create(
        {"id": str, "text": str, "saved_at": str}, pk="id", strict=True, not_null={"text", "saved_at"}
    )


@migrations(name="0002_plan")
def plan(db: Database) -> None:
    """What a plan needs beside the punch list: figures stated, links, holds, calendars, subs, kept plans."""
    create_plan_tables(db)


@migrations(name="0003_stills")
def stills(db: Database) -> None:
    """Pictures out of a recording, by the hash of their file: one at most for a draft and its entry."""
    create(
        db,
        "stills",
        {
            "draft_id": str,
            "sha256": str,
            "moment": float,
            "width": int,
            "height": int,
            "created_at": str,
        },
        not_null={"draft_id", "sha256", "moment", "width", "height", "created_at"},
        foreign_keys=[("draft_id", "drafts", "id")],
    )
    table(db, "stills").create_index(["draft_id"], unique=True)
    table(db, "stills").create_index(["sha256"])
    # A document looks for the pictures of its entries.
    table(db, "drafts").create_index(["entry_id"])


@migrations(name="0004_measures")
def measures(db: Database) -> None:
    """A job's measures as they were typed, and where each material is."""
    create_measure_tables(db)


@migrations(name="0005_changes")
def changes(db: Database) -> None:
    """The contract of a job and its change orders with their lines, holds and answers."""
    create_change_tables(db)


@migrations(name="0006_record")
def record(db: Database) -> None:
    """What is behind surfaces, its tests, what a job was finished with, who accepted it, and photos."""
    create_record_tables(db)


@migrations(name="0007_record_photos")
def record_photos(db: Database) -> None:
    """Photos of what is behind surfaces, and of its tests."""
    create_record_photos(db)


@migrations(name="0008_line_sources")
def line_sources(db: Database) -> None:
    """From which line of the materials list a line of a change order was made."""
    create_line_sources(db)
