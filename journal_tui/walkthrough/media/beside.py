"""The caption file that lies beside a recording and has its name."""

from __future__ import annotations

from pathlib import Path

#: In the order they are taken: the first two say when each word was said, text may not.
_ENDINGS = (".vtt", ".srt", ".txt")


def captions_beside(recording: Path) -> Path | None:
    """Return ``walk.vtt``, ``walk.srt`` or ``walk.txt`` beside ``walk.mp4`` (or ``walk.mp4.vtt``), if any.

    Upper and lower case in the ending are alike; a hidden or empty folder entry is no caption file.
    """
    stems = (recording.stem, recording.name)
    try:
        names = {entry.name: entry for entry in recording.parent.iterdir()}
    except OSError:
        return None
    for ending in _ENDINGS:
        for stem in stems:
            for name, entry in sorted(names.items()):
                if name.lower() == (stem + ending).lower() and name.startswith(stem) and entry.is_file():
                    return entry
    return None
