"""A note as sentences: its parts between semicolons, each told by itself where it can be."""

from __future__ import annotations

import re

from journal_tui.documents.news import has_verb
from journal_tui.documents.wording import sentence
from journal_tui.domain.text import one_line

#: What looks like a character reference is somebody's own text, and no end of a part.
_ENDS = re.compile(r"(?<=[^\s&])(?P<semicolon>;)\s+|(?<=[a-z]{2}[.])\s+(?=[A-Z])|(?<=\w\?)\s+")
_REFERENCE = re.compile(r"&#?\w+$")
#: A part that begins so belongs to what stands before it.
_HANGS_ON = re.compile(
    r"^(?:the (?:kind|one|sort|same)|which|who|that(?!')|whose|like|not|just|with|for|so that)\b"
)


def parts_of(text: str) -> list[str]:
    """Return the parts of a note between its semicolons and stops, as they stand."""
    line = one_line(text)
    parts: list[str] = []
    start = 0
    for match in _ENDS.finditer(line):
        if match.group("semicolon") and _REFERENCE.search(line[: match.start()]):
            continue
        parts.append(line[start : match.start()])
        start = match.end()
    return [part for part in (*parts, line[start:]) if part.strip()]


def sentences(text: str) -> list[str]:
    """Return a note as sentences; a part without a verb stays with the one before, behind a colon."""
    told: list[str] = []
    for part in parts_of(text):
        ended = told and told[-1][-1:] in (".", "?", "!")
        if told and not ended and (not has_verb(part) or _HANGS_ON.match(part.lower())):
            joint = ", " if ":" in told[-1] or _HANGS_ON.match(part.lower()) else ": "
            told[-1] += joint + part
        else:
            told.append(part)
    return [sentence(part) for part in told]
