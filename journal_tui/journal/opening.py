"""Finding and opening the journal."""

from __future__ import annotations

import datetime as dt
import os
import stat
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from journal_tui.domain.errors import BadInput, JournalFileError, NothingFound
from journal_tui.domain.text import one_line
from journal_tui.journal.paths import expanded
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
        return expanded(Path(named))
    from platformdirs import user_data_path

    return user_data_path("journal_tui", appauthor=False) / "journal.db"


def open_journal(path: Path | None = None, today: Callable[[], dt.date] = dt.date.today) -> Journal:
    """Open the journal at ``path``, or where it is by default; made when it is not there yet.

    Raises ``JournalFileError`` when the file is no journal, is newer, or cannot be used.
    """
    return Journal(Store(expanded(path) if path else default_path()), today)


def open_existing(path: Path | None = None, today: Callable[[], dt.date] = dt.date.today) -> Journal:
    """Open a journal that must be there already.

    Raises ``NothingFound`` when it is not there or empty, ``JournalFileError`` when it cannot be used.
    """
    where = expanded(path) if path else default_path()
    shown = one_line(str(where))
    begin = 'Begin one with: journal-tui job add "Hall bath"'
    size = _size(where)
    if size is None:
        raise NothingFound(f"there is no journal at {shown} yet", begin)
    if size == 0 and not where.with_name(where.name + "-wal").exists():
        raise NothingFound(f"{shown} is an empty file, not a journal yet", begin)
    return open_journal(where, today)


def _size(where: Path) -> int | None:
    """Return how large a file is, in bytes; None when it is not there, -1 when it is no plain file."""
    try:
        status = os.lstat(where)
        return status.st_size if stat.S_ISREG(status.st_mode) else -1
    except PermissionError:  # opening it says what may not be done
        return -1
    except (OSError, ValueError):
        return None


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """Where the journal is, in words: ``state`` and ``chosen_by``; ``variable`` as it is set."""

    path: Path
    state: str
    chosen_by: str
    variable: str


def whereabouts(path: Path | None = None) -> Whereabouts:
    """Return where the journal is and what decides it; nothing is opened or made."""
    named = os.environ.get(PATH_VARIABLE, "")
    where = (expanded(path) if path else default_path()).absolute()
    chosen = "by --journal" if path else f"by {PATH_VARIABLE}" if named else "the usual place"
    state = "not there yet"
    if os.path.lexists(where):
        state = f"{where.stat().st_size / 1024:,.0f} KB" if where.is_file() else "not a file"
    return Whereabouts(
        where, state, chosen, f"{PATH_VARIABLE}={named}" if named else f"{PATH_VARIABLE} not set"
    )


def backup(journal: Journal, target: Path) -> Path:
    """Copy the journal to a new file while it is in use, its stills beside it; return where it stands.

    Raises ``BadInput`` when something is there already: a backup never replaces a file.
    """
    from journal_tui.journal.stills import copy_stills

    target = expanded(target)
    shown = one_line(str(target)) or "that file"
    if target.is_dir():
        target = target / f"journal-{journal.today().isoformat()}.db"
        shown = one_line(str(target))
    if os.path.lexists(target):
        raise BadInput(f"{shown} is there already", "Name a new file for the backup.")
    try:
        journal.store.backup(target)
        copy_stills(journal, target)
    except JournalFileError as error:
        raise BadInput(
            f"cannot write the backup {shown}", f"{error.title}. Name a file in another folder or disk."
        ) from error
    return target
