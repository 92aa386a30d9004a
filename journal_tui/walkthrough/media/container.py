"""Opening a recording: what is in it, and what each way of being unreadable is called."""

from __future__ import annotations

import errno
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.text import one_line
from journal_tui.walkthrough.captions.decoding import RECORDING, what_else
from journal_tui.walkthrough.media.needs import VIDEO, needed

if TYPE_CHECKING:
    from av.container import InputContainer

#: What phones, cameras and pocket recorders name their files.
MEDIA_ENDINGS = (
    ".mp4", ".mov", ".m4v", ".3gp", ".mkv", ".webm", ".avi", ".mts",
    ".m4a", ".mp3", ".wav", ".aac", ".flac", ".ogg", ".opus", ".caf", ".amr",
)  # fmt: skip

#: The only formats opened. A play list, whatever it is called, could name a place on the network.
_FORMATS = "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,mpegts,mpeg,wav,w64,mp3,aac,flac,ogg,caf,amr,aiff"
#: Bytes of a file that tell what it is.
_HEAD = 4096


@dataclass(frozen=True, slots=True)
class Facts:
    """What is in a recording. ``seconds`` is how long it says it is, 0.0 when it does not say."""

    seconds: float
    sound: bool
    picture: bool
    text: bool


def is_recording(path: Path) -> bool:
    """True when a file is a recording by what stands in it, or is called one; no extra is needed."""
    try:
        if not path.is_file():  # opening a named pipe waits for whoever writes to it
            return False
        with path.open("rb") as file:
            head = file.read(_HEAD)
    except (OSError, ValueError):
        return False
    return path.suffix.lower() in MEDIA_ENDINGS or what_else(head) == RECORDING


def check_file(path: Path) -> None:
    """Raise ``CannotRead`` in a line when there is no recording at ``path`` to open."""
    shown = one_line(str(path)) or "the file"
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise CannotRead(f"{shown} is not a file", "Name one recording.")
        with path.open("rb"):
            pass
    except FileNotFoundError:
        raise CannotRead(f"{shown}: no such file", "Check the name and the folder it is in.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "no file can have this name"
        raise CannotRead(f"{shown} cannot be read", f"{reason}.") from None
    if status.st_size == 0:
        raise CannotRead(f"{shown} is empty", "Copy it from the phone again.")


@contextmanager
def opened(path: Path) -> Iterator[InputContainer]:
    """Open a recording for reading. Raises ``NotInstalled``, and ``CannotRead`` for anything else."""
    av = needed("av", VIDEO, "reading a recording")
    # The library's own threads must not report in Python: one that waits to, while the thread that
    # waits for it holds the interpreter, waits for ever.
    av.logging.set_level(None)
    check_file(path)
    shown = one_line(path.name)
    # Handed over open, never by name: a name with a colon in it would be taken for an address.
    with path.open("rb") as file:
        try:
            container = av.open(file, options={"format_whitelist": _FORMATS}, metadata_errors="replace")
        except (av.error.FFmpegError, ValueError, OSError) as error:
            raise _unreadable(shown, path, error) from None
        try:
            yield container
        finally:
            container.close()


def look_at(path: Path) -> Facts:
    """Return what is in a recording. Raises as ``opened`` does."""
    with opened(path) as container:
        return facts_of(container)


def facts_of(container: InputContainer) -> Facts:
    """Return what is in an open recording; a cover picture in a sound file is no picture of a walk."""
    streams = container.streams
    seconds = (container.duration or 0) / 1_000_000
    return Facts(
        seconds=max(0.0, seconds),
        sound=bool(streams.audio),
        picture=picture_stream(container) is not None,
        text=bool(streams.subtitles),
    )


def picture_stream(container: InputContainer) -> Any:
    """Return the recording's moving picture, None when it has none."""
    import av

    cover = av.stream.Disposition.attached_pic
    return next((s for s in container.streams.video if not s.disposition & cover), None)


def beginning(container: InputContainer) -> float:
    """Return the time (seconds) that a player shows as 0:00."""
    return (container.start_time or 0) / 1_000_000


def only(container: InputContainer, track: Any) -> None:
    """Have one track alone read; the rest of the file is skipped over."""
    from av.stream import Discard

    for stream in container.streams:
        stream.discard = Discard.default if stream.index == track.index else Discard.all


def _unreadable(shown: str, path: Path, error: Exception) -> CannotRead:
    if getattr(error, "errno", None) == errno.ENOMEM:
        return CannotRead(f"{shown} needs more memory than there is", "Close other programs and try again.")
    with path.open("rb") as file:
        known = what_else(file.read(_HEAD)) == RECORDING
    if known:
        return CannotRead(
            f"{shown} is damaged or cut short", "What says where its parts are is missing. Copy it again."
        )
    return CannotRead(f"{shown} is no recording", "It holds no sound or picture this program can open.")
