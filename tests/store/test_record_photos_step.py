"""Step 0007_record_photos, from a file as step 0006 left it, built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store import record_queries
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0006 left it; the tables it does not touch are left out.
_AFTER_0006 = """
    CREATE TABLE "change_lines" ("id" TEXT PRIMARY KEY) STRICT;
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "hidden_works" ("id" TEXT PRIMARY KEY, "job_id" TEXT NOT NULL REFERENCES "jobs"("id"),
       "surface" TEXT NOT NULL, "what" TEXT NOT NULL) STRICT;
    CREATE TABLE "hidden_tests" ("id" TEXT PRIMARY KEY,
       "work_id" TEXT NOT NULL REFERENCES "hidden_works"("id"), "what" TEXT NOT NULL) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
    INSERT INTO "hidden_works" VALUES ('w', 'j', 'long wall', 'supply pipe');
    INSERT INTO "hidden_tests" VALUES ('t', 'w', 'pressure test');
"""


def test_0007_record_photos_adds_its_table_and_leaves_the_rest(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0006_record", _AFTER_0006)
    store = Store(path)
    found = [row["name"] for row in store.rows('PRAGMA table_info("record_photos")')]
    assert sorted(found) == sorted("id work_id test_id sha256 width height created_at".split())
    assert [row["what"] for row in store.rows("SELECT what FROM hidden_works")] == ["supply pipe"]
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    size = {"width": 4, "height": 3}
    with store.write("attach two photos", "j") as w:
        w.insert("record_photos", {"work_id": "w", "sha256": "a" * 64, **size})
        w.insert("record_photos", {"work_id": "w", "test_id": "t", "sha256": "b" * 64, **size})
    assert record_queries.record_photos(store, "j") == {"w": ["a" * 64], "t": ["b" * 64]}
    assert [r["sha256"] for r in record_queries.photos_of_work(store, "w")] == ["a" * 64]
    assert len(record_queries.photos_of_work(store, "w", of_tests=True)) == 2
    told = store.rows("SELECT op FROM history WHERE table_name = 'record_photos'")
    assert [row["op"] for row in told] == ["insert", "insert"]
    with pytest.raises(JournalFileError), store.write("of nothing", "j") as w:
        w.insert("record_photos", {"work_id": "gone", "sha256": "c" * 64, **size})
    store.close()
