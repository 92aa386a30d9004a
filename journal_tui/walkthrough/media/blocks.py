"""Sound cut into blocks of one engine window, at the quietest moment so that no word is torn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from journal_tui.walkthrough.media.needs import SPEECH, needed
from journal_tui.walkthrough.media.sound import RATE

#: An engine's window is 30 s; a block is cut between these, where it is quietest.
LONGEST = 28.0
SHORTEST = 16.0
#: Loudness is measured over this many seconds, about as long as the pause between two words.
_PAUSE = 0.2
_BYTES = 2


def blocks(pieces: Iterable[bytes], start: float) -> Iterator[tuple[float, bytes]]:
    """Yield (moment in seconds, samples) of sound that begins at ``start``, in blocks.

    No sample is lost or given twice; each block but the last lasts 16 to 28 seconds.
    """
    waiting = bytearray()
    longest = int(LONGEST * RATE) * _BYTES
    for piece in pieces:
        waiting += piece
        while len(waiting) >= longest:
            cut = quietest(bytes(waiting[:longest]))
            yield start, bytes(waiting[:cut])
            start += cut / _BYTES / RATE
            del waiting[:cut]
    if waiting:
        yield start, bytes(waiting)


def quietest(samples: bytes) -> int:
    """Return the byte at which to cut a full block: the middle of its quietest pause."""
    np = needed("numpy", SPEECH, "recognising speech")
    loud = np.frombuffer(samples, dtype=np.int16).astype(np.float64) ** 2
    width = int(_PAUSE * RATE)
    total = np.concatenate(([0.0], np.cumsum(loud)))
    first = int(SHORTEST * RATE)
    sums = total[first + width :] - total[first : len(total) - width]
    return (first + int(np.argmin(sums)) + width // 2) * _BYTES


def silent(samples: bytes) -> bool:
    """True when nothing in a block is loud enough to be speech (peak under 1 % of full scale)."""
    np = needed("numpy", SPEECH, "recognising speech")
    heard = np.frombuffer(samples, dtype=np.int16)
    return heard.size == 0 or int(np.abs(heard.astype(np.int32)).max()) < 327
