"""A note's words turned to the reader: "the client wants" becomes "you want".

Only the words of ``voice.toml`` change, and only where they can mean the person; a note without them
comes out as it was written.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from journal_tui.documents.matching import one_of
from journal_tui.documents.wording import data_table
from journal_tui.domain.text import one_line


@dataclass(frozen=True, slots=True)
class _Rules:
    verbs: dict[str, str]
    owned: re.Pattern[str]
    doing: re.Pattern[str]
    has_verb: re.Pattern[str]
    choice: re.Pattern[str]
    person: re.Pattern[str]
    duty: re.Pattern[str]
    tell: re.Pattern[str]
    request: re.Pattern[str]
    called_upon: re.Pattern[str]
    owed: re.Pattern[str]
    telling: re.Pattern[str]
    asked: re.Pattern[str]
    question: re.Pattern[str]
    called: re.Pattern[str]


@cache
def _rules() -> _Rules:
    data = data_table("voice.toml")
    who = rf"\b(?:the )?{one_of(data['clients'])}"
    asking = data["asking"]

    def pattern(text: str) -> re.Pattern[str]:
        return re.compile(text, re.IGNORECASE)

    return _Rules(
        verbs=data["verbs"],
        doing=pattern(rf"{who}['’]s (?=\w+ing\b|{one_of(data['words']['doing'])}\b)"),
        owned=pattern(rf"{who}['’]s\b"),
        has_verb=pattern(rf"{who} ({one_of(data['verbs'])})\b"),
        choice=pattern(rf"{who} (?={one_of(data['words']['yours'])}\b)"),
        person=pattern(rf"{who}(?=[.,;:!?)]|$| {one_of(data['words']['after'])}\b)"),
        duty=pattern(
            rf"^(?:{who} {one_of(asking['duties'])}"
            rf"|(?:i |we )?{one_of(asking['errands'])} {who} to) (?=[a-z])"
        ),
        tell=pattern(rf"^ask {who} (?={one_of(asking['tell'])}\b)"),
        # In a note of what the client owes, "she has to" is the client.
        called_upon=pattern(
            r"^(?:(?P<both>(?:the two of you|you two|you both|both of you) (?=[a-z])|"
            r"(?:we|i)(?:['’]d| would) (?:like|love|want) you to )|"
            r"(?:she|he|they|you)(?:['’](?:ve|s|re))? (?:still )?"
            r"(?:got to|has to|have to|needs? to|going to|supposed to) )"
        ),
        request=pattern(rf"^(?={one_of(asking['requests'])} )"),
        owed=pattern(rf"^what (?:i|we)(?: still| do)? need from {who} (?:is|are) "),
        telling=pattern(
            rf"^what (?:{who}|she|he|they)(?: still| do| does)? needs? to tell (?:me|us) (?:is|are) "
        ),
        asked=pattern(rf"[;,.] (?:{one_of(asking['questions'])})\b"),
        question=pattern(rf"^{one_of(asking['questions'])}\b"),
        called=pattern(rf"^(?:hey )?{one_of(data['called'])},\s+(?=\w)"),
    )


def to_reader(text: str) -> str:
    """Return a note on one line, speaking to the client instead of about them."""
    rules = _rules()
    line = _turned(rules.doing, lambda _m: "you are ", rules.called.sub("", one_line(text)))
    line = _turned(rules.owned, lambda _m: "your", line)
    line = _turned(rules.has_verb, lambda m: f"you {rules.verbs[m.group(1).lower()]}", line, _OBJECT_OF)
    line = _turned(rules.choice, lambda _m: "your ", line)
    return _turned(rules.person, lambda _m: "you", line)


#: "What we need from the client is": the verb behind it is not the client's.
_OBJECT_OF = ("from", "for", "to", "with", "about", "of", "by", "on")


def _turned(
    pattern: re.Pattern[str], said: Callable[[re.Match[str]], str], line: str, after: Sequence[str] = ()
) -> str:
    others = [*data_table("voice.toml")["words"]["others"], *after]

    def turn(match: re.Match[str]) -> str:
        # "the previous owner" is somebody else.
        before = line[: match.start()].split()[-1:]
        return match.group() if before and before[0].casefold() in others else said(match)

    return pattern.sub(turn, line)


def as_request(text: str) -> str:
    """Return a note about something the client owes, as a polite request or a question to them."""
    rules = _rules()
    line = rules.called_upon.sub(lambda m: "please " if m.group("both") else "you have to ", one_line(text))
    line = rules.owed.sub("please let us know about ", line)
    line = rules.telling.sub("please tell us ", line)
    asked = rules.tell.sub("please tell us ", rules.duty.sub("please ", line))
    if asked == line and rules.request.match(line):
        asked = f"please {line[0].lower()}{line[1:]}"
    asked = to_reader(asked)
    if rules.question.match(asked) or rules.asked.search(asked):
        return asked.rstrip(".").rstrip() + ("" if asked.endswith("?") else "?")
    return asked
