"""Step 0002_plan, from a file as step 0001 left it, built by hand."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from sqlite_utils import Database

from journal_tui.store.migrations import migrations
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0001 wrote it; the tables it does not touch are left out.
_AFTER_0001 = """
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "visits" ("id" TEXT PRIMARY KEY, "job_id" TEXT NOT NULL REFERENCES "jobs"("id")) STRICT;
    CREATE TABLE "punch_items" ("id" TEXT PRIMARY KEY, "job_id" TEXT NOT NULL REFERENCES "jobs"("id"),
       "text" TEXT NOT NULL) STRICT;
    CREATE TABLE "drafts" ("id" TEXT PRIMARY KEY, "entry_id" TEXT) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Powder room');
    INSERT INTO "punch_items" VALUES ('i', 'j', 'set the ring'), ('k', 'j', 'set the toilet');
"""

_COLUMNS = {
    "item_plans": "id job_id crew_hours people wait_hours wait_note sub free closes materials task"
    " created_at",
    "links": "id job_id before_id after_id lag_hours created_at",
    "holds": "id job_id kind who booked again_id created_at",
    "hold_results": "id hold_id day by passed found evidence created_at",
    "work_calendars": "id zone weekdays begins hours country subdivision crew room created_at",
    "calendar_days": "id job_id day worked why created_at",
    "subs": "id job_id trade weekdays days away created_at",
    "kept_plans": "id job_id as_of end items created_at",
}


def test_0002_plan_adds_its_tables_and_keeps_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0001_spine", _AFTER_0001)
    db = Database(sqlite3.connect(path), execute_plugins=False)
    later = [*MIGRATION_NAMES[MIGRATION_NAMES.index("0002_plan") + 1 :], None]
    migrations.apply(db, stop_before=later[0])
    for name, columns in _COLUMNS.items():
        found = [row[1] for row in db.execute(f'PRAGMA table_info("{name}")')]
        assert sorted(found) == sorted(columns.split()), name
    texts = [row[0] for row in db.execute("SELECT text FROM punch_items ORDER BY id")]
    assert texts == ["set the ring", "set the toilet"]
    steps = [row[0] for row in db.execute("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == ["0001_spine", "0002_plan"]
    db.execute("INSERT INTO acting VALUES (1, 'a')")
    db.execute("INSERT INTO links VALUES ('i/k', 'j', 'i', 'k', 0.0, '2026-03-12T08:00:00.000Z')")
    told = db.execute("SELECT op, row_id, action_id FROM history WHERE table_name = 'links'").fetchall()
    assert told == [("insert", "i/k", "a")]
