"""What a recording costs: ``python -m tests.media.figures VIDEO [MODEL]``.

Prints the time that words and stills take for each minute of a recording, against unpacking every
picture of it once, and the most memory used. With a MODEL its speech is recognised too.
"""

from __future__ import annotations

import resource
import sys
import time
from pathlib import Path

import av

from journal_tui.walkthrough.media import look_at
from journal_tui.walkthrough.media.stills import Stills

#: A talker leaves about so many drafts a minute (as the demo jobs do).
DRAFTS_A_MINUTE = 4


def unpacked(path: Path, seconds: float) -> float:
    """Return the time (seconds) of unpacking the pictures of the first ``seconds``."""
    began = time.perf_counter()
    with av.open(str(path)) as container:
        track = container.streams.video[0]
        track.thread_type = "AUTO"
        for frame in container.decode(track):
            if frame.time is not None and frame.time > seconds:
                break
    return time.perf_counter() - began


def main(path: Path, model: Path | None) -> None:
    """Print the figures for one recording."""
    facts = look_at(path)
    minutes = facts.seconds / 60
    print(f"{path.name}: {minutes:.1f} min, {path.stat().st_size / 1e6:.0f} MB")
    if facts.picture:
        count = round(minutes * DRAFTS_A_MINUTE)
        began = time.perf_counter()
        with Stills(path) as stills:
            taken = sum(stills.near(facts.seconds * n / count) is not None for n in range(count))
        took = time.perf_counter() - began
        some = min(facts.seconds, 120.0)
        plain = unpacked(path, some) / some * 60
        print(f"stills: {taken} of {count}, {took / minutes:.2f} s per minute; unpacking all: {plain:.2f} s")
    if model and facts.sound:
        from journal_tui.walkthrough.media.engine import WhisperEngine
        from journal_tui.walkthrough.media.hints import hint
        from journal_tui.walkthrough.media.speech import transcribe

        began = time.perf_counter()
        made, _damage = transcribe(path, WhisperEngine(model, hint([])), facts.seconds)
        took = time.perf_counter() - began
        print(f"words: {len(made.lines)} lines, {took / minutes:.2f} s per minute")
    # Linux gives kilobytes (getrusage(2)).
    print(f"most memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]) if len(sys.argv) > 2 else None)
