"""Phase and area of an entry: what it names, else what was in hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.domain.draft import JobWords, OwnWord
from journal_tui.domain.kinds import OTHER_PHASE, WHOLE_ROOM
from journal_tui.walkthrough.drafting import vocabulary


@dataclass(frozen=True, slots=True)
class Place:
    """Where an entry belongs, and the words that say so."""

    phase: str
    area: str
    phase_words: tuple[str, ...]
    learned: tuple[str, ...]


def area_named(keys: Sequence[str], words: JobWords) -> str | None:
    """Return the area ``keys`` name, the longest name first; the job's own areas before all."""
    own = vocabulary.Phrases({area: [area] for area in words.areas}, singulars=True)
    for table in (own, vocabulary.areas()):
        spans = table.longest(keys)
        if spans:
            return max(spans, key=lambda s: (s[1] - s[0], -s[0]))[2]
    return None


def own_words_in(keys: Sequence[str], words: JobWords) -> list[OwnWord]:
    """Return the person's own learned words found in ``keys``."""
    return [own for own in words.own if any(True for _ in vocabulary.Phrases({"": [own.phrase]}).found(keys))]


def place_of(keys: Sequence[str], in_hand: str | None, words: JobWords) -> Place:
    """Return phase and area of an entry that says ``keys`` while ``in_hand`` was the area last named."""
    area = area_named(keys, words) or in_hand or WHOLE_ROOM
    scores: dict[str, float] = {}
    named: dict[str, list[str]] = {}
    spans = vocabulary.things().longest(keys)
    begins = {start for start, _end, _phase in spans}
    for start, end, phase in spans:
        # In "vanity drain" the drain is the thing, the vanity only says which.
        weight = 0.4 if end in begins else 1.0
        scores[phase] = scores.get(phase, 0.0) + weight * (end - start)
        named.setdefault(phase, []).append(" ".join(keys[start:end]))
    phase = max(scores, key=lambda p: scores[p]) if scores else OTHER_PHASE
    because = tuple(dict.fromkeys(named.get(phase, [])))
    learned = own_words_in(keys, words)
    for own in learned:
        area = own.area or area
        if own.phase:
            phase, because = own.phase, (own.phrase,)
    return Place(phase, area, because, tuple(own.phrase for own in learned))
