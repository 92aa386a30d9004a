"""Recordings and captions on this machine: what is in a folder, and finishing a path being typed."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Visit
from journal_tui.domain.text import one_line
from journal_tui.journal.hearing import Listening, draft_file
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.stills import count
from journal_tui.journal.typed import recall, remember
from journal_tui.journal.visits import Told, job_words, log_recording
from journal_tui.walkthrough.media import MEDIA_ENDINGS

#: How the names of caption files end; each form is told by what stands in the file, not by this.
CAPTION_ENDINGS = (".vtt", ".srt", ".txt")
_ENDINGS = CAPTION_ENDINGS + MEDIA_ENDINGS
#: A folder with more files than this shows the newest ones.
MOST_FILES = 400
_LAST_FOLDER = "setting/recordings"


@dataclass(frozen=True, slots=True)
class FolderEntry:
    """A recording, a caption file or a folder. ``changed`` is local time, ``size`` bytes (0 for a folder)."""

    path: Path
    name: str
    is_folder: bool
    changed: dt.datetime
    size: int = 0


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder's recordings and captions, newest first, then its folders by name. ``more`` were left out."""

    path: Path
    entries: tuple[FolderEntry, ...]
    more: int = 0


def first_folder(journal: Journal) -> Path:
    """Return the folder to look for recordings in first: the last one used, else the downloads, else home."""
    kept = recall(journal, _LAST_FOLDER)
    home = Path.home()
    for folder in (Path(kept) if kept else None, home / "Downloads", home):
        if folder is not None and _is_folder(folder):
            return folder
    return Path.cwd()


def keep_folder(journal: Journal, folder: Path) -> None:
    """Look in this folder first next time."""
    remember(journal, _LAST_FOLDER, str(folder))


def _is_folder(path: Path) -> bool:
    with contextlib.suppress(OSError, ValueError):
        return path.is_dir()
    return False


def look_in(folder: Path) -> Folder:
    """Return what is in a folder. Raises ``BadInput`` when it cannot be looked into."""
    found: list[FolderEntry] = []
    try:
        with os.scandir(folder) as entries:
            for entry in entries:
                if (one := _entry(entry)) is not None:
                    found.append(one)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "no such folder"
        raise BadInput(f"cannot look into {one_line(str(folder))}", f"{reason}.") from error
    files = sorted((e for e in found if not e.is_folder), key=lambda e: (e.changed, e.name), reverse=True)
    folders = sorted((e for e in found if e.is_folder), key=lambda e: e.name.casefold())
    shown = files[:MOST_FILES] + folders[: MOST_FILES // 4]
    return Folder(folder, tuple(shown), len(found) - len(shown))


def is_media(path: Path) -> bool:
    """True when a file's name is that of a recording, not of captions."""
    return path.suffix.lower() in MEDIA_ENDINGS


def _entry(entry: os.DirEntry[str]) -> FolderEntry | None:
    if entry.name.startswith("."):
        return None
    try:
        is_folder = entry.is_dir()
        if not is_folder and not entry.name.lower().endswith(_ENDINGS):
            return None
        status = entry.stat()
        changed = dt.datetime.fromtimestamp(status.st_mtime)
    except (OSError, OverflowError, ValueError):
        return None
    return FolderEntry(Path(entry.path), entry.name, is_folder, changed, 0 if is_folder else status.st_size)


@dataclass(frozen=True, slots=True)
class Logged:
    """A visit just logged: how many drafts wait for review and have a still, and what there is to say.

    Of a recording the first notice says where its words are from; others, what was odd about them.
    """

    visit: Visit
    drafts: int
    notices: tuple[str, ...]
    stills: int = 0


def log_file(
    journal: Journal,
    job_id: str,
    path: Path,
    *,
    day: dt.date | None = None,
    people: str = "",
    summary: str = "",
    again: bool = False,
    told: Told | None = None,
) -> Logged:
    """Read captions or a recording, draft from it and log it as a visit; all or nothing.

    ``told`` may raise to stop the work: nothing is saved then. Raises as ``draft_file`` and
    ``log_recording`` do.
    """
    job = get_job(journal, job_id)
    words = job_words(journal, job)
    drafting = draft_file(path, words, Listening(journal, job, again=again, told=told))
    if told:
        told("saving the visit", 0.9)
    visit = log_recording(
        journal, job_id, drafting, day=day, people=people, summary=summary, again=again, told=told
    )
    return Logged(visit, len(drafting.drafts), drafting.notices, count(journal, visit.id))


def path_typed(text: str, folder: Path) -> Path:
    """Return the path that typed text means, seen from ``folder``. Raises ``BadInput`` for none."""
    typed = text.strip().strip("\"'")
    if not typed:
        raise BadInput(
            "no file named", "Type the name of a recording or caption file, or pick one from the list."
        )
    try:
        return folder / Path(typed).expanduser()
    except (RuntimeError, ValueError):
        return folder / typed


def finished_path(text: str, folder: Path, endings: tuple[str, ...] | None = None) -> str:
    """Return typed text carried on as far as the names in its folder leave only one way.

    Of files only those with one of the ``endings`` count: recordings and captions unless others are given.
    A folder's name ends with a slash. Text that nothing continues comes back as it is.
    """
    head, slash, start = text.rpartition("/")
    try:
        where = path_typed(head + slash, folder) if head or slash else folder
        names = [
            entry.name + ("/" if entry.is_dir() else "")
            for entry in os.scandir(where)
            if entry.name.startswith(start)
            and (start or not entry.name.startswith("."))
            and (entry.is_dir() or entry.name.lower().endswith(endings or _ENDINGS))
        ]
    except (OSError, ValueError, BadInput):
        return text
    if not names:
        return text
    first, last = min(names), max(names)
    same = next((n for n, (a, b) in enumerate(zip(first, last, strict=False)) if a != b), len(first))
    return head + slash + first[:same]
