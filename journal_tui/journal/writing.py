"""Documents as files in a folder: each whole or not there, and none written over another."""

from __future__ import annotations

import contextlib
import datetime as dt
import errno
import os
import re
from collections.abc import Iterator
from pathlib import Path

from journal_tui.domain.errors import BadInput
from journal_tui.domain.ids import new_id
from journal_tui.domain.text import folded, one_line, storable
from journal_tui.journal.paths import expanded

#: Longer names are refused by some file systems once a date and an ending are added (255 bytes of
#: UTF-8 is the least that common ones allow; common practice, no source).
_STEM_BYTES = 120
#: Names that some systems keep for devices, whatever their ending.
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))]
)
_TRIES = 1000


class CannotWrite(BadInput):
    """A document could not be written to the folder named; nothing half-written is left there."""


def file_name(title: str, day: dt.date, ending: str) -> str:
    """Return a file name any system takes, such as ``hall-bath-12-elm-2026-11-25.md``.

    ``ending`` comes without its dot. Letters of any script are kept; all else becomes a hyphen.
    """
    words = "-".join(re.findall(r"\w+", folded(storable(title)))).replace("_", "-")
    stem = words.encode()[:_STEM_BYTES].decode(errors="ignore").strip("-") or "job"
    if stem in _DEVICES:
        stem = f"job-{stem}"
    return f"{stem}-{day.isoformat()}.{ending}"


def write_document(folder: Path, name: str, text: str) -> Path:
    """Write ``text`` as UTF-8 to ``name`` in ``folder`` (made if missing) and return where it stands.

    A file of that name with other contents is left alone and the next free number is added to the
    name; one that already says the same is taken as written. The file appears whole or not at all.
    Raises ``CannotWrite`` naming the folder and the way out.
    """
    return put_file(folder, name, storable(text).encode())


def put_file(folder: Path, name: str, data: bytes) -> Path:
    """Write ``data`` to ``name`` in ``folder`` as ``write_document`` does, and return where it stands."""
    folder = expanded(folder)
    with _explained(folder):
        folder.mkdir(parents=True, exist_ok=True)
        unfinished = folder / f".unfinished-{new_id()}"
        try:
            with unfinished.open("xb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            return _placed(unfinished, folder / name, data)
        finally:
            unfinished.unlink(missing_ok=True)


def checked_folder(folder: Path) -> Path:
    """Return ``folder`` with ``~`` spelled out, made if missing. Raises ``CannotWrite`` when unusable."""
    with _explained(folder):
        folder = expanded(folder)
        folder.mkdir(parents=True, exist_ok=True)
        probe = folder / f".unfinished-{new_id()}"
        probe.touch(exist_ok=False)
        probe.unlink()
    return folder


def _placed(unfinished: Path, wanted: Path, data: bytes) -> Path:
    for number in range(1, _TRIES):
        target = wanted if number == 1 else wanted.with_stem(f"{wanted.stem}-{number}")
        try:
            # A link, unlike a rename, never replaces what another program put there meanwhile.
            os.link(unfinished, target)
        except FileExistsError:
            if target.is_file() and target.read_bytes() == data:
                return target
            continue
        except OSError as error:
            if error.errno not in (errno.EPERM, errno.ENOTSUP, errno.ENOSYS, errno.EMLINK):
                raise
            # Memory sticks and some network folders have no links.
            if target.exists():
                if target.is_file() and target.read_bytes() == data:
                    return target
                continue
            unfinished.replace(target)
        return target
    raise CannotWrite(f"{one_line(str(wanted))} and {_TRIES - 2} like it are taken", "Name another folder.")


@contextlib.contextmanager
def _explained(folder: Path) -> Iterator[None]:
    shown = one_line(str(folder)) or "that folder"
    try:
        yield
    except (FileExistsError, NotADirectoryError):
        raise CannotWrite(f"{shown} is not a folder", "Name a folder to write to.") from None
    except (ValueError, RuntimeError):
        raise CannotWrite(f"{shown} cannot be a folder", "No folder can have this name.") from None
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise CannotWrite(
                f"the disk holding {shown} is full",
                "Nothing was half-written. Free some space, or name a folder on another disk.",
            ) from None
        if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
            raise CannotWrite(
                f"cannot write to {shown}", "It is read-only for you. Name another folder."
            ) from None
        reason = error.strerror or "the system refused"
        raise CannotWrite(f"cannot write to {shown}", f"{reason}. Name another folder.") from None
