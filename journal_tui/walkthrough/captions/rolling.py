"""Machine captions that roll: each caption shows the line before it again above the new one."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from journal_tui.domain.recording import Cue

#: People do say a line twice; captions roll only when many show an old line above a new one.
_FEWEST = 3
_SHARE = 1 / 3


def unrolled(cues: list[Cue]) -> list[Cue]:
    """Return ``cues`` with every repeated line said once; the same list when they do not roll."""
    lines = [cue.text.split("\n") for cue in cues]
    repeats = [0, *(_repeated(above, below) for above, below in pairwise(lines))]
    rising = sum(0 < count < len(own) for own, count in zip(lines, repeats, strict=True))
    if rising < max(_FEWEST, _SHARE * len(cues)):
        return cues
    said = zip(cues, lines, repeats, strict=True)
    return [replace(cue, text="\n".join(new)) for cue, own, count in said if (new := own[count:])]


def _repeated(above: list[str], below: list[str]) -> int:
    """Return how many of the last lines of ``above`` are the first lines of ``below``."""
    # Captions show two or three lines; a longer overlap is not rolling.
    counts = range(min(len(above), len(below), 3), 0, -1)
    return next((count for count in counts if above[-count:] == below[:count]), 0)
