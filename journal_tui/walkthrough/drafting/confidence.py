"""What is said in confidence, and how far the confidence reaches.

"And between us, ..." is seldom the sentence that tells; it reaches from the words just before it to
the two sentences of that speaker after it.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import first_audience
from journal_tui.domain.secrecy import in_confidence
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Sentences of the speaker, after the one that asks for confidence, that are told in confidence too.
SENTENCES_AFTER = 2
#: Utterances looked at on either side of an entry for a word of confidence.
_FAR = 8


def private_near(utterances: Sequence[Utterance], first: int, last: int) -> frozenset[int]:
    """Return which utterances from a little before ``first`` to just after ``last`` are private: for a
    code, a sum of money, or said in confidence."""
    begin, end = max(0, first - _FAR), min(len(utterances), last + 1 + _FAR)
    private = {at for at in range(begin, end) if _is_private(utterances[at].said)}
    for at in range(begin, end):
        if _asks(utterances, at):
            private.update(_reach(utterances, at))
    return frozenset(private)


def audience_of(utterances: Sequence[Utterance], first: int, last: int) -> Audience:
    """Return who may read an entry resting on utterances ``first`` to ``last``, as first guessed."""
    said = " ".join(utterance.said for utterance in utterances[first : last + 1])
    if not private_near(utterances, first, last).isdisjoint(range(first, last + 1)):
        return Audience.PRIVATE
    return first_audience(said).audience


@lru_cache(4096)
def _is_private(said: str) -> bool:
    return first_audience(said).audience is Audience.PRIVATE


def _asks(utterances: Sequence[Utterance], at: int) -> bool:
    """True when utterance ``at`` asks for confidence, by itself or running on into the next."""
    said = utterances[at].said
    if _confides(said):
        return True
    after = utterances[at + 1] if at + 1 < len(utterances) else None
    if after is None or after.speaker != utterances[at].speaker:
        return False
    return _confides(f"{said} {after.said}") and not _confides(after.said)


@lru_cache(4096)
def _confides(said: str) -> bool:
    return in_confidence(said)


def _reach(utterances: Sequence[Utterance], at: int) -> set[int]:
    speaker = utterances[at].speaker
    reached = {at}
    if at and utterances[at - 1].speaker == speaker:
        reached.add(at - 1)
    begun = 0
    for number in range(at + 1, min(len(utterances), at + _FAR - 1)):
        if utterances[number].speaker != speaker:
            continue
        begun += utterances[number].opens
        if begun > SENTENCES_AFTER:
            break
        reached.add(number)
    return reached
