"""What of a note can stand in a letter by itself, and what only hangs on to something not told."""

from __future__ import annotations

import re

from journal_tui.documents.news import has_verb, puts_right, says_nothing, tells_fault, unclear
from journal_tui.documents.sentences import parts_of


def clear_part(text: str, *, named: bool) -> tuple[str, list[str]]:
    """Return as much of a note from its front as can stand by itself, and the parts behind."""
    parts = parts_of(text)
    for end in range(len(parts) - 1, 0, -1):
        front = "; ".join(parts[:end])
        if tells_fault(front) and any(map(puts_right, parts[end:])):
            # A fault is not told without its being put right.
            continue
        if has_verb(front) and not unclear(front, named=named):
            return front, parts[end:]
    # What cannot stand may be only how it began: "it's in the carton; there's a dent in the carton".
    for start in range(1, len(parts)):
        back = "; ".join(parts[start:])
        if has_verb(back) and not unclear(back) and not any(map(puts_right, parts[:start])):
            return back, parts[:start]
    return _clear_end(text)


def _clear_end(text: str) -> tuple[str, list[str]]:
    """Return the end of a note behind its last comma when only what stands before is unclear.

    Not when what stands before is what the end hangs on: "if it's wet, the board comes out".
    """
    head, comma, tail = text.rpartition(", ")
    if not comma or not _THING.match(tail) or not has_verb(tail) or unclear(tail):
        return "", [text]
    if not unclear(head) or _HANGS.search(head) or puts_right(head):
        return "", [text]
    return tail, [head]


#: A sentence that names its thing first.
_THING = re.compile(r"(?:the|an?|your|our|both|all)\s+\w+(?:\s|['’])\S*", re.IGNORECASE)
_HANGS = re.compile(
    r"\b(?:if|when|unless|until|till|once|before|after|because|since|where|so|and|but)\b", re.IGNORECASE
)


def is_empty(text: str, named: bool) -> bool:
    # "It is fine" is fine where it stands for the place it was typed under.
    return says_nothing(text) and not (named and re.search(r"\b(?:it|they)\b", text, re.IGNORECASE))
