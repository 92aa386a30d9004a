"""Groups of words that mean much the same on a job: the likeness that lets one word stand for another."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.vocabulary import singular

_VOWELS = "aeiou"


@lru_cache(16384)
def senses_of(key: str) -> tuple[str, ...]:
    """Return the names of the groups a word's look-up form belongs to, sorted; none for most words."""
    groups = _groups()
    return groups.get(key) or groups.get(singular(key), ())


def senses_in(keys: Sequence[str]) -> list[str]:
    """Return the names of all groups with a word among ``keys``, each once, sorted."""
    return sorted({name for key in keys for name in senses_of(key)})


@cache
def _groups() -> dict[str, tuple[str, ...]]:
    found: dict[str, set[str]] = {}
    for name, listed in vocabulary.data("senses.toml")["senses"].items():
        for word in listed:
            for form in forms(word.replace("-", "")):
                found.setdefault(form, set()).add(name)
    return {form: tuple(sorted(names)) for form, names in found.items()}


def forms(word: str) -> set[str]:
    """Return a word with every ending it could take as a regular verb or noun, some of them no words."""
    found = {word, word + "s", word + "es", singular(word)}
    if word.endswith("e"):
        return found | {word + "d", word[:-1] + "ing"}
    if word.endswith("y") and word[-2:-1] not in _VOWELS:
        return found | {word[:-1] + "ied", word[:-1] + "ies", word + "ing"}
    found |= {word + "ed", word + "ing"}
    if len(word) > 2 and word[-1] not in _VOWELS + "wxy" and word[-2] in _VOWELS and word[-3] not in _VOWELS:
        found |= {word + word[-1] + "ed", word + word[-1] + "ing"}
    return found
