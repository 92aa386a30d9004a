"""What is said in confidence, and how far the confidence reaches.

"And between us, ..." is seldom the sentence that tells; it reaches from the words just before it to
the two sentences of that speaker after it.
"""

from __future__ import annotations

from collections.abc import Container, Sequence

from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import first_audience
from journal_tui.domain.secrecy import Texts, in_confidence, may_be_in_confidence, private_among
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Sentences of the speaker, after the one that asks for confidence, that are told in confidence too.
SENTENCES_AFTER = 2
#: Utterances after the one that asks for confidence in which those sentences are looked for.
_FAR = 8


def private_in(utterances: Sequence[Utterance]) -> frozenset[int]:
    """Return which utterances are private: for a code, a sum of money, or said in confidence."""
    said = [utterance.said for utterance in utterances]
    texts = Texts(said)
    private = private_among(texts)
    may = may_be_in_confidence(texts)
    confides = {at for at in may if in_confidence(said[at])}
    for at in sorted({near for number in may for near in (number - 1, number) if near >= 0}):
        if at in confides or _runs_on_asking(utterances, at, confides):
            private.update(_reach(utterances, at))
    return frozenset(private)


def audience_of(utterances: Sequence[Utterance], first: int, last: int, private: frozenset[int]) -> Audience:
    """Return who may read an entry resting on utterances ``first`` to ``last``, as first guessed;
    ``private`` are those of the talk that are."""
    said = " ".join(utterance.said for utterance in utterances[first : last + 1])
    if not private.isdisjoint(range(first, last + 1)):
        return Audience.PRIVATE
    return first_audience(said).audience if last > first else Audience.CLIENT


def _runs_on_asking(utterances: Sequence[Utterance], at: int, confides: Container[int]) -> bool:
    """True when utterance ``at`` asks for confidence running on into the next, which does not by itself."""
    one, after = utterances[at], utterances[at + 1] if at + 1 < len(utterances) else None
    if after is None or after.speaker != one.speaker or at + 1 in confides:
        return False
    return in_confidence(f"{one.said} {after.said}")


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
