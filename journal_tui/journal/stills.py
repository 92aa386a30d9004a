"""Stills: a picture out of the recording for each draft, kept as files beside the journal.

The store says which draft has which picture; the file is found by the hash of what is in it, in
``journal.stills/ab/abcdef….jpg`` beside ``journal.db``. Who may see a still is who may read its entry.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from journal_tui.domain.draft import Draft
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import Told
from journal_tui.journal.writing import put_file
from journal_tui.store import queries

if TYPE_CHECKING:
    from journal_tui.walkthrough.media.cells import Cell

#: How a document names a still: by the first letters of its hash.
LINK = re.compile(r"stills/([0-9a-f]{16})\.jpg")
#: A file that belongs to no draft is cleared away once it is this old (seconds): until then it may
#: belong to a visit that another copy is just logging.
_STRAY_FOR = 24 * 3600.0


@dataclass(frozen=True, slots=True)
class Taken:
    """A still of the draft at ``place`` in the order said: its hash, moment (seconds) and size in points."""

    place: int
    sha256: str
    moment: float
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class StillShown:
    """A still to look at: its file, the moment (seconds) it shows, and its size in points."""

    path: Path
    sha256: str
    moment: float
    width: int
    height: int


def folder_of(journal: Journal) -> Path:
    """Return where a journal's stills are: ``journal.stills`` beside ``journal.db``."""
    return _beside(journal.path)


def _beside(path: Path) -> Path:
    return path.with_name((path.stem if path.suffix == ".db" else path.name) + ".stills")


def file_of(journal: Journal, sha256: str) -> Path:
    """Return where the still with this hash is, or would be."""
    return folder_of(journal) / _place(sha256)


def _place(sha256: str) -> Path:
    return Path(sha256[:2]) / f"{sha256}.jpg"


@contextlib.contextmanager
def taken(
    journal: Journal, recording: Path | None, drafts: Sequence[Draft], told: Told | None = None
) -> Iterator[list[Taken]]:
    """Take a still for each draft, for a visit that is saved inside the ``with``.

    When what is inside fails, or ``told`` raises to stop, no file is left that was not there before.
    Raises ``CannotWrite`` when a still cannot be written.
    """
    new: list[Path] = []
    try:
        yield _take(journal, recording, drafts, told, new) if recording else []
    except BaseException:
        _clear(new, folder_of(journal))
        raise


def _take(
    journal: Journal, recording: Path, drafts: Sequence[Draft], told: Told | None, new: list[Path]
) -> list[Taken]:
    from journal_tui.walkthrough.media.stills import Stills

    _clear(_strays(journal), folder_of(journal))
    found: list[Taken] = []
    with Stills(recording) as stills:
        for place, draft in enumerate(drafts):
            if told:
                told(f"choosing a picture for draft {place + 1} of {len(drafts)}", place / len(drafts))
            still = stills.near(draft.start)
            if still is None:
                continue
            path = file_of(journal, still.sha256)
            if not _holds(path, still.jpeg):
                # Listed first: whatever happens while it is written, it is cleared away.
                new.append(path)
                path.unlink(missing_ok=True)
                put_file(path.parent, path.name, still.jpeg)
            found.append(Taken(place, still.sha256, still.moment, still.width, still.height))
    return found


def still_of_draft(journal: Journal, draft_id: str) -> StillShown | None:
    """Return the still of a draft; None when it has none or its file is gone."""
    row = queries.still_of_draft(journal.store, draft_id)
    if row is None:
        return None
    path = file_of(journal, row["sha256"])
    if not path.is_file():
        return None
    return StillShown(path, row["sha256"], row["moment"], row["width"], row["height"])


def still_of_entry(journal: Journal, entry_id: str) -> StillShown | None:
    """Return the still of the draft an entry was kept from; None when there is none."""
    found = (still_of_draft(journal, row["id"]) for row in queries.drafts_of_entry(journal.store, entry_id))
    return next(filter(None, found), None)


class Pictured(Protocol):
    """What has a file with its picture: a still or a photo."""

    @property
    def path(self) -> Path:
        """The file."""


def painted(still: Pictured, columns: int, rows: int) -> tuple[tuple[Cell, ...], ...]:
    """Return a picture as coloured cells for a terminal; () when its file cannot be shown.

    Raises ``NotInstalled`` when what draws it is missing.
    """
    from journal_tui.walkthrough.media.cells import cells

    try:
        return cells(still.path, columns, rows)
    except OSError:
        return ()


def count(journal: Journal, visit_id: str) -> int:
    """Return how many drafts of a visit have a still."""
    return queries.stills_count(journal.store, visit_id)


def link_of(sha256: str) -> str:
    """Return how a document names a still."""
    return f"stills/{sha256[:16]}.jpg"


def pictures_for_client(journal: Journal, job_id: str, markdown: str) -> dict[str, bytes]:
    """Return the JPEG of each still that ``markdown`` names, by that name, if the client may see it.

    Only stills of this job's entries that are for the client now.
    """
    return named_pictures(journal, queries.client_stills(journal.store, job_id), markdown)


def named_pictures(journal: Journal, hashes: Iterable[str], markdown: str) -> dict[str, bytes]:
    """Return the JPEG of each picture with one of these ``hashes`` that ``markdown`` names, by that name.

    A file that is gone, or no longer what its name says, is left out.
    """
    wanted = set(LINK.findall(markdown))
    found = {}
    for sha256 in hashes if wanted else ():
        if sha256[:16] in wanted:
            with contextlib.suppress(OSError):
                data = file_of(journal, sha256).read_bytes()
                if hashlib.sha256(data).hexdigest() == sha256:
                    found[link_of(sha256)] = data
    return found


def copy_stills(journal: Journal, backup: Path) -> None:
    """Copy every still that a draft has to beside a backup of the journal.

    Raises ``CannotWrite``; the backup and what was copied so far are taken away then.
    """
    folder, new = _beside(backup), list[Path]()
    try:
        for sha256 in queries.still_hashes(journal.store):
            source, target = file_of(journal, sha256), folder / _place(sha256)
            if source.is_file() and not target.exists():
                new.append(target)
                put_file(target.parent, target.name, source.read_bytes())
    except BaseException:
        _clear(new, folder)
        backup.unlink(missing_ok=True)
        raise


def _holds(path: Path, data: bytes) -> bool:
    return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data


def _strays(journal: Journal) -> list[Path]:
    """Return old files in the folder of stills that belong to no draft."""
    known = queries.still_hashes(journal.store)
    before = time.time() - _STRAY_FOR
    strays = []
    with contextlib.suppress(OSError):
        for path in folder_of(journal).glob("??/*"):
            if path.stem not in known and path.stat().st_mtime < before:
                strays.append(path)
    return strays


def spare(journal: Journal, hashes: Iterable[str]) -> None:
    """Keep the files of pictures just taken away for a day more, so that undo finds them."""
    for sha256 in hashes:
        with contextlib.suppress(OSError):
            os.utime(file_of(journal, sha256))


def _clear(paths: Sequence[Path], folder: Path) -> None:
    for path in paths:
        with contextlib.suppress(OSError):
            path.unlink(missing_ok=True)
            path.parent.rmdir()
    with contextlib.suppress(OSError):
        folder.rmdir()
