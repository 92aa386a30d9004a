"""Sentences an update is put together from, each on a line of its own."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Hashable, Iterable, Sequence

from journal_tui.documents.deeds import Deed, deed_in
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary
from journal_tui.documents.pictures import picture_line, stills_of
from journal_tui.documents.voice import as_request, to_reader
from journal_tui.documents.wording import capital, data_table, listed, plain_day, said, sentence, week_day
from journal_tui.domain.document import ChangeFact, ClientFact, TermsFact
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.money import money
from journal_tui.domain.text import folded, one_line

Block = list[str]

#: Small numbers are written out in running text.
_NUMBERS = "no one two three four five six seven eight nine".split()
#: So many short pieces of work share one sentence.
_TOGETHER = 3


class Explainer:
    """Explains each trade word once, where the document first uses it."""

    def __init__(self, words: Glossary) -> None:
        self._words = words
        self._told: set[str] = set()

    def after(self, texts: Iterable[str], known: Iterable[str] = ()) -> list[Block]:
        """Return a block that explains the words first used in ``texts``, or nothing.

        ``known`` are words the reader has just been told of in another way.
        """
        self._told.update(term.say for word in known for term in self._words.used_in(word))
        new = dict.fromkeys(term.say for text in texts for term in self._words.used_in(text))
        lines = [say for say in new if say not in self._told]
        self._told.update(lines)
        if not lines:
            return []
        return [[*(f"*{escape_inline(line)}*" for line in lines)]]


def number_word(count: int) -> str:
    """Return a count as it is written in running text: ``three``, ``12``."""
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def label(words: str) -> str:
    """Return what stands bold before a paragraph."""
    stop = "" if words[-1:] in (".", "!", "?", ":") else "."
    return f"**{escape_inline(words)}{stop}**"


def place_key(fact: ClientFact) -> str:
    """Return what facts of one place have in common."""
    return folded(fact.area)


def told_once(facts: Iterable[ClientFact]) -> list[ClientFact]:
    """Return ``facts`` without those that say in the same place what an earlier one said."""
    seen: dict[tuple[str, str], ClientFact] = {}
    for fact in facts:
        if one_line(fact.text):
            seen.setdefault((folded(fact.area), folded(fact.text).rstrip(".! ")), fact)
    return list(seen.values())


def grouped(facts: Iterable[ClientFact], key: Callable[[ClientFact], Hashable]) -> list[list[ClientFact]]:
    """Return ``facts`` in groups of one key, in order of the first of each."""
    groups: dict[Hashable, list[ClientFact]] = {}
    for fact in facts:
        groups.setdefault(key(fact), []).append(fact)
    return list(groups.values())


def area_block(fact: ClientFact, lines: Block) -> Block:
    """Return a paragraph that begins with the name of a fact's place."""
    line = one_line(fact.area)
    known: dict[str, str] = data_table("wording.toml")["areas"]
    return [f"{label(known.get(folded(line), capital(line)))} {lines[0]}", *lines[1:]]


def by_area(
    facts: Sequence[ClientFact], explainer: Explainer, lines: Callable[[Sequence[ClientFact]], Block]
) -> list[Block]:
    """Return a paragraph for each place, made by ``lines``, and the words it uses explained."""
    blocks: list[Block] = []
    for group in grouped(facts, place_key):
        blocks.append(area_block(group[0], lines(group)))
        blocks += picture_blocks(group)
        blocks += explainer.after(fact.text for fact in group)
    return blocks


def picture_blocks(facts: Iterable[ClientFact]) -> list[Block]:
    """Return a paragraph of the stills that show some facts, or nothing when none does."""
    lines = [
        picture_line(escape_inline(sentence(to_reader(fact.text))), sha256)
        for sha256, fact in stills_of(facts).items()
    ]
    return [lines] if lines else []


def work_lines(facts: Sequence[ClientFact], *, done: bool) -> Block:
    """Return what is to be done, or was done, of one place as sentences.

    Short pieces of work of the same people share a sentence, three at most; a note that does not
    begin with work we have words for stands as it is.
    """
    lines: Block = []
    run: list[Deed] = []

    def close() -> None:
        if run:
            lines.append(escape_inline(_run_sentence(run, done=done, again=_opened_alike(lines, run, done))))
            run.clear()

    for fact in facts:
        deed = None if fact.held else deed_in(to_reader(fact.text))
        if deed is None or fact.who is Party.CLIENT:
            close()
            lines += _as_noted(fact, done=done)
            continue
        if run and not (deed.simple and run[-1].simple and deed.who == run[-1].who and len(run) < _TOGETHER):
            close()
        run.append(deed)
    close()
    return lines


def _as_noted(fact: ClientFact, *, done: bool) -> Block:
    deed = deed_in(to_reader(fact.text))
    if done and deed and fact.who is Party.CLIENT:
        return [escape_inline(f"You {deed.done()}.")]
    if done and fact.kind is not Kind.OBSERVATION:
        return [said("done_item", what=escape_inline(sentence(to_reader(fact.text))))]
    if fact.held and deed:
        return [
            escape_inline(f"{deed.who} will {deed.to_do()}."),
            said("held", what=escape_inline(fact.held)),
        ]
    line = escape_inline(sentence(to_reader(fact.text)))
    return [line, said("held", what=escape_inline(fact.held))] if fact.held else [line]


def _opened_alike(lines: Block, run: Sequence[Deed], done: bool) -> bool:
    opening = run[0].who if done else f"{run[0].who} will "
    return bool(lines) and lines[-1].startswith(opening)


def _run_sentence(run: Sequence[Deed], *, done: bool, again: bool) -> str:
    parts = [deed.done() if done else deed.to_do() for deed in run]
    also = "also " if again else ""
    return f"{run[0].who} {also if done else f'will {also}'}{listed(parts)}."


def when_lines(facts: Sequence[ClientFact], today: dt.date) -> Block:
    """Return when the plan has some work, or nothing while it does not say so for all of it."""
    begins = [fact.begins for fact in facts if fact.begins]
    ends = [fact.ends or fact.begins for fact in facts if fact.begins]
    if not begins or any(fact.held for fact in facts):
        return []
    first, last = min(begins), max(end for end in ends if end)
    if first == last:
        return [said("planned_day", day=week_day(first, today))]
    return [said("planned_days", first=week_day(first, today), last=week_day(last, today))]


def need_lines(number: int, fact: ClientFact, today: dt.date) -> Block:
    """Return a numbered request to the reader, by when, and since when it is open."""
    mark = f"{number}. "
    name = area_block(fact, [escape_inline(sentence(as_request(fact.text)))])
    if fact.by:
        key = "needed_by" if fact.by >= today else "needed_was"
        name.append(said(key, day=week_day(fact.by, today)))
    if fact.day < today:
        name.append(said("open_since", day=plain_day(fact.day, today)))
    return [mark + name[0], *(" " * len(mark) + line for line in name[1:])]


def wait_line(fact: ClientFact, today: dt.date) -> str:
    """Return what others owe, and since when."""
    line = escape_inline(sentence(to_reader(fact.text)))
    return f"{line} {said('open_since', day=plain_day(fact.day, today))}" if fact.day < today else line


def change_lines(change: ChangeFact, today: dt.date) -> Block:
    """Return what a change order does to the price and the days of work, and where it stands."""
    name = label(f"Change order {change.number}, {one_line(change.title)}")
    day = plain_day(change.day, today)
    price = said("price_more" if change.cents >= 0 else "price_less", sum=money(abs(change.cents)))
    if change.cents == 0:
        price = said("price_same")
    if change.answer is None:
        return [f"{name} {said('change_open', day=day)}", price, days_line(change.days)]
    if not change.answer:
        return [f"{name} {said('change_no', day=day)}"]
    return [f"{name} {said('change_yes', day=day)}", price, days_line(change.days)]


def days_line(days: int) -> str:
    """Return what a change does to the length of the work."""
    if days == 0:
        return said("days_same")
    count = f"{number_word(abs(days))} working day{'s' if abs(days) != 1 else ''}"
    return said("days_more" if days > 0 else "days_less", days=count)


def terms_lines(terms: TermsFact) -> Block:
    """Return the contract as it stands."""
    lines = [said("terms", sum=money(terms.cents))]
    if terms.finish:
        lines.append(said("terms_finish", day=week_day(terms.finish, terms.finish)))
    return lines
