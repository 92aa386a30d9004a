"""Every screen test has a journal of its own, a frozen day, and no way to the real home."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from journal_tui.journal.opening import Journal, open_journal

#: The day every screen test happens on.
TODAY = dt.date(2026, 3, 12)


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Point every folder a program may look up at the test's own."""
    for name in (
        "HOME",
        "USERPROFILE",
        "XDG_DATA_HOME",
        "XDG_CONFIG_HOME",
        "XDG_STATE_HOME",
        "XDG_CACHE_HOME",
    ):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    monkeypatch.setenv("JOURNAL_TUI_PATH", str(tmp_path / "journal.db"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    (tmp_path / "home").mkdir(exist_ok=True)
    monkeypatch.chdir(tmp_path / "home")


@pytest.fixture(scope="session")
def _blank(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """Return an empty journal file, made once: making the tables takes longer than a test's own work."""
    path = tmp_path_factory.mktemp("blank") / "blank.db"
    journal = open_journal(path)
    journal.store.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    journal.close()
    return path.read_bytes()


@pytest.fixture
def journal_at(_blank: bytes) -> Callable[[Path], Journal]:
    """Return a way to open a new journal at a path on the frozen day."""

    def opened(path: Path) -> Journal:
        path.write_bytes(_blank)
        return open_journal(path, lambda: TODAY)

    return opened


@pytest.fixture
def journal(tmp_path: Path, journal_at: Callable[[Path], Journal]) -> Iterator[Journal]:
    """Return the test's own empty journal."""
    opened = journal_at(tmp_path / "journal.db")
    yield opened
    opened.close()
