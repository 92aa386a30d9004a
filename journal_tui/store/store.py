"""A journal file in use: reads, and the one writer."""

from __future__ import annotations

import datetime as dt
import sqlite3
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from journal_tui.domain.ids import new_id
from journal_tui.domain.text import storable
from journal_tui.store.opening import connect, file_errors

if TYPE_CHECKING:
    from sqlite_utils import Database


class Row(Protocol):
    """What a query gives: columns by name."""

    def __getitem__(self, column: str, /) -> Any: ...


def utc_now() -> str:
    """Return this instant as ISO 8601 in UTC, to the millisecond."""
    return dt.datetime.now(dt.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Writer:
    """What may be done inside one write: all of it is saved together, or none."""

    def __init__(self, db: Database, now: str) -> None:
        self._db = db
        self.now = now

    @property
    def conn(self) -> sqlite3.Connection:
        """The connection, for a statement that insert, change and remove cannot say."""
        return self._db.conn

    def insert(self, table: str, row: Mapping[str, object]) -> str:
        """Save a new row and return its id; ``id`` and ``created_at`` are filled in when missing."""
        return self.insert_all(table, [row])[0]

    def insert_all(self, table: str, rows: Iterable[Mapping[str, object]]) -> list[str]:
        """Save new rows in order and return their ids."""
        full = [{"id": new_id(), **self._clean(row)} for row in rows]
        if table != "cues":
            full = [{"created_at": self.now, **row} for row in full]
        self._db.table(table).insert_all(full)
        return [row["id"] for row in full]

    def change(self, table: str, row_id: str, **changes: object) -> None:
        """Change fields of a row; the history keeps what they were."""
        self._db.table(table).update(row_id, self._clean(changes))

    def remove(self, table: str, row_id: str) -> None:
        """Take a row out; the history keeps it whole."""
        self._db.conn.execute(f'DELETE FROM "{table}" WHERE id = ?', [row_id])

    @staticmethod
    def _clean(row: Mapping[str, object]) -> dict[str, Any]:
        return {key: storable(value) if isinstance(value, str) else value for key, value in row.items()}


class Store:
    """One open journal file, used from the thread that opened it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._conn = connect(path)
        self._conn.row_factory = sqlite3.Row
        self._db: Database | None = None

    def another(self) -> Store:
        """Return a second connection to the same file, for use in another thread."""
        return Store(self.path)

    def close(self) -> None:
        """Let go of the file."""
        self._conn.close()

    @property
    def conn(self) -> sqlite3.Connection:
        """The connection, for reading."""
        return self._conn

    def rows(self, sql: str, params: Sequence[object] = ()) -> list[sqlite3.Row]:
        """Return the rows of a query; columns are read by name."""
        with file_errors(self.path):
            return self._conn.execute(sql, params).fetchall()

    def row(self, sql: str, params: Sequence[object] = ()) -> sqlite3.Row | None:
        """Return the first row of a query, or None."""
        found = self.rows(sql, params)
        return found[0] if found else None

    @contextmanager
    def write(self, label: str, job_id: str | None = None, *, undoes: str | None = None) -> Iterator[Writer]:
        """Open the one write transaction: named in plain words, recorded, all or nothing.

        Waits its turn behind other copies; raises ``JournalFileError`` when it cannot save.
        """
        with file_errors(self.path):
            db = self._utils()
            self._conn.execute("BEGIN IMMEDIATE")
            try:
                now = utc_now()
                action_id = new_id()
                self._conn.execute(
                    "INSERT INTO actions (id, at, label, job_id, undoes) VALUES (?, ?, ?, ?, ?)",
                    [action_id, now, storable(label), job_id, undoes],
                )
                self._conn.execute("INSERT OR REPLACE INTO acting (id, action_id) VALUES (1, ?)", [action_id])
                yield Writer(db, now)
                self._conn.commit()
            except BaseException:
                self._conn.rollback()
                raise

    def scribble(self, place: str, text: str) -> None:
        """Keep text that is still being typed in ``place``; empty text forgets it. Not in the history."""
        with file_errors(self.path), self._conn:
            if text:
                self._conn.execute(
                    "INSERT OR REPLACE INTO typed (id, text, saved_at) VALUES (?, ?, ?)",
                    [place, storable(text), utc_now()],
                )
            else:
                self._conn.execute("DELETE FROM typed WHERE id = ?", [place])

    def _utils(self) -> Database:
        if self._db is None:
            # Loaded at the first write, so that opening and reading do not wait for it.
            from journal_tui.store.utilities import database

            self._db = database(self._conn)
        return self._db

    def backup(self, target: Path) -> None:
        """Copy the journal to ``target`` while it is in use; the copy is whole or is not made."""
        unfinished = target.with_name(target.name + ".unfinished")
        with file_errors(target):
            target.parent.mkdir(parents=True, exist_ok=True)
            unfinished.unlink(missing_ok=True)
            try:
                copy = sqlite3.connect(unfinished)
                try:
                    self._conn.backup(copy)
                finally:
                    copy.close()
                unfinished.replace(target)
            except BaseException:
                for ending in ("", "-journal"):
                    unfinished.with_name(unfinished.name + ending).unlink(missing_ok=True)
                raise
