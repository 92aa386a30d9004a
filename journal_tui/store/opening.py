"""The one way to open a journal file, and what each way of failing is called."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES, MIGRATION_SET

#: How long a copy waits for another one's write to end, in milliseconds.
BUSY_MS = 10_000
#: How SQLite refuses what it may not write: the file, or the files it needs beside it.
_UNWRITABLE = (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM)


def connect(path: Path) -> sqlite3.Connection:
    """Return a connection to the journal at ``path``, brought up to this version.

    Every connection has foreign keys on, write-ahead logging, a full sync at each commit (a
    confirmed save outlives a power cut) and waits for other writers. A journal that is there and
    may not be written is opened for reading only. Raises ``JournalFileError``.
    """
    with file_errors(path):
        there = _is_there(path)
        if there and path.is_dir():
            raise JournalFileError(f"{path} is a folder", "Name a file to keep the journal in.")
        if there and not _may_read(path):
            raise JournalFileError(
                f"{path} may not be read",
                "Give yourself permission to read it, or choose another with --journal.",
            )
        if not there:
            path.parent.mkdir(parents=True, exist_ok=True)
        conn = sqlite3.connect(path, timeout=BUSY_MS / 1000)
        try:
            _set_up(conn, path)
        except sqlite3.OperationalError as error:
            conn.close()
            if not there or error.sqlite_errorcode & 0xFF not in _UNWRITABLE:
                raise
            return _for_reading(path)
        except BaseException:
            conn.close()
            raise
    return conn


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except PermissionError as error:
        raise JournalFileError(
            f"the folder of {path} may not be entered",
            "Give yourself permission to enter it, or choose another journal with --journal.",
        ) from error


def _may_read(path: Path) -> bool:
    return os.access(path, os.R_OK, effective_ids=os.access in os.supports_effective_ids)


def _for_reading(path: Path) -> sqlite3.Connection:
    """Return a connection that reads a journal in a place that may not be written."""
    log = path.with_name(path.name + "-wal")
    modes = ["mode=ro"]
    # Without its -shm file, which cannot be made here, a journal is read as one that nobody changes;
    # that would miss what stands only in the write-ahead log (SQLite documentation, wal.html section 5).
    if not log.exists() or not log.stat().st_size:
        modes.append("mode=ro&immutable=1")
    for mode in modes:
        conn = sqlite3.connect(f"{path.absolute().as_uri()}?{mode}", uri=True, timeout=BUSY_MS / 1000)
        try:
            _refuse_strangers(conn, path)
            if _applied(conn) != list(MIGRATION_NAMES):
                raise JournalFileError(
                    f"{path} is of an older version and cannot be brought up to this one where it is",
                    "Its place is read-only. Copy it to a folder you may write in and open the copy.",
                )
        except sqlite3.OperationalError as error:
            conn.close()
            if error.sqlite_errorcode & 0xFF not in _UNWRITABLE:
                raise
        except BaseException:
            conn.close()
            raise
        else:
            return conn
    raise JournalFileError(
        f"{path} cannot be read where it is",
        f"Its place is read-only and changes wait in {log.name}. Copy both files to a folder you may "
        "write in and open the copy.",
    )


def _set_up(conn: sqlite3.Connection, path: Path) -> None:
    conn.execute(f"PRAGMA busy_timeout = {BUSY_MS}")
    _refuse_strangers(conn, path)
    conn.execute("PRAGMA foreign_keys = ON")
    conn.execute("PRAGMA recursive_triggers = ON")
    _use_wal(conn)
    conn.execute("PRAGMA synchronous = FULL")
    if _applied(conn) != list(MIGRATION_NAMES):
        _migrate(conn, path)


def _use_wal(conn: sqlite3.Connection) -> None:
    # Changing the mode of a new file does not wait as other locks do (the busy handler may not be
    # asked, SQLite documentation of sqlite3_busy_handler), so two first starts would collide.
    until = time.monotonic() + BUSY_MS / 1000
    while conn.execute("PRAGMA journal_mode").fetchone()[0] != "wal":
        try:
            conn.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as error:
            if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or time.monotonic() > until:
                raise
            time.sleep(0.02)


def _applied(conn: sqlite3.Connection) -> list[str]:
    try:
        rows = conn.execute(
            "SELECT name FROM _sqlite_migrations WHERE migration_set = ? ORDER BY name", [MIGRATION_SET]
        )
        return [row[0] for row in rows]
    except sqlite3.OperationalError as error:
        if "no such table" in str(error):
            return []
        raise


def _refuse_strangers(conn: sqlite3.Connection, path: Path) -> None:
    application_id = conn.execute("PRAGMA application_id").fetchone()[0]
    tables = conn.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if tables and application_id != APPLICATION_ID:
        raise JournalFileError(
            f"{path} is not a journal",
            "It is a database of some other program. Nothing in it was changed. Choose another file "
            "with --journal.",
        )
    newer = [name for name in _applied(conn) if name not in MIGRATION_NAMES]
    if newer:
        raise JournalFileError(
            f"{path} was written by a newer version of journal_tui",
            f"It has the step {newer[-1]}, which this version does not know. Nothing in it was changed. "
            "Install the newer version to open it.",
        )


def _migrate(conn: sqlite3.Connection, path: Path) -> None:
    from journal_tui.store.utilities import database

    db = database(conn)
    from journal_tui.store.migrations import migrations

    # Taken before looking again: of two copies that start at once, one migrates and one waits.
    conn.execute("BEGIN IMMEDIATE")
    try:
        _refuse_strangers(conn, path)
        migrations.apply(db)
        conn.commit()
    except BaseException:
        conn.rollback()
        raise


@contextmanager
def file_errors(path: Path) -> Iterator[None]:
    """Turn what the file system and SQLite raise into a ``JournalFileError`` naming the way out."""
    try:
        yield
    except sqlite3.Error as error:
        raise _explained(error, path) from error
    except PermissionError as error:
        raise JournalFileError(
            f"cannot write to {error.filename or path}",
            "You may not write there. Choose another place with --journal.",
        ) from error
    except OSError as error:
        raise JournalFileError(
            f"cannot open {path}", f"{error.strerror or error}. Choose another place with --journal."
        ) from error
    except ValueError as error:
        if "null byte" not in str(error):
            raise
        raise JournalFileError(
            f"cannot open {path}", "No file can have this name. Choose another with --journal."
        ) from error


def _explained(error: sqlite3.Error, path: Path) -> JournalFileError:
    said = str(error)
    if "not a database" in said:
        return JournalFileError(
            f"{path} is not a journal", "It is some other kind of file. Choose another with --journal."
        )
    if "malformed" in said or "disk image" in said:
        return JournalFileError(
            f"{path} is damaged",
            "Copy the file and keep the copy, then restore your newest backup and open that.",
        )
    if "full" in said:
        return JournalFileError(
            f"the disk holding {path} is full", "Nothing was half-saved. Free some space and do it again."
        )
    if "readonly" in said:
        return JournalFileError(
            f"cannot write to {path}",
            "The file or its folder is read-only: it can be read, not changed. Choose another with "
            "--journal.",
        )
    if "unable to open" in said:
        return JournalFileError(
            f"cannot write to {path}", "The file or its folder is read-only. Choose another with --journal."
        )
    if "locked" in said or "busy" in said:
        return JournalFileError(
            f"{path} is busy",
            f"Another copy has been writing for over {BUSY_MS // 1000} seconds. Nothing was saved; "
            "close the other copy or try again.",
        )
    if "I/O error" in said:
        return JournalFileError(
            f"the disk holding {path} refused",
            "Nothing was half-saved. Check that the disk is there and has room, then do it again.",
        )
    return JournalFileError(f"{path} could not be used", f"SQLite says: {said}. Nothing was half-saved.")
