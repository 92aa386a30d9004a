"""What a letter asks of its reader: each request clear by itself, and none for a day that is over.

A request whose day has passed is made anew without it; where it was made for that day only (be here on
Thursday, nothing heavy until Friday) there is nothing left to ask.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from journal_tui.documents.matching import one_of
from journal_tui.documents.news import unclear
from journal_tui.documents.sentences import parts_of, sentences
from journal_tui.documents.voice import as_request
from journal_tui.documents.wording import DAYS, MONTHS, data_table, said, sentence, week_day
from journal_tui.domain.text import one_line

_ORDINALS = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth "
    "fifteenth sixteenth seventeenth eighteenth nineteenth twentieth"
).split()
_ORDINALS += [f"twenty-{word}" for word in _ORDINALS[:9]] + ["thirtieth", "thirty-first"]
#: A month said long before the day it was said on is that of the next year.
_LONG_BEFORE = 60


@dataclass(frozen=True, slots=True)
class Ask:
    """A request in the words it is made in: ``lines``, none when it asks for nothing (any more).

    ``asked_by`` is the day, now over, by which it was asked for; ``over`` are parts of the note whose day
    is gone; ``quoted`` when no rule makes a clear request of it.
    """

    lines: tuple[str, ...] = ()
    asked_by: dt.date | None = None
    over: tuple[str, ...] = ()
    quoted: bool = False


NO_ASK = Ask()


@dataclass(frozen=True, slots=True)
class _Rules:
    day: re.Pattern[str]
    appointment: re.Pattern[str]
    asks: re.Pattern[str]
    owed: re.Pattern[str]
    answers: re.Pattern[str]
    bare: re.Pattern[str]
    named_client: re.Pattern[str]


@cache
def _rules() -> _Rules:
    data = data_table("voice.toml")["asking"]
    lead = rf"(?P<lead>{one_of(data['deadlines'])}|{one_of(data['until'])}|on|for|this|next)"
    named = rf"(?:{one_of(DAYS)},? )?{one_of(MONTHS)} \d{{1,2}}(?:, \d{{4}})?"
    numbered = rf"(?:{one_of(DAYS)},? )?the (?P<nth>{one_of(_ORDINALS)}|\d{{1,2}}(?:st|nd|rd|th))"
    ends = r"(?=\s*(?:[,;.?!]|$|(?:so|and|or|to|because)\b))"

    def pattern(text: str) -> re.Pattern[str]:
        return re.compile(text, re.IGNORECASE)

    return _Rules(
        day=pattern(
            rf",?\s*\b(?:{lead} )?(?:{named}(?!\w)|(?<=[a-z] ){numbered}{ends}|{one_of(DAYS)}\b(?!,? the\b))"
        ),
        appointment=pattern(rf"\b{one_of(data['appointments'])}\b"),
        asks=pattern(r"^(?:please|we(?: still)? need)\b"),
        owed=pattern(r"^please let us know about "),
        answers=pattern(rf"\b(?:{one_of(data['answers'])}|or|{one_of(data['tell'])})\b"),
        bare=pattern(r"^(?:please )?(?:let|tell) us(?: know)?[.?]?$"),
        named_client=pattern(rf"^you(?:['’]s| has| needs| is| owes)\b.*\b{one_of(data['asked_of'])}\b"),
    )


def asks_reader(text: str) -> bool:
    """True when a note says of the client by name what they have to tell or choose.

    "You has to pick" had a name where "you" stands: a helper who is spoken to "has" nothing.
    """
    return _rules().named_client.search(one_line(text)) is not None


def ask_in(text: str, said_on: dt.date, today: dt.date, *, named: bool = False) -> Ask:
    """Return what a note of ``said_on``, already in a letter's words, asks of its reader ``today``.

    ``named`` when its "it" is the thing its place names (see ``news.unclear``).
    """
    kept: list[str] = []
    over: list[str] = []
    asked_by: dt.date | None = None
    asks = False
    for part in parts_of(text):
        left, by = _without_past(part, said_on, today)
        if left is None:
            over.append(part)
            continue
        asked_by = max(filter(None, (asked_by, by)), default=None)
        request = as_request(left)
        if _rules().bare.match(request):
            asks = True
            continue
        asks = asks or _is_ask(request)
        kept.append(request)
    if not asks and over:
        return Ask(over=(*over, *kept))
    if not kept:
        return Ask(over=tuple(over), asked_by=asked_by) if over else _quoted([one_line(text)], asked_by, ())
    about = _about(kept)
    if about:
        return Ask((about,), asked_by, tuple(over), quoted=True)
    if any(map(_is_ask, kept)) and all(_clear(part, named) for part in kept):
        return Ask(tuple(line for part in kept for line in sentences(part)), asked_by, tuple(over))
    return Ask() if not asks and not kept else _quoted(_as_noted(text, said_on, today), asked_by, tuple(over))


def _quoted(parts: list[str], asked_by: dt.date | None, over: tuple[str, ...]) -> Ask:
    words = " ".join(sentence(part) for part in parts if part)
    return Ask((said("need_quoted", what=words),) if words else (), asked_by, over, quoted=True)


def _about(requests: Sequence[str]) -> str:
    """Return the request for an answer about a thing nothing more is said of: "what I need is the fan"."""
    rules = _rules()
    owed = rules.owed.match(requests[0]) if len(requests) == 1 else None
    thing = requests[0][owed.end() :].rstrip(".?! ") if owed else ""
    if not thing or rules.answers.search(thing) or unclear(thing):
        return ""
    return said("need_about", what=thing)


def _as_noted(text: str, said_on: dt.date, today: dt.date) -> list[str]:
    """Return the parts of a note with its own words, but without days that are over."""
    left = [_without_past(part, said_on, today)[0] for part in parts_of(text)]
    return [part for part in left if part and not _rules().bare.match(part)] or [
        part for part in left if part
    ]


def _is_ask(request: str) -> bool:
    return request.endswith("?") or _rules().asks.match(request) is not None


def _clear(request: str, named: bool) -> bool:
    rules = _rules()
    owed = rules.owed.match(request)
    if owed and not rules.answers.search(request[owed.end() :]):
        return False
    return not unclear(request.rstrip(".?! "), named=named)


def _without_past(part: str, said_on: dt.date, today: dt.date) -> tuple[str | None, dt.date | None]:
    """Return a part of a note without days that are over, and the last of them it was asked for by.

    None for a part that was for such a day only.
    """
    rules, data = _rules(), data_table("voice.toml")["asking"]
    by: dt.date | None = None
    for match in reversed(list(rules.day.finditer(part))):
        day = _day_of(match, said_on)
        if day is None or day >= today:
            continue
        lead = (match.group("lead") or "").casefold()
        if lead in data["until"]:
            return None, None
        comma = part.find(",", match.end())
        if re.match(r"(?:when|if|once|after|before)\b", part, re.IGNORECASE) and comma > 0:
            return _without_past(part[comma + 1 :].strip(), said_on, today)
        request = as_request(part)
        if lead not in data["deadlines"]:
            if not _is_ask(request):
                continue
            if rules.appointment.search(part):
                return None, None
        by = max(filter(None, (by, day)))
        part = part[: match.start()] + part[match.end() :]
    return re.sub(r"\s+([,.?])", r"\1", re.sub(r"  +", " ", part)).strip(" ,"), by


def without_past_days(text: str, said_on: dt.date, today: dt.date) -> str:
    """Return a note of what is to come without the days it names that are over by ``today``."""
    line = text
    for match in reversed(list(_rules().day.finditer(line))):
        day = _day_of(match, said_on)
        if day is not None and day < today:
            line = line[: match.start()] + line[match.end() :]
    if line == text:
        return text
    return re.sub(r"\s+([,.;?])", r"\1", re.sub(r"  +", " ", line)).strip(" ,;") or text


def _day_of(match: re.Match[str], said_on: dt.date) -> dt.date | None:
    words = match.group()
    month = re.search(rf"({one_of(MONTHS)}) (\d{{1,2}})(?:, (\d{{4}}))?", words, re.IGNORECASE)
    try:
        if month:
            number = MONTHS.index(month.group(1).capitalize()) + 1
            day = dt.date(int(month.group(3) or said_on.year), number, int(month.group(2)))
            early = not month.group(3) and (said_on - day).days > _LONG_BEFORE
            return day.replace(year=day.year + 1) if early else day
        if match.group("nth"):
            return _next_of_number(match.group("nth").casefold(), said_on)
    except (ValueError, OverflowError):
        # The 31st of a short month is no day to reckon with.
        return None
    name = next(day for day in DAYS if day.casefold() in words.casefold())
    return said_on + dt.timedelta(days=(DAYS.index(name) - said_on.weekday() - 1) % 7 + 1)


def _next_of_number(nth: str, said_on: dt.date) -> dt.date | None:
    number = _ORDINALS.index(nth) + 1 if nth in _ORDINALS else int(nth[:-2])
    ahead = (said_on + dt.timedelta(days=n) for n in range(62))
    return next((day for day in ahead if day.day == number), None)


def asked_line(asked_by: dt.date, today: dt.date) -> str:
    """Return since when something is asked for whose day is over."""
    return said("asked_by", day=week_day(asked_by, today))
