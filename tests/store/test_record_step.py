"""Step 0006_record, from a file as step 0005 left it, built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0005 left it; the tables it does not touch are left out.
_AFTER_0005 = """
    CREATE TABLE "change_lines" ("id" TEXT PRIMARY KEY) STRICT;
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
    file_after(path, "0005_changes", _AFTER_0005)
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
