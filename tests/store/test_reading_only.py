"""A journal that may be read and not written is read; one that may not is said to be so."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.opening import connect
from journal_tui.store.store import Store
from journal_tui.store.versions import MIGRATION_NAMES

_NOBODY = 65534


@pytest.fixture
def folder() -> Iterator[Path]:
    """A folder that every user of the machine can reach, which pytest's own are not."""
    made = Path(tempfile.mkdtemp())
    made.chmod(0o755)
    yield made
    made.chmod(0o755)
    shutil.rmtree(made)


@contextmanager
def _ordinary_user() -> Iterator[None]:
    """Be somebody whom the permissions of files bind: root is not."""
    before = os.geteuid()
    if before == 0:
        os.seteuid(_NOBODY)
    try:
        yield
    finally:
        os.seteuid(before)


def _job(name: str) -> dict[str, str]:
    return {"name": name, "client": "", "address": "", "scope": "", "private_note": "", "phases": "[]"}


def _filled(folder: Path) -> Path:
    path = folder / "j.db"
    store = Store(path)
    with store.write("add a job") as w:
        w.insert("jobs", _job("Hall bath"))
    store.close()
    return path


def _names(store: Store) -> list[str]:
    return [row["name"] for row in store.rows("SELECT name FROM jobs")]


@pytest.mark.parametrize("mode", [0o444, 0o644])
def test_a_journal_in_a_read_only_folder_can_be_read_and_is_not_changed(folder: Path, mode: int) -> None:
    path = _filled(folder)
    path.chmod(mode)
    folder.chmod(0o555)
    before = path.read_bytes()
    with _ordinary_user():
        store = Store(path)
        assert _names(store) == ["Hall bath"]
        with pytest.raises(JournalFileError, match="cannot write to") as refused, store.write("x") as w:
            w.insert("jobs", _job("No"))
        assert "can be read, not changed" in refused.value.body
        with pytest.raises(JournalFileError, match="cannot write to"):
            store.scribble("place", "half a word")
        second = store.another()
        assert _names(second) == ["Hall bath"]
        second.close()
        store.close()
    assert path.read_bytes() == before
    assert [file.name for file in folder.iterdir()] == ["j.db"]


def test_a_read_only_file_in_a_folder_of_ones_own_can_be_read(folder: Path) -> None:
    path = _filled(folder)
    path.chmod(0o444)
    folder.chmod(0o777)
    with _ordinary_user():
        store = Store(path)
        assert _names(store) == ["Hall bath"]
        with pytest.raises(JournalFileError, match="cannot write to"), store.write("x") as w:
            w.insert("jobs", _job("No"))
        store.close()


def test_what_stands_in_the_log_only_is_never_left_out_silently(folder: Path) -> None:
    path = _filled(folder)
    writing = Store(path)
    with writing.write("add a job") as w:
        w.insert("jobs", _job("Porch"))
    copy = folder / "copy"
    copy.mkdir()
    for name in ("j.db", "j.db-wal"):  # as a copy to a disc takes them, without the -shm file
        shutil.copy(folder / name, copy / name)
    writing.close()
    copy.chmod(0o555)
    with _ordinary_user(), pytest.raises(JournalFileError, match="cannot be read where it is") as refused:
        Store(copy / "j.db")
    assert "j.db-wal" in refused.value.body
    copy.chmod(0o755)


def test_an_older_journal_in_a_read_only_folder_is_said_to_be_older(folder: Path) -> None:
    path = _filled(folder)
    conn = sqlite3.connect(path)
    conn.execute("DELETE FROM _sqlite_migrations WHERE name = ?", [MIGRATION_NAMES[-1]])
    conn.commit()
    conn.close()
    folder.chmod(0o555)
    with _ordinary_user(), pytest.raises(JournalFileError, match="of an older version"):
        connect(path)


def test_a_file_that_may_not_be_read_and_a_folder_that_may_not_be_entered(folder: Path) -> None:
    path = _filled(folder)
    path.chmod(0)
    with _ordinary_user(), pytest.raises(JournalFileError, match="may not be read"):
        connect(path)
    folder.chmod(0)
    with _ordinary_user(), pytest.raises(JournalFileError, match="may not be entered"):
        connect(path)


def test_a_backup_that_fails_leaves_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    store = Store(_filled(folder))
    target = folder / "out" / "b.db"

    def full(*_args: object, **_kw: object) -> sqlite3.Connection:
        (target.parent / "b.db.unfinished").write_bytes(b"")
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(sqlite3, "connect", full)
    with pytest.raises(JournalFileError, match="is full"):
        store.backup(target)
    assert not list(target.parent.iterdir())
    store.close()
