"""The client update: facts the client may read, in plain words, as CommonMark.

Nothing is invented: every sentence is either a fact's own text or a fixed sentence of the data files
(``wording.toml``, ``glossary.toml``, ``cautions.toml``). Each sentence stands on its own line of the
Markdown, so that a remodeler's edits and later facts can be joined sentence by sentence
(``documents.edits``). A trade word is explained right below the paragraph that uses it first: the
reader on a phone need not scroll for it, and the remodeler's own sentence is not broken open.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from journal_tui.documents.cautions import cautions_for
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary, standard_glossary
from journal_tui.documents.voice import as_request, to_reader
from journal_tui.documents.wording import (
    capital,
    data_table,
    full_day,
    heading,
    listed,
    plain_day,
    plain_phase,
    said,
    sentence,
)
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import OTHER_PHASE
from journal_tui.domain.text import folded, one_line

#: More visits than this are counted, not listed.
_VISITS_LISTED = 4
#: Small numbers are written out in running text.
_NUMBERS = "no one two three four five six seven eight nine".split()

Block = list[str]


def update_markdown(facts: UpdateFacts, words: Glossary | None = None) -> str:
    """Return a client update as CommonMark, ending in one line break; same facts, same text.

    ``words`` explains the trade words; without it the package's own glossary does.
    """
    blocks: list[Block] = [[f"# {escape_inline(facts.title) or 'Update'}"]]
    if facts.empty:
        blocks += [_dated(facts), _nothing_new(facts)]
    else:
        blocks += [_dated(facts) + _covers(facts)]
        explainer = _Explainer(words or standard_glossary())
        blocks += _section("found", _by_area(facts.found, explainer))
        blocks += _section("decided", _by_area(facts.decided, explainer))
        blocks += _section("done" if facts.since else "done_first", _finished(facts.done, explainer))
        blocks += _section("next", _coming(facts.next, explainer))
        blocks += _section("needed", _needs(facts, explainer))
        blocks += _section("waiting", _waits(facts, explainer))
        blocks += _section("care", _care(facts))
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


class _Explainer:
    """Explains each trade word once, where the document first uses it."""

    def __init__(self, words: Glossary) -> None:
        self._words = words
        self._told: set[str] = set()

    def after(self, texts: Iterable[str]) -> list[Block]:
        """Return a block that explains the words first used in ``texts``, or nothing."""
        new = dict.fromkeys(term.say for text in texts for term in self._words.used_in(text))
        lines = [say for say in new if say not in self._told]
        self._told.update(lines)
        if not lines:
            return []
        escaped = [escape_inline(say) for say in lines]
        return [[*(f"*{line}*" for line in escaped)]]


def _dated(facts: UpdateFacts) -> Block:
    day = full_day(facts.as_of)
    where = one_line(facts.address)
    if where and folded(where) not in folded(facts.title):
        return [said("dated_at", day=day, address=escape_inline(where))]
    return [said("dated", day=day)]


def _covers(facts: UpdateFacts) -> Block:
    lines: Block = []
    days = sorted(set(facts.visits))
    spoken = [plain_day(day, facts.as_of) for day in days]
    if len(days) == 1:
        lines.append(said("one_visit", days=spoken[0]))
    elif 1 < len(days) <= _VISITS_LISTED:
        lines.append(said("some_visits", days=listed(spoken)))
    elif days:
        lines.append(said("many_visits", count=_number(len(days)), first=spoken[0], last=spoken[-1]))
    if facts.since:
        lines.append(said("since", day=plain_day(facts.since, facts.as_of)))
    asks = len(_told_once(facts.needed))
    if asks:
        key = "one_need" if asks == 1 else "some_needs"
        lines.append(said(key, count=_number(asks), heading=heading("needed")))
    return lines


def _nothing_new(facts: UpdateFacts) -> Block:
    if facts.since:
        first = said("nothing_new_since", day=plain_day(facts.since, facts.as_of))
    else:
        first = said("nothing_new")
    return [first, said("write_again")]


def _section(key: str, blocks: list[Block]) -> list[Block]:
    return [[f"## {heading(key)}"], *blocks] if blocks else []


def _told_once(facts: Sequence[ClientFact]) -> list[ClientFact]:
    """Return ``facts`` without those that say in the same place what an earlier one said."""
    seen: dict[tuple[str, str], ClientFact] = {}
    for fact in facts:
        if one_line(fact.text):
            seen.setdefault((folded(fact.area), folded(fact.text)), fact)
    return list(seen.values())


def _grouped(facts: Sequence[ClientFact], key: str) -> dict[str, list[ClientFact]]:
    groups: dict[str, list[ClientFact]] = {}
    for fact in facts:
        groups.setdefault(folded(str(getattr(fact, key) or "")), []).append(fact)
    return groups


def _label(words: str) -> str:
    stop = "" if words[-1:] in (".", "!", "?", ":") else "."
    return f"**{escape_inline(words)}{stop}**"


def _area_label(area: str) -> str:
    line = one_line(area)
    known: dict[str, str] = data_table("wording.toml")["areas"]
    return _label(known.get(folded(line), capital(line)))


def _area_block(facts: Sequence[ClientFact], lines: Block) -> Block:
    return [f"{_area_label(facts[0].area)} {lines[0]}", *lines[1:]]


def _by_area(facts: Sequence[ClientFact], explainer: _Explainer) -> list[Block]:
    blocks: list[Block] = []
    for group in _grouped(_told_once(facts), "area").values():
        blocks.append(_area_block(group, [_fact_line(fact) for fact in group]))
        blocks += explainer.after(fact.text for fact in group)
    return blocks


def _finished(facts: Sequence[ClientFact], explainer: _Explainer) -> list[Block]:
    # Most of them are still worded as the work they were on the list, so the lead says they are done.
    blocks = _by_area(facts, explainer)
    return [[said("done")], *blocks] if blocks else []


def _fact_line(fact: ClientFact) -> str:
    return escape_inline(sentence(to_reader(fact.text)))


def _coming(facts: Sequence[ClientFact], explainer: _Explainer) -> list[Block]:
    phases = _grouped(_told_once(facts), "phase")
    if not phases:
        return []
    blocks: list[Block] = [[said("next" if len(phases) > 1 else "next_one")]]
    if len(phases) > 1 and OTHER_PHASE in phases:
        blocks[0].append(said("next_other", heading=plain_phase(OTHER_PHASE)))
    for group in phases.values():
        blocks.append([f"### {escape_inline(plain_phase(group[0].phase))}"])
        blocks += _by_area(group, explainer)
    return blocks


def _needs(facts: UpdateFacts, explainer: _Explainer) -> list[Block]:
    asks = _told_once(facts.needed)
    if not asks:
        return []
    items = [_need(number, fact, facts.as_of) for number, fact in enumerate(asks, 1)]
    return [[said("needed")], *items, *explainer.after(fact.text for fact in asks)]


def _need(number: int, fact: ClientFact, today: dt.date) -> Block:
    mark = f"{number}. "
    lines = [f"{_area_label(fact.area)} {escape_inline(sentence(as_request(fact.text)))}"]
    if fact.day < today:
        lines.append(said("open_since", day=plain_day(fact.day, today)))
    return [mark + lines[0], *(" " * len(mark) + line for line in lines[1:])]


def _waits(facts: UpdateFacts, explainer: _Explainer) -> list[Block]:
    groups = _grouped(_told_once(facts.waiting), "who")
    if not groups:
        return []
    parties: dict[str, str] = data_table("wording.toml")["parties"]
    blocks: list[Block] = [[said("waiting")]]
    for who, group in groups.items():
        lines = [_wait_line(fact, facts.as_of) for fact in group]
        blocks.append([f"{_label(parties.get(who, parties['crew']))} {lines[0]}", *lines[1:]])
        blocks += explainer.after(fact.text for fact in group)
    return blocks


def _wait_line(fact: ClientFact, today: dt.date) -> str:
    line = _fact_line(fact)
    return f"{line} {said('open_since', day=plain_day(fact.day, today))}" if fact.day < today else line


def _care(facts: UpdateFacts) -> list[Block]:
    # What is done is no longer a danger to warn of.
    told = [*facts.found, *facts.decided, *facts.next, *facts.needed, *facts.waiting]
    cautions = cautions_for(hazard for fact in told for hazard in fact.hazards)
    if not cautions:
        return []
    blocks: list[Block] = [[said("care")]]
    for caution in cautions:
        areas = {folded(fact.area): one_line(fact.area) for fact in told if caution.hazard in fact.hazards}
        where = listed([area for area in areas.values() if area])
        blocks.append([f"{_label(f'{caution.label} ({where})' if where else caution.label)} {caution.say}"])
        if caution.rule:
            blocks[-1].append(said("rule", rule=caution.rule))
    return [*blocks, [said("last_word")]]


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)
