"""Each step of the schema, from a file as the step before left it, built by hand."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from journal_tui.store.store import Store
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES

#: A journal as the very first start leaves it when it is stopped before any step: the table that
#: records steps (sqlite-utils 4) and nothing else.
_BEFORE_ANY_STEP = """
    CREATE TABLE "_sqlite_migrations" (
       "id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT);
    CREATE UNIQUE INDEX idx__sqlite_migrations_migration_set_name
       ON "_sqlite_migrations" ("migration_set", "name");
"""

_COLUMNS = {
    "jobs": "id name client address scope year_built phases private_note created_at",
    "recordings": "id name form sha256 timed length verbatim notices created_at",
    "cues": "id recording_id line start end speaker text",
    "visits": "id job_id day people summary recording_id created_at",
    "entries": "id job_id visit_id kind phase area text who hazards audience start end created_at",
    "punch_items": "id job_id entry_id kind phase area text who hazards audience state since closed",
    "punch_changes": "id item_id state day visit_id note created_at",
    "documents": "id job_id kind sent_on markdown sha256 created_at",
    "working_documents": "id job_id kind made edited created_at",
    "own_words": "id job_id phrase area phase in_use created_at",
    "typed": "id text saved_at",
}


def test_0001_spine_from_a_file_before_any_step(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    conn = sqlite3.connect(path)
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID};" + _BEFORE_ANY_STEP)
    conn.close()
    store = Store(path)
    for name, columns in _COLUMNS.items():
        found = [row["name"] for row in store.rows(f'PRAGMA table_info("{name}")')]
        assert set(columns.split()) <= set(found), name
    steps = store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")
    assert [row["name"] for row in steps] == list(MIGRATION_NAMES)


def test_opening_again_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    Store(path).close()
    first = path.read_bytes()
    Store(path).close()
    assert path.read_bytes() == first


def test_a_step_that_fails_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    conn = sqlite3.connect(path)
    # A table in the way, in a file that says it is a journal.
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID}; CREATE TABLE jobs (x);")
    conn.close()
    before = sqlite3.connect(path).execute("SELECT name FROM sqlite_master").fetchall()
    try:
        Store(path)
        opened = True
    except Exception as error:
        opened = False
        assert "could not be used" in str(error)
    assert not opened
    assert sqlite3.connect(path).execute("SELECT name FROM sqlite_master").fetchall() == before
