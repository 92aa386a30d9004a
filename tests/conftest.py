"""Every test is cut off from the real home and the real calendar."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from journal_tui.journal.opening import PATH_VARIABLE, Journal, open_journal

TODAY = dt.date(2026, 3, 12)

# A shared machine is slow now and then: properties are judged, not seconds.
settings.register_profile("journal", deadline=None, max_examples=60)
settings.load_profile("journal")


@pytest.fixture(autouse=True)
def _own_home(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    home = tmp_path_factory.mktemp("home")
    monkeypatch.setenv("HOME", str(home))
    monkeypatch.setenv("XDG_DATA_HOME", str(home / "data"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / "config"))
    monkeypatch.delenv(PATH_VARIABLE, raising=False)
    monkeypatch.delenv("NO_COLOR", raising=False)


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    """An empty journal on Thursday 12 March 2026."""
    opened = open_journal(tmp_path / "journal.db", today=lambda: TODAY)
    yield opened
    opened.close()
