"""The client update: facts the client may read, in plain words, as CommonMark.

Nothing is invented: every sentence is either a fact's own words or a fixed sentence of the data files
(``wording.toml``, ``conditions.toml``, ``family.toml``, ``glossary.toml``, ``cautions.toml``). Each
sentence stands on its own line of the Markdown, so that a remodeler's edits and later facts can be
joined sentence by sentence (``documents.edits``). A trade word is explained right below the paragraph
that uses it first: the reader on a phone need not scroll for it, and the remodeler's own sentence is not
broken open.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from journal_tui.documents.cautions import cautions_for
from journal_tui.documents.conditions import conditions_in, notes_for
from journal_tui.documents.deeds import tells_of_done_work
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary, standard_glossary
from journal_tui.documents.message import short_update
from journal_tui.documents.telling import (
    Block,
    Explainer,
    area_block,
    by_area,
    change_lines,
    grouped,
    label,
    need_lines,
    number_word,
    picture_blocks,
    place_key,
    terms_lines,
    told_once,
    wait_line,
    when_lines,
    work_lines,
)
from journal_tui.documents.voice import to_reader
from journal_tui.documents.wording import data_table, full_day, heading, listed, plain_day, plain_phase, said
from journal_tui.documents.wording import sentence as as_sentence
from journal_tui.domain.document import ClientFact, Length, UpdateFacts
from journal_tui.domain.kinds import OTHER_PHASE
from journal_tui.domain.text import folded, one_line

#: More visits than this are counted, not listed.
_VISITS_LISTED = 4
#: Of one place, the standard length tells no more of each sort than this.
_TOLD = 3


def update_markdown(
    facts: UpdateFacts, words: Glossary | None = None, length: Length = Length.STANDARD
) -> str:
    """Return a client update as CommonMark, ending in one line break; same facts, same text.

    ``words`` explains the trade words; without it the package's own glossary does. The short
    ``length`` is a message of less than 600 characters; the standard one tells of each place what
    weighs most and says how much it leaves out; the full one tells all, with the sources.
    """
    settled = _sorted_out(facts)
    if length is Length.SHORT:
        return short_update(settled)
    return _Letter(settled, words or standard_glossary(), full=length is Length.FULL).text()


def _sorted_out(facts: UpdateFacts) -> UpdateFacts:
    """Return ``facts`` with what was seen finished told as done, and nothing told twice."""
    found = told_once(facts.found)
    finished = [fact for fact in found if tells_of_done_work(fact.text)]
    done = told_once([*finished, *facts.done])
    return replace(
        facts,
        found=tuple(fact for fact in found if fact not in finished),
        decided=tuple(told_once(facts.decided)),
        done=tuple(done),
        next=tuple(told_once(facts.next)),
        needed=tuple(told_once(facts.needed)),
        waiting=tuple(told_once(facts.waiting)),
    )


class _Letter:
    """One update being written."""

    def __init__(self, facts: UpdateFacts, words: Glossary, *, full: bool) -> None:
        self.facts = facts
        self.full = full
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
            blocks += _section("care", self._care())
            blocks += [[said("closing")]]
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
        asks = len(facts.needed)
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
        for group in grouped(self.facts.found, place_key):
            told, left = self._weighed(group)
            lines = [_fact_line(fact) for fact in told]
            if left:
                lines.append(said("left_out", count=number_word(left), thing=_things(left)))
            blocks.append(area_block(group[0], lines))
            blocks += picture_blocks(told)
            reasons, known = self._reasons(told)
            blocks += [reasons] if reasons else []
            blocks += self.explainer.after((fact.text for fact in told), known)
        return blocks

    def _weighed(self, group: Sequence[ClientFact]) -> tuple[list[ClientFact], int]:
        """Return what is told of a place, in its order, and how many lesser things are not."""
        if self.full or len(group) <= _TOLD + 1:
            return list(group), 0
        heavy = [f for f in group if f.hazards or conditions_in(f.text, f.area)]
        light = [f for f in group if f not in heavy]
        kept = [*heavy, *light[: max(0, _TOLD - len(heavy))]]
        told = [f for f in group if f in kept]
        return told, len(group) - len(told)

    def _reasons(self, told: Iterable[ClientFact]) -> tuple[Block, list[str]]:
        """Return why some facts matter, each reason once in the update, and the words it explains."""
        lines: Block = []
        known: list[str] = []
        for fact in told:
            for condition in conditions_in(fact.text, fact.area):
                if condition.name in self.reasons_told:
                    continue
                self.reasons_told.add(condition.name)
                known += condition.explains
                lines.append(condition.say)
                if self.full and condition.source:
                    lines.append(said("source", source=condition.source))
        return ([f"**{said('why')}** {lines[0]}", *lines[1:]] if lines else []), known

    def _decided(self) -> list[Block]:
        return by_area(self.facts.decided, self.explainer, lambda group: [_fact_line(f) for f in group])

    def _done(self) -> list[Block]:
        return by_area(self.facts.done, self.explainer, lambda group: work_lines(group, done=True))

    # What comes ---------------------------------------------------------------------------------

    def _coming(self) -> list[Block]:
        facts = self.facts
        phases = grouped(facts.next, lambda fact: folded(fact.phase))
        if not phases:
            return []
        blocks: list[Block] = [[said("next" if len(phases) > 1 else "next_one")]]
        if facts.finish:
            blocks[0].append(said("finish", day=full_day(facts.finish)))
        if len(phases) > 1 and any(group[0].phase == OTHER_PHASE for group in phases):
            blocks[0].append(said("next_other", heading=plain_phase(OTHER_PHASE)))
        for group in phases:
            blocks.append([f"### {escape_inline(plain_phase(group[0].phase))}"])
            planned = when_lines(group, facts.as_of)
            blocks += [planned] if planned else []
            blocks += by_area(group, self.explainer, lambda some: work_lines(some, done=False))
        return blocks

    def _changes(self) -> list[Block]:
        facts = self.facts
        blocks = [change_lines(change, facts.as_of) for change in facts.changes]
        if blocks and facts.terms:
            blocks.append(terms_lines(facts.terms))
        return blocks

    def _needs(self) -> list[Block]:
        asks = self.facts.needed
        if not asks:
            return []
        items = [need_lines(number, fact, self.facts.as_of) for number, fact in enumerate(asks, 1)]
        return [[said("needed")], *items, *self.explainer.after(fact.text for fact in asks)]

    def _waits(self) -> list[Block]:
        groups = grouped(self.facts.waiting, lambda fact: str(fact.who or ""))
        if not groups:
            return []
        parties: dict[str, str] = data_table("wording.toml")["parties"]
        blocks: list[Block] = [[said("waiting")]]
        for group in groups:
            lines = [wait_line(fact, self.facts.as_of) for fact in group]
            who = label(parties.get(str(group[0].who or ""), parties["crew"]))
            blocks.append([f"{who} {lines[0]}", *lines[1:]])
            blocks += self.explainer.after(fact.text for fact in group)
        return blocks

    # Care ---------------------------------------------------------------------------------------

    def _care(self) -> list[Block]:
        # What is done is no longer a danger to warn of.
        facts = self.facts
        ahead = [*facts.next, *facts.needed, *facts.waiting]
        told = [*facts.found, *facts.decided, *ahead]
        blocks = [
            [f"{label(note.label)} {note.say}"]
            for note in notes_for((fact.phase, fact.area, fact.text) for fact in facts.next)
        ]
        cautions = list(self._cautions(told))
        if not blocks and not cautions:
            return []
        return [[said("care")], *blocks, *cautions, *([[said("last_word")]] if cautions else [])]

    def _cautions(self, told: Sequence[ClientFact]) -> Iterator[Block]:
        for caution in cautions_for(hazard for fact in told for hazard in fact.hazards):
            areas = {
                folded(fact.area): one_line(fact.area) for fact in told if caution.hazard in fact.hazards
            }
            where = listed([area for area in areas.values() if area])
            name = f"{caution.label} ({where})" if where else caution.label
            rule = [said("rule", rule=caution.rule)] if self.full and caution.rule else []
            yield [f"{label(name)} {caution.say}", *rule]


def _section(key: str, blocks: list[Block]) -> list[Block]:
    return [[f"## {heading(key)}"], *blocks] if blocks else []


def _fact_line(fact: ClientFact) -> str:
    return escape_inline(as_sentence(to_reader(fact.text)))


def _things(count: int) -> str:
    return "thing" if count == 1 else "things"
