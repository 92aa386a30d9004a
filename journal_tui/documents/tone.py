"""Blame, alarm beyond the facts and words nobody wants in a letter: found by the forms of ``tone.toml``.

The Federal Plain Language Guidelines (2011) begin with the reader (I.a, "identify and write for your
audience"); a home owner who reads of an idiot or a time bomb has learned nothing about the house.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from journal_tui.documents.clauses import JOIN, clauses
from journal_tui.documents.matching import any_of, plain
from journal_tui.documents.wording import capital, data_table

#: More remarks than this on one text would not be read.
MOST_REMARKS = 200
_TURNS = 4


@dataclass(frozen=True, slots=True)
class Rule:
    """Words of one ``kind`` ("blame", "alarm", "profanity"), what says the same without them, and why.

    ``instead`` is None where nothing says the same; empty where the words just go.
    """

    kind: str
    words: re.Pattern[str]
    instead: str | None
    why: str


@dataclass(frozen=True, slots=True)
class Remark:
    """Words of a text that its reader should not find: on the 1-based ``line``, as it has them."""

    line: int
    words: str
    kind: str
    why: str
    instead: str | None

    @property
    def advice(self) -> str:
        """What to do about it, in words."""
        if self.instead is None:
            return self.why
        return f"{self.why}; better: “{self.instead}”" if self.instead else f"{self.why}; better without it"


@cache
def rules() -> tuple[Rule, ...]:
    """Return the rules of the data file, in its order."""
    return tuple(
        Rule(row["kind"], any_of(row["words"]), row.get("instead"), row["why"])
        for row in data_table("tone.toml")["rule"]
    )


@cache
def _any_rule() -> re.Pattern[str]:
    """Return a pattern that finds whatever any rule finds, to pass by clean lines in one look."""
    return re.compile("|".join(rule.words.pattern for rule in rules()))


def remarks(text: str, most: int | None = MOST_REMARKS) -> list[Remark]:
    """Return what should be looked at in a text before it is sent, in its order; nothing is changed.

    No more than ``most`` of them are returned, all when it is None.
    """
    found: list[Remark] = []
    for number, line in enumerate(text.split("\n"), 1):
        read = _read(line)
        if not _any_rule().search(read):
            continue
        at = 0
        for start, end, rule in sorted(
            ((m.start(), m.end(), each) for each in rules() for m in each.words.finditer(read)),
            key=lambda hit: (hit[0], -hit[1]),
        ):
            if start >= at:
                at = end
                found.append(Remark(number, line[start:end], rule.kind, rule.why, rule.instead))
        if most is not None and len(found) >= most:
            return found[:most]
    return found


def _read(line: str) -> str:
    """Return a line as the rules read it, letter for letter as long as the line itself."""
    read = plain(line)
    return read if len(read) == len(line) else line.lower().replace("’", "'")[: len(line)]


def calmed(text: str) -> tuple[str, list[str]]:
    """Return a note in neutral words, and the parts of it that had to be left out for that."""
    if not remarks(text):
        return text, []
    kept: list[str] = []
    cut: list[str] = []
    for clause in clauses(text):
        calm = _reworded(clause.words)
        if calm is None:
            cut.append(clause.words.strip())
            continue
        kept.append(clause.link + calm if kept else JOIN.sub("", calm) if cut else calm)
    return capital("".join(kept).strip(" ,;")), cut


def _reworded(clause: str) -> str | None:
    """Return a clause in neutral words, None when no rule has any for it."""
    # What is left when words go may make words of another rule; more than a few turns say nothing does.
    for _ in range(_TURNS):
        found = remarks(clause, None)
        if not found:
            return clause
        if any(remark.instead is None for remark in found):
            return None
        kept: list[str] = []
        at = 0
        for remark in found:
            start = clause.index(remark.words, at)
            kept.append(_article(clause[at:start], remark.instead or ""))
            kept.append(remark.instead or "")
            at = start + len(remark.words)
            if not remark.instead and clause[at : at + 1] == " ":
                at += 1
        clause = "".join(kept) + clause[at:]
    return None


def _article(before: str, instead: str) -> str:
    """Return what stands before new words with its "a" or "an" fitted to them."""
    match = re.search(r"\b(an?)( )$", before, re.IGNORECASE)
    if match is None or not instead:
        return before
    article = "an" if instead[0] in "aeiou" else "a"
    return before[: match.start()] + (article.capitalize() if match.group(1)[0] == "A" else article) + " "
