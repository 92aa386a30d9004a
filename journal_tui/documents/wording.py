"""The fixed words of documents, read once from the data files beside this module."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any

from journal_tui.domain.text import one_line

#: English whatever the machine's language is set to: the same facts must make the same bytes.
DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"]
MONTHS = ["January", "February", "March", "April", "May", "June"]
MONTHS += ["July", "August", "September", "October", "November", "December"]


def data_text(name: str) -> str:
    """Return the text of the data file ``name`` of this package."""
    return resources.files("journal_tui.documents").joinpath("data", name).read_text(encoding="utf-8")


@cache
def data_table(name: str) -> dict[str, Any]:
    """Return the TOML data file ``name`` of this package, read once."""
    return tomllib.loads(data_text(name))


@cache
def given_names() -> tuple[str, ...]:
    """Return given names that a client document never prints."""
    return tuple(line for line in data_text("given_names.txt").splitlines() if not line.startswith("#"))


def said(key: str, **values: str) -> str:
    """Return the fixed sentence ``key`` of an update with its blanks filled in."""
    sentence: str = data_table("wording.toml")["sentences"][key]
    return sentence.format(**values)


def heading(key: str) -> str:
    """Return the heading of the section ``key`` of an update."""
    words: str = data_table("wording.toml")["headings"][key]
    return words


def plain_phase(phase: str) -> str:
    """Return a phase of work in the home owner's words; one not in the data keeps its own name."""
    known: dict[str, str] = data_table("wording.toml")["phases"]
    return known.get(phase.strip().casefold(), capital(one_line(phase)))


def capital(text: str) -> str:
    """Return ``text`` with a capital first letter, if its first word is all small letters."""
    word = text.split(" ", 1)[0].rstrip(".,:;!?")
    first = text[:1].upper()
    if len(first) == 1 and word.islower() and word[:1].isalpha():
        return first + text[1:]
    return text


def sentence(text: str) -> str:
    """Return a note's words as a sentence: a capital in front and a full stop behind, no more."""
    line = capital(one_line(text))
    ends_open = line and (line[-1].isalnum() or line[-1] in ")]%\"'”’°")
    ended = line.rstrip(")]\"'”’")[-1:] in (".", "!", "?")
    return line + "." if ends_open and not ended else line


def plain_day(day: dt.date, today: dt.date) -> str:
    """Return a date as ``March 6``, with its year when that is not ``today``'s."""
    year = "" if day.year == today.year else f", {day.year}"
    return f"{MONTHS[day.month - 1]} {day.day}{year}"


def week_day(day: dt.date, today: dt.date) -> str:
    """Return a date as ``Friday, March 6``, with its year when that is not ``today``'s."""
    return f"{DAYS[day.weekday()]}, {plain_day(day, today)}"


def full_day(day: dt.date) -> str:
    """Return a date as ``Tuesday, March 17, 2026``."""
    return f"{DAYS[day.weekday()]}, {MONTHS[day.month - 1]} {day.day}, {day.year}"


def listed(parts: Sequence[str]) -> str:
    """Return ``parts`` as said in a sentence: ``a, b and c``."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"
