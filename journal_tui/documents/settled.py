"""What was found earlier and is dealt with, told as what was: "the elbow drips" becomes "the elbow dripped".

Only the forms of ``past.toml`` turn, and only in a note that tells of something wrong or of what a sub does;
every other note has to be quoted, since "the pan sits on the tile" may be so for years to come.
"""

from __future__ import annotations

import re
from functools import cache

from journal_tui.documents.clauses import JOIN, Clause, clauses
from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import tells_of_done_work
from journal_tui.documents.matching import any_of, plain
from journal_tui.documents.news import tells_fault
from journal_tui.documents.wording import data_table
from journal_tui.domain.document import ClientFact
from journal_tui.domain.text import one_line


@cache
def _forms() -> re.Pattern[str]:
    forms = sorted(data_table("past.toml")["was"], key=lambda form: (-len(form), form))
    loose = "|".join(re.escape(form) for form in forms if form.startswith("'"))
    whole = "|".join(re.escape(form) for form in forms if not form.startswith("'"))
    return re.compile(rf"\b(?:{whole})(?!\w)|(?<=\w)(?:{loose})(?!\w)", re.IGNORECASE)


@cache
def _third() -> re.Pattern[str]:
    names = "|".join(map(re.escape, data_table("verbs.toml")["others"]["names"]))
    return re.compile(rf"\b(he|she|{names}) (\w+?)(e?s)\b", re.IGNORECASE)


def tells_what_sub_does(text: str) -> bool:
    """True when a note begins with what somebody hired does: "the plumber drops the drain"."""
    found = _third().match(re.sub(r"^the ", "", one_line(text), flags=re.IGNORECASE))
    return found is not None and _did(found) != found.group()


def told_as_past(text: str, fact: ClientFact) -> str | None:
    """Return a note in the past, None when no rule can tell it so without changing what it says."""
    data = data_table("past.toml")
    line = one_line(text).replace("’", "'")
    read = plain(line)
    if any_of(data["ahead"]["words"]).search(read) or re.search(r"\w'(?:ll|d)\b", read) or read.endswith("?"):
        return None
    if tells_of_done_work(fact.text) or any_of(data["cut_off"]["words"]).search(read):
        # The work is done and stays so.
        return None
    done = _third().sub(_did, line)
    wrong = bool(conditions_in(fact.text, fact.area) or fact.hazards) or tells_wrong(line)
    if done == line and not wrong:
        return None
    told = _turned(done)
    was = any_of(data["was_already"]["words"]).search(plain(told)) or re.search(r"\b\w{3,}ed\b", told)
    return told if told != line or was else None


#: A part that begins so names a thing of its own.
_OWN_THING = re.compile(r"^(?:the|an?|our|your|all|both|every|each|one|two|three)\s", re.IGNORECASE)


def _turned(line: str) -> str:
    """Return a note in the past; a part of it about another thing, with nothing wrong, stays as it is.

    "The hinge is loose, the shelf is oak": the hinge was mended, and the shelf is oak still.
    """
    parts = [part for one in clauses(line) for part in _at_and(one)]
    if not any(tells_wrong(words) for _, words in parts):
        return _forms().sub(_was, line)
    told, turns = "", False
    for link, words in parts:
        turns = tells_wrong(words) or (turns and not _OWN_THING.match(JOIN.sub("", words)))
        told += link + (_forms().sub(_was, words) if turns else words)
    return told


#: "The hinge is loose and the shelf is oak" are two parts.
_AND = re.compile(r"(,? and |, )(?=(?:the|an?|our|your|all|both) )", re.IGNORECASE)


def _at_and(one: Clause) -> list[tuple[str, str]]:
    first, *rest = _AND.split(one.words)
    return [(one.link, first), *zip(rest[::2], rest[1::2], strict=True)]


def tells_wrong(words: str) -> bool:
    """True when words tell of something wrong."""
    return any_of(data_table("past.toml")["wrong"]["words"]).search(plain(words)) is not None or tells_fault(
        words
    )


def _did(match: re.Match[str]) -> str:
    past: dict[str, str] = data_table("verbs.toml")["past"]
    verb = match.group(2).lower()
    whole = verb if verb in past else verb + match.group(3)[:-1].lower()
    return f"{match.group(1)} {past[whole]}" if whole in past else match.group()


def _was(match: re.Match[str]) -> str:
    word = match.group()
    new: str = data_table("past.toml")["was"][word.lower()]
    return new[:1].upper() + new[1:] if word[:1].isupper() else new
