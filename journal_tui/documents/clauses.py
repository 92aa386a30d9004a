"""The parts of a spoken note: what stands between its stops, commas and joining words."""

from __future__ import annotations

import re
from dataclasses import dataclass

#: Where a part begins: after a stop or semicolon, or at a comma or joining word that opens a new thought.
_BREAK = re.compile(
    r"(?P<stop>(?:[.!?;]+[)\]\"'”’]*\s+|\s+[–—-]\s+))"
    r"|(?P<comma>,\s+(?=(?:and|but|so|because|whoever|we|i|it's|it|he|she|they|you|there's|there|that's|which)\b))"
    r"|(?P<word>\s+(?=(?:but|because|so)\s))",
    re.IGNORECASE,
)
#: What joins a part to the one before, and goes when that one does.
JOIN = re.compile(r"^(?:and|but|so|because)\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Clause:
    """A part of a note, and the ``link`` (stop, comma, blank) that joins it to the one before."""

    link: str
    words: str

    @property
    def alone(self) -> str:
        """The words as they stand without the part before: no joining word in front."""
        return JOIN.sub("", self.words)


def clauses(text: str) -> list[Clause]:
    """Return the parts of a note; joined by their links they are the note again."""
    parts: list[Clause] = []
    start, link = 0, ""
    for match in _BREAK.finditer(text):
        if not text[start : match.start()].strip():
            continue
        parts.append(Clause(link, text[start : match.start()]))
        link, start = match.group(), match.end()
    parts.append(Clause(link, text[start:]))
    return parts


def without(text: str, words: re.Pattern[str]) -> tuple[str, list[str]]:
    """Return a note without the parts that hold ``words`` (a pattern for lower case), and those parts."""
    kept: list[str] = []
    cut: list[str] = []
    for clause in clauses(text):
        if words.search(clause.words.casefold().replace("’", "'")):
            cut.append(clause.words.strip())
        else:
            kept.append(clause.link + clause.words if kept else clause.alone if cut else clause.words)
    if not cut:
        return text, []
    return "".join(kept).strip(" ,;"), cut
