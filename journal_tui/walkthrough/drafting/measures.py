"""Sizes, counts, dates and sums of money said in an entry, as said."""

from __future__ import annotations

import re

from journal_tui.domain.text import plain_letters

_UNITS = "zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\\w+teen"
_NUMBER = (
    rf"(?:\d[\d,]*(?:\.\d+)?(?:[ -]\d+/\d+)?|\d+/\d+|(?:{_UNITS}|\w+ty|half|quarter|hundred|thousand|"
    r"eighths?|sixteenths?)(?:[ -](?:and|a|an|half|quarters?|eighths?|sixteenths?|hundred|thousand|"
    rf"{_UNITS}))*)"
)
#: The ordinals by which a day of the month is named.
_NTH = (
    r"first|second|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|twelfth|\w{3,5}teenth|"
    r"twentieth|thirtieth"
)
_UNIT = (
    r"(?:inch(?:es)?|foot|feet|footers?|yards?|square feet|square foot|percent|degrees?|pounds?|psi|gallons?|"
    r"amps?|volts?|hours?|days?|weeks?|months?|dollars?|bucks|grand|sheets?|bags?|boxes|pieces?|tiles?|"
    r"gauge|grit|on center)"
)
_MEASURE = re.compile(
    rf"\b(?:{_NUMBER}[ -]and[ -])?(?:{_UNITS})[ -](?:quarters?|eighths?|sixteenths?)(?: of an inch| inch)?\b|"
    rf"\$\d[\d,]*(?:\.\d\d)?|\b{_NUMBER}(?:[ -](?:an? )?{_UNIT})+\b|\b\d+(?:[ -]\d+)?/\d+\b|"
    r"\b(?:mon|tues|wednes|thurs|fri|satur|sun)day\b|\b(?:today|tonight|tomorrow)\b|"
    rf"\bthe (?:(?:twenty|thirty)[ -](?:{_NTH})|{_NTH}|[0-9]?(?:1st|2nd|3rd|[0-9]th))\b(?![ ]\d)",
    re.IGNORECASE,
)
#: Letters of which every text with a measure has some: quicker to look for than the pattern.
_LETTERS = (
    "quarter eighth sixteenth $ / inch foot feet yard percent degree pound psi gallon amp volt hour day week "
    "month dollar buck grand sheet bag box piece tile gauge grit center tonight tomorrow first second third "
    "rth fth xth nth hth ieth 1st 2nd 3rd 0th 1th 2th 3th 4th 5th 6th 7th 8th 9th"
).split()


def measures_in(text: str) -> tuple[str, ...]:
    """Return the sizes, counts, dates and sums in ``text``, in order, each once, as written there."""
    folded = plain_letters(text)
    if not any(letters in folded for letters in _LETTERS):
        return ()
    return tuple(dict.fromkeys(m.group().strip() for m in _MEASURE.finditer(text)))
