"""The short update: a message for a phone, of less than 600 characters, that says what weighs most."""

from __future__ import annotations

import re
from collections.abc import Sequence

from journal_tui.documents.asking import asked_line
from journal_tui.documents.choosing import weight
from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import deed_in, is_errand
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.sentences import sentences
from journal_tui.documents.story import Story, Told
from journal_tui.documents.telling import days_line, number_word
from journal_tui.documents.wording import listed, plain_day, said, sentence, week_day
from journal_tui.domain.document import UpdateFacts
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.money import money
from journal_tui.domain.text import one_line

#: A message is shorter than this, counted in characters of its plain text.
MOST_CHARACTERS = 600
#: A longer note is told in the standard update only.
_LONGEST_NOTE = 150
_LONGEST_TITLE = 60
#: No place is named in a message: "in there" would say nothing.
_HERE = re.compile(r"\b(?:here|there)\b")


def short_update(story: Story) -> str:
    """Return the message as CommonMark; as plain text it has less than 600 characters.

    What is asked of the reader comes into it first, then the price, what was found, what comes next
    and what was done, as long as there is room; the order to read them in is the other way round.
    """
    facts = story.facts
    head = f"{_clipped(facts.title)}, {plain_day(facts.as_of, facts.as_of)}."
    if facts.empty:
        return f"{escape_inline(head)}\n{said('nothing_new')}\n"
    room = MOST_CHARACTERS - 1 - len(head)
    tail = said("short_more")
    room -= len(tail) + 2
    parts: dict[str, list[str]] = {}
    for key, wanted in (
        ("needed", _asks(story)),
        ("changes", _prices(facts)),
        ("found", _weighty(story)),
        ("next", _works(story.next, done=False)),
        ("done", _works(story.done, done=True)),
        ("decided", [" ".join(sentences(one.text)) for one in _heaviest(story.decided)][:1]),
    ):
        kept: list[str] = []
        for line in wanted:
            shown = line if kept else said(f"short_{key}", what=line)
            if len(shown) + 2 <= room:
                kept.append(shown)
                room -= len(shown) + 2
        if kept:
            parts[key] = kept
    order = ("done", "found", "decided", "next", "changes", "needed")
    blocks = [[head], *(parts[key] for key in order if key in parts), [tail]]
    return "\n\n".join("\n".join(escape_inline(line) for line in block) for block in blocks) + "\n"


def _clipped(title: str) -> str:
    line = one_line(title)
    return line if len(line) <= _LONGEST_TITLE else f"{line[: _LONGEST_TITLE - 1].rstrip()}…"


def _brief(one: Told) -> bool:
    return len(one.text) <= _LONGEST_NOTE


def _heaviest(part: Sequence[Told]) -> list[Told]:
    """Return what of a part a message has room for, what weighs most first."""
    return sorted(filter(_brief, part), key=lambda one: -weight(one))


def _asks(story: Story) -> list[str]:
    lines = []
    for one in story.needed:
        if not _brief(one):
            continue
        by, today = one.fact.by, story.facts.as_of
        line = " ".join(one.ask.lines) or sentence(one.text)
        if by:
            line += f" {said('needed_by' if by >= today else 'needed_was', day=week_day(by, today))}"
        elif one.ask.asked_by:
            line += f" {asked_line(one.ask.asked_by, today)}"
        lines.append(line)
    if len(story.needed) > len(lines[:2]):
        count = len(story.needed) - len(lines[:2])
        more = said("short_asks", count=number_word(count), thing="thing" if count == 1 else "things")
        return [*lines[:2], more]
    return lines


def _prices(facts: UpdateFacts) -> list[str]:
    return [
        f"{money(change.cents)}. {days_line(change.days)}"
        if change.answer is not None
        else f"{money(change.cents)}, waiting for your answer."
        for change in facts.changes
        if change.answer is not False
    ][:1]


def _weighty(story: Story) -> list[str]:
    told = _heaviest(story.found)[:2]
    lines = [" ".join(sentences(one.text)) for one in told]
    first = [one for one in told[:1] if id(one.fact) not in story.relieved]
    reasons = [c for one in first for c in conditions_in(one.fact.text, one.area)]
    lines[1:1] = [reasons[0].say] if reasons else []
    return lines


def _works(works: Sequence[Told], *, done: bool) -> list[str]:
    told = [one for one in works if _brief(one) and not one.held]
    deeds = [deed for deed in (deed_in(one.text) for one in told) if deed and deed.who == "We"]
    short = [d for d in deeds if d.simple and not is_errand(d) and not _HERE.search(d.rest)][:3]
    if len(short) > 1:
        said_so = listed([deed.done() if done else deed.to_do() for deed in short])
        return [f"We {'' if done else 'will '}{said_so}."]
    return [" ".join(_work_lines(one, done=done)) for one in _heaviest(told)[:1]]


def _work_lines(one: Told, *, done: bool) -> list[str]:
    deed = deed_in(one.text)
    if deed is None or one.kind is not Kind.NEXT_STEP:
        return sentences(one.text)
    who = "You" if one.who is Party.CLIENT else deed.who
    return sentences(f"{who} {deed.done() if done else f'will {deed.to_do()}'}.")
