"""Sentences an update is put together from, each on a line of its own."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterable, Sequence

from journal_tui.documents.asking import asked_line
from journal_tui.documents.deeds import Deed, deed_in
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary
from journal_tui.documents.matching import any_of, plain
from journal_tui.documents.news import opens_with_verb
from journal_tui.documents.pictures import picture_line
from journal_tui.documents.sentences import sentences
from journal_tui.documents.story import Told, by_place
from journal_tui.documents.wording import capital, data_table, listed, plain_day, said, sentence, week_day
from journal_tui.domain.document import ChangeFact, TermsFact
from journal_tui.domain.kinds import Party
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


def area_block(fact: Told, lines: Block) -> Block:
    """Return a paragraph that begins with the name of a fact's place, once."""
    title = _title_of(fact)
    named = re.match(
        rf"(?:The|Your|Our) {re.escape(escape_inline(one_line(fact.area)))}\b(?!['’])",
        lines[0],
        re.IGNORECASE,
    )
    if named and one_line(fact.area) and opens_with_verb(lines[0][named.end() :]):
        return [f"**{named.group()}**{lines[0][named.end() :]}", *lines[1:]]
    return [f"{label(title)} {lines[0]}", *lines[1:]]


def _title_of(fact: Told) -> str:
    line = one_line(fact.area)
    known: dict[str, str] = data_table("wording.toml")["areas"]
    return known.get(folded(line), capital(line))


def place_name(fact: Told) -> str:
    """Return the name of a fact's place as it stands inside a sentence: ``the tub``."""
    return area_name(fact.area)


def area_name(area: str) -> str:
    """Return the name of a place as it stands inside a sentence: ``the tub``."""
    line = one_line(area)
    known: dict[str, str] = data_table("wording.toml")["areas"]
    name = known.get(folded(line), line)
    first = name.split(" ")[0].casefold()
    name = name if name[1:2].isupper() else name[:1].lower() + name[1:]
    return escape_inline(name if first in ("the", "a", "our", "all") else f"the {name}")


def by_area(
    facts: Sequence[Told], explainer: Explainer, lines: Callable[[Sequence[Told]], Block]
) -> list[Block]:
    """Return a paragraph for each place, made by ``lines``, and the words it uses explained."""
    blocks: list[Block] = []
    for group in by_place(facts):
        blocks.append(area_block(group[0], lines(group)))
        blocks += picture_blocks(group)
        blocks += explainer.after(fact.text for fact in group)
    return blocks


def picture_blocks(facts: Iterable[Told]) -> list[Block]:
    """Return a paragraph of the stills that show some facts, or nothing when none does."""
    shown: dict[str, Told] = {}
    for fact in facts:
        if fact.fact.still:
            shown.setdefault(fact.fact.still, fact)
    lines = [picture_line(escape_inline(sentence(fact.text)), sha256) for sha256, fact in shown.items()]
    return [lines] if lines else []


def work_lines(facts: Sequence[Told]) -> Block:
    """Return what is to be done in one place as sentences.

    Short pieces of work of the same people share a sentence, three at most; a note that does not
    begin with work we have words for stands as it is.
    """
    return _runs(facts, done=False, otherwise=_as_noted)


def done_lines(works: Sequence[Told]) -> Block:
    """Return what was done in one place as sentences."""
    return _runs(works, done=True, otherwise=_as_done)


def settled_blocks(settled: Sequence[Told], explainer: Explainer) -> list[Block]:
    """Return one list, by place, of what was found or owed earlier and is dealt with."""
    if not settled:
        return []
    rows: Block = []
    for group in by_place(settled):
        told = [
            said("quoted", what=" ".join(told_lines(one))) if one.quoted else " ".join(told_lines(one))
            for one in group
        ]
        rows += [f"- {line}" for line in area_block(group[0], [" ".join(told)])]
    return [[said("settled")], rows, *explainer.after(one.text for one in settled)]


def chosen_lines(fact: Told) -> Block:
    """Return a choice as sentences; one given as an order says what we will do."""
    deed = deed_in(fact.text)
    return _escaped(f"{deed.who} will {deed.to_do()}.") if deed else told_lines(fact)


def _escaped(text: str) -> Block:
    return [escape_inline(line) for line in sentences(text)]


def _runs(facts: Sequence[Told], *, done: bool, otherwise: Callable[[Told], Block]) -> Block:
    lines: Block = []
    run: list[Deed] = []

    def close() -> None:
        if run:
            lines.extend(_escaped(_run_sentence(run, done=done, again=_opened_alike(lines, run, done))))
            run.clear()

    for fact in facts:
        deed = None if fact.held else deed_in(fact.text)
        if deed is None or fact.who not in (None, Party.CREW):
            close()
            lines += otherwise(fact)
            continue
        if run and not (deed.simple and run[-1].simple and deed.who == run[-1].who and len(run) < _TOGETHER):
            close()
        run.append(deed)
    close()
    return lines


_ASKED_FOR = re.compile(r", (?:by|before|so that|so)\b.*$", re.IGNORECASE)


def _as_done(fact: Told) -> Block:
    deed = deed_in(fact.text)
    if deed is None:
        return told_lines(fact)
    if fact.who is Party.CLIENT:
        # By when it was asked, and what for, is over.
        return _escaped(f"You {_ASKED_FOR.sub('', deed.done())}.")
    who = deed.who
    # What others owed they did, not we.
    who = capital(_party(fact)) if who == "We" and _party(fact) else who
    return _escaped(f"{who} {deed.done()}.")


def _as_noted(fact: Told) -> Block:
    deed = deed_in(fact.text)
    if not fact.held:
        return told_lines(fact)
    lines = _escaped(f"{deed.who} will {deed.to_do()}.") if deed else told_lines(fact)
    return [*lines, said("held", what=escape_inline(fact.held))]


def told_lines(fact: Told) -> Block:
    """Return what is told of a fact as sentences."""
    return _escaped(fact.text) or [""]


def _opened_alike(lines: Block, run: Sequence[Deed], done: bool) -> bool:
    opening = run[0].who if done else f"{run[0].who} will "
    return bool(lines) and lines[-1].startswith(opening)


def _run_sentence(run: Sequence[Deed], *, done: bool, again: bool) -> str:
    parts = [deed.done() if done else deed.to_do() for deed in run]
    also = "also " if again else ""
    return f"{run[0].who} {also if done else f'will {also}'}{listed(parts)}."


def when_lines(facts: Sequence[Told], today: dt.date) -> Block:
    """Return when the plan has some work, or nothing while it does not say so for all of it."""
    begins = [fact.fact.begins for fact in facts if fact.fact.begins]
    ends = [fact.fact.ends or fact.fact.begins for fact in facts if fact.fact.begins]
    if not begins or any(fact.held for fact in facts):
        return []
    first, last = min(begins), max(end for end in ends if end)
    if first == last:
        return [said("planned_day", day=week_day(first, today))]
    return [said("planned_days", first=week_day(first, today), last=week_day(last, today))]


def need_lines(number: int, fact: Told, today: dt.date) -> Block:
    """Return a numbered request to the reader, by when, and since when it is open."""
    mark = f"{number}. "
    name = area_block(fact, [escape_inline(line) for line in fact.ask.lines] or told_lines(fact))
    if fact.ask.asked_by:
        name.append(asked_line(fact.ask.asked_by, today))
    if fact.fact.by:
        key = "needed_by" if fact.fact.by >= today else "needed_was"
        name.append(said(key, day=week_day(fact.fact.by, today)))
    if fact.fact.day < today and not fact.ask.asked_by:
        name.append(said("open_since", day=plain_day(fact.fact.day, today)))
    return [mark + name[0], *(" " * len(mark) + line for line in name[1:])]


def wait_block(facts: Sequence[Told], lines: Block) -> Block:
    """Return a paragraph that begins with the place others owe something for, and who owes it.

    Who it is stands there only when the first sentence does not say so.
    """
    place, who = _title_of(facts[0]), _party(facts[0])
    named = who and mentions(facts[0].text, facts[0].who)
    if who and not named and not lines[0].startswith(said("wait_for")):
        place = said("with_party", place=place, who=who)
    return [f"{label(place)} {lines[0]}", *lines[1:]]


def _party(fact: Told) -> str:
    name: str = data_table("wording.toml")["parties"].get(str(fact.who or ""), "")
    return name


def wait_lines(fact: Told, today: dt.date) -> Block:
    """Return what others owe, and since when; what they have to do as what we wait for."""
    deed, who = deed_in(fact.text), _party(fact)
    if (
        deed
        and who
        and deed.who == "We"
        and not one_line(fact.text).lower().startswith(("we ", "we'", "we’"))
    ):
        lines = _escaped(f"{said('wait_for')} {who} to {deed.to_do()}.")
    else:
        lines = told_lines(fact)
    if fact.fact.day < today:
        lines[-1] = f"{lines[-1]} {said('open_since', day=plain_day(fact.fact.day, today))}".strip()
    return lines


def mentions(text: str, who: Party | None) -> bool:
    """True when words speak of a party by what it is called: "the yard" is a supplier."""
    called: dict[str, list[str]] = data_table("wording.toml")["called"]
    return any_of(called.get(str(who or ""), ["\0"])).search(plain(text)) is not None


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
