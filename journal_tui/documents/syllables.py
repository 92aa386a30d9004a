"""Counting the syllables of English words: groups of vowels, corrected by rule, with exceptions."""

from __future__ import annotations

import re
from functools import cache

from journal_tui.documents.wording import data_table

_PARTS = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|[\d][\d.,/]*")
_VOWELS = re.compile(r"[aeiouy]+")
#: Letters written and not heard: an e at the end (but "table", "acre"), in -ed (but "needed"), in -es (but
#: "boxes") and before a common ending; the u of "guess" and "quite".
_MUTE = re.compile(
    r"(?<=[gq])ue(?=s?$)|(?<=[^aeiouy])e$(?<![^aeiouylr]le)(?<![^aeiouylr]re)"
    r"|(?<=[^aeioutdy])ed$(?<![^aeiouylr]led)|(?<=[aeiouy]y)ed$"
    r"|(?<=[^aeiouyszxcg])es$(?<![^aeiouylr]les)(?<![cs]hes)"
    r"|(?:(?<=[aeiouy][^aeiouy])|(?<=[aeiouy][^aeiouy]{2}))(?<![^aeiouylr]l)e"
    r"(?=(?:ly|ful|fully|less|ness|where|thing|times?|work|place|line|room)$)"
    r"|(?<=\w\w[^aeiouyl])e(?=ments?$)|(?<=ic)a(?=lly$)"
    r"|(?<=[gq])u(?=[aeiouy])|(?<=^som)e(?=\w)"
)
#: Vowels side by side that are said apart, as in "area", "client" or "drying".
_APART = re.compile(
    r"(?<![tscgxln])i(?:a(?!ge)|o(?!us?n)|um?$|us)|(?<=l)ia(?!r|n(?!c))|(?<=n)ia|(?<=[ln])i(?:um|us|o(?!n))"
    r"|[ck]i(?:a(?=t)|o(?=l))|(?<=[tsc])i(?=ate|ati|o$)"
    r"|(?<=[bdlprtv])ie(?=nt|nc|s?t$)|ie(?=ty)|(?<=[bdflprtvs])ie(?=rs?$)|(?<=[lr])ie(?=t)|(?<=qu)ie(?=t)"
    r"|(?<=cr)ea(?=t)|(?<=[rd])ea(?=s?$)|eo(?=[lmnr])|[aou]i?(?=ing)|[eiuy]ing|oe(?=[tm])"
    r"|(?<=[^gq])u(?:a|ou)|(?<=[^gqb])ui(?=t[iy])|[aeo]y(?=[aeo])|[uo]e(?=[lt]$)|sms?$|thms?$"
)


def syllables_in(word: str) -> int:
    """Return how many syllables ``word`` has: at least 1; a number or an abbreviation in capitals is 1,
    the parts of a compound add up.
    """
    return sum(1 if _spelled(part) else _part(part.casefold()) for part in _PARTS.findall(word)) or 1


def _spelled(part: str) -> bool:
    return 1 < len(part) < 6 and part.isupper()


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
    if re.search(r"[^aeiouyrl]n't$", plain):  # "doesn't", "couldn't"
        return _part(plain.removesuffix("n't")) + 1
    plain = re.sub(r"'s$", "es" if re.search(r"(?:[sxz]|[cs]h|[cg]e)'s$", plain) else "s", plain)
    plain = plain.replace("'", "")
    heard = _MUTE.sub("", plain)
    return max(1, len(_VOWELS.findall(heard)) + len(_APART.findall(heard)))
