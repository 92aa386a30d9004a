"""Joist values and beam arithmetic: how long a sawn joist may span, how far it bends.

Simple span, uniform load. Deflection 5 w L^4 / (384 E I), bending w L^2 / 8 (any mechanics text;
AWC DA6 "Beam Design Formulas", figure 1). Method of the model-code span tables: live load alone for
deflection, all load for strength, repetitive-member factor 1.15, load duration factor 1.0 (NDS 2.3.2
and 4.3.9, from memory). Shear and bearing do not govern at these sizes and loads.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line
from journal_tui.measures.data_files import table
from journal_tui.measures.lengths import Lumber

REPETITIVE = 1.15
DEFAULT_EDITION = "2013"


@dataclass(frozen=True, slots=True)
class JoistValues:
    """Design values of one joist: ``bending`` Fb' in psi with its factors, ``stiffness`` E in psi."""

    species: str
    grade: str
    edition: str
    edition_says: str
    standing: str
    bending: float
    stiffness: float


def joist_values(joist: Lumber, species: str, grade: str, edition: str = DEFAULT_EDITION) -> JoistValues:
    """Return the design values of a sawn joist. Raises `BadInput` naming what is accepted."""
    book = table("design_values")
    chosen = next((e for e in book["edition"] if e["id"] == edition), None)
    if chosen is None:
        raise _choose("edition", edition, (e["id"] for e in book["edition"]))
    key = _species(species, book["names"])
    entry = chosen[key]
    rank = _grade(grade)
    if rank not in entry:
        raise _choose(
            f"grade of {entry['title']}", grade, (g for g in entry if g not in ("title", "standing"))
        )
    if joist.nominal not in book["size_factor"]:
        raise _choose("joist", joist.nominal, book["size_factor"])
    value = entry[rank]
    by_size = value.get("by_size")
    base = by_size[joist.nominal] if by_size else value["fb"] * book["size_factor"][joist.nominal]
    return JoistValues(
        entry["title"],
        "select structural" if rank == "SS" else f"No.{rank}",
        edition,
        chosen["says"],
        entry["standing"],
        base * REPETITIVE,
        value["e"] * 1e6,
    )


def _species(text: str, names: dict[str, list[str]]) -> str:
    said = folded(text)
    found = next((key for key, forms in names.items() if said in forms), None)
    if found is None:
        raise _choose("species", text, (key.upper() for key in names))
    return found


def _grade(text: str) -> str:
    said = folded(text).removeprefix("no.").removeprefix("no").removeprefix("#").strip()
    if said in ("ss", "select structural", "sel str", "sel. str."):
        return "SS"
    # Some tables print one line for both; the lower grade is meant.
    return "2" if said in ("1/2", "1 & 2", "1/no.2", "1 and 2") else said


def _choose(field: str, given: str, accepted: Iterable[str]) -> BadInput:
    return BadInput(f"{field}: {one_line(given) or 'nothing given'}", f"Accepted: {', '.join(accepted)}.")


def line_load(psf: float, spacing: Fraction) -> float:
    """Return pounds per inch of joist from a load in psf at ``spacing`` inches on centre."""
    return psf * float(spacing) / 144


def deflection(load: float, span: float, stiffness: float, inertia: float) -> float:
    """Return mid-span deflection in inches: 5 w L^4 / (384 E I); w lb/in, L in, E psi, I in^4."""
    return 5 * load * span**4 / (384 * stiffness * inertia)


def stiffness_span(load: float, limit: float, stiffness: float, inertia: float) -> float:
    """Return the span in inches at which the deflection is L / ``limit`` under ``load`` lb/in."""
    return float((384 * stiffness * inertia / (5 * load * limit)) ** (1 / 3))


def strength_span(load: float, bending: float, section: float) -> float:
    """Return the span in inches at which w L^2 / 8 equals Fb' S."""
    return float((8 * bending * section / load) ** 0.5)


@dataclass(frozen=True, slots=True)
class LongestSpan:
    """The longest clear span of a joist in inches, and which of the two limits sets it."""

    stiffness: float
    strength: float

    @property
    def inches(self) -> float:
        """The smaller of the two, unrounded."""
        return min(self.stiffness, self.strength)

    @property
    def governs(self) -> str:
        """The limit that sets the span."""
        return "stiffness" if self.stiffness <= self.strength else "strength"


def table_inches(span: float) -> int:
    """Return a span as tables print it, to the nearest inch; exact halves, printed either way, go down."""
    return math.ceil(span - 0.5 - 1e-6)


def longest_span(
    joist: Lumber,
    values: JoistValues,
    spacing: Fraction,
    live: float,
    dead: float,
    limit: float,
    plies: int = 1,
) -> LongestSpan:
    """Return the longest clear span at L / ``limit``, live load; loads in psf, ``plies`` sistered alike."""
    inertia, section = joist.inertia * plies, joist.section * plies
    return LongestSpan(
        stiffness_span(line_load(live, spacing), limit, values.stiffness, inertia),
        strength_span(line_load(live + dead, spacing), values.bending, section),
    )
