"""What a family should know about a danger named in the facts: calm, sourced, from a data file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from re import Pattern

from journal_tui.documents.matching import any_of, plain
from journal_tui.documents.wording import data_table
from journal_tui.domain.kinds import Hazard


@dataclass(frozen=True, slots=True)
class Caution:
    """What is said to the family about one hazard.

    In ``say`` and ``brief`` "{there}" and "{at}" stand for the places it is in. ``say`` is one or two
    sentences, ``brief`` the one a condensed letter has room for, ``rule`` the rule they rest on with its
    edition (empty when they rest on common practice), ``standing`` how the makers of this package know
    it: never printed.
    """

    hazard: Hazard
    label: str
    say: str
    brief: str
    rule: str
    standing: str


def crew_caution(hazard: Hazard, areas: Iterable[str]) -> str:
    """Return what the crew is told of a danger seen in some areas (none: not said where)."""
    where = ", ".join(dict.fromkeys(area for area in areas if area))
    name, stop, rest = str(data_table("crew_cautions.toml")[hazard.value]).partition(":")
    return f"{name} ({where}){stop}{rest}" if where else f"{name}{stop}{rest}"


def cautions_for(hazards: Iterable[Hazard]) -> list[Caution]:
    """Return the cautions for ``hazards``, each once, in the fixed order of ``Hazard``."""
    named = set(hazards)
    table = data_table("cautions.toml")
    words = ("label", "say", "brief", "rule", "standing")
    return [
        Caution(hazard=hazard, **{key: table[hazard.value][key] for key in words})
        for hazard in Hazard
        if hazard in named
    ]


@cache
def _besides(hazard: Hazard) -> tuple[Pattern[str], Pattern[str]] | None:
    row = data_table("cautions.toml")[hazard.value]
    return (any_of(row["besides"]), any_of(row["still"])) if "besides" in row else None


def tells_of_fall(text: str) -> bool:
    """True when words speak of an opening, a step or a fall."""
    return any_of(data_table("cautions.toml")["fall"]["still"]).search(plain(text)) is not None


def only_guards(text: str, hazard: Hazard) -> bool:
    """True when a note names nothing of a danger but what guards against it: "fire caulk"."""
    forms = _besides(hazard)
    if forms is None or not forms[0].search(plain(text)):
        return False
    return forms[1].search(forms[0].sub(" ", plain(text))) is None
