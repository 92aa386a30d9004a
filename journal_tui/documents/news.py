"""What of a note is news for a client, and what cannot stand in a letter by itself.

A note was said in a room, to somebody, with a hand on the thing. In a letter "he" needs a person and "it"
a thing named before. A pronoun's person or thing is not in its own clause: "the crew wiped it down" does
not say what was wiped (Chomsky's condition B, "Lectures on Government and Binding", 1981, section 3.2.3),
so what it stands for is looked for in the clauses before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from journal_tui.documents.clauses import without
from journal_tui.documents.deeds import deed_in
from journal_tui.documents.matching import any_of, plain
from journal_tui.documents.wording import data_table
from journal_tui.domain.text import one_line

_CLAUSE = re.compile(
    r"[,;:.!?]+|\b(?:and|but|so|because|when|where|if|till|until|before|after|once|while|or|which|then|as)\b"
)
_NOUN = re.compile(
    r"\b(?:the|an?|this|that|these|those|our|your|all|both|each|every|one|two|three|four|five|six|seven|eight|nine|"
    r"ten|first|second|other|new|old|no|some|\d+)\s+[a-z]"
)
_NO_NOUN_FIRST = re.compile(
    r"^(?:i|we|you|it|he|she|they|there|here|not|in|on|at|to|from|for|with|by|under|over|also|just|still|then|"
    r"i'\w+|we'\w+|you'\w+|it's|its|he's|she's|they'\w+|there's|that's|those|these|that|this|him|her|them|"
    r"will|can|could|would|should|is|are|was|were|has|have|had|do|does|did|don't|won't|up|down|out|off)\b"
)
_PERSON = re.compile(r"\b(?:he|she|him|her|he's|she's|he'll|she'll|he'd|she'd|his|hers)\b")
_THEY = re.compile(r"\b(?:they|them|they're|they've|they'll|they'd|their)\b")
_IT = re.compile(r"\b(?:it|it's|it'll|it'd)\b")
_POINTING = re.compile(
    r"(?:^|\b(?:get|got|put|call|do|did|in|on|of|for|like|with|take|took|bring|have|had) )"
    r"(?:that|those|these|this)(?:'s|'ll)?(?= (?:is|are|was|were|has|have|had|goes?|comes?|stays?|will|would|"
    r"should|in|on|down|up|out|off|back|once|till|until|by|again|instead|way)\b|\s*$|'s|'ll)"
)


#: "Poured the whole thing", but not "painted trim" or "left side".
_DONE_TO = re.compile(
    r"^\w+ (?:the|an?|it|them|that|those|these|this|all|both|each|every|right|straight|out|up|down|off|in|"
    r"over|back)\b"
)
#: "A pipe with white wrap on it": what has something names it in the same clause.
_HAS_ON_IT = re.compile(
    r"[a-z]\s+(?:has|have|had|with|got)\s.*\b(?:in|on|to|at|over|around|under|through|behind|from) it\b"
)
_NOBODY_HAS = re.compile(r"^(?:i|we|you|he|she|they|there)\s+(?:'ve |have |had |got |put )")
#: Said to somebody at the front of a clause: "put your hand there", "you can look at that".
_TO_HELPER = r"^(?:(?:and|so|just|you|can|now|but|there)\s+)*"


@cache
def _helper() -> re.Pattern[str]:
    return re.compile(_TO_HELPER + _words("helper").pattern)


@cache
def _words(table: str) -> re.Pattern[str]:
    return any_of(data_table("news.toml")[table]["words"])


def without_talk(text: str) -> tuple[str, list[str]]:
    """Return a note without the parts that are talk, and those parts; "" when it is nothing else."""
    line = one_line(text)
    line, cut = without(line, _words("talk"))
    if line:
        line, more = without(line, _helper())
        cut += more
    return line, cut


def unclear(text: str, *, work: bool = False, named: bool = False) -> str:
    """Return what a reader who was not there would not understand in a note; "" when nothing.

    ``work`` is what is or was to be done: its "it" is the thing its place names; so is that of a note
    whose place is ``named`` in front of it.
    """
    line = plain(text).strip()
    if line.endswith("?"):
        return "it is a question"
    if _PERSON.search(line) and re.search(r"\byour?\b", line):
        return "it speaks of the client and of “she” or “he”"
    if _no_one_does_it(text, line):
        return "it does not say who or what"
    clauses = [clause.strip() for clause in _CLAUSE.split(line)]
    people = _words("people")
    people_named = False
    begins_with_work = work and deed_in(text) is not None
    for clause in clauses:
        if not clause:
            continue
        who = _PERSON.search(clause)
        if who and not (people_named or people.search(clause[: who.start()])):
            return f"it says “{who.group()}”, not who that is"
        they = _THEY.search(clause)
        if they and not (named or people_named or people.search(clause[: they.start()])):
            return f"it says “{they.group()}”, not who or what that is"
        pointing = _POINTING.search(clause)
        if pointing and not named:
            return f"it says “{pointing.group().split()[-1]}”, not what that is"
        it = _IT.search(clause)
        if it and not named and not begins_with_work and not _stands(clause):
            return f"it says “{it.group()}”, not what that is"
        people_named = people_named or bool(people.search(clause))
        named = named or _names_something(clause)
    if _run_together(clauses):
        return "it reads like two sentences run together"
    return ""


def _no_one_does_it(text: str, line: str) -> bool:
    """True when a note begins with what was or is done by nobody named: "poured the whole thing"."""
    past = data_table("verbs.toml")["past"]
    first = line.split(" ")[0]
    if len(line.split()) < 3 or deed_in(text) is not None:
        return False
    only_past = first in past.values() and first not in past and _DONE_TO.match(line) is not None
    return only_past or first in data_table("news.toml")["subjectless"]["words"]


def _stands(clause: str) -> bool:
    """True when an "it" stands for nothing, or for a thing of its own clause."""
    has = _HAS_ON_IT.search(clause) is not None and _NOBODY_HAS.match(clause) is None
    return has or _words("weather").search(clause) is not None


def _names_something(clause: str) -> bool:
    return bool(_NOUN.search(clause)) or not _NO_NOUN_FIRST.match(clause)


def _run_together(clauses: Iterable[str]) -> bool:
    finite, saying = _words("finite"), _words("saying")
    return any(len(finite.findall(clause)) > 1 and not saying.search(clause) for clause in clauses)


def has_verb(text: str) -> bool:
    """True when a note is a sentence, or begins with work that makes it one."""
    line = plain(text)
    return (
        deed_in(text) is not None
        or re.search(r"\b\w+(?:'s|'re|'ll|'ve|'d|n't)(?!\w)|\b\w{2,}ed\b", line) is not None
        or _words("verbs").search(line) is not None
    )


def warns(text: str) -> bool:
    """True when a note warns of something by its words."""
    return _words("danger").search(plain(text)) is not None


def weighty(text: str) -> bool:
    """True when a note tells of an inspection, money, a delay, a leak or the like."""
    return _words("weighty").search(plain(text)) is not None
