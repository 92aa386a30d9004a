"""Step 0003_stills, from a file as step 0002 left it, built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0002 left it; the tables it does not touch are left out.
_AFTER_0002 = """
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "drafts" ("id" TEXT PRIMARY KEY, "text" TEXT NOT NULL, "entry_id" TEXT) STRICT;
    INSERT INTO "drafts" VALUES ('d', 'the flange is rusted', NULL);
"""


def test_0003_stills_adds_its_table_and_keeps_what_was_there(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0002_plan", _AFTER_0002)
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
