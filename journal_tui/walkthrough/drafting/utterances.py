"""Words to utterances: stretches of talk that say one thing each.

Sentences are rebuilt across cue breaks. Where captions carry dependable punctuation it leads;
where they do not, talk is cut at pauses, where the speaker changes, and where a small linear
model (learned from punctuated talk) hears a joint. A run of very short sentences, the talk of
someone terse, is taken together line by line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from journal_tui.walkthrough.drafting.boundaries import (
    CANNOT_END,
    JOINTS,
    NEVER_LAST,
    SUBJECTS,
    Pulls,
    pulls_of,
    says_again,
)
from journal_tui.walkthrough.drafting.linear import Linear
from journal_tui.walkthrough.drafting.words import Word

#: Seconds of silence that end an utterance.
PAUSE = 0.9
#: Utterances longer than this many words are cut again at their likeliest joint.
LONG = 12
#: ... and longer than this many are cut wherever they stand.
LONGEST = 40
#: Median words a sentence at or under which talk is terse, and how far terse sentences are joined.
TERSE, TERSE_JOINED = 4, 5

_STOPS = ".?!;…"


@dataclass(frozen=True, slots=True)
class Utterance:
    """A stretch of talk by one speaker. ``opens`` is True at the head of a sentence; ``pause`` is the
    silence before it in seconds. ``keys`` are its words' look-up forms, hyphenated words taken apart,
    and ``said`` the words as captioned."""

    words: tuple[Word, ...]
    opens: bool
    pause: float
    keys: tuple[str, ...] = field(init=False, repr=False, compare=False)
    said: str = field(init=False, repr=False, compare=False)

    def __hash__(self) -> int:
        # Quicker than by all that is known of every word, and no more often the same.
        return hash((self.said, self.start))

    def __post_init__(self) -> None:
        keys = tuple(part for word in self.words for part in word.key.split("-"))
        object.__setattr__(self, "keys", keys)
        object.__setattr__(self, "said", " ".join([word.said + word.mark for word in self.words]))

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


def punctuated(words: Sequence[Word]) -> bool:
    """True when the captions' full stops can be believed (a person's, or a careful machine's)."""
    stops = sum(_stop(w) for w in words if w.mark)
    if stops * 60 < len(words):
        return False
    said_i = [w.text for w in words if w.key == "i"]
    small_i, large_i = said_i.count("i"), said_i.count("I")
    odd = sum(w.key in NEVER_LAST and _stop(w) for w in words if w.mark)
    return small_i <= large_i and odd * 12 <= stops


def utterances_of(words: Sequence[Word], model: Linear) -> list[Utterance]:
    """Return the talk cut into utterances, in order. ``model`` weighs the joints of unpunctuated talk."""
    if not words:
        return []
    if punctuated(words):
        return _terse_joined(_by_marks(words))
    return _by_joints(words, model)


def _stop(word: Word) -> bool:
    return bool(word.mark) and any(c in _STOPS for c in word.mark)


def _ends(words: Sequence[Word], at: int) -> bool:
    """True where the speaker changes or falls silent after word ``at``."""
    word, following = words[at], words[at + 1]
    if word.speaker != following.speaker:
        return True
    silence = following.start - word.end
    return silence >= PAUSE and not (word.key in CANNOT_END and silence < 2 * PAUSE)


def _by_marks(words: Sequence[Word]) -> list[Utterance]:
    found: list[Utterance] = []
    first, opens, pause = 0, True, 10 * PAUSE
    for at in range(len(words) - 1):
        full = _stop(words[at]) or _ends(words, at)
        if full or _comma_cuts(words, first, at):
            found.append(Utterance(tuple(words[first : at + 1]), opens, pause))
            first, opens, pause = at + 1, full, words[at + 1].start - words[at].end
    found.append(Utterance(tuple(words[first:]), opens, pause))
    return found


def _comma_cuts(words: Sequence[Word], first: int, at: int) -> bool:
    size = at + 1 - first
    if size >= LONGEST:
        return True
    if size < 3 or words[at].key in CANNOT_END or not any(c in ",:-–—" for c in words[at].mark):
        return False
    return words[at + 1].key in SUBJECTS or words[at + 1].key in JOINTS


def _terse_joined(utterances: list[Utterance]) -> list[Utterance]:
    sizes = sorted(len(u.words) for u in utterances)
    if sizes[len(sizes) // 2] > TERSE:
        return utterances
    joined: list[Utterance] = []
    for utterance in utterances:
        held = joined[-1] if joined else None
        if (
            held is not None
            and held.words[-1].cue == utterance.words[0].cue
            and held.speaker == utterance.speaker
            and len(held.words) < TERSE_JOINED
            and len(utterance.words) <= TERSE
        ):
            joined[-1] = Utterance(held.words + utterance.words, held.opens, held.pause)
        else:
            joined.append(utterance)
    return joined


def _by_joints(words: Sequence[Word], model: Linear) -> list[Utterance]:
    found: list[Utterance] = []
    weighed = pulls_of(model)
    first = 0
    for at in range(len(words)):
        if at + 1 < len(words) and not _ends(words, at) and at + 1 - first < 40 * LONGEST:
            continue
        pull = _pulls(words, first, at, weighed)
        for a, b in _pieces(first, at, pull):
            opens = a == first or pull[a - 1] > SURE
            pause = words[a].start - words[a - 1].end if a else 10 * PAUSE
            found.append(Utterance(tuple(words[a : b + 1]), opens, pause))
        first = at + 1
    return found


#: How far towards "cut" the model must lean: to cut as it hears it, to count as a sentence's
#: head, and at least for cutting a long stretch again. In the weights' own units.
LEANS, SURE, FAINT = -40, 60, -100


def _pulls(words: Sequence[Word], first: int, last: int, weighed: Pulls) -> dict[int, int]:
    """Return how strongly each gap inside ``first``..``last`` pulls towards being cut."""
    pulls: dict[int, int] = {}
    since = 1
    for at in range(first, last):
        if says_again(words, at + 1):
            pulls[at] = SURE + 1
        else:
            pulls[at] = weighed.of(words, at, since)
        since = 1 if pulls[at] > LEANS else since + 1
    return pulls


def _pieces(first: int, last: int, pulls: dict[int, int]) -> Iterator[tuple[int, int]]:
    begin = first
    for at in range(first, last + 1):
        if at == last or pulls[at] > LEANS:
            yield from _recut(begin, at, pulls)
            begin = at + 1


def _recut(first: int, last: int, pulls: dict[int, int]) -> Iterator[tuple[int, int]]:
    pending = [(first, last)]
    while pending:
        a, b = pending.pop()
        inside = range(a + 2, b - 2)
        at = max(inside, key=lambda g: pulls[g], default=None) if b - a + 1 > LONG else None
        if at is not None and (pulls[at] > FAINT or b - a + 1 > LONGEST):
            pending += [(at + 1, b), (a, at)]
        else:
            yield a, b
