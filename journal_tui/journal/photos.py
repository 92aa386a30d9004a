"""Photos attached to entries: turned upright, made small enough to send, and stripped of where and when.

A photo is kept as a JPEG beside the journal, as stills are (``journal.stills``), and who may see it is who
may read its entry. The file that was given is only read.
"""

from __future__ import annotations

import hashlib
import io
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.journal.entries import get_entry
from journal_tui.journal.opening import Journal
from journal_tui.journal.paths import expanded
from journal_tui.journal.stills import file_of
from journal_tui.journal.writing import put_file
from journal_tui.store import record_queries

#: The longest side of a kept photo, in points: sharp on paper at 110 mm, small enough for a message.
LONGEST_SIDE = 1600
QUALITY = 82
#: A file or a picture beyond these is no photo from a phone.
MOST_BYTES = 60 * 1024 * 1024
MOST_POINTS = 120_000_000
#: More pictures than this for one entry is a slip.
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


def add_photo(journal: Journal, entry_id: str, picture: Path) -> Photo:
    """Attach a JPEG or PNG file to an entry; return it as it is kept.

    It is turned as its camera held it, made at most 1600 points long, and kept without any data about
    place, time or camera. Raises ``BadInput`` for what is no such picture, or is too large.
    """
    entry = get_entry(journal, entry_id)
    if len(record_queries.photos_of_entry(journal.store, entry.id)) >= MOST_PHOTOS:
        raise BadInput(f"the entry has {MOST_PHOTOS} photos", "Attach the rest to other entries.")
    jpeg, width, height = cleaned(_read(picture), one_line(str(picture)) or "the picture")
    sha256 = hashlib.sha256(jpeg).hexdigest()
    for photo in photos_of(journal, entry.id):
        if photo.sha256 == sha256:
            return photo
    path = file_of(journal, sha256)
    if not path.exists():
        put_file(path.parent, path.name, jpeg)
    with journal.store.write("attach a photo", entry.job_id) as w:
        w.insert("photos", {"entry_id": entry.id, "sha256": sha256, "width": width, "height": height})
    return next(photo for photo in photos_of(journal, entry.id) if photo.sha256 == sha256)


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


def photos_of(journal: Journal, entry_id: str) -> list[Photo]:
    """Return the photos of an entry, in the order they were attached."""
    return [
        Photo(row["id"], row["sha256"], file_of(journal, row["sha256"]), row["width"], row["height"])
        for row in record_queries.photos_of_entry(journal.store, entry_id)
    ]


def drop_photo(journal: Journal, entry_id: str, number: int) -> None:
    """Take photo ``number`` (counted from 1) off an entry; its file is cleared away later.

    Raises ``BadInput`` when there is none.
    """
    entry = get_entry(journal, entry_id)
    photos = photos_of(journal, entry.id)
    if not 1 <= number <= len(photos):
        raise BadInput(f"there is no photo {number}", f"The entry has {len(photos)}.")
    with journal.store.write("take a photo off an entry", entry.job_id) as w:
        w.remove("photos", photos[number - 1].id)
