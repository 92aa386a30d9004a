"""Dangers an entry names."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Hazard
from journal_tui.walkthrough.drafting import vocabulary

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


def hazards_named(keys: Sequence[str]) -> tuple[Hazard, ...]:
    """Return the hazards ``keys`` name, in the order first named, each once."""
    return tuple(dict.fromkeys(Hazard(name) for _a, _b, name in vocabulary.hazards().found(keys)))


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
