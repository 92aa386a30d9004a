"""Counting the syllables of English words by rule, with a list of exceptions."""

from __future__ import annotations

import re
from functools import cache

from journal_tui.documents.wording import data_table

_PARTS = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|[\d][\d.,/]*")
_VOWELS = re.compile(r"[aeiouy]+")
#: An e that is not heard: at the end (not after l and a consonant), in -ed not after t or d, in -es not
#: after a hiss, and before -ly, -ful, -less, -ness, -ment.
_MUTE = re.compile(
    r"(?<=[^aeiouy])e$(?<![bcdfgkpstz]le)|(?<=[^aeioutdy])ed$(?<![bcdfgkptz]led$)|"
    r"(?<=[^aeiouylszxcg])es$|(?<=[aeiouy]l)es$|"
    r"(?<=[aeiouy][bcdfgklmnprstvz])e(?=(?:ly|ful|less|ness|ment|ments|where)$)"
)
#: Two vowels side by side that are said apart.
_APART = re.compile(
    r"i[aou](?!u?s$|n$|l$|t)|[^tscgx]ia[nl]|ea[tc]e|eo(?!u)|[aeou]ing|u[ae](?=[tln])|[aeou]y[aeo]"
)


def syllables_in(word: str) -> int:
    """Return how many syllables ``word`` has: at least 1; a number is 1, parts of a compound add up."""
    return sum(_part(part.casefold()) for part in _PARTS.findall(word)) or 1


@cache
def _exceptions() -> dict[str, int]:
    table: dict[str, int] = data_table("syllables.toml")["counts"]
    return table


@cache
def abbreviations() -> frozenset[str]:
    """Return the words, small and without their full stop, that end in one without ending a sentence."""
    return frozenset(data_table("syllables.toml")["abbreviations"])


@cache
def _part(word: str) -> int:
    if not word[0].isalpha():
        return 1
    plain = word.replace("’", "'")
    known = _exceptions()
    for form in (plain, plain.removesuffix("'s"), plain.removesuffix("s")):
        if form in known:
            return known[form]
    plain = plain.replace("'", "")
    if not _VOWELS.search(plain):
        return 1
    heard = _MUTE.sub("", plain)
    return max(1, len(_VOWELS.findall(heard)) + len(_APART.findall(heard)))
