"""Step 0004_measures, from a file as step 0003 left it, built by hand."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES

#: What the step builds on, as 0003 left it; the tables it does not touch are left out.
_AFTER_0003 = """
    CREATE TABLE "_sqlite_migrations" (
       "id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT);
    CREATE UNIQUE INDEX idx__sqlite_migrations_migration_set_name
       ON "_sqlite_migrations" ("migration_set", "name");
    INSERT INTO "_sqlite_migrations" VALUES (1, 'journal', '0001_spine', '2026-03-01 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (2, 'journal', '0002_plan', '2026-03-02 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (3, 'journal', '0003_stills', '2026-03-03 08:00:00+00:00');
    CREATE TABLE "actions" ("id" TEXT PRIMARY KEY, "at" TEXT NOT NULL, "label" TEXT NOT NULL,
       "job_id" TEXT, "undoes" TEXT) STRICT;
    CREATE TABLE acting (id INTEGER PRIMARY KEY CHECK (id = 1), action_id TEXT NOT NULL) STRICT;
    CREATE TABLE history ("seq" INTEGER PRIMARY KEY AUTOINCREMENT, "action_id" TEXT, "at" TEXT NOT NULL,
       "table_name" TEXT NOT NULL, "row_id" TEXT NOT NULL, "op" TEXT NOT NULL, "field" TEXT,
       "before" ANY, "after" ANY) STRICT;
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
"""


def test_0004_measures_adds_its_tables_and_keeps_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    conn = sqlite3.connect(path)
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID};" + _AFTER_0003)
    conn.close()
    store = Store(path)
    columns = [row["name"] for row in store.rows('PRAGMA table_info("measures")')]
    assert columns == "id job_id form name typed measured_by measured_on created_at".split()
    columns = [row["name"] for row in store.rows('PRAGMA table_info("material_standings")')]
    assert columns == "id job_id name phase standing due created_at".split()
    assert [row["name"] for row in store.rows("SELECT name FROM jobs")] == ["Elm"]
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    there = {"job_id": "j", "name": "grout", "phase": "tile", "standing": "on site", "due": None}
    with store.write("say where grout is", "j") as w:
        row_id = w.insert("material_standings", there)
    (told,) = store.rows("SELECT op, row_id FROM history WHERE table_name = 'material_standings'")
    assert (told["op"], told["row_id"]) == ("insert", row_id)
    with pytest.raises(JournalFileError), store.write("twice", "j") as w:
        w.insert("material_standings", there)
    store.close()
