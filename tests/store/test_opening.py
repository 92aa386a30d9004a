"""One way to open a journal, and every way of failing has a name and a way out."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
import textwrap
from pathlib import Path

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.store.migrations import migrations
from journal_tui.store.opening import connect
from journal_tui.store.store import Store
from journal_tui.store.versions import APPLICATION_ID, MIGRATION_NAMES, MIGRATION_SET


def test_every_connection_is_set_up_alike(tmp_path: Path) -> None:
    connect(tmp_path / "j.db").close()
    conn = connect(tmp_path / "j.db")
    pragmas = {
        name: conn.execute(f"PRAGMA {name}").fetchone()[0]
        for name in ("foreign_keys", "journal_mode", "synchronous", "recursive_triggers", "application_id")
    }
    assert pragmas == {
        "foreign_keys": 1,
        "journal_mode": "wal",
        "synchronous": 2,
        "recursive_triggers": 1,
        "application_id": APPLICATION_ID,
    }
    conn.close()


def test_every_table_of_ours_is_strict(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    loose = [
        row["name"]
        for row in store.rows("PRAGMA table_list")
        if row["type"] == "table"
        and not row["strict"]
        and not re.match(r"sqlite_|_sqlite_|\w+_fts", row["name"])
    ]
    assert loose == []


def test_the_names_known_without_loading_are_the_steps_there_are() -> None:
    assert tuple(step.name for step in migrations._migrations) == MIGRATION_NAMES
    assert migrations.name == MIGRATION_SET


def test_a_file_from_a_newer_version_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    Store(path).close()
    conn = sqlite3.connect(path)
    conn.execute(
        "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES (?, '9999_later', '2031')",
        [MIGRATION_SET],
    )
    conn.commit()
    conn.close()
    before = path.read_bytes()
    with pytest.raises(JournalFileError) as caught:
        Store(path)
    assert "newer version" in caught.value.title
    assert "9999_later" in caught.value.body
    assert path.read_bytes() == before


def _text(path: Path) -> None:
    path.write_text("Walked the hall bath today. " * 60)


def _zip(path: Path) -> None:
    path.write_bytes(b"PK\x03\x04" + bytes(4000))


def _other_database(path: Path) -> None:
    conn = sqlite3.connect(path)
    conn.execute("CREATE TABLE stamps (id INTEGER)")
    conn.commit()
    conn.close()


@pytest.mark.parametrize("make", [_text, _zip, _other_database])
def test_a_strangers_file_is_known_and_left_alone(tmp_path: Path, make: object) -> None:
    path = tmp_path / "j.db"
    assert callable(make)
    make(path)
    before = path.read_bytes()
    with pytest.raises(JournalFileError, match="is not a journal"):
        Store(path)
    assert path.read_bytes() == before


def test_an_empty_file_becomes_a_journal(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    path.touch()
    store = Store(path)
    assert store.rows("SELECT * FROM jobs") == []


def test_a_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(JournalFileError, match="is a folder"):
        Store(tmp_path)


def test_a_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way")
    with pytest.raises(JournalFileError) as caught:
        Store(blocked / "sub" / "j.db")
    assert str(blocked) in caught.value.title


def test_a_damaged_file_is_recognised(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    store = Store(path)
    with store.write("fill") as w:
        w.insert_all("jobs", [_job(f"job {n}") for n in range(500)])
    store.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    store.close()
    data = bytearray(path.read_bytes())
    data[4096 * 3 :] = b"\xa5" * (len(data) - 4096 * 3)
    path.write_bytes(data)
    with pytest.raises(JournalFileError, match="damaged"):
        Store(path).rows("SELECT sum(length(name)) FROM jobs")


def _job(name: str) -> dict[str, object]:
    return {"name": name, "client": "", "address": "", "scope": "", "phases": "[]", "private_note": ""}


_WRITER = """
    import sys
    from pathlib import Path
    from journal_tui.store.store import Store
    store = Store(Path(sys.argv[1]))
    for n in range(40):
        with store.write("add") as w:
            w.insert("jobs", dict(name=f"{sys.argv[2]}-{n}", client="", address="", scope="", phases="[]",
                                  private_note=""))
        print(n, flush=True)
"""


def test_two_copies_starting_at_once_both_write_everything(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    copies = [
        subprocess.Popen(
            [sys.executable, "-c", textwrap.dedent(_WRITER), str(path), name],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
        )
        for name in "ab"
    ]
    for copy in copies:
        _out, err = copy.communicate(timeout=60)
        assert copy.returncode == 0, err.decode()
    store = Store(path)
    assert store.rows("SELECT count(*) AS n FROM jobs")[0]["n"] == 80
    acted = store.rows("SELECT count(DISTINCT action_id) AS n FROM history WHERE table_name = 'jobs'")
    assert acted[0]["n"] == 80


def test_what_was_confirmed_outlives_kill_9(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    copy = subprocess.Popen(
        [sys.executable, "-c", textwrap.dedent(_WRITER), str(path), "k"], stdout=subprocess.PIPE, text=True
    )
    assert copy.stdout is not None
    confirmed = -1
    for line in copy.stdout:
        confirmed = int(line)
        if confirmed == 9:
            copy.kill()
            break
    copy.wait(timeout=20)
    store = Store(path)
    names = {row["name"] for row in store.rows("SELECT name FROM jobs")}
    assert {f"k-{n}" for n in range(confirmed + 1)} <= names
    assert store.rows("PRAGMA integrity_check")[0][0] == "ok"


def test_a_full_disk_saves_nothing_by_halves(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    pages = store.rows("PRAGMA page_count")[0][0]
    store.conn.execute(f"PRAGMA max_page_count = {pages + 2}")
    with pytest.raises(JournalFileError, match="is full"), store.write("too much") as w:
        w.insert_all("jobs", [_job("x" * 900) for _ in range(200)])
    assert store.rows("SELECT count(*) AS n FROM jobs")[0]["n"] == 0
    store.conn.execute("PRAGMA max_page_count = 1000000")
    with store.write("after room was made") as w:
        w.insert("jobs", _job("kept"))
    assert [row["name"] for row in store.rows("SELECT name FROM jobs")] == ["kept"]


def test_a_backup_made_while_open_is_whole(tmp_path: Path) -> None:
    store = Store(tmp_path / "j.db")
    with store.write("add") as w:
        w.insert("jobs", _job("saved"))
    store.backup(tmp_path / "away" / "copy.db")
    assert [p.name for p in (tmp_path / "away").iterdir()] == ["copy.db"]
    copy = Store(tmp_path / "away" / "copy.db")
    assert [row["name"] for row in copy.rows("SELECT name FROM jobs")] == ["saved"]
