"""Area of an entry: what it names, else what was in hand; and the person's own words for places."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.draft import JobWords, OwnWord
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.things import is_aside


def areas_named(keys: Sequence[str], words: JobWords) -> list[tuple[str, bool]]:
    """Return the areas ``keys`` name with whether each leads its clause, the job's own names first
    found; a name inside a longer one is left out."""
    spans = vocabulary.areas().longest(keys)
    if words.areas:
        own = vocabulary.Phrases({area: [area] for area in words.areas}, singulars=True)
        spans = [*own.longest(keys), *spans]
    taken: set[int] = set()
    found: list[tuple[int, str, bool]] = []
    for start, end, area in sorted(spans, key=lambda s: s[0] - s[1]):
        if taken.isdisjoint(range(start, end)):
            taken.update(range(start, end))
            found.append((start, area, not is_aside(keys, start)))
    return [(area, leads) for _start, area, leads in sorted(found)]


def area_of(keys: Sequence[str], words: JobWords) -> str | None:
    """Return the area ``keys`` are about: the first that leads, else the first named, else None."""
    named = areas_named(keys, words)
    return next((area for area, leads in named if leads), named[0][0] if named else None)


def own_words_in(keys: Sequence[str], words: JobWords) -> list[OwnWord]:
    """Return the person's own learned words found in ``keys``."""
    return [
        own
        for own in words.own
        if any(True for _ in vocabulary.Phrases({"": [own.phrase]}, singulars=True).found(keys))
    ]
