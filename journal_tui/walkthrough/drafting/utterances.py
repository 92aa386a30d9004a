"""Words to utterances: stretches of talk that say one thing each.

Sentences are rebuilt across cue breaks. Where captions carry dependable punctuation it leads;
where they do not, talk is cut at the joints of speech, at pauses and where the speaker changes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.words import Word

#: Seconds of silence that end an utterance.
PAUSE = 0.9
#: Utterances longer than this many words are cut even where no joint is heard.
LONGEST = 40

_STOPS = ".?!;…"
_RULES = vocabulary.data("joints.toml")
_SUBJECTS = frozenset(_RULES["subjects"])
_JOINTS = frozenset(_RULES["joints"])
_OPENERS = frozenset(_RULES["openers"])
_VERBS = frozenset(_RULES["verbs"])
_CANNOT_END = frozenset(_RULES["cannot_end"])


@dataclass(frozen=True, slots=True)
class Utterance:
    """A stretch of talk by one speaker. ``opens`` is True at the head of a sentence."""

    words: tuple[Word, ...]
    opens: bool
    pause: float

    @property
    def start(self) -> float:
        """Seconds at which the first word begins."""
        return self.words[0].start

    @property
    def end(self) -> float:
        """Seconds at which the last word ends."""
        return self.words[-1].end

    @property
    def speaker(self) -> str | None:
        """Who says it, where the recording tells."""
        return self.words[0].speaker

    @property
    def keys(self) -> list[str]:
        """Look-up forms, hyphenated words taken apart."""
        return [part for word in self.words for part in word.key.split("-")]

    @property
    def said(self) -> str:
        """The words as captioned."""
        return " ".join(word.said + word.mark for word in self.words)


def punctuated(words: Sequence[Word]) -> bool:
    """True when the captions' full stops can be believed (a person's, or a careful machine's)."""
    stops = sum(any(c in _STOPS for c in w.mark) for w in words)
    if stops * 60 < len(words):
        return False
    small_i = sum(w.text == "i" for w in words)
    large_i = sum(w.text == "I" for w in words)
    odd = sum(w.key in _CANNOT_END and any(c in _STOPS for c in w.mark) for w in words)
    return small_i <= large_i and odd * 12 <= stops


def utterances_of(words: Sequence[Word]) -> list[Utterance]:
    """Return the talk cut into utterances, in order."""
    trusted = punctuated(words)
    found: list[Utterance] = []
    held: list[Word] = []
    opens, pause = True, 9.0
    for at, word in enumerate(words):
        held.append(word)
        following = words[at + 1] if at + 1 < len(words) else None
        if following is None:
            break
        gap = following.start - word.end
        full = _sentence_ends(word, following, gap, trusted)
        if full or _clause_ends(held, words, at, trusted):
            found.append(Utterance(tuple(held), opens, pause))
            held, opens, pause = [], full, gap
    if held:
        found.append(Utterance(tuple(held), opens, pause))
    return found


def _sentence_ends(word: Word, following: Word, gap: float, trusted: bool) -> bool:
    if word.speaker != following.speaker:
        return True
    if trusted and any(c in _STOPS for c in word.mark):
        return True
    return gap >= PAUSE and not (word.key in _CANNOT_END and gap < 2 * PAUSE)


def _clause_ends(held: list[Word], words: Sequence[Word], at: int, trusted: bool) -> bool:
    if len(held) >= LONGEST:
        return True
    if len(held) < 3 or held[-1].key in _CANNOT_END:
        return False
    ahead = [w.key for w in words[at + 1 : at + 4]]
    comma = trusted and ("," in held[-1].mark or "-" in held[-1].mark or ":" in held[-1].mark)
    if trusted and not comma:
        return False
    if not any(w.key in _VERBS or w.key.endswith(("ed", "ing")) for w in held) and not comma:
        return False
    first, second = ahead[0], ahead[1] if len(ahead) > 1 else ""
    if trusted:
        return first in _SUBJECTS or (first in _JOINTS and (second in _SUBJECTS or second in _JOINTS))
    if first in _OPENERS:
        return True
    if first in _JOINTS:
        return second in _SUBJECTS or second in _JOINTS
    return first in _SUBJECTS and first != "that" and (second in _VERBS or first.endswith(("re", "ll", "ve")))
