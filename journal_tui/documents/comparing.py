"""What the journal would say now against what its writer has, change by change.

The three texts are those of ``edits.merge_edits``: ``base`` (as it was made when he began), ``edited`` (his)
and ``fresh`` (as the facts make it now). A change is a stretch where they do not all agree; it can be
settled by itself, either way, and the rest stays as it was. Words are shown the way GNU wdiff shows
them: ``[-gone-]`` and ``{+new+}``, which reads without color.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from enum import StrEnum

from journal_tui.documents.edits import END_MARK, FRESH_MARK, YOURS_MARK, Region, regions

_TOKEN = re.compile(r"\s+|[^\s]+")
#: Two lines less alike than this are two sentences, not one that was changed.
_ALIKE = 0.5
#: Words of a longer line are not compared one by one: it would take too long to do and to read.
_LONGEST_COMPARED = 4_000


class Side(StrEnum):
    """Whose wording stands: the writer's or the journal's."""

    YOURS = "yours"
    JOURNAL = "journal"


@dataclass(frozen=True, slots=True)
class Change:
    """A stretch the writer or the journal changed since he began.

    ``by_you`` and ``by_journal`` say who changed it; ``yours`` and ``journal`` are the lines of each.
    """

    by_you: bool
    by_journal: bool
    yours: tuple[str, ...]
    journal: tuple[str, ...]

    @property
    def what(self) -> str:
        """What it is, in words."""
        if self.by_you and self.by_journal:
            return "both you and the journal changed this"
        if self.by_you:
            return (
                "you took this out"
                if not self.yours
                else "you changed this"
                if self.journal
                else "you added this"
            )
        if not self.journal:
            return "the journal took this out"
        return "the journal changed this" if self.yours else "the journal added this"


@dataclass(frozen=True, slots=True)
class Word:
    """Words of one line: in both wordings (neither flag), only in yours, or only in the journal's."""

    text: str
    only_yours: bool = False
    only_journal: bool = False

    @property
    def marked(self) -> str:
        """The words with the marks of GNU wdiff around what is in one wording only."""
        core = self.text.strip()
        if not core or not (self.only_yours or self.only_journal):
            return self.text
        before, _, after = self.text.partition(core)
        return f"{before}[-{core}-]{after}" if self.only_yours else f"{before}{{+{core}+}}{after}"


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a change.

    ``sign`` is "-" for a line only you have, "+" for one only the journal has, "~" for both wordings of
    one line, " " for a line both have.
    """

    sign: str
    words: tuple[Word, ...]

    @property
    def text(self) -> str:
        """The line as it is printed."""
        marked = self.sign == "~"
        return "".join(word.marked if marked else word.text for word in self.words)


def changes_between(base: str, edited: str, fresh: str) -> list[Change]:
    """Return every change between the three texts, in the order of the document."""
    return [
        Change(region.by_you, region.by_journal, tuple(_his(region.yours)), tuple(region.fresh))
        for region in _changed(base.split("\n"), edited, fresh)
    ]


def settled(base: str, edited: str, fresh: str, number: int, side: Side) -> tuple[str, str]:
    """Return ``base`` and ``edited`` with the change of the 1-based ``number`` settled one way.

    Merged with ``fresh`` again they give the text as before with that one change settled. Raises
    ``IndexError`` when there is no change of that number.
    """
    old = base.split("\n")
    places = _changed(old, edited, fresh)
    if not 1 <= number <= len(places):
        raise IndexError(number)
    new_base: list[str] = []
    new_edited: list[str] = []
    at = 0
    for region in regions(old, edited, fresh):
        new_base += old[at : region.low]
        new_edited += old[at : region.low]
        at = region.high
        if region == places[number - 1]:
            new_base += region.fresh
            new_edited += _his(region.yours) if side is Side.YOURS else region.fresh
        else:
            new_base += old[region.low : region.high]
            new_edited += region.yours
    return "\n".join(new_base + old[at:]), "\n".join(new_edited + old[at:])


def _changed(old: Sequence[str], edited: str, fresh: str) -> list[Region]:
    return [region for region in regions(old, edited, fresh) if region.yours != region.fresh]


def _his(lines: Sequence[str]) -> list[str]:
    """Return his wording where a text he saved still has two set apart by marks."""
    kept: list[str] = []
    his = True
    for line in lines:
        mark = line.strip()
        if mark in (YOURS_MARK, END_MARK):
            his = True
        elif mark == FRESH_MARK:
            his = False
        elif his:
            kept.append(line)
    return kept


def rows(change: Change) -> list[Row]:
    """Return the lines of a change as they are shown, those that are alike word by word."""
    shown: list[Row] = []
    yours, journal = list(change.yours), list(change.journal)
    matched = SequenceMatcher(None, yours, journal, autojunk=False)
    for tag, a, b, c, d in matched.get_opcodes():
        if tag == "equal":
            shown += [Row(" ", (Word(line),)) for line in yours[a:b]]
            continue
        pairs = min(b - a, d - c)
        for mine, theirs in zip(yours[a : a + pairs], journal[c : c + pairs], strict=True):
            shown += _compared(mine, theirs)
        shown += [Row("-", (Word(line, only_yours=True),)) for line in yours[a + pairs : b]]
        shown += [Row("+", (Word(line, only_journal=True),)) for line in journal[c + pairs : d]]
    return [row for row in shown if any(word.text.strip() for word in row.words)]


def _compared(mine: str, theirs: str) -> list[Row]:
    apart = [
        Row("-", (Word(mine, only_yours=True),)),
        Row("+", (Word(theirs, only_journal=True),)),
    ]
    if max(len(mine), len(theirs)) > _LONGEST_COMPARED:
        return apart
    old, new = _TOKEN.findall(mine), _TOKEN.findall(theirs)
    matcher = SequenceMatcher(None, old, new, autojunk=False)
    if not mine.strip() or not theirs.strip() or matcher.ratio() < _ALIKE:
        return apart
    words: list[Word] = []
    for same, had, has in _stretches(matcher, old, new):
        if same:
            words.append(Word(had))
            continue
        if had:
            words.append(Word(had, only_yours=True))
        if has:
            words.append(Word(has, only_journal=True))
    return [Row("~", tuple(words))]


def _stretches(
    matcher: SequenceMatcher[str], old: Sequence[str], new: Sequence[str]
) -> list[tuple[bool, str, str]]:
    """Return stretches of words (same, in the old, in the new); a blank between two changes joins them."""
    found: list[tuple[bool, str, str]] = []
    codes = matcher.get_opcodes()
    for at, (tag, a, b, c, d) in enumerate(codes):
        had, has = "".join(old[a:b]), "".join(new[c:d])
        same = tag == "equal" and bool(had.strip() or at in (0, len(codes) - 1))
        if found and not same and not found[-1][0]:
            found[-1] = (False, found[-1][1] + had, found[-1][2] + has)
        else:
            found.append((same, had, has))
    return found
