"""SubRip, read tolerantly: it has no standard, so any line of two times begins a caption.

Blank lines inside a caption, a missing index, a dot for the comma and left-out hours are all
taken; the next caption's index is told from words by standing right above its times.
"""

from __future__ import annotations

import re

from journal_tui.walkthrough.captions.found import Found

_STAMP = r"(?:([0-9]{1,4}):)?([0-9]{1,3}):([0-9]{1,3})(?:[,.]([0-9]{1,3}))?(?![0-9:,.])"
_TIMINGS = re.compile(rf"[ \t]{{0,20}}{_STAMP}[ \t]{{0,20}}-->[ \t]{{0,20}}{_STAMP}")
#: An arrow with something like a time on either side was meant as times, readable or not;
#: "3.5 --> 4.5 in" was not.
_LIKE = r"-?[0-9]{1,9}(?::|[.,][0-9]{1,9}[:.,])"
_MEANT = re.compile(
    rf"[ \t]{{0,20}}{_LIKE}[0-9:.,]{{0,40}}[ \t]{{0,20}}-->|.{{0,60}}?-->[ \t]{{0,20}}{_LIKE}"
)
_INDEX = re.compile(r"[ \t]{0,20}[0-9]{1,9}[ \t]{0,20}\Z")
_TAG = re.compile(r"</?(?:i|b|u|s|font)(?:[ \t][^<>\n]*)?>|\{\\[^{}\n]*\}", re.IGNORECASE)


def begins(lines: list[str]) -> bool:
    """True when any line looks like the times of a caption."""
    return any(_means_times(line) for line in lines)


def read(lines: list[str], found: Found) -> None:
    """Add the cues of a SubRip file's ``lines`` to ``found``."""
    starts = [index for index, line in enumerate(lines) if _means_times(line)]
    _leading(lines[: starts[0]] if starts else lines, found)
    for at, following in zip(starts, [*starts[1:], len(lines)], strict=True):
        words = lines[at + 1 : following]
        if following < len(lines):
            words = _without_index(words)
        _caption(at + 1, lines[at], "\n".join(words), found)


def _means_times(line: str) -> bool:
    return "-->" in line and bool(_MEANT.match(line))


def _leading(lines: list[str], found: Found) -> None:
    for number, line in enumerate(_without_index(lines), start=1):
        if line.strip():
            found.note(number, "words before the first time are left out")
            return


def _without_index(lines: list[str]) -> list[str]:
    return lines[:-1] if lines and _INDEX.match(lines[-1]) else lines


def _caption(line: int, timings: str, text: str, found: Found) -> None:
    match = _TIMINGS.match(timings)
    times = match and (_seconds(*match.groups()[:4]), _seconds(*match.groups()[4:]))
    if not times or times[0] is None or times[1] is None:
        found.skip(line, "its times cannot be read as hh:mm:ss,mmm --> hh:mm:ss,mmm", timings)
        return
    found.timed(line, times[0], times[1], _TAG.sub("", text))


def _seconds(hours: str | None, minutes: str, seconds: str, fraction: str | None) -> float | None:
    if int(minutes) > 59 or int(seconds) > 59:
        return None
    whole = (int(hours or 0) * 60 + int(minutes)) * 60 + int(seconds)
    return (whole * 1000 + int((fraction or "0").ljust(3, "0"))) / 1000
