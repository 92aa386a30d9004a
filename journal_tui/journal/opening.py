"""Finding and opening the journal."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from journal_tui.store.store import Store

#: The environment variable that names the journal file when ``--journal`` does not.
PATH_VARIABLE = "JOURNAL_TUI_PATH"


@dataclass(slots=True)
class Journal:
    """An open journal: its store and the calendar day it is used on."""

    store: Store
    today: Callable[[], dt.date] = field(default=dt.date.today)

    @property
    def path(self) -> Path:
        """Where the journal lives."""
        return self.store.path

    def another(self) -> Journal:
        """Return the same journal opened a second time, for use in another thread."""
        return Journal(self.store.another(), self.today)

    def close(self) -> None:
        """Let go of the file."""
        self.store.close()


def default_path() -> Path:
    """Return where the journal is kept when nobody says otherwise."""
    named = os.environ.get(PATH_VARIABLE, "")
    if named:
        return Path(named).expanduser()
    from platformdirs import user_data_path

    return user_data_path("journal_tui", appauthor=False) / "journal.db"


def open_journal(path: Path | None = None, today: Callable[[], dt.date] = dt.date.today) -> Journal:
    """Open the journal at ``path``, or where it is by default; made when it is not there yet.

    Raises ``JournalFileError`` when the file is no journal, is newer, or cannot be used.
    """
    return Journal(Store(path.expanduser() if path else default_path()), today)


def backup(journal: Journal, target: Path) -> None:
    """Copy the journal to ``target`` while it is in use."""
    journal.store.backup(target.expanduser())
