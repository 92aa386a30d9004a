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
from journal_tui.documents.matching import Signs, any_of, plain, signs
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
    r"(?:^|\b(?:get|got|put|call|do|did|doing|lift|move|tear|in|on|of|for|like|with|take|took|bring|have|had|by|at|to|about|over|"
    r"under|off|from|around|behind|through|leave|cover|mind|raise|fix|cut|see|pull|turn|hold|than|run|float|"
    r"drop|swap|move|want|need|know) )"
    r"(?:that|those|these|this)(?:'s|'ll)?(?= (?:is|are|was|were|has|have|had|goes?|comes?|stays?|will|would|"
    r"should|in|on|down|up|out|off|back|once|till|until|by|again|instead|way|so|sits|needs|wants|first|where)"
    r"\b|\s*$|'s|'ll)"
)


#: "Put one over the shower", "set the other": a thing nobody has named.
_ONE = re.compile(
    r"\b(?:add|set|put|get|got|need|needs|want|wants|order|take|send|sending|making|use|hang|buy) "
    r"(?P<one>another one|the other one|the other(?=\s*$)"
    r"|one(?=\s*$| (?:in|on|over|under|by|at|there|here|for|behind|up|too)\b))"
)
#: Two things, or more, are named in what stands before.
_SEVERAL = re.compile(
    r"\b(?:and|two|three|four|both|several|all)\b|\w+s\b(?<!\bis)(?<!\bwas)(?<!\bhas)(?<!'s)"
)
#: "Two by that": a size shown with the hands.
_SIZE = re.compile(r"\bby (?:that|this)\s*$")
#: "Leave them the manual": people nobody has named.
_HANDED = re.compile(
    r"\b(?:give|gave|giving|leave|leaving|left|tell|told|ask|asked|show|showed|call|called|promise|promised)"
    r" them\b"
    r"|\bmention it to them\b|\bi need them to\b|\bwe need them to\b"
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


@cache
def _man() -> re.Pattern[str]:
    """Return the pattern of who may be meant by "he" and "she": no firm is."""
    firms = data_table("news.toml")["firms"]["words"]
    return any_of([word for word in data_table("news.toml")["people"]["words"] if word not in firms])


def relieves(text: str) -> bool:
    """True when a note tells that a danger was dealt with by those who may."""
    return _words("relief").search(plain(text)) is not None


def dealt_with(text: str) -> bool:
    """True when a note tells that those who may have dealt with a danger: "the outfit took it out"."""
    line, words = plain(text), data_table("news.toml")["dealt_with"]
    return (
        relieves(text)
        and bool(any_of(words["words"]).search(line))
        and not any_of(words["not_yet"]).search(line)
    )


def puts_right(text: str) -> bool:
    """True when words tell that something was put right: "both fixed"."""
    return _words("put_right").search(plain(text)) is not None


@cache
def _faults() -> Signs:
    wrong = [
        word for word in data_table("past.toml")["wrong"]["words"] if not word.startswith(("no ", "not "))
    ]
    return signs([[*wrong, *data_table("news.toml")["fault"]["words"]]])


def tells_fault(text: str) -> bool:
    """True when a note tells of something wrong, not of its being absent."""
    return _faults().fit(text)


@cache
def _empty_words() -> frozenset[str]:
    return frozenset(data_table("news.toml")["empty"]["words"])


def says_nothing(text: str) -> bool:
    """True when all words of a note point to what was said or seen before: "he did that"."""
    # Signs and numbers are no talk.
    if re.search(r"[^\w\s'’,.;:!?-]|\d", text):
        return False
    words = re.findall(r"[\w'’]+", plain(text))
    return bool(words) and all(word in _empty_words() for word in words)


def without_talk(text: str) -> tuple[str, list[str]]:
    """Return a note without the parts that are talk, and those parts; "" when it is nothing else."""
    line = one_line(text)
    line, cut = without(line, _words("talk"))
    if line:
        line, more = without(line, _helper())
        cut += more
    return line, cut


def unclear(text: str, *, named: bool = False) -> str:
    """Return what a reader who was not there would not understand in a note; "" when nothing.

    ``named`` when the thing its "it" stands for is the place it is told under.
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
    man = _man()
    people_named = man_named = False
    for clause in clauses:
        if not clause:
            continue
        who = _PERSON.search(clause)
        if who and not (man_named or man.search(clause[: who.start()])):
            return f"it says “{who.group()}”, not who that is"
        they = _THEY.search(clause)
        if they and not (named or people_named or people.search(clause[: they.start()])):
            return f"it says “{they.group()}”, not who or what that is"
        pointing = _POINTING.search(clause)
        if pointing and (_SIZE.search(clause) or not named):
            return f"it says “{pointing.group().split()[-1]}”, not what that is"
        several = _of_before().match(clause)
        if several and not (_SEVERAL.search(line[: line.find(clause)])):
            return f"it says “{several.group('word')}”, not of what"
        one = _ONE.search(clause)
        if (
            one
            and not (named and "another" in one.group("one"))
            and not _NOUN.search(_person().sub("he", line[: line.find(clause)]))
        ):
            return f"it says “{one.group('one')}”, not which that is"
        shown = None if named else _shown(clause, line)
        if shown:
            return f"it says “{shown}”, not which that is"
        if _handed(clause) and not people_named:
            return "it says “them”, not who that is"
        it = _IT.search(clause)
        if it and not named and not _stands(clause):
            return f"it says “{it.group()}”, not what that is"
        people_named = people_named or bool(people.search(clause))
        man_named = man_named or bool(man.search(clause))
        named = named or _names_something(clause)
    if _run_together(clauses):
        return "it reads like two sentences run together"
    return ""


@cache
def _of_before() -> re.Pattern[str]:
    """Return the pattern of a clause about "both" or "the rest", with nothing said of what."""
    words = _either(data_table("news.toml")["of_before"]["words"])
    return re.compile(
        rf"^(?P<word>{words})"
        r"(?= (?:are|were|is|was|have|has|had|need|needs|\w+ed|in|on|up|out|done|gone|good|fine)\b|$)"
    )


@cache
def _showing() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Return patterns of a thing that was pointed at: "that fitting", "cut that one out", "put one there"."""
    data, verbs = data_table("news.toml")["pointing"], data_table("verbs.toml")["past"]
    # "We were told that water comes on" points at nothing.
    pointing = {*verbs, *verbs.values()} - {*data["joining"], *data_table("news.toml")["saying"]["words"]}
    before = _either([*data["before"], *sorted(pointing)])
    joins, known = _either(data["not_things"]), _either(data["known"])
    opens = rf"(?:^ | (?:{before}|and|so|but|then) )"
    one = rf"{opens}(?P<word>that|this) (?!{joins}\b|{known}\b)(?P<thing>[a-z]\w+)"
    many = rf" (?P<word>those|these) (?!{joins}\b)(?P<thing>[a-z]\w+)"
    return re.compile(one), re.compile(many)


def _either(words: Iterable[str]) -> str:
    return "(?:" + "|".join(map(re.escape, words)) + ")"


def _shown(clause: str, line: str) -> str:
    """Return the words of a clause for a thing that was pointed at and not named before in the note."""
    padded = f" {clause}"
    for pattern in _showing():
        for match in pattern.finditer(padded):
            thing = match.group("thing")
            if thing not in line[: max(0, line.find(clause) + match.start("thing") - 1)].split():
                return f"{match.group('word')} {thing}"
    return ""


def _handed(clause: str) -> bool:
    return _HANDED.search(clause) is not None


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
    # Nobody calls a plumber "it".
    things = _person().sub("he", clause)
    return bool(_NOUN.search(things)) or not _NO_NOUN_FIRST.match(things)


@cache
def _person() -> re.Pattern[str]:
    return re.compile(rf"(?:\b(?:the|our|an?|this|that|your) )?{_words('people').pattern}")


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


def opens_with_verb(text: str) -> bool:
    """True when words begin with a verb: "is in", "'s cracked", but not "flange sits right"."""
    return (
        re.match(r"'s\b", plain(text)) is not None or _words("verbs").match(plain(text).lstrip()) is not None
    )


def warns(text: str) -> bool:
    """True when a note warns of something by its words."""
    return _words("danger").search(plain(text)) is not None


def weighty(text: str) -> bool:
    """True when a note tells of an inspection, money, a delay, a leak or the like."""
    return _words("weighty").search(plain(text)) is not None
