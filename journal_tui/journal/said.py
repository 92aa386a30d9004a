"""Finding the words a draft rests on in the captions they were said in."""

from __future__ import annotations

import re
from collections.abc import Sequence

from journal_tui.domain.text import folded

#: From and to (not included) in a caption's text, in characters.
Span = tuple[int, int]

#: A caption longer than this (a whole file without a line break) is only looked at where ``heard`` begins.
_LONG = 50_000
_WORD = re.compile(r"\S+")
_AROUND = "\"'“”‘’.,;:!?…()[]-–—"


def spans_heard(captions: Sequence[str], heard: str) -> list[tuple[Span, ...]]:
    """Return for each caption the stretches of it that ``heard`` is made of, words compared as spoken.

    ``heard`` may be several stretches, a line each, and may run over several captions; a stretch that
    is not found word for word in a row marks nothing.
    """
    words = [
        (at, match.span(), _spoken(match.group()))
        for at, caption in enumerate(captions)
        for match in _WORD.finditer(caption, *_looked_at(caption, heard))
    ]
    spoken = [(at, span, key) for at, span, key in words if key]
    keys = [key for _at, _span, key in spoken]
    found: list[list[Span]] = [[] for _ in captions]
    for stretch in heard.split("\n"):
        wanted = [key for word in stretch.split() if (key := _spoken(word))]
        first = _first(keys, wanted)
        for at, span, _key in spoken[first : first + len(wanted)] if first is not None else []:
            if found[at] and not captions[at][found[at][-1][1] : span[0]].strip(_AROUND + " \n\t"):
                found[at][-1] = (found[at][-1][0], span[1])
            else:
                found[at].append(span)
    return [tuple(spans) for spans in found]


def _looked_at(caption: str, heard: str) -> Span:
    if len(caption) <= _LONG:
        return 0, len(caption)
    start = max(0, caption.find(heard[:40]))
    return start, start + _LONG


def _spoken(word: str) -> str:
    return folded(word.strip(_AROUND))


def _first(keys: Sequence[str], wanted: Sequence[str]) -> int | None:
    """Return where ``wanted`` stands in ``keys`` for the first time, in a row."""
    if not wanted:
        return None
    for at in range(len(keys) - len(wanted) + 1):
        if keys[at] == wanted[0] and list(keys[at : at + len(wanted)]) == list(wanted):
            return at
    return None
