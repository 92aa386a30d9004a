"""The sharpest picture near a moment of a recording, as a JPEG that tells nothing but what it shows."""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from journal_tui.walkthrough.media.container import beginning, only, opened, picture_stream
from journal_tui.walkthrough.media.needs import VIDEO, needed
from journal_tui.walkthrough.media.sharpness import black, sharpness

if TYPE_CHECKING:
    from PIL.Image import Image

#: The longest side of a still, in points, and how well it is kept (JPEG quality, 0 to 95).
LONGEST_SIDE = 1600
_QUALITY = 82
#: Pictures are looked at from so many seconds before the words begin to so many after.
BEFORE, AFTER = 1.0, 3.0
#: Where all of those are black, so many seconds around.
_WIDER = 8.0
#: A picture is judged at this width: enough to see motion blur, little enough to be quick.
_JUDGED_WIDTH = 480
#: Pictures closer together (seconds) are alike enough that judging one will do.
_APART = 0.09
#: Broken packets in a row after which a moment is given up.
_MOST_BAD = 300


@dataclass(frozen=True, slots=True)
class Still:
    """A picture out of a recording: its ``moment`` in seconds, and a JPEG of ``width`` by ``height``."""

    moment: float
    width: int
    height: int
    jpeg: bytes

    @property
    def sha256(self) -> str:
        """The hash (hex) of the JPEG, which is its name."""
        return hashlib.sha256(self.jpeg).hexdigest()


class Stills:
    """A recording open for taking stills out of it. Use it in a ``with`` statement.

    Raises ``NotInstalled`` and ``CannotRead`` when entered. Memory stays at a few pictures.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def __enter__(self) -> Stills:
        needed("PIL.Image", VIDEO, "taking stills out of a recording")
        self._opening = opened(self._path)
        self._container: Any = self._opening.__enter__()
        self._track = picture_stream(self._container)
        if self._track is not None:
            only(self._container, self._track)
            self._track.thread_type = "AUTO"
            # Pictures no other is built from are not worth unpacking: enough remain to choose among.
            self._track.codec_context.skip_frame = "NONREF"
        self._first = beginning(self._container)
        return self

    def __exit__(self, *failure: object) -> None:
        self._opening.__exit__(None, None, None)

    def near(self, moment: float) -> Still | None:
        """Return the sharpest picture near the moment (seconds) something was said; None if there is none."""
        if self._track is None:
            return None
        best, any_seen = self._sharpest(moment - BEFORE, moment + AFTER)
        if best is None and any_seen:
            best, _ = self._sharpest(moment - _WIDER, moment + _WIDER)
        return best and _still(best[1], best[0])

    def _sharpest(self, start: float, end: float) -> tuple[tuple[float, Any] | None, bool]:
        """Return (moment, frame) of the sharpest that is not black, and whether there was any at all."""
        best: tuple[float, float, Any] | None = None
        last = -1.0
        for moment, frame in self._between(max(0.0, start), end):
            if moment - last < _APART:
                continue
            last = moment
            grey = _grey(frame)
            if black(grey):
                continue
            score = sharpness(grey)
            if best is None or score > best[0]:
                best = (score, moment, frame)
        return best and best[1:], last >= 0

    def _between(self, start: float, end: float) -> Iterator[tuple[float, Any]]:
        for frame in self._frames(start):
            if frame.time is None:
                continue
            moment = frame.time - self._first
            if moment > end:
                return
            if moment >= start:
                yield moment, frame

    def _frames(self, start: float) -> Iterator[Any]:
        import av

        track, container = self._track, self._container
        try:
            container.seek(int((start + self._first) / track.time_base), stream=track)
        except (av.error.FFmpegError, OverflowError):
            return
        packets, bad = container.demux(track), 0
        while bad < _MOST_BAD:
            try:
                frames = next(packets).decode()
            except StopIteration:
                return
            except (av.error.FFmpegError, ValueError):
                bad += 1
                continue
            bad = 0
            yield from (frame for frame in frames if not frame.is_corrupt)


def _grey(frame: Any) -> Image:
    from PIL import Image

    width = min(_JUDGED_WIDTH, frame.width)
    height = max(2, round(frame.height * width / frame.width))
    plane = frame.reformat(width=width, height=height, format="gray").planes[0]
    return Image.frombytes("L", (width, height), bytes(plane), "raw", "L", plane.line_size, 1)


def _still(frame: Any, moment: float) -> Still:
    from PIL import Image

    scale = min(1.0, LONGEST_SIDE / max(frame.width, frame.height))
    width, height = max(1, round(frame.width * scale)), max(1, round(frame.height * scale))
    plane = frame.reformat(width=width, height=height, format="rgb24").planes[0]
    image = Image.frombytes("RGB", (width, height), bytes(plane), "raw", "RGB", plane.line_size, 1)
    turn = {90: Image.Transpose.ROTATE_90, 180: Image.Transpose.ROTATE_180, 270: Image.Transpose.ROTATE_270}
    turned = turn.get(round(frame.rotation) % 360)
    if turned is not None:
        image = image.transpose(turned)
    out = io.BytesIO()
    # Only the points are written: no place, no device, no date is known to the writer.
    image.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return Still(moment, *image.size, out.getvalue())
