"""The materials list: what each phase takes, what is bought, ordered or on site, and what to load."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES
from journal_tui.domain.text import one_line
from journal_tui.measures.quantities import Need, combined

_PLURAL = {
    "box": "boxes",
    "gal": "gal",
    "bag of 50 lb": "bags of 50 lb",
    "cartridge of 10.1 oz": "cartridges of 10.1 oz",
}


class Standing(StrEnum):
    """Where a material is."""

    TO_BUY = "to buy"
    ORDERED = "ordered"
    ON_SITE = "on site"


@dataclass(frozen=True, slots=True)
class Material:
    """A line of the list: whole packages of one thing for one phase.

    Ordered material has the day it is ``due``, which holds the work that needs it.
    """

    need: Need
    standing: Standing = Standing.TO_BUY
    due: dt.date | None = None

    def __post_init__(self) -> None:
        if (self.standing is Standing.ORDERED) != (self.due is not None):
            raise BadInput(
                one_line(self.need.name), "Ordered material has the day it is due; other material none."
            )

    @property
    def quantity(self) -> str:
        """What to ask for at the counter: packages, and what is in one."""
        need = self.need
        packed = need.packed if need.packages == 1 else _PLURAL.get(need.packed, f"{need.packed}s")
        return f"{need.packages} {packed}" + (
            f" of {need.package:g} {need.unit}" if need.package != 1 else ""
        )


def materials_list(needs: Iterable[Need]) -> tuple[Material, ...]:
    """Return the list in phase order, each product of a phase once."""

    def order(need: Need) -> tuple[int, str]:
        known = need.phase in STANDARD_PHASES
        return (STANDARD_PHASES.index(need.phase) if known else len(STANDARD_PHASES)), need.phase

    return tuple(Material(need) for need in sorted(combined(needs), key=order) if need.packages)


def as_lines(materials: Iterable[Material]) -> list[str]:
    """Return the list as lines of text, a heading for each phase."""
    out: list[str] = []
    phase = None
    for material in materials:
        if material.need.phase != phase:
            phase = material.need.phase
            out.append(phase)
        out.append(f"  {material.quantity}  {one_line(material.need.name)}  ({where(material)})")
    return out


def where(material: Material) -> str:
    """Return where a material is, in words."""
    if material.standing is Standing.ORDERED and material.due:
        return f"ordered, due {material.due.isoformat()}"
    return material.standing.value


@dataclass(frozen=True, slots=True)
class Load:
    """For a visit: what to bring, what is there already, and what the visit waits for."""

    bring: tuple[Material, ...]
    there: tuple[Material, ...]
    held: tuple[Material, ...]


def load_for(materials: Iterable[Material], phases: Iterable[str], day: dt.date) -> Load:
    """Return the load for work of ``phases`` on ``day``: material due later holds it."""
    wanted = set(phases)
    bring, there, held = [], [], []
    for material in materials:
        if material.need.phase not in wanted:
            continue
        if material.standing is Standing.ON_SITE:
            there.append(material)
        elif material.due and material.due > day:
            held.append(material)
        else:
            bring.append(material)
    return Load(tuple(bring), tuple(there), tuple(held))
