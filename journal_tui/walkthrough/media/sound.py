"""A recording's sound as one even stream of samples, whatever is torn or missing in the file."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from journal_tui.walkthrough.media.container import beginning, only, opened

#: Samples a second that speech engines take, one channel of 16-bit integers.
RATE = 16_000
_BYTES = 2
#: A hole in the file longer than this is filled with silence, so that later words keep their moment.
_HOLE = 0.1
#: Broken packets in a row after which the rest is given up.
_MOST_BAD = 2_000
#: Silence is handed out in pieces of a second, so that a hole of an hour costs no memory.
_SILENCE = bytes(RATE * _BYTES)


@dataclass(slots=True)
class Damage:
    """What could not be read: the first moment (seconds) and how many pieces of the file."""

    first: float | None = None
    pieces: int = 0

    def at(self, moment: float) -> None:
        """Count one piece that could not be read."""
        self.first = moment if self.first is None else self.first
        self.pieces += 1


@dataclass(slots=True)
class Sound:
    """The sound of ``path`` from ``start`` seconds on; ``damage`` fills as it is read."""

    path: Path
    start: float = 0.0
    damage: Damage = field(default_factory=Damage)

    def pieces(self) -> Iterator[bytes]:
        """Yield samples (16-bit, one channel, ``RATE`` a second) without a gap from ``start`` on.

        Raises ``NotInstalled`` and ``CannotRead``. Memory stays at a few packets.
        """
        with opened(self.path) as container:
            track = container.streams.audio[0]
            first = beginning(container)
            if self.start > 1:
                container.seek(int((self.start - 1 + first) * 1_000_000))
            done = 0
            for moment, samples in self._resampled(container, track, first):
                due = round((moment - self.start) * RATE)
                while due - done > _HOLE * RATE:
                    silence = _SILENCE[: (due - done) * _BYTES]
                    yield silence
                    done += len(silence) // _BYTES
                late = max(0, done - due) if due < 0 or done - due > _HOLE * RATE else 0
                kept = samples[late * _BYTES :]
                if kept:
                    yield kept
                    done += len(kept) // _BYTES

    def _resampled(self, container: Any, track: Any, first: float) -> Iterator[tuple[float, bytes]]:
        import av

        resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)
        moment = 0.0
        for frame in self._frames(container, track):
            if frame.time is not None:
                moment = frame.time - first
            frame.pts = None
            try:
                made = resampler.resample(frame)
            except (av.error.FFmpegError, ValueError):
                # The sound changed its form in the middle: begin again with the new one.
                resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)
                continue
            for out in made:
                yield moment, bytes(out.planes[0])[: out.samples * _BYTES]
                moment += out.samples / RATE

    def _frames(self, container: Any, track: Any) -> Iterator[Any]:
        import av

        only(container, track)
        bad, moment = 0, self.start
        packets = container.demux(track)
        while bad < _MOST_BAD:
            try:
                packet = next(packets)
                if packet.pts is not None:
                    moment = float(packet.pts * packet.time_base)
                frames = packet.decode()
            except StopIteration:
                return
            except (av.error.FFmpegError, ValueError):
                bad += 1
                self.damage.at(moment)
                continue
            bad = 0
            yield from frames
