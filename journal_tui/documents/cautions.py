"""What a family should know about a danger named in the facts: calm, sourced, from a data file."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from journal_tui.documents.wording import data_table
from journal_tui.domain.kinds import Hazard


@dataclass(frozen=True, slots=True)
class Caution:
    """What is said to the family about one hazard.

    ``say`` is one or two sentences, ``brief`` the one a condensed letter has room for, ``rule`` the rule
    they rest on with its edition (empty when they
    rest on common practice), ``standing`` how the makers of this package know it: never printed.
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
    return [Caution(hazard=hazard, **table[hazard.value]) for hazard in Hazard if hazard in named]
