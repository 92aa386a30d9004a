"""Faults of the program itself: written down for whoever mends it, never shown to whoever met it."""

from __future__ import annotations

import contextlib
import traceback
from pathlib import Path

_MOST_BYTES = 1_000_000


def log_path() -> Path:
    """Return the file that faults are written to; nothing else is."""
    from platformdirs import user_log_path

    return user_log_path("journal_tui", appauthor=False) / "faults.log"


def record_fault(error: BaseException) -> Path | None:
    """Append ``error`` with its traceback to the log; return the log's path, None if it cannot be written.

    It stays on this machine: it may quote what was being saved.
    """
    from journal_tui.store.store import utc_now

    text = "".join(traceback.format_exception(error))
    path = log_path()
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        if path.exists() and path.stat().st_size > _MOST_BYTES:
            path.replace(path.with_name("faults.old.log"))
        with path.open("a", encoding="utf-8", errors="backslashreplace") as log:
            log.write(f"{utc_now()}\n{text}\n")
        return path
    return None
