"""The database writes its own history: nothing is overwritten without trace, and all can be put back."""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.store.history import field_history, put_back
from journal_tui.store.store import Store

#: Tables that are the history, or of which none is kept (see the first migration).
UNWATCHED = {"actions", "acting", "history", "typed", "_sqlite_migrations"}

texts = st.text(st.characters(codec="utf-8", exclude_characters="\x00"), max_size=12)


def _tables(store: Store) -> dict[str, list[str]]:
    names = [
        row["name"]
        for row in store.rows(
            "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        )
        if "_fts" not in row["name"]
    ]
    return {name: [row["name"] for row in store.rows(f'PRAGMA table_info("{name}")')] for name in names}


def test_every_field_of_every_table_is_watched(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    triggers = {
        row["name"]: row["sql"]
        for row in store.rows("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'")
    }
    for name, columns in _tables(store).items():
        if name in UNWATCHED:
            continue
        assert f"history_{name}_insert" in triggers
        for column in columns:
            assert f'old."{column}" IS NOT new."{column}"' in triggers[f"history_{name}_update"]
            assert f"'{column}', old.\"{column}\"" in triggers[f"history_{name}_delete"]


def _add(store: Store, name: str) -> str:
    with store.write("begin", None) as w:
        return w.insert(
            "jobs",
            {"name": name, "client": "", "address": "", "scope": "", "phases": "[]", "private_note": ""},
        )


steps = st.lists(
    st.tuples(st.sampled_from(["name", "client", "year_built"]), texts, st.integers(1700, 2100)), max_size=6
)


@settings(max_examples=20)
@given(steps)
def test_every_earlier_value_can_be_read_back(
    tmp_path_factory: Any, changes: list[tuple[str, str, int]]
) -> None:
    store = Store(tmp_path_factory.mktemp("h") / "j.db")
    job_id = _add(store, "first")
    expected: dict[str, list[object]] = {"name": ["first"], "client": [""], "year_built": [None]}
    for field, text, year in changes:
        value: object = year if field == "year_built" else text
        with store.write("change") as w:
            w.change("jobs", job_id, **{field: value})
        if value != expected[field][-1]:
            expected[field].append(value)
    for field, values in expected.items():
        told = [(b, a) for _at, _op, f, b, a in field_history(store.conn, "jobs", job_id) if f == field]
        assert told == list(pairwise(values))
    store.close()


@settings(max_examples=20)
@given(steps)
def test_put_back_restores_the_row_exactly(
    tmp_path_factory: Any, changes: list[tuple[str, str, int]]
) -> None:
    store = Store(tmp_path_factory.mktemp("h") / "j.db")
    job_id = _add(store, "first")
    before = tuple(store.rows("SELECT * FROM jobs")[0])
    with store.write("many changes") as w:
        for field, text, year in changes:
            w.change("jobs", job_id, **{field: year if field == "year_built" else text})
        w.remove("jobs", job_id)
    assert store.rows("SELECT * FROM jobs") == []
    action = store.rows("SELECT id FROM actions WHERE label = 'many changes'")[0]["id"]
    with store.write("undo", undoes=action) as w:
        put_back(w.conn, action)
    assert tuple(store.rows("SELECT * FROM jobs")[0]) == before
    store.close()


def test_a_deleted_row_is_kept_whole(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    job_id = _add(store, "gone [/] \u202e ✓")
    with store.write("remove") as w:
        w.remove("jobs", job_id)
    last = field_history(store.conn, "jobs", job_id)[-1]
    assert last[1] == "delete"
    assert json.loads(str(last[3]))["name"] == "gone [/] \u202e ✓"


def test_every_change_says_which_action_it_belongs_to(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    job_id = _add(store, "a")
    with store.write("rename it", job_id) as w:
        w.change("jobs", job_id, name="b")
    told = store.rows("SELECT a.label FROM history h JOIN actions a ON a.id = h.action_id ORDER BY h.seq")
    assert [row["label"] for row in told] == ["begin", "rename it"]


def test_a_failed_write_leaves_no_trace(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    try:
        with store.write("half") as w:
            w.insert(
                "jobs",
                {"name": "x", "client": "", "address": "", "scope": "", "phases": "[]", "private_note": ""},
            )
            raise KeyboardInterrupt
    except KeyboardInterrupt:
        pass
    assert store.rows("SELECT * FROM jobs") == []
    assert store.rows("SELECT * FROM actions") == []
    assert store.rows("SELECT * FROM history") == []
