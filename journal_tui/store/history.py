"""The change history the database writes itself, and undoing by it.

Every watched table has three triggers. An update leaves a row for each field that changed, with
its value before and after; a deletion leaves the whole row; an insertion leaves the fact (its values
are in the row, or in the ``before`` of what changed it). Nothing here is ever rewritten.
"""

from __future__ import annotations

import json
import sqlite3

_HEAD = (
    'INSERT INTO history ("action_id", "at", "table_name", "row_id", "op", "field", "before", "after") '
    "SELECT (SELECT action_id FROM acting), strftime('%Y-%m-%dT%H:%M:%fZ', 'now')"
)


def watch(conn: sqlite3.Connection, name: str) -> None:
    """Create the history triggers of table ``name``; call again after adding a column to it."""
    columns = [row[1] for row in conn.execute(f'PRAGMA table_info("{name}")')]
    for op in ("insert", "update", "delete"):
        conn.execute(f'DROP TRIGGER IF EXISTS "history_{name}_{op}"')
    conn.execute(
        f'CREATE TRIGGER "history_{name}_insert" AFTER INSERT ON "{name}" BEGIN '
        f"{_HEAD}, '{name}', new.id, 'insert', NULL, NULL, NULL; END"
    )
    updates = " ".join(
        f"{_HEAD}, '{name}', old.id, 'update', '{c}', old.\"{c}\", new.\"{c}\""
        f' WHERE old."{c}" IS NOT new."{c}";'
        for c in columns
    )
    conn.execute(f'CREATE TRIGGER "history_{name}_update" AFTER UPDATE ON "{name}" BEGIN {updates} END')
    fields = ", ".join(f"'{c}', old.\"{c}\"" for c in columns)
    conn.execute(
        f'CREATE TRIGGER "history_{name}_delete" BEFORE DELETE ON "{name}" BEGIN '
        f"{_HEAD}, '{name}', old.id, 'delete', NULL, json_object({fields}), NULL; END"
    )


def last_action(conn: sqlite3.Connection, job_id: str) -> tuple[str, str] | None:
    """Return (id, label) of the newest action on a job that is neither undone nor an undoing."""
    row = conn.execute(
        "SELECT id, label FROM actions a WHERE job_id = ? AND undoes IS NULL"
        " AND NOT EXISTS (SELECT 1 FROM actions u WHERE u.undoes = a.id) ORDER BY id DESC LIMIT 1",
        [job_id],
    ).fetchone()
    return (row[0], row[1]) if row else None


class ChangedSince(Exception):
    """What an action changed has been changed again, so it cannot simply be put back."""


def put_back(conn: sqlite3.Connection, action_id: str) -> None:
    """Reverse every change an action made, newest first, inside the caller's write.

    Raises ``ChangedSince`` when a field no longer holds what the action left there.
    """
    changes = conn.execute(
        'SELECT "table_name", "row_id", "op", "field", "before", "after" FROM history'
        " WHERE action_id = ? ORDER BY seq DESC",
        [action_id],
    ).fetchall()
    for name, row_id, op, field, before, after in changes:
        if op == "insert":
            conn.execute(f'DELETE FROM "{name}" WHERE id = ?', [row_id])
        elif op == "delete":
            values: dict[str, object] = json.loads(before)
            columns = ", ".join(f'"{c}"' for c in values)
            marks = ", ".join("?" for _ in values)
            conn.execute(f'INSERT INTO "{name}" ({columns}) VALUES ({marks})', list(values.values()))
        else:
            done = conn.execute(
                f'UPDATE "{name}" SET "{field}" = ? WHERE id = ? AND "{field}" IS ?', [before, row_id, after]
            )
            if done.rowcount != 1:
                raise ChangedSince(f"{name} {field}")


def field_history(
    conn: sqlite3.Connection, name: str, row_id: str
) -> list[tuple[str, str, str | None, object, object]]:
    """Return (when, op, field, before, after) of everything that happened to a row, oldest first."""
    return conn.execute(
        'SELECT "at", "op", "field", "before", "after" FROM history'
        " WHERE table_name = ? AND row_id = ? ORDER BY seq",
        [name, row_id],
    ).fetchall()
