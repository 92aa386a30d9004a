"""Public scheduling problems read from files."""

from __future__ import annotations

from pathlib import Path

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.journal.paths import expanded

#: The largest single-mode file of the public set (120 jobs) has 20 KB.
MOST_BYTES = 4 * 1024 * 1024


def read_problem(path: Path) -> str:
    """Return the text of a problem file. Raises ``BadInput`` for what is no regular file of 4 MB."""
    shown = one_line(str(path))
    path = expanded(path)
    try:
        if path.exists() and not path.is_file():  # opening a named pipe waits for whoever writes to it
            raise BadInput(f"{shown} is not a file", "Name one PSPLIB file; - reads standard input.")
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise BadInput(f"{shown}: no such file", "Check the name and the folder it is in.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "no file can have this name"
        raise BadInput(f"{shown} cannot be read", f"{reason}.") from None
    if len(data) > MOST_BYTES:
        raise BadInput(f"{shown} is too large", f"A problem may have {MOST_BYTES // 1024 // 1024} MB.")
    return data.decode("utf-8", errors="replace")
