"""Step 0004_measures, from a file as step 0003 left it, built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0003 left it; the tables it does not touch are left out.
_AFTER_0003 = """
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
"""


def test_0004_measures_adds_its_tables_and_keeps_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0003_stills", _AFTER_0003)
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
