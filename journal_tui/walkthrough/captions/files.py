"""Caption files on disk: opened, measured, and refused in one line when they cannot be read."""

from __future__ import annotations

import stat
from pathlib import Path

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.recording import Captions
from journal_tui.domain.text import one_line
from journal_tui.walkthrough.captions.reading import EXPORT, read_text

#: An eight-hour day of talk makes about half a megabyte of captions.
MOST_BYTES = 32 * 1024 * 1024


def read_captions(path: Path) -> Captions:
    """Return the captions in the file at ``path``.

    Raises CannotRead, naming the file and the way out, when it is missing, a folder, unreadable,
    over 32 MB, empty, not text, or without a usable caption.
    """
    return read_text(path.name, _bytes(path))


def shown_name(path: Path) -> str:
    """Return a file's name for a message; one of blanks only between quotes, to be seen at all."""
    shown = str(path)
    return one_line(shown) if shown.strip() else f'"{shown}"'


def _bytes(path: Path) -> bytes:
    shown = shown_name(path)
    try:
        _refuse_unless_small_file(path, shown)
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise CannotRead(f"{shown}: no such file", "Check the name and the folder it is in.") from None
    except PermissionError:
        raise CannotRead(
            f"{shown} may not be read", "Give yourself permission to read it, or load a copy of it."
        ) from None
    except OSError as error:
        reason = error.strerror or "the system refused"
        raise CannotRead(
            f"{shown} cannot be read", f"{reason}. Load a copy of it from another folder."
        ) from None
    except ValueError:
        raise CannotRead(
            f"{shown}: no such file", "No file can have this name; check how it is written."
        ) from None
    if len(data) > MOST_BYTES:
        raise _too_large(shown, len(data))
    return data


def _refuse_unless_small_file(path: Path, shown: str) -> None:
    status = path.stat()
    if stat.S_ISDIR(status.st_mode):
        raise CannotRead(f"{shown} is a folder", "Name one caption file in it.")
    if not stat.S_ISREG(status.st_mode):
        raise CannotRead(
            f"{shown} is not a file", "Save the captions to a file and load that; - reads standard input."
        )
    if status.st_size > MOST_BYTES:
        raise _too_large(shown, status.st_size)


def _too_large(shown: str, size: int) -> CannotRead:
    limit = MOST_BYTES // 1024 // 1024
    return CannotRead(
        f"{shown} is too large ({size // 1024 // 1024} MB; captions may have {limit} MB)",
        f"It may be the recording itself. {EXPORT}",
    )
