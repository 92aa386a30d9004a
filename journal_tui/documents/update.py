"""The client update: facts the client may read, in plain words, as CommonMark.

Nothing is invented: every sentence is either a fact's own words or a fixed sentence of the data files
(``wording.toml``, ``conditions.toml``, ``family.toml``, ``glossary.toml``, ``cautions.toml``). Each
sentence stands on its own line of the Markdown, so that a remodeler's edits and later facts can be
joined sentence by sentence (``documents.edits``). A trade word is explained right below the paragraph
that uses it first: the reader on a phone need not scroll for it, and the remodeler's own sentence is not
broken open.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from journal_tui.documents.cautions import cautions_for, only_guards, tells_of_fall
from journal_tui.documents.choosing import MOST_WORDS, SHARES, Chosen, choose, weight, without_errands
from journal_tui.documents.conditions import conditions_in, notes_for
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary, standard_glossary
from journal_tui.documents.message import short_update
from journal_tui.documents.news import warns
from journal_tui.documents.story import LeftOut, Story, Told, by_place, in_groups
from journal_tui.documents.telling import (
    Block,
    Explainer,
    area_block,
    area_name,
    by_area,
    change_lines,
    chosen_lines,
    done_lines,
    label,
    need_lines,
    number_word,
    picture_blocks,
    place_name,
    settled_blocks,
    terms_lines,
    told_lines,
    wait_block,
    wait_lines,
    when_lines,
    work_lines,
)
from journal_tui.documents.told import story_of
from journal_tui.documents.wording import full_day, heading, listed, plain_day, plain_phase, said
from journal_tui.domain.document import ClientFact, Length, UpdateFacts
from journal_tui.domain.kinds import OTHER_PHASE, Hazard
from journal_tui.domain.text import folded, one_line

#: More visits than this are counted, not listed.
_VISITS_LISTED = 4
#: So many places a letter names of what it sums up.
_PLACES = 3


_LABEL = re.compile(r"^(?:\d+\. )?\*\*(?:[^*\\]|\\.)*\*\* ")


@dataclass(frozen=True, slots=True)
class Letter:
    """An update as CommonMark, and what of the facts it does not tell, with the reasons."""

    markdown: str
    left_out: tuple[LeftOut, ...] = ()


def update_markdown(
    facts: UpdateFacts, words: Glossary | None = None, length: Length = Length.STANDARD
) -> str:
    """Return a client update as CommonMark, ending in one line break; same facts, same text."""
    return update_letter(facts, words, length).markdown


def update_letter(
    facts: UpdateFacts, words: Glossary | None = None, length: Length = Length.STANDARD
) -> Letter:
    """Return a client update, and what it leaves out.

    ``words`` explains the trade words; without it the package's own glossary does. The short
    ``length`` is a message of less than 600 characters; the standard one is read in two or three
    minutes: when all there is to tell is longer, it tells what weighs most and sums up the rest; the
    full one tells all, with the sources, and at its end what cannot stand by itself.
    """
    story = story_of(facts)
    words = words or standard_glossary()
    if length is Length.SHORT:
        return Letter(short_update(story), tuple(story.left_out))
    if length is Length.FULL:
        told = {id(one.fact) for one in story.notes}
        text = _Letter(Chosen(story), words, full=True).text()
        noted = {(one.area, one_line(one.fact.text)) for one in story.notes if id(one.fact) in told}
        out = [one for one in story.left_out if (one.area, one.words) not in noted]
        return Letter(text, tuple(out))
    chosen = without_errands(story)
    text = _Letter(chosen, words, full=False).text()
    if _words(text) <= MOST_WORDS:
        return Letter(text, (*story.left_out, *chosen.summed_up))
    text, chosen = _condensed(story, words)
    return Letter(text, (*story.left_out, *chosen.summed_up))


def _condensed(story: Story, words: Glossary) -> tuple[str, Chosen]:
    """Return the fullest letter that is short enough, else the shortest there can be."""
    low, high = 0, len(SHARES)
    best: tuple[str, Chosen] | None = None
    while low < high:
        middle = (low + high) // 2
        chosen = choose(story, SHARES[middle])
        text = _Letter(chosen, words, full=False, condensed=True).text()
        if _words(text) <= MOST_WORDS:
            best, low = (text, chosen), middle + 1
        else:
            high = middle
    if best is not None:
        return best
    chosen = choose(story, SHARES[0])
    return _Letter(chosen, words, full=False, condensed=True).text(), chosen


def _words(markdown: str) -> int:
    """Return how many words of prose there are, as ``flesch`` counts them but without reading Markdown."""
    prose = (_LABEL.sub("", line) for line in markdown.split("\n") if not line.startswith("#"))
    return sum(any(c.isalnum() for c in word) for line in prose for word in line.split())


class _Letter:
    """One update being written."""

    def __init__(self, chosen: Chosen, words: Glossary, *, full: bool, condensed: bool = False) -> None:
        self.story, self.rest, self.reasons = chosen.story, chosen.rest, chosen.reasons
        self.facts = chosen.story.facts
        self.full, self.condensed = full, condensed
        self.explainer = Explainer(words)
        self.reasons_told: set[str] = set()

    def text(self) -> str:
        """Return the whole of it."""
        facts = self.facts
        blocks: list[Block] = [[f"# {escape_inline(facts.title) or 'Update'}"]]
        if facts.empty:
            blocks += [self._dated(), self._nothing_new()]
        else:
            blocks += [self._dated() + self._covers()]
            blocks += _section("found", self._found())
            blocks += _section("decided", self._decided())
            blocks += _section("done" if facts.since else "done_first", self._done())
            blocks += _section("next", self._coming())
            blocks += _section("changes", self._changes())
            blocks += _section("needed", self._needs())
            blocks += _section("waiting", self._waits())
            blocks += _section("notes", self._notes())
            blocks += _section("care", self._care())
            blocks += [[said("closing_more")] if any(self.rest.values()) else [said("closing")]]
        return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"

    # The head ----------------------------------------------------------------------------------

    def _dated(self) -> Block:
        facts = self.facts
        day = full_day(facts.as_of)
        where = one_line(facts.address)
        if where and folded(where) not in folded(facts.title):
            return [said("dated_at", day=day, address=escape_inline(where))]
        return [said("dated", day=day)]

    def _covers(self) -> Block:
        facts = self.facts
        lines: Block = []
        days = sorted(set(facts.visits))
        spoken = [plain_day(day, facts.as_of) for day in days]
        if len(days) == 1:
            lines.append(said("one_visit", days=spoken[0]))
        elif 1 < len(days) <= _VISITS_LISTED:
            lines.append(said("some_visits", days=listed(spoken)))
        elif days:
            lines.append(said("many_visits", count=number_word(len(days)), first=spoken[0], last=spoken[-1]))
        if facts.since:
            lines.append(said("since", day=plain_day(facts.since, facts.as_of)))
        asks = len(self.story.needed)
        if asks:
            key = "one_need" if asks == 1 else "some_needs"
            lines.append(said(key, count=number_word(asks), heading=heading("needed")))
        return lines

    def _nothing_new(self) -> Block:
        facts = self.facts
        if facts.since:
            first = said("nothing_new_since", day=plain_day(facts.since, facts.as_of))
        else:
            first = said("nothing_new")
        return [first, said("write_again")]

    # What was -----------------------------------------------------------------------------------

    def _found(self) -> list[Block]:
        blocks: list[Block] = []
        allowed = self._reasons_allowed()
        for group in by_place(self.story.found):
            blocks.append(area_block(group[0], _lines(group, told_lines)))
            blocks += picture_blocks(group)
            reasons, known = self._reasons(group, allowed)
            blocks += [reasons] if reasons else []
            blocks += self.explainer.after((one.text for one in group), known)
        return blocks + self._more("found")

    def _reasons_allowed(self) -> set[str]:
        """Return the names of the conditions whose reasons are told: the weightiest of a condensed letter."""
        order = sorted(self.story.found, key=lambda one: -weight(one))
        order = [one for one in order if id(one.fact) not in self.story.relieved]
        names = dict.fromkeys(c.name for one in order for c in conditions_in(one.fact.text, one.area))
        return set(list(names)[: self.reasons])

    def _reasons(self, told: Iterable[Told], allowed: set[str]) -> tuple[Block, list[str]]:
        """Return why some facts matter, each reason once in the update, and the words it explains."""
        lines: Block = []
        known: list[str] = []
        for one in told:
            if id(one.fact) in self.story.relieved:
                continue
            for condition in conditions_in(one.fact.text, one.area):
                if condition.name in self.reasons_told or condition.name not in allowed:
                    continue
                self.reasons_told.add(condition.name)
                known += condition.explains
                lines.append(condition.say)
                if self.full and condition.source:
                    lines.append(said("source", source=condition.source))
        return ([f"**{said('why')}** {lines[0]}", *lines[1:]] if lines else []), known

    def _more(self, part: str, *others: str) -> list[Block]:
        """Return the sentence that sums up what a part, and others told under its heading, do not tell."""
        rest = [one for name in (part, *others) for one in self.rest.get(name, [])]
        if not rest:
            return []
        some = any(getattr(self.story, name) for name in (part, *others))
        words = {"also": "also " if some else "", "more": "more " if some else ""}
        groups = sorted(by_place(rest), key=len, reverse=True)
        told = sum(map(len, groups[:_PLACES]))
        where = "where" if told == len(rest) else "most" if 2 * told > len(rest) else "some"
        named = said(f"more_{where}", places=listed([place_name(group[0]) for group in groups[:_PLACES]]))
        key = f"more_{part}_one" if len(rest) == 1 else f"more_{part}"
        return [[said(key, count=number_word(len(rest)), places=named, **words)]]

    def _decided(self) -> list[Block]:
        blocks = by_area(self.story.decided, self.explainer, lambda group: _lines(group, chosen_lines))
        return blocks + self._more("decided")

    def _done(self) -> list[Block]:
        blocks = by_area(self.story.done, self.explainer, done_lines)
        blocks += settled_blocks(self.story.settled, self.explainer)
        return blocks + self._more("done", "settled")

    def _notes(self) -> list[Block]:
        if not self.story.notes or not (self.full or self.story.bare):
            return []
        blocks = by_area(self.story.notes, self.explainer, lambda group: _lines(group, told_lines))
        return [[said("notes")], *blocks]

    # What comes ---------------------------------------------------------------------------------

    def _coming(self) -> list[Block]:
        facts = self.facts
        phases = in_groups(self.story.next, lambda one: folded(one.phase))
        if not phases:
            return self._more("next")
        blocks: list[Block] = [[said("next" if len(phases) > 1 else "next_one")]]
        if facts.finish:
            blocks[0].append(said("finish", day=full_day(facts.finish)))
        if len(phases) > 1 and any(group[0].phase == OTHER_PHASE for group in phases):
            blocks[0].append(said("next_other", heading=plain_phase(OTHER_PHASE)))
        for group in phases:
            blocks.append([f"### {escape_inline(plain_phase(group[0].phase))}"])
            planned = when_lines(group, facts.as_of)
            blocks += [planned] if planned else []
            blocks += by_area(group, self.explainer, work_lines)
        return blocks + self._more("next")

    def _changes(self) -> list[Block]:
        facts = self.facts
        blocks = [change_lines(change, facts.as_of) for change in facts.changes]
        if blocks and facts.terms:
            blocks.append(terms_lines(facts.terms))
        return blocks

    def _needs(self) -> list[Block]:
        asks = self.story.needed
        if not asks:
            return []
        items = [need_lines(number, fact, self.facts.as_of) for number, fact in enumerate(asks, 1)]
        return [[said("needed")], *items, *self.explainer.after(fact.text for fact in asks)]

    def _waits(self) -> list[Block]:
        groups = in_groups(self.story.waiting, lambda fact: str(fact.who or ""))
        if not groups:
            return []
        blocks: list[Block] = [[said("waiting")]]
        for group in groups:
            for some in by_place(group):
                lines = [line for fact in some for line in wait_lines(fact, self.facts.as_of)]
                blocks.append(wait_block(some, lines))
                blocks += self.explainer.after(fact.text for fact in some)
        return blocks

    # Care ---------------------------------------------------------------------------------------

    def _care(self) -> list[Block]:
        # All there is, also what is only summed up above; what is done is no longer a danger to warn of.
        facts = self.facts
        told = [*facts.found, *facts.decided, *facts.next, *facts.waiting]
        # What is asked of the reader is no opening to fall into, unless its words say so.
        told += [fact for fact in facts.needed if Hazard.FALL not in fact.hazards or tells_of_fall(fact.text)]
        blocks = [
            [f"{label(note.label)} {note.brief if self.condensed else note.say}"]
            for note in notes_for(
                (
                    (fact.phase, fact.area, fact.text)
                    for fact in facts.next
                    if id(fact) not in self.story.finished
                ),
                facts.title,
            )
        ]
        over = self.story.finished | self.story.relieved
        cautions = list(self._cautions([fact for fact in told if id(fact) not in over]))
        if not blocks and not cautions:
            return []
        intro = [] if self.condensed else [[said("care")]]
        return [*intro, *blocks, *cautions, *([[said("last_word")]] if cautions else [])]

    def _cautions(self, told: Sequence[ClientFact]) -> Iterator[Block]:
        for caution in cautions_for(hazard for fact in told for hazard in fact.hazards):
            of_it = [fact for fact in told if _warned_of(fact, caution.hazard)]
            if not of_it:
                continue
            areas = {folded(fact.area): one_line(fact.area) for fact in of_it}
            where = listed([area for area in areas.values() if area])
            name = f"{caution.label} ({where})" if where else caution.label
            rule = [said("rule", rule=caution.rule)] if self.full and caution.rule else []
            there = {folded(fact.area): area_name(fact.area) for fact in of_it if fact.area.strip()}
            places = listed(list(there.values())) or said("place_unnamed")
            words = caution.brief if self.condensed else caution.say
            yield [f"{label(name)} {words.format(there=places, at=f'at {places}')}", *rule]


def _warned_of(fact: ClientFact, hazard: Hazard) -> bool:
    """True when a fact gives a reason to warn the family of a hazard it is marked with."""
    if hazard not in fact.hazards or only_guards(fact.text, hazard):
        return False
    # A danger of no kind says nothing of itself: what it is must be said.
    return hazard is not Hazard.OTHER or warns(fact.text)


def _lines(group: Iterable[Told], lines: Callable[[Told], Block]) -> Block:
    return [line for one in group for line in lines(one)]


def _section(key: str, blocks: list[Block]) -> list[Block]:
    return [[f"## {heading(key)}"], *blocks] if blocks else []
