"""Old journal files, built by hand: what every step has below it, and the tables a step builds on."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES, MIGRATION_SET

#: The table of steps as sqlite-utils 4 makes it, and the history as step 0001 left it.
_BELOW_ALL = """
    CREATE TABLE "_sqlite_migrations" (
       "id" INTEGER PRIMARY KEY, "migration_set" TEXT, "name" TEXT, "applied_at" TEXT);
    CREATE UNIQUE INDEX idx__sqlite_migrations_migration_set_name
       ON "_sqlite_migrations" ("migration_set", "name");
    CREATE TABLE "actions" ("id" TEXT PRIMARY KEY, "at" TEXT NOT NULL, "label" TEXT NOT NULL,
       "job_id" TEXT, "undoes" TEXT) STRICT;
    CREATE TABLE acting (id INTEGER PRIMARY KEY CHECK (id = 1), action_id TEXT NOT NULL) STRICT;
    CREATE TABLE history ("seq" INTEGER PRIMARY KEY AUTOINCREMENT, "action_id" TEXT, "at" TEXT NOT NULL,
       "table_name" TEXT NOT NULL, "row_id" TEXT NOT NULL, "op" TEXT NOT NULL, "field" TEXT,
       "before" ANY, "after" ANY) STRICT;
"""


def file_after(path: Path, last_step: str, tables: str) -> None:
    """Build a journal file as ``last_step`` left it, with only ``tables`` (SQL) of the jobs' own."""
    done = MIGRATION_NAMES[: MIGRATION_NAMES.index(last_step) + 1]
    conn = sqlite3.connect(path)
    conn.executescript(f"PRAGMA application_id = {APPLICATION_ID};" + _BELOW_ALL + tables)
    conn.executemany(
        'INSERT INTO "_sqlite_migrations" VALUES (?, ?, ?, ?)',
        [(n, MIGRATION_SET, name, f"2026-03-{n:02d} 08:00:00+00:00") for n, name in enumerate(done, 1)],
    )
    conn.commit()
    conn.close()
