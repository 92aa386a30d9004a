"""Dangers an entry names."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Hazard, Kind
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.features import clause_of
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Things whose danger, where one is likely but not named, is of this kind.
_BY_THING = {
    Hazard.ELECTRICAL: frozenset(
        "wire wiring cable outlet breaker panel circuit switch box electrician".split()
    ),
    Hazard.STRUCTURE: frozenset("joist beam rim ledger post header stud girder hanger rafter".split()),
    Hazard.FALL: frozenset("stair tread step cord rug handrail railing hole threshold".split()),
    Hazard.SCALD: frozenset("hot valve heater degree".split()),
    Hazard.GAS: frozenset("gas".split()),
    Hazard.LEAD: frozenset("paint".split()),
}

#: Named at all, these are worth a draft: one too many is dropped with a key, one too few is breathed in.
_NEVER_PASSED_OVER = frozenset([Hazard.ASBESTOS, Hazard.GAS, Hazard.LEAD])
_NOT_HERE = frozenset(["general", "story"])

#: Words that name a danger together, wherever in an entry each stands.
_TOGETHER = (
    (Hazard.LEAD, "paint", frozenset(["lead", "flaking", "alligatored", "peeling", "chipping"])),
    (Hazard.LEAD, "trim", frozenset(["lead"])),
    (Hazard.ASBESTOS, "tile", frozenset(["mastic", "asbestos"])),
    (Hazard.ASBESTOS, "pipe", frozenset(["wrap", "asbestos"])),
)


def hazards_named(keys: Sequence[str]) -> tuple[Hazard, ...]:
    """Return the hazards ``keys`` name, in the order first named, each once."""
    named = [Hazard(name) for _a, _b, name in vocabulary.hazards().found(keys)]
    held = {form for key in keys for form in (key, vocabulary.singular(key))}
    named += [hazard for hazard, thing, signs in _TOGETHER if thing in held and signs & held]
    return tuple(dict.fromkeys(named))


def likely_hazards(keys: Sequence[str]) -> tuple[Hazard, ...]:
    """Return the hazards ``keys`` name, or failing that the one their things suggest."""
    named = hazards_named(keys)
    if named:
        return named
    singulars = [vocabulary.singular(key) for key in keys]
    for key in singulars:
        for hazard, things in _BY_THING.items():
            if key in things:
                return (hazard,)
    return (Hazard.OTHER,)


def with_dangers(utterances: Sequence[Utterance], spans: Sequence[Span]) -> list[Span]:
    """Return ``spans`` with one more for each utterance that names a grave danger and is in none.

    What is said of such things in general, or told as an old story, stays out.
    """
    covered = {at for span in spans for at in range(span.first, span.last + 1)}
    found = list(spans)
    for at, utterance in enumerate(utterances):
        if at in covered or not _NEVER_PASSED_OVER.intersection(hazards_named(utterance.keys)):
            continue
        clause = clause_of(utterance)
        if not clause.signs & _NOT_HERE and utterance.keys[0] != "if":
            found.append(Span(at, at, Kind.OBSERVATION, ()))
    return sorted(found, key=lambda span: span.first)
