"""What was found earlier and is dealt with, told as what was: "the elbow drips" becomes "the elbow dripped".

Only the forms of ``past.toml`` turn, and only in a note that tells of something wrong or of what a sub does;
every other note has to be quoted, since "the pan sits on the tile" may be so for years to come.
"""

from __future__ import annotations

import re
from functools import cache

from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import tells_of_done_work
from journal_tui.documents.matching import any_of, plain
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
    wrong = bool(conditions_in(fact.text, fact.area) or fact.hazards) or any_of(
        data["wrong"]["words"]
    ).search(read)
    if done == line and not wrong:
        return None
    told = _forms().sub(_was, done)
    was = any_of(data["was_already"]["words"]).search(plain(told)) or re.search(r"\b\w{3,}ed\b", told)
    return told if told != line or was else None


def _did(match: re.Match[str]) -> str:
    past: dict[str, str] = data_table("verbs.toml")["past"]
    verb = match.group(2).lower()
    whole = verb if verb in past else verb + match.group(3)[:-1].lower()
    return f"{match.group(1)} {past[whole]}" if whole in past else match.group()


def _was(match: re.Match[str]) -> str:
    word = match.group()
    new: str = data_table("past.toml")["was"][word.lower()]
    return new[:1].upper() + new[1:] if word[:1].isupper() else new
