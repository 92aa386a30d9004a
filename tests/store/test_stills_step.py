"""Step 0003_stills, from a file as step 0002 left it, built by hand."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES

#: What the step builds on, as 0002 left it; the tables it does not touch are left out.
_AFTER_0002 = """
    CREATE TABLE "_sqlite_migrations" (
       "id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT);
    CREATE UNIQUE INDEX idx__sqlite_migrations_migration_set_name
       ON "_sqlite_migrations" ("migration_set", "name");
    INSERT INTO "_sqlite_migrations" VALUES (1, 'journal', '0001_spine', '2026-03-01 08:00:00+00:00');
    INSERT INTO "_sqlite_migrations" VALUES (2, 'journal', '0002_plan', '2026-03-02 08:00:00+00:00');
    CREATE TABLE "actions" ("id" TEXT PRIMARY KEY, "at" TEXT NOT NULL, "label" TEXT NOT NULL,
       "job_id" TEXT, "undoes" TEXT) STRICT;
    CREATE TABLE acting (id INTEGER PRIMARY KEY CHECK (id = 1), action_id TEXT NOT NULL) STRICT;
    CREATE TABLE history ("seq" INTEGER PRIMARY KEY AUTOINCREMENT, "action_id" TEXT, "at" TEXT NOT NULL,
       "table_name" TEXT NOT NULL, "row_id" TEXT NOT NULL, "op" TEXT NOT NULL, "field" TEXT,
       "before" ANY, "after" ANY) STRICT;
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "drafts" ("id" TEXT PRIMARY KEY, "text" TEXT NOT NULL, "entry_id" TEXT) STRICT;
    INSERT INTO "drafts" VALUES ('d', 'the flange is rusted', NULL);
"""


def test_0003_stills_adds_its_table_and_keeps_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    conn = sqlite3.connect(path)
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID};" + _AFTER_0002)
    conn.close()
    store = Store(path)
    columns = [row["name"] for row in store.rows('PRAGMA table_info("stills")')]
    assert columns == ["id", "draft_id", "sha256", "moment", "width", "height", "created_at"]
    assert [row["text"] for row in store.rows("SELECT text FROM drafts")] == ["the flange is rusted"]
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    still = {"draft_id": "d", "sha256": "ab" * 32, "moment": 1.5, "width": 4, "height": 3}
    with store.write("take a still", "j") as w:
        still_id = w.insert("stills", still)
    (told,) = store.rows("SELECT op, row_id FROM history WHERE table_name = 'stills'")
    assert (told["op"], told["row_id"]) == ("insert", still_id)
    with pytest.raises(JournalFileError), store.write("a second for the same draft", "j") as w:
        w.insert("stills", still)
    store.close()
