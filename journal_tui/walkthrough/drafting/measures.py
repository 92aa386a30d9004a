"""Sizes, counts, dates and sums of money said in an entry, as said."""

from __future__ import annotations

import re

_UNITS = "zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\\w+teen"
_NUMBER = (
    rf"(?:\d[\d,]*(?:\.\d+)?(?:[ -]\d+/\d+)?|\d+/\d+|(?:{_UNITS}|\w+ty|half|quarter|hundred|thousand|"
    r"eighths?|sixteenths?)(?:[ -](?:and|a|an|half|quarters?|eighths?|sixteenths?|hundred|thousand|"
    rf"{_UNITS}))*)"
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
    r"\bthe (?:\w+teenth|\w+tieth|twenty-?\w+|first|second|third|\w+th)\b(?= |$)",
    re.IGNORECASE,
)


def measures_in(text: str) -> tuple[str, ...]:
    """Return the sizes, counts, dates and sums in ``text``, in order, each once, as written there."""
    return tuple(dict.fromkeys(m.group().strip() for m in _MEASURE.finditer(text)))
