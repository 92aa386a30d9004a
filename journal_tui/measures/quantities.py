"""How much of everything: amounts from geometry, waste once, packages rounded once at the end.

Areas are square feet, lengths inches, unless a name says otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.measures.data_files import table
from journal_tui.measures.sheets import Sheet, SheetPiece, SheetPlan
from journal_tui.measures.tiles import Tile

#: Pounds of mixed cement grout in a cubic foot (trade charts).
GROUT_DENSITY = 100.0


@dataclass(frozen=True, slots=True)
class Need:
    """Something to have: net ``amount`` in ``unit``, the share of waste on top, and how it is packed.

    ``package`` is how much of ``unit`` one package holds and ``packed`` what one is called; ``basis`` where
    the coverage is from.
    """

    name: str
    phase: str
    amount: float
    unit: str
    waste: float
    package: float
    packed: str
    basis: str = ""

    def __post_init__(self) -> None:
        if not math.isfinite(self.amount) or self.amount < 0 or not 0 <= self.waste <= 1 or self.package <= 0:
            raise BadInput(
                one_line(self.name), "Amount is zero or more, waste 0 to 1, a package more than zero."
            )

    @property
    def packages(self) -> int:
        """Whole packages to buy: ceil(amount (1 + waste) / package), the only rounding there is."""
        return math.ceil(self.amount * (1 + self.waste) / self.package - 1e-9)


def combined(needs: Iterable[Need]) -> tuple[Need, ...]:
    """Return ``needs`` with those of one product, phase and package added up before any rounding.

    Different waste is kept by weight: the waste of the sum is what the parts' wastes come to.
    """
    groups: dict[tuple[str, str, str, float], list[Need]] = {}
    for need in needs:
        groups.setdefault((need.name, need.phase, need.unit, need.package), []).append(need)
    return tuple(_summed(group) for group in groups.values())


def _summed(group: list[Need]) -> Need:
    first, amount = group[0], sum(need.amount for need in group)
    waste = sum(need.amount * need.waste for need in group) / amount if amount else first.waste
    basis = "; ".join(dict.fromkeys(need.basis for need in group if need.basis))
    return Need(first.name, first.phase, amount, first.unit, waste, first.package, first.packed, basis)


def packages() -> dict[str, Any]:
    """Return the package sizes and coverages that come with the program."""
    found: dict[str, Any] = table("quantities")["packages"]
    return found


def grout_per_square_foot(tile: Tile, depth: Fraction | None = None) -> float:
    """Return cubic inches of joint in a square foot, exact: 144 T (1 - L W / ((L + J)(W + J))).

    ``depth`` T defaults to the tile's thickness.
    """
    deep = tile.thickness if depth is None else depth
    (mw, mh), face = tile.module, tile.width * tile.height
    return float(144 * deep * (1 - face / (mw * mh)))


def grout_usual_form(tile: Tile, depth: Fraction | None = None) -> float:
    """Return what the usual chart formula gives, 144 T J (L + W) / (L W): a tenth high on small tile."""
    deep = tile.thickness if depth is None else depth
    return float(144 * deep * tile.joint * (tile.width + tile.height) / (tile.width * tile.height))


def grout_pounds(tile: Tile, square_feet: float, density: float = GROUT_DENSITY) -> float:
    """Return pounds of grout for an area, before waste; ``density`` in lb per cubic foot."""
    return grout_per_square_foot(tile) * square_feet / 1728 * density


def grout_kilograms_per_square_metre(
    length: float, width: float, thickness: float, joint: float, density: float = 1.6
) -> float:
    """Return kg/m2 by the metric chart form, (L + W) / (L W) x T x J x density; sizes in mm, kg/l."""
    return (length + width) / (length * width) * thickness * joint * density


def mortar(notch: str) -> dict[str, Any]:
    """Return the row for a trowel notch like "1/4 x 3/8". Raises `BadInput` naming the notches known."""
    rows = table("quantities")["mortar"]
    wanted = one_line(notch).lower().replace(" ", "")
    row = next((r for r in rows if r["notch"].replace(" ", "") == wanted), None)
    if row is None:
        raise BadInput(f"notch: {one_line(notch)}", f"Accepted: {', '.join(r['notch'] for r in rows)}.")
    found: dict[str, Any] = row
    return found


def bed_after_setting(notch: str) -> Fraction:
    """Return the bed under set tile in inches: about half the notch's depth (common practice)."""
    return Fraction(mortar(notch)["depth"]) / 2


def mortar_cubic_feet(square_feet: float, notch: str, back_butter: Fraction = Fraction(0)) -> float:
    """Return cubic feet of mixed mortar; ``back_butter`` inches more on the tile's back."""
    return square_feet * float(bed_after_setting(notch) + back_butter) / 12


def mortar_pounds(square_feet: float, notch: str) -> float:
    """Return pounds of dry mortar at the low end of the coverage printed for a 50 lb bag, before waste."""
    return square_feet * 50 / float(mortar(notch)["low"])


def fastener_schedule(use: str) -> tuple[Fraction, Fraction, str]:
    """Return spacing in inches at edges and in the field, and its source, for a use such as "backer"."""
    rows = table("quantities")["fasteners"]
    if use not in rows:
        raise BadInput(f"fasteners: {one_line(use)}", f"Accepted: {', '.join(rows)}.")
    row = rows[use]
    return Fraction(row["edge"]), Fraction(row["field"]), row["source"]


def fasteners_in_sheet(sheet: Sheet, edge: Fraction, field: Fraction, framing: Fraction | None = None) -> int:
    """Return fasteners in one whole sheet.

    With ``framing`` inches on centre across its length: a row on each support, the end supports at edge
    spacing. Without framing below (underlayment, backer on a subfloor): all four edges at edge spacing
    and a field grid inside them.
    """
    if min(edge, field) <= 0 or (framing is not None and framing <= 0):
        raise BadInput("fasteners", "Spacings are more than zero.")
    if framing is not None:
        supports = math.ceil(sheet.length / framing) + 1
        return 2 * _row(sheet.width, edge) + (supports - 2) * _row(sheet.width, field)
    rim = 2 * (math.ceil(sheet.length / edge) + math.ceil(sheet.width / edge))
    inside = (math.ceil(sheet.length / field) - 1) * (math.ceil(sheet.width / field) - 1)
    return rim + inside


def _row(length: Fraction, spacing: Fraction) -> int:
    return math.ceil(length / spacing) + 1


def fasteners(square_feet: float, sheet: Sheet, use: str, framing: Fraction | None = None) -> float:
    """Return fasteners for an area at the density of a whole sheet, before waste."""
    edge, field, _source = fastener_schedule(use)
    one = fasteners_in_sheet(sheet, edge, field, framing)
    return square_feet * 144 / float(sheet.length * sheet.width) * one


def nail_for(panel: Fraction) -> str:
    """Return the nail for a glued floor panel: 6d ring to 3/4 in, 8d thicker (APA E30V p. 37)."""
    return "6d ring or screw shank" if panel <= Fraction(3, 4) else "8d ring or screw shank"


def seams(plan: SheetPlan) -> Fraction:
    """Return inches of joint between the sheets of a plan: end joints, and row joints counted once."""
    total = Fraction(0)
    for surface in dict.fromkeys(piece.surface for piece in plan.pieces):
        pieces = [piece for piece in plan.pieces if piece.surface == surface]
        rows = sorted({piece.row for piece in pieces})
        for row in rows:
            here = sorted((p for p in pieces if p.row == row), key=lambda p: p.start)
            total += sum(
                (p.width for p, q in pairwise(here) if p.start + p.length == q.start),
                Fraction(0),
            )
            if row != rows[0]:
                below = [p for p in pieces if p.row == row - 1]
                total += sum((_overlap(p, q) for p in here for q in below), Fraction(0))
    return total


def _overlap(one: SheetPiece, other: SheetPiece) -> Fraction:
    low = max(one.start, other.start)
    high = min(one.start + one.length, other.start + other.length)
    return max(Fraction(0), high - low)


def sealant_cubic_inches(length: Fraction, wide: Fraction, deep: Fraction) -> float:
    """Return cubic inches of sealant in a joint."""
    return float(length * wide * deep)


def membrane_rolls(
    width: Fraction, length: Fraction, roll_width: Fraction, roll_length: Fraction, lap: Fraction
) -> int:
    """Return rolls of sheet membrane for a field laid in strips along ``length`` with ``lap`` between.

    Every strip is one piece where the roll allows; sizes in inches.
    """
    if roll_width <= lap or min(width, length, roll_length) <= 0 or lap < 0:
        raise BadInput("membrane", "The roll is wider than its lap, and every size is more than zero.")
    strips = max(1, math.ceil((width - lap) / (roll_width - lap)))
    if length > roll_length:
        return math.ceil(strips * length / roll_length)
    return math.ceil(strips / int(roll_length / length))


def liquid_gallons(square_feet: float, feet_per_gallon: float, coats: int = 2) -> float:
    """Return gallons for ``coats`` at the label's square feet a gallon a coat, before waste."""
    if feet_per_gallon <= 0 or coats < 1:
        raise BadInput("coating", "Coverage is more than zero and there is at least one coat.")
    return square_feet * coats / feet_per_gallon


def leveler_cubic_feet(square_feet: float, average_depth: Fraction) -> float:
    """Return cubic feet of self-leveling mix for an average depth in inches."""
    return square_feet * float(average_depth) / 12
