"""Step 0008_line_sources, from a file as step 0007 left it, built by hand."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.domain.made_from import FromMeasure, MadeFrom
from journal_tui.store import change_queries
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES
from tests.store.hand_built import file_after

#: What the step builds on, as 0007 left it; the tables it does not touch are left out.
_AFTER_0007 = """
    CREATE TABLE "jobs" ("id" TEXT PRIMARY KEY, "name" TEXT NOT NULL) STRICT;
    CREATE TABLE "change_orders" ("id" TEXT PRIMARY KEY, "job_id" TEXT NOT NULL) STRICT;
    CREATE TABLE "change_lines" ("id" TEXT PRIMARY KEY,
       "order_id" TEXT NOT NULL REFERENCES "change_orders"("id"), "kind" TEXT NOT NULL,
       "text" TEXT NOT NULL, "quantity" INTEGER NOT NULL, "unit" TEXT NOT NULL, "each" INTEGER NOT NULL,
       "marked_up" INTEGER NOT NULL, "created_at" TEXT NOT NULL) STRICT;
    INSERT INTO "jobs" VALUES ('j', 'Elm');
    INSERT INTO "change_orders" VALUES ('o', 'j');
    INSERT INTO "change_lines" VALUES ('a', 'o', 'material', 'plywood', 300, 'sheet', 5400, 1, '2026-03-12');
"""
_SOURCE = {
    "name": "plywood 3/4",
    "phase": "subfloor",
    "packages": 3,
    "packed": "sheet",
    "package": 1.0,
    "unit": "sheets",
    "amount": 2.5,
    "waste": 0.1,
    "basis": "by layout",
    "day": "2026-03-12",
}


def test_0008_line_sources_adds_its_tables_and_leaves_the_lines(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    file_after(path, "0007_record_photos", _AFTER_0007)
    store = Store(path)
    steps = [r["name"] for r in store.rows("SELECT name FROM _sqlite_migrations ORDER BY id")]
    assert steps == list(MIGRATION_NAMES)
    (line,) = change_queries.priced_lines(store, "j")
    assert (line["text"], line["each"]) == ("plywood", 5_400)
    # A line from before the step was made from nothing that is known.
    assert change_queries.line_sources(store, "j") == {}
    with store.write("say what it is made from", "j") as w:
        w.insert("line_sources", {"id": "a", **_SOURCE})
        w.insert("line_measures", {"line_id": "a", "measure_id": "gone", "name": "bath", "amount": 2.5})
    assert change_queries.line_sources(store, "j") == {
        "a": MadeFrom(
            "plywood 3/4",
            "subfloor",
            3,
            "sheet",
            1.0,
            "sheets",
            2.5,
            0.1,
            "by layout",
            dt.date(2026, 3, 12),
            (FromMeasure("gone", "bath", 2.5),),
        )
    }
    told = store.rows("SELECT op FROM history WHERE table_name IN ('line_sources', 'line_measures')")
    assert [row["op"] for row in told] == ["insert", "insert"]
    with pytest.raises(JournalFileError), store.write("of no line", "j") as w:
        w.insert("line_sources", {"id": "b", **_SOURCE})
    store.close()
