"""What a person should know of a recording before reading its drafts."""

from __future__ import annotations

from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.cleaning import trade_words
from journal_tui.walkthrough.drafting.words import Word, words_of

#: Of the words of English talk, at least this share are among the commonest or are words of the trade.
_ENGLISH_SHARE = 0.25


def looks_english(words: list[Word]) -> bool:
    """True when enough of ``words`` are among the commonest English words or words of the trade."""
    known = set(vocabulary.common_words()) | trade_words()
    return sum(w.key in known for w in words) >= _ENGLISH_SHARE * len(words)


def talk_notices(captions: Captions) -> tuple[str, ...]:
    """Return plain sentences about the talk itself: no words, not English, numbers only."""
    words = words_of(captions)
    if not words:
        return ("No words in this recording: nothing to draft from.",)
    if all(w.key.replace(".", "").replace("/", "").isdigit() for w in words):
        return ("Only numbers in this recording: nothing to draft from.",)
    if not looks_english(words):
        return ("This does not look like English: no drafts were made. Drafting knows English only.",)
    return ()
