"""Cues to words: each word with its time, its speaker and the mark that follows it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from journal_tui.domain.recording import Captions

_CORE = re.compile(r"[^\W_]+(?:[./'’\-][^\W_]+)*")
_CUE_SIGN = re.compile(r"\[[^\]]*\]|\([^)]*\)|[♪♫]+[^♪♫]*[♪♫]*")
#: Abbreviations whose full stop ends no sentence (common practice, no source): titles before a name,
#: measures after a number, "No." before one.
_TITLES = frozenset(["mr", "mrs", "ms", "dr", "approx", "st"])
_MEASURES = frozenset(["in", "ft", "yd", "sq", "lb", "lbs", "oz", "gal", "ga", "min", "hr"])
_SPOKEN_BY = re.compile(r"^\s*(?:-\s+|>>\s*|([A-Z][\w.' ]{0,20}):\s+)")


class Word(NamedTuple):
    """One word said. ``key`` is its plain form for looking up (lower case, no apostrophe);
    ``text`` is as captioned, ``mark`` the punctuation after it; times are seconds."""

    text: str
    key: str
    mark: str
    start: float
    end: float
    cue: int
    speaker: str | None
    heard: str = ""

    @property
    def said(self) -> str:
        """The word as captioned, before any repair."""
        return self.heard or self.text


def key_of(text: str) -> str:
    """Return a word's look-up form: compatibility letters, lower case, apostrophes gone."""
    plain = unicodedata.normalize("NFKC", text).casefold()
    return plain.replace("'", "").replace("’", "")


def words_of(captions: Captions) -> list[Word]:
    """Return all words of a recording in order; a cue's time is shared out by length of word.

    Sound signs (``[music]``, notes) are no words. A dash or a name and colon at the head of a
    line is a change of speaker, where the file itself names none.
    """
    found: list[Word] = []
    for number, cue in enumerate(captions.cues):
        text = _CUE_SIGN.sub(lambda m: " " * len(m.group()), cue.text)
        speaker = cue.speaker
        told = _SPOKEN_BY.match(text)
        if speaker is None and told:
            speaker = told.group(1)
            text = " " * told.end() + text[told.end() :]
        found.extend(_timed(text, cue.start, cue.end, number, speaker))
    return found


def words_in(line: str) -> list[Word]:
    """Return the words of a line of text by itself, at no time and of no speaker."""
    return _timed(line, 0.0, 0.0, 0, None)


@lru_cache(16384)
def _parts(token: str) -> tuple[str, str, str, str] | None:
    """Return what stands before a token's word, the word, the marks after it and its look-up form; None
    when there is no word in it."""
    core = _CORE.search(token)
    if core is None:
        return None
    return token[: core.start()], core.group(), token[core.end() :], key_of(core.group())


def _timed(text: str, start: float, end: float, number: int, speaker: str | None) -> list[Word]:
    kept = [parts for parts in map(_parts, text.split()) if parts]
    cores = [core for _before, core, _mark, _key in kept]
    total = sum(len(core) + 2 for core in cores) or 1
    span = max(0.0, end - start)
    out: list[Word] = []
    at = 0
    for number_in, (before, shown, mark, key) in enumerate(kept):
        weight = len(shown) + 2
        if before.endswith("$"):
            shown = "$" + shown
        if mark.startswith(".") and _is_short(cores, number_in):
            shown, mark = shown + ".", mark[1:]
        begins, stops = start + span * at / total, start + span * (at + weight) / total
        out.append(Word(shown, key, mark, begins, stops, number, speaker))
        at += weight
    return out


def _is_short(words: Sequence[str], at: int) -> bool:
    """True when the full stop after word ``at`` belongs to it: "Mrs. Pell", "3 in. left", "No. 2"."""
    key = words[at].casefold()
    before = words[at - 1] if at else ""
    after = words[at + 1] if at + 1 < len(words) else ""
    if key in _MEASURES:
        return before[:1].isdigit() and not after[:1].isupper()
    if key == "no":
        return after[:1].isdigit() and words[at][:1].isupper()
    if key == "st":
        # "St. Clair" is a saint, "Elm St. The" a street.
        return after[:1].isupper() != before[:1].isupper()
    return key in _TITLES and bool(after)
