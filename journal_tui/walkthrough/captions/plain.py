"""Plain text: with the time in square brackets before the words, or with no times at all."""

from __future__ import annotations

import re
from itertools import pairwise

from journal_tui.walkthrough.captions.found import Found

#: Seconds one spoken word takes, for captions that do not say when they end (common practice:
#: people talking on a walk say about 150 words a minute).
SECONDS_A_WORD = 0.4
SHORTEST = 1.0
#: Text wider than this was not wrapped by a program that breaks lines.
_WIDEST_WRAP = 100

_STAMPED = re.compile(r"[ \t]{0,20}\[[ \t]{0,5}[0-9]{1,9}:[0-9:., \t]{0,30}\]")
_STAMP = re.compile(
    r"[ \t]{0,20}\[[ \t]{0,5}(?:(?:([0-9]{1,4}):)?([0-9]{1,3}):([0-9]{1,3})(?:[.,]([0-9]{1,3}))?)[ \t]{0,5}\]"
)


def begins_timed(lines: list[str]) -> bool:
    """True when any line begins with a time in square brackets."""
    return any("[" in line and _STAMPED.match(line) for line in lines)


def read_timed(lines: list[str], found: Found) -> None:
    """Add the cues of ``[m:ss] words`` or ``[h:mm:ss] words`` lines to ``found``.

    Lines without a time go on from the one before. A cue ends where the next begins; the last,
    and one the next does not come after, ends when its words would have been said.
    """
    stamped: list[tuple[int, float, list[str]]] = []
    # Lines without a time go on to these; those of a skipped caption go nowhere.
    words: list[str] | None = None
    for number, line in enumerate(lines, start=1):
        if meant := _STAMPED.match(line):
            start = _seconds(line)
            words = [line[meant.end() :]]
            if start is None:
                found.skip(number, "its time cannot be read as [m:ss] or [h:mm:ss]", line)
            else:
                stamped.append((number, start, words))
        elif words is not None:
            words.append(line)
        elif line.strip():
            found.note(number, "words before the first time are left out")
            words = []
    for at, (number, start, said) in enumerate(stamped):
        following = stamped[at + 1][1] if at + 1 < len(stamped) else start
        spoken = "\n".join(said)
        end = following if following > start else start + _length(spoken)
        found.timed(number, start, end, spoken)


def read_untimed(lines: list[str], found: Found) -> None:
    """Add a cue for each of ``lines`` to ``found``; for each paragraph when it was wrapped."""
    if not _wrapped(lines):
        for number, line in enumerate(lines, start=1):
            found.untimed(number, line)
        return
    first, paragraph = 1, list[str]()
    for number, line in enumerate([*lines, ""], start=1):
        if line.strip():
            first = first if paragraph else number
            paragraph.append(line)
        elif paragraph:
            found.untimed(first, " ".join(part.strip() for part in paragraph))
            paragraph = []


def _seconds(line: str) -> float | None:
    match = _STAMP.match(line)
    if not match:
        return None
    hours, minutes, seconds, fraction = match.groups()
    # "[75:10]" is an hour and a quarter; only under an hour mark must minutes stay below 60.
    if int(seconds) > 59 or (hours is not None and int(minutes) > 59):
        return None
    whole = (int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)
    return (whole * 1000 + int((fraction or "0").ljust(3, "0"))) / 1000


def _length(words: str) -> float:
    return max(SHORTEST, SECONDS_A_WORD * len(words.split()))


def _wrapped(lines: list[str]) -> bool:
    """True when most lines end where the next line's first word would no longer have fitted."""
    width = max((len(line.rstrip()) for line in lines), default=0)
    followed = [(a, b) for a, b in pairwise(lines) if a.strip() and b.strip()]
    if width > _WIDEST_WRAP or len(followed) < 2:
        return False
    full = sum(len(a.rstrip()) + 1 + len(b.split(maxsplit=1)[0]) > width for a, b in followed)
    return full * 2 > len(followed)
