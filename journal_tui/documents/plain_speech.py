"""A spoken note in the words of a letter: "okay, so I checked it" becomes "we checked it".

Only the forms of ``spoken.toml`` change, and days said from the day of the visit become dates, since a
letter is read later. Nothing is added, and what a note leaves open stays open.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from functools import cache

from journal_tui.documents.matching import one_of
from journal_tui.documents.voice import to_reader
from journal_tui.documents.wording import DAYS, MONTHS, data_table, plain_day, week_day
from journal_tui.domain.document import ClientFact
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.text import folded, one_line

#: Words of an address, a path or a mark are not spoken ones.
_EDGE = r"(?<![\w'’@/\\:#.<`*-])"
_END = r"(?![\w'’@/\\:#`*-])"


def _any(words: Iterable[str]) -> str:
    """Return the pattern of any of ``words`` with either apostrophe."""
    return one_of(words).replace("'", "['’]")


def _pattern(text: str) -> re.Pattern[str]:
    return re.compile(text, re.IGNORECASE)


@cache
def _forms(table: str) -> tuple[re.Pattern[str], dict[str, str]]:
    """Return a pattern of the forms of a table, and what each becomes."""
    data = data_table("spoken.toml")[table]
    forms: dict[str, str] = data.get("forms", data)
    loose = [form for form in forms if form.startswith("'")]
    whole = [form for form in forms if form not in loose]
    pattern = "|".join(([_any(loose) + _END] if loose else []) + [_EDGE + _any(whole) + _END])
    return _pattern(pattern), forms


@cache
def _front() -> re.Pattern[str]:
    front = data_table("spoken.toml")["front"]
    return _pattern(rf"^(?:{_any(front['words'])}(?:,\s*|\s+)(?=\w)|{_any(front['called'])},\s+(?=\w))+")


@cache
def _passing() -> re.Pattern[str]:
    said = _any(data_table("spoken.toml")["passing"]["words"])
    return _pattern(rf"(?:,\s*)?{_EDGE}{said}{_END}(?:\s*,)?|^{said}{_END},?\s*")


#: "Its done" as captions and thumbs write it, where no thing it could own follows.
_ITS = re.compile(
    r"\b(i)ts(?= (?:\w{2,}ed|done|flat|level|plumb|square|dry|wet|dead|gone|fine|good|in|on|up|out|off"
    r"|getting|going)"
    r"(?:[.,;:!?]|$| (?:and|but|so|enough|to|now|on|in|from|it|us|at|with|wet|not|by|the|too|because)\b))",
    re.IGNORECASE,
)


def plain_words(text: str) -> str:
    """Return a note on one line without what is only said: fillers, slurred forms, "I" for "we"."""
    line = one_line(text)
    line = _replaced("written", _ITS.sub(r"\1t's", line))
    line = _front().sub("", line)
    line = _passing().sub(_gap, line)
    line = _we(line)
    return (
        re.sub(r"\s+([,;.])", r"\1", re.sub(r"  +", " ", line)).strip(" ,;")
        if line != one_line(text)
        else line
    )


def _gap(match: re.Match[str]) -> str:
    # Between two commas one of them stays.
    inside = match.group()
    return ", " if inside.startswith(",") and inside.rstrip().endswith(",") else " "


def _replaced(table: str, line: str) -> str:
    pattern, forms = _forms(table)

    def turn(match: re.Match[str]) -> str:
        said = match.group()
        new = forms[said.lower().replace("’", "'")]
        return new[:1].upper() + new[1:] if said[:1].isupper() and match.start() == 0 else new

    return pattern.sub(turn, line)


def _we(line: str) -> str:
    pattern, forms = _forms("we")
    numbered = set(data_table("spoken.toml")["we"]["one"])

    def turn(match: re.Match[str]) -> str:
        said = match.group()
        before = line[: match.start()].split()[-1:]
        after = line[match.end() : match.end() + 1]
        # "Type I" is a number, and a lone letter is a mark in a list.
        if said in ("I", "i") and (after != " " or (before and before[0].casefold() in numbered)):
            return said
        new = forms[said.lower().replace("’", "'")]
        first = match.start() == 0 or line[: match.start()].rstrip()[-1:] in (".", "!", "?")
        return new[:1].upper() + new[1:] if first and said[:1].isupper() else new

    return pattern.sub(turn, line)


def without_place(fact: ClientFact) -> str:
    """Return a fact's own words without the name of its place in front: "tub: the sill is dry"."""
    line, place = one_line(fact.text), one_line(fact.area)
    head, mark, rest = line.partition(":")
    return rest.strip() if mark and place and folded(head) == folded(place) and rest.strip() else line


def plainly(fact: ClientFact, today: dt.date, *, ahead: bool = False, done: bool = False) -> str:
    """Return a fact's own words as a letter of ``today`` tells them; ``ahead`` when it is
    work to come, ``done`` when that is finished."""
    line = plain_words(without_place(fact))
    if fact.kind is Kind.DECISION and fact.who is Party.CLIENT:
        line = _replaced("chooser", line)
    line = to_reader(line)
    return _dated(line, fact, today, ahead=ahead, done=done)


#: Where one part of a note ends and the next begins.
_PART = re.compile(r"([,;.]|\b(?:and|but|so)\b)")

# Days -----------------------------------------------------------------------------------------------------


@cache
def _times() -> dict[str, re.Pattern[str]]:
    times = data_table("spoken.toml")["times"]
    led = rf"(?:(?:{_any(times['led'])})\s+)*"
    days = rf"(?:last\s+)?{_any(DAYS)}(?:\s+(?:morning|afternoon|night))?"
    return {
        "today": _pattern(rf"{_EDGE}{_any(times['today'])}{_END}"),
        "before": _pattern(rf"{_EDGE}{_any(times['before'])}{_END}"),
        "after": _pattern(rf"{_EDGE}{_any(times['after'])}{_END}"),
        "past": _pattern(
            rf"{_EDGE}({_any(times['happened'])}) (?:on )?({_any(DAYS)}){_END}(?!,? (?:the|{_any(MONTHS)}))"
        ),
        "until": _pattern(
            rf"{_EDGE}({_any(times['until'])}) ({_any(DAYS)}){_END}(?!,? (?:the|{_any(MONTHS)}))"
        ),
        "was": _pattern(
            rf"{_EDGE}(?:{_any(times['was'])}|(?!{_any(times['not_was'])}{_END})\w{{2,}}ed){_END}"
        ),
        "last": _pattern(rf"{_EDGE}last ({_any(DAYS)}){_END}"),
        "plan": _pattern(
            rf",?\s*{_EDGE}{led}(?:{_any([*times['after'], *times['today']])}|{days}){_END}"
            r"(?!\s+(?:the|and|or|before|because|after)\b)"
        ),
        "weekday": _pattern(rf"{_EDGE}({_any(DAYS)}){_END}(?!,? (?:the|{_any(MONTHS)}))"),
    }


def _dated(line: str, fact: ClientFact, today: dt.date, *, ahead: bool, done: bool) -> str:
    """Return a note with the days it names told as dates, counted from the day it was said."""
    said = fact.said_on or fact.day
    if said == today and not done:
        return line
    times = _times()
    if done and fact.kind is Kind.NEXT_STEP:
        # It is done: on which day was only the plan.
        return _tidied(times["plan"].sub("", line), line)
    line = times["past"].sub(
        lambda m: f"{m.group(1)} on {week_day(_weekday(said, m.group(2), -1), today)}", line
    )
    if ahead:
        # What others owe is told with its day, also when that is over.
        ours = fact.who not in (Party.INSPECTOR, Party.SUPPLIER, Party.CLIENT)
        line = _tidied("".join(_ahead(part, said, today, ours=ours) for part in _PART.split(line)), line)
    elif not times["was"].search(line):
        line = times["until"].sub(
            lambda m: f"{m.group(1)} {week_day(_weekday(said, m.group(2), 1), today)}", line
        )
    line = times["last"].sub(lambda m: f"on {week_day(_weekday(said, m.group(1), -1), today)}", line)
    for key, days in (("today", 0), ("before", -1), ("after", 1)):
        line = _on_day(times[key], line, plain_day(said + dt.timedelta(days=days), today))
    return line


def _on_day(word: re.Pattern[str], line: str, day: str) -> str:
    led = data_table("spoken.toml")["times"]["until"]

    def turn(match: re.Match[str]) -> str:
        # "Till tomorrow" is "till March 4".
        before = line[: match.start()].split()[-1:]
        return day if before and before[0].casefold() in led else f"on {day}"

    return word.sub(turn, line)


def _ahead(part: str, said: dt.date, today: dt.date, *, ours: bool) -> str:
    """Return a part of a note of what is to come with the day it names as a date.

    ``ours`` is work of our own: when that day is over, it is told without it. A part that tells of what
    was is left as it is: its day may be the one before.
    """
    times = _times()
    if times["was"].search(part):
        return part
    named = [_weekday(said, m.group(1), 1) for m in times["weekday"].finditer(part)]
    over = any(day < today for day in named) or times["today"].search(part) is not None
    if times["after"].search(part) and said + dt.timedelta(days=1) < today:
        over = True
    if over and ours:
        return times["plan"].sub("", part)
    return times["weekday"].sub(lambda m: week_day(_weekday(said, m.group(1), 1), today), part)


def _weekday(said: dt.date, name: str, way: int) -> dt.date:
    """Return the nearest day of that name after (``way`` 1) or before (-1) the day it was said."""
    day = said + dt.timedelta(days=way)
    while DAYS[day.weekday()].casefold() != name.casefold():
        day += dt.timedelta(days=way)
    return day


def _tidied(line: str, whole: str) -> str:
    left = re.sub(r"\s+([,;.])", r"\1", line).strip(" ,;")
    return left or whole
