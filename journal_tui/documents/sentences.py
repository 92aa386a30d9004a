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


#: What begins so says where, not what.
_WHERE = re.compile(
    r"^(?:and |but |so )?(?:over|under|behind|in|inside|at|on|by|along|around|near|above|below|between|"
    r"next to|from|outside|beside|across|past|through|up|down|here|there)\b"
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


def _small(part: str) -> str:
    """Return a part with a small first letter where its first word is one of every day."""
    first = part.split(" ", 1)[0].lower()
    return part[:1].lower() + part[1:] if _WHERE.match(part.lower()) or first in _SMALL else part


_SMALL = frozenset("the a an it it's there there's we we're they that's this our your one two".split())


def sentences(text: str) -> list[str]:
    """Return a note as sentences; a part without a verb stays with the one before, behind a colon."""
    told: list[str] = []
    for part in parts_of(text):
        ended = told and told[-1][-1:] in (".", "?", "!")
        where = len(told) == 1 and not told[0].endswith(("?", "!")) and _WHERE.match(told[0].lower())
        begun = len(told) == 1 and (where or not ended) and not has_verb(told[0])
        if begun and has_verb(part) and not _HANGS_ON.match(part.lower()):
            # "Over the sink; there's a hole" is one sentence, and so is "the pan; it's thirty wide".
            told[0] = told[0].rstrip(".") + (", " + _small(part) if where else ": " + part)
        elif told and not ended and (not has_verb(part) or _HANGS_ON.match(part.lower())):
            joint = ", " if ":" in told[-1] or _HANGS_ON.match(part.lower()) else ": "
            told[-1] += joint + part
        else:
            told.append(part)
    return [sentence(part) for part in told]
