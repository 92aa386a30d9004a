"""Photos of entries and of the record: turned upright, made small enough to send, without where and when.

A photo is kept as a JPEG beside the journal, as stills are (``journal.stills``). Who may see one of an entry
is who may read the entry; one of something behind a surface, or of its test, goes with the record of the
house. The file that was given is only read.
"""

from __future__ import annotations

import hashlib
import io
import os
import shlex
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.errors import BadInput, JournalError
from journal_tui.domain.text import one_line
from journal_tui.journal.entries import get_entry
from journal_tui.journal.opening import Journal
from journal_tui.journal.paths import expanded
from journal_tui.journal.stills import file_of, spare
from journal_tui.journal.writing import put_file
from journal_tui.store import record_queries

#: The longest side of a kept photo, in points: sharp on paper at 110 mm, small enough for a message.
LONGEST_SIDE = 1600
QUALITY = 82
#: A file or a picture beyond these is no photo from a phone.
MOST_BYTES = 60 * 1024 * 1024
MOST_POINTS = 120_000_000
#: More pictures than this of one thing is a slip.
MOST_PHOTOS = 12
_KINDS = ("JPEG", "PNG")


@dataclass(frozen=True, slots=True)
class Photo:
    """A kept photo: its id, hash, file and size in points."""

    id: str
    sha256: str
    path: Path
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Subject:
    """What photos show: an entry, something behind a surface, or a test of it.

    ``words`` say what it is, ``things`` what to call one like it. ``table`` and ``row`` are where its photos
    are kept, and under what.
    """

    job_id: str
    words: str
    things: str
    table: str
    row: Mapping[str, str]


def subject(journal: Journal, of_id: str) -> Subject:
    """Return what has the id ``of_id``: an entry, a hidden work or a test. Raises ``NothingFound``."""
    work = record_queries.hidden_work(journal.store, of_id)
    if work is not None:
        words = f"{work['surface']}: {work['what']}"
        return Subject(work["job_id"], words, "hidden work", "record_photos", {"work_id": of_id})
    test = record_queries.hidden_test(journal.store, of_id)
    if test is not None:
        words, row = f"{test['work']}: {test['what']}", {"work_id": test["work_id"], "test_id": of_id}
        return Subject(test["job_id"], words, "tests", "record_photos", row)
    entry = get_entry(journal, of_id)
    return Subject(entry.job_id, entry.text, "entries", "photos", {"entry_id": of_id})


def add_photo(journal: Journal, of_id: str, picture: Path) -> Photo:
    """Attach a JPEG or PNG file to an entry, a hidden work or a test; return it as it is kept.

    It is turned as its camera held it, made at most 1600 points long, and kept without any data about
    place, time or camera. Raises ``BadInput`` for what is no such picture, or is too large.
    """
    of = subject(journal, of_id)
    if len(photos_of(journal, of_id)) >= MOST_PHOTOS:
        raise BadInput(f"there are {MOST_PHOTOS} photos of it", f"Attach the rest to other {of.things}.")
    jpeg, width, height = cleaned(_read(picture), one_line(picture.name) or "the picture")
    sha256 = hashlib.sha256(jpeg).hexdigest()
    for photo in photos_of(journal, of_id):
        if photo.sha256 == sha256:
            return photo
    path = file_of(journal, sha256)
    if not path.exists():
        put_file(path.parent, path.name, jpeg)
    with journal.store.write("attach a photo", of.job_id) as w:
        photo_id = w.insert(of.table, {**of.row, "sha256": sha256, "width": width, "height": height})
    return Photo(photo_id, sha256, path, width, height)


@dataclass(frozen=True, slots=True)
class Attached:
    """What came of attaching files: the photos new, those there before, why others are refused."""

    photos: tuple[Photo, ...]
    known: tuple[Photo, ...]
    refused: tuple[JournalError, ...]


def add_photos(
    journal: Journal, of_id: str, pictures: Sequence[Path], told: Callable[[str, float | None], None]
) -> Attached:
    """Attach several files, each for itself; ``told`` is told how far it is, and may raise to stop."""
    before = {photo.id for photo in photos_of(journal, of_id)}
    kept: list[Photo] = []
    refused: list[JournalError] = []
    for at, picture in enumerate(pictures):
        count = f" {at + 1} of {len(pictures)}" if len(pictures) > 1 else ""
        told(f"looking at photo{count}: {one_line(picture.name)}", at / len(pictures))
        try:
            kept.append(add_photo(journal, of_id, picture))
        except BadInput as error:
            refused.append(error)
    new = [photo for photo in kept if photo.id not in before]
    known = [photo for photo in kept if photo.id in before]
    return Attached(tuple(new), tuple(known), tuple(refused))


def _read(picture: Path) -> bytes:
    shown = one_line(str(picture)) or "the picture"
    try:
        with expanded(picture).open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "no file can have this name"
        raise BadInput(f"{shown} cannot be read", f"{reason}.") from None
    if len(data) > MOST_BYTES:
        raise BadInput(f"{shown} is too large", f"A photo has at most {MOST_BYTES // 1024 // 1024} MB.")
    return data


def cleaned(data: bytes, shown: str) -> tuple[bytes, int, int]:
    """Return a picture as a JPEG that holds nothing but the picture, and its size in points.

    Raises ``BadInput``, naming it as ``shown``, for what is no JPEG or PNG, is torn, or is too large.
    """
    from PIL import Image, ImageOps

    refused = BadInput(f"{shown} is no picture that can be kept", "Give a JPEG or PNG file.")
    try:
        with Image.open(io.BytesIO(data), formats=_KINDS) as image:
            if image.width * image.height > MOST_POINTS:
                raise BadInput(f"{shown} is too large", f"It is {image.width} by {image.height} points.")
            image.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
            upright = ImageOps.exif_transpose(image)
            if upright.mode in ("RGBA", "LA", "PA", "P"):
                # What is clear in a PNG is white on paper.
                layered = upright.convert("RGBA")
                ground = Image.new("RGBA", layered.size, "white")
                upright = Image.alpha_composite(ground, layered)
            plain = upright.convert("RGB")
            plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
            # A new picture of the same points: nothing else of the file comes along.
            kept = Image.frombytes("RGB", plain.size, plain.tobytes())
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError):
        raise refused from None
    out = io.BytesIO()
    kept.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue(), kept.width, kept.height


def photos_of(journal: Journal, of_id: str) -> list[Photo]:
    """Return the photos of an entry, a hidden work or a test, in the order they were attached."""
    store = journal.store
    rows = (
        record_queries.photos_of_entry(store, of_id)
        or record_queries.photos_of_work(store, of_id)
        or record_queries.photos_of_test(store, of_id)
    )
    return [
        Photo(row["id"], row["sha256"], file_of(journal, row["sha256"]), row["width"], row["height"])
        for row in rows
    ]


def drop_photo(journal: Journal, of_id: str, number: int) -> None:
    """Take photo ``number`` (counted from 1) of something away; its file is cleared away later.

    Raises ``BadInput`` when there is none.
    """
    of = subject(journal, of_id)
    photos = photos_of(journal, of_id)
    if not 1 <= number <= len(photos):
        raise BadInput(f"there is no photo {number}", f"{len(photos)} of it are attached.")
    with journal.store.write("take a photo away", of.job_id) as w:
        w.remove(of.table, photos[number - 1].id)
    spare(journal, [photos[number - 1].sha256])


# Files as they are typed ---------------------------------------------------------------------------


def pictures_typed(text: str) -> list[Path]:
    """Return the files that a line names, as it was typed, or pasted by a terminal they were dropped on.

    One file may be named as it is, blanks and all. Several, or one as a terminal writes it, stand in quotes,
    with a backslash before each blank (as in a POSIX shell), or as ``file:`` addresses (RFC 8089). A leading
    ``~`` is the home folder. Raises ``BadInput`` for a line that names none.
    """
    line = text.strip()
    if _there(Path(line)):
        return [expanded(Path(line))]
    try:
        names = shlex.split(line, posix=os.name != "nt")
    except ValueError:
        # A quote that is never closed is a letter of a name.
        names = [line]
    files = [_named(name) for name in names if name.strip()]
    if not files:
        raise BadInput("no file named", "Type the path of a JPEG or PNG file, or drop the file here.")
    as_dropped = bool(_SHELL_MARKS & set(line)) or "file:" in line
    if len(files) > 1 and not as_dropped and not any(map(_there, files)):
        # One name with blanks in it, of a file that is not there.
        files = [Path(line)]
    return [expanded(file) for file in files]


#: What a terminal keeps blanks in a name together by.
_SHELL_MARKS = {"'", '"', "\\"}


def _named(name: str) -> Path:
    if name.startswith("file:"):
        from urllib.parse import unquote, urlsplit

        return Path(unquote(urlsplit(name).path))
    return Path(name.strip("\"'") if os.name == "nt" else name)


def _there(path: Path) -> bool:
    try:
        return expanded(path).is_file()
    except (OSError, ValueError):
        return False
