"""Step 0005_changes, from a file as step 0004 left it, built by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0004 left it; the tables it does not touch are left out.
_AFTER_0004 = """
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "visits" ("id" TEXT PRIMARY KEY, "job_id" TEXT) STRICT;
    CREATE TABLE "entries" ("id" TEXT PRIMARY KEY, "visit_id" TEXT) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
"""

_COLUMNS = {
    "contracts": "id cents finish markup tax tax_base created_at",
    "change_orders": "id job_id number title found offer left markup tax tax_base days state "
    "drafted_on sent_on answer_by answered_by answered_how answered_on answered_note moved_at "
    "entry_id item_id created_at",
    "change_lines": "id order_id kind text quantity unit each marked_up created_at",
    "change_holds": "id job_id order_id item_id created_at",
}


def _order(number: int | None) -> dict[str, object]:
    words = {
        "title": "Subfloor",
        "found": "",
        "offer": "",
        "left": "",
        "tax_base": "nothing",
        "state": "sent",
    }
    days = {"drafted_on": "2026-03-05", "moved_at": "2026-03-05T08:00:00Z"}
    return {"job_id": "j", "number": number, "markup": 0, "tax": 0, "days": 0, **words, **days}


def test_0005_changes_adds_its_tables_and_gives_no_number_twice(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0004_measures", _AFTER_0004)
    store = Store(path)
    for name, columns in _COLUMNS.items():
        found = [row["name"] for row in store.rows(f'PRAGMA table_info("{name}")')]
        assert sorted(found) == sorted(columns.split()), name
    assert [row["name"] for row in store.rows("SELECT name FROM jobs")] == ["Elm"]
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    with store.write("number a change order", "j") as w:
        row_id = w.insert("change_orders", _order(1))
        w.insert_all("change_orders", [_order(None), _order(None)])
    told = store.rows("SELECT op, row_id FROM history WHERE table_name = 'change_orders'")
    assert (told[0]["op"], told[0]["row_id"]) == ("insert", row_id)
    with pytest.raises(JournalFileError), store.write("twice", "j") as w:
        w.insert("change_orders", _order(1))
    store.close()
