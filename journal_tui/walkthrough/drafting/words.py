"""Cues to words: each word with its time, its speaker and the mark that follows it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from journal_tui.domain.recording import Captions

_TOKEN = re.compile(r"[^\s]+")
_CORE = re.compile(r"[^\W_]+(?:[./'’\-][^\W_]+)*")
_CUE_SIGN = re.compile(r"\[[^\]]*\]|\([^)]*\)|[♪♫]+[^♪♫]*[♪♫]*")
_SPOKEN_BY = re.compile(r"^\s*(?:-\s+|>>\s*|([A-Z][\w.' ]{0,20}):\s+)")


@dataclass(frozen=True, slots=True)
class Word:
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


def _timed(text: str, start: float, end: float, number: int, speaker: str | None) -> list[Word]:
    tokens = [(m.group(), _CORE.search(m.group())) for m in _TOKEN.finditer(text)]
    kept = [(token, core) for token, core in tokens if core]
    weights = [len(core.group()) + 2 for _token, core in kept if core]
    total = sum(weights) or 1
    span = max(0.0, end - start)
    out: list[Word] = []
    at = 0
    for (token, core), weight in zip(kept, weights, strict=True):
        assert core is not None
        shown = core.group()
        before = token[: core.start()]
        if before.endswith("$"):
            shown = "$" + shown
        mark = token[core.end() :]
        out.append(
            Word(
                text=shown,
                key=key_of(core.group()),
                mark=mark,
                start=start + span * at / total,
                end=start + span * (at + weight) / total,
                cue=number,
                speaker=speaker,
            )
        )
        at += weight
    return out
