"""Step 0006_record, from a file as step 0005 left it, built by hand."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES

#: What the step builds on, as 0005 left it; the tables it does not touch are left out.
_AFTER_0005 = """
    CREATE TABLE "_sqlite_migrations" (
       "id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT);
    CREATE UNIQUE INDEX idx__sqlite_migrations_migration_set_name
       ON "_sqlite_migrations" ("migration_set", "name");
    INSERT INTO "_sqlite_migrations" VALUES (1, 'journal', '0001_spine', '2026-03-01 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (2, 'journal', '0002_plan', '2026-03-02 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (3, 'journal', '0003_stills', '2026-03-03 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (4, 'journal', '0004_measures', '2026-03-04 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (5, 'journal', '0005_changes', '2026-03-05 08:00:00+00:00');
    CREATE TABLE "actions" ("id" TEXT PRIMARY KEY, "at" TEXT NOT NULL, "label" TEXT NOT NULL,
       "job_id" TEXT, "undoes" TEXT) STRICT;
    CREATE TABLE acting (id INTEGER PRIMARY KEY CHECK (id = 1), action_id TEXT NOT NULL) STRICT;
    CREATE TABLE history ("seq" INTEGER PRIMARY KEY AUTOINCREMENT, "action_id" TEXT, "at" TEXT NOT NULL,
       "table_name" TEXT NOT NULL, "row_id" TEXT NOT NULL, "op" TEXT NOT NULL, "field" TEXT,
       "before" ANY, "after" ANY) STRICT;
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "visits" ("id" TEXT PRIMARY KEY, "job_id" TEXT) STRICT;
    CREATE TABLE "entries" ("id" TEXT PRIMARY KEY, "visit_id" TEXT) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
"""

_COLUMNS = {
    "hidden_works": "id job_id surface what size from_a length_a from_b length_b seen covered entry_id "
    "created_at",
    "hidden_tests": "id work_id what result passed by day created_at",
    "finishes": "id job_id area what description lot care placed warranty created_at",
    "sign_offs": "id by how day note open_items created_at",
    "photos": "id entry_id sha256 width height created_at",
}


def test_0006_record_adds_its_tables_and_accepts_a_job_once(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    conn = sqlite3.connect(path)
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID};" + _AFTER_0005)
    conn.close()
    store = Store(path)
    for name, columns in _COLUMNS.items():
        found = [row["name"] for row in store.rows(f'PRAGMA table_info("{name}")')]
        assert sorted(found) == sorted(columns.split()), name
    assert [row["name"] for row in store.rows("SELECT name FROM jobs")] == ["Elm"]
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    signed = {"id": "j", "by": "A", "how": "signed", "day": "2026-03-05", "note": "", "open_items": 0}
    with store.write("accept the job", "j") as w:
        w.insert("sign_offs", signed)
    (told,) = store.rows("SELECT op, row_id FROM history WHERE table_name = 'sign_offs'")
    assert (told["op"], told["row_id"]) == ("insert", "j")
    with pytest.raises(JournalFileError), store.write("twice", "j") as w:
        w.insert("sign_offs", signed)
    store.close()
