"""Under which heading of a letter a fact is told, by what it says and not by what it was drafted as."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from journal_tui.documents.clauses import clauses
from journal_tui.documents.deeds import (
    deed_in,
    names_work_to_come,
    tells_of_done_work,
    tells_only_what_is_behind,
    tells_what_we_did,
    tells_what_we_only_did,
)
from journal_tui.documents.news import dealt_with, has_verb, puts_right, tells_fault, warns
from journal_tui.documents.plain_speech import plain_words, without_place
from journal_tui.documents.settled import tells_what_sub_does
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import WHOLE_ROOM, Hazard, Kind
from journal_tui.domain.text import folded, one_line


def told_once(facts: Iterable[ClientFact]) -> list[ClientFact]:
    """Return ``facts`` without those that say in the same place what an earlier one said."""
    seen: dict[tuple[str, str], ClientFact] = {}
    for fact in facts:
        if one_line(fact.text):
            seen.setdefault(key_of(fact), fact)
    return list(seen.values())


def key_of(fact: ClientFact) -> tuple[str, str]:
    """Return what two facts that say the same of the same place share."""
    return folded(fact.area), folded(fact.text).rstrip(".! ")


_ANSWER = re.compile(r"answer change order (\d+)\b", re.IGNORECASE)


def is_told_as_change(fact: ClientFact, facts: UpdateFacts) -> bool:
    """True for an answer the letter tells with the price."""
    found = _ANSWER.match(one_line(fact.text))
    return found is not None and int(found.group(1)) in {change.number for change in facts.changes}


def is_finished(fact: ClientFact) -> bool:
    """True when what was seen, or is still on the list, is told as work that was done."""
    if is_behind(fact) or only_done(fact):
        return True
    return tells_of_done_work(fact.text) and not (_is_faulty(fact) or is_order(fact))


def is_order(fact: ClientFact) -> bool:
    """True when what was noted as seen is work to come by its own words: "need to caulk the joint"."""
    words = plain_words(without_place(fact))
    return fact.kind is Kind.OBSERVATION and _ORDER.match(words) is not None and deed_in(words) is not None


_ORDER = re.compile(r"(?:(?:we|i) )?(?:still )?(?:need|have|got) to\b", re.IGNORECASE)


def is_behind(fact: ClientFact) -> bool:
    """True when a step on the list names only what is over: "framing passed"."""
    step = fact.kind is Kind.NEXT_STEP and not fact.held
    return step and tells_only_what_is_behind(plain_words(without_place(fact)))


def is_only_seen(fact: ClientFact) -> bool:
    """True when a step on the list names no work, only what is wrong: "the casing doesn't line up"."""
    words = plain_words(without_place(fact))
    if fact.held or deed_in(words) or names_work_to_come(words) or tells_what_sub_does(words):
        return False
    return has_verb(words) and (tells_fault(words) or _NOT_SO.search(words) is not None)


#: Something is not as it should be.
_NOT_SO = re.compile(r"\b(?:does|do|is|are|has|have)(?:n['’]t| not)\b.*\w", re.IGNORECASE)


def _is_faulty(fact: ClientFact) -> bool:
    """True when one part of a note tells of work done and another of something wrong with it."""
    parts = [clause.alone for clause in clauses(one_line(fact.text))]
    return any(tells_fault(part) and not (tells_of_done_work(part) or puts_right(part)) for part in parts)


#: Dangers of a material, over when those who may have taken it out or made it dead.
_OF_MATERIAL = frozenset({Hazard.ASBESTOS, Hazard.LEAD, Hazard.MOLD})


def relieved_in(facts: UpdateFacts) -> frozenset[int]:
    """Return the facts (by ``id``) whose danger a later one, of their place, tells to be dealt with."""
    told = [*facts.found, *facts.decided, *facts.done, *facts.next, *facts.needed, *facts.waiting]
    over = [fact for fact in told if fact.area.strip() and dealt_with(fact.text)]
    return frozenset(
        id(fact)
        for fact in told
        for end in over
        if fact.hazards
        and _OF_MATERIAL.issuperset(fact.hazards)
        and folded(fact.area) == folded(end.area)
        and (fact.said_on or fact.day) <= (end.said_on or end.day)
    )


def only_done(fact: ClientFact) -> bool:
    """True when a choice tells only of work that was done."""
    return fact.kind is Kind.DECISION and tells_what_we_only_did(plain_words(fact.text))


def is_told_as_done(fact: ClientFact, finished: Sequence[ClientFact]) -> bool:
    """True when what is done can be told as work that was done, by its own words."""
    words = plain_words(without_place(fact))
    return (
        any(fact is one for one in finished)
        or (tells_of_done_work(fact.text) and not _is_faulty(fact))
        or (
            fact.kind is Kind.NEXT_STEP
            and (deed_in(words) is not None or tells_what_we_did(words) or tells_what_sub_does(words))
        )
    )


def hurts(fact: ClientFact) -> bool:
    """True when a note names a danger of a known kind, or warns of one by its words."""
    return any(hazard is not Hazard.OTHER for hazard in fact.hazards) or warns(fact.text)


def names_its_place(fact: ClientFact) -> bool:
    """True when a note was typed under the name of a thing: its "it" is that.

    A place the note itself names is where the thing is: "it's in the garage".
    """
    area = folded(fact.area)
    return not fact.spoken and area not in ("", WHOLE_ROOM) and area not in folded(without_place(fact))
