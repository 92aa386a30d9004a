"""WebVTT, as W3C WebVTT section 6 has browsers read it.

Our own few lines: the library tried (webvtt-py 0.6) drops a bad cue without a word or its line
number, and leaves character references unresolved.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from journal_tui.walkthrough.captions.cuetext import spoken
from journal_tui.walkthrough.captions.found import Found

_SIGNATURE = re.compile(r"WEBVTT(?:[ \t]|\Z)")

# Section 6.3, "collect a WebVTT timestamp". Hours beyond seven digits are no recording.
_STAMP = r"(?:([0-9]{1,7}):)?([0-9]{2}):([0-9]{2})\.([0-9]{3})(?![0-9])"
_TIMINGS = re.compile(rf"[\t\f\r ]*{_STAMP}[\t\f\r ]*-->[\t\f\r ]*{_STAMP}")
_NO_CUE = re.compile(r"NOTE(?:[ \t]|\Z)|(?:STYLE|REGION)[ \t\f\r]*\Z")


@dataclass(slots=True)
class _Block:
    """Lines between blank lines; ``timing`` and ``first`` are indexes of lines in the file."""

    first: int
    after: int = 0
    timing: int | None = None
    before: list[str] = field(default_factory=list)
    payload: list[str] = field(default_factory=list)


def begins(lines: list[str]) -> bool:
    """True when the first line is the WebVTT signature (section 6.1 steps 5 and 6)."""
    return bool(_SIGNATURE.match(lines[0]))


def read(lines: list[str], found: Found) -> None:
    """Add the cues of a WebVTT file's ``lines`` to ``found`` (section 6.1)."""
    at = 1
    if len(lines) > 1 and lines[1]:
        at = _block(lines, 1, in_header=True).after
    while at < len(lines):
        if not lines[at]:
            at += 1
            continue
        block = _block(lines, at)
        _cue(lines, block, found)
        at = block.after


def _block(lines: list[str], at: int, in_header: bool = False) -> _Block:
    """Collect the block beginning at ``at`` (section 6.1, "collect a WebVTT block")."""
    block = _Block(at)
    index = at
    while index < len(lines) and lines[index]:
        if "-->" in lines[index]:
            if in_header or index - at > 1 or block.timing is not None:
                break
            block.timing = index
        elif block.timing is None:
            block.before.append(lines[index])
        else:
            block.payload.append(lines[index])
        index += 1
    block.after = index
    return block


def _cue(lines: list[str], block: _Block, found: Found) -> None:
    if block.timing is None:
        if not _NO_CUE.match(block.before[0]):
            found.note(block.first + 1, "words without a time are left out")
        return
    line = block.timing + 1
    timings = lines[block.timing]
    match = _TIMINGS.match(timings)
    times = match and (_seconds(*match.groups()[:4]), _seconds(*match.groups()[4:]))
    if not times or times[0] is None or times[1] is None:
        found.skip(line, _fault(timings), timings)
        return
    parts, unclosed = spoken("\n".join(block.payload))
    if unclosed:
        found.note(line, "a '<' is never closed; what follows it in this caption is left out")
    for speaker, words in parts:
        found.timed(line, times[0], times[1], words, speaker)


def _seconds(hours: str | None, minutes: str, seconds: str, thousandths: str) -> float | None:
    if int(minutes) > 59 or int(seconds) > 59:
        return None
    whole = (int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)
    return (whole * 1000 + int(thousandths)) / 1000


def _fault(timings: str) -> str:
    if re.search(r"[0-9]:[0-9]{2},[0-9]", timings):
        return "its times have a comma where WebVTT needs a dot"
    return "its times cannot be read as hh:mm:ss.mmm --> hh:mm:ss.mmm"
