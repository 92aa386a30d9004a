"""Needs of whole pieces of work: a tiled field, boarded walls, a new subfloor, a coat of paint."""

from __future__ import annotations

import re
from dataclasses import dataclass
from dataclasses import field as made_by
from fractions import Fraction

from journal_tui.domain.kinds import BACKER, SUBFLOOR, TILE, TRIM
from journal_tui.measures.fields import Field
from journal_tui.measures.fractions import inches
from journal_tui.measures.quantities import (
    Need,
    bed_after_setting,
    fastener_schedule,
    fasteners,
    grout_pounds,
    leveler_cubic_feet,
    liquid_gallons,
    membrane_rolls,
    mortar,
    mortar_cubic_feet,
    mortar_pounds,
    nail_for,
    packages,
    sealant_cubic_inches,
    seams,
)
from journal_tui.measures.sheets import Rules, Sheet, SheetPlan, lay_sheets
from journal_tui.measures.tile_layout import lay_out
from journal_tui.measures.tiles import Laying, Tile


@dataclass(frozen=True, slots=True)
class TileWork:
    """A tiled field: what tile and how, ``per_box`` tiles, the notch, and waste as shares.

    ``overage`` is for breakage and attic stock: cuts are in the count already.
    """

    name: str
    field: Field
    tile: Tile
    laying: Laying = made_by(default_factory=Laying)
    per_box: int = 10
    notch: str = "1/4 x 3/8"
    overage: float = 0.1
    waste: float = 0.1


def tile_needs(work: TileWork) -> tuple[Need, ...]:
    """Return tile, mortar, grout and edge sealant for a field."""
    layout = lay_out(work.field, work.tile, work.laying)
    feet, size = float(work.field.area) / 144, packages()
    box = work.field.box
    rim = 2 * (box.width + box.height)
    soft = sealant_cubic_inches(rim, max(work.tile.joint, Fraction(1, 4)), Fraction(1, 4))
    tile_name = f"tile {inches(work.tile.width)} x {inches(work.tile.height)}, {work.name}"
    return (
        Need(
            tile_name,
            TILE,
            layout.laid,
            "tiles",
            work.overage,
            work.per_box,
            "box",
            "counted by the grid, one lot",
        ),
        Need(
            "thin-set mortar",
            TILE,
            mortar_pounds(feet, work.notch),
            "lb",
            work.waste,
            size["mortar_lb"],
            "bag",
            f"{mortar(work.notch)['low']} sq ft a 50 lb bag, {work.notch} notch: a bed of "
            f"{inches(bed_after_setting(work.notch))}, {mortar_cubic_feet(feet, work.notch):.2f} cu ft",
        ),
        Need(
            "grout",
            TILE,
            grout_pounds(work.tile, feet),
            "lb",
            work.waste,
            size["grout_lb"],
            "bag",
            "volume of the joints, 100 lb a cubic foot",
        ),
        Need(
            "sealant to match the grout",
            TILE,
            soft / size["cartridge_cu_in"],
            "cartridges",
            work.waste,
            1,
            "cartridge of 10.1 oz",
            "every edge of the field, 1/4 x 1/4 at least",
        ),
    )


def panel_needs(
    name: str,
    surfaces: dict[str, Field],
    sheet: Sheet,
    use: str,
    framing: Fraction | None = None,
    waste: float = 0.1,
) -> tuple[Need, ...]:
    """Return sheets and fasteners for floors or walls. Sheets are counted by the layout, so no waste on top.

    ``use`` is a row of the fastener schedule; panels over a subfloor have no ``framing``.
    """
    plan = lay_sheets(surfaces, sheet, Rules(spacing=framing or Rules().spacing))
    feet = float(sum((field.area for field in surfaces.values()), Fraction(0))) / 144
    phase = SUBFLOOR if use in ("subfloor", "underlayment", "underlayment 11/32") else BACKER
    out = [
        Need(
            name,
            phase,
            plan.sheets,
            "sheets",
            0.0,
            1,
            "sheet",
            f"{inches(sheet.length)} x {inches(sheet.width)}, by layout",
        ),
        Need(
            f"{_fastener(name, use)} for {name}",
            phase,
            fasteners(feet, sheet, use, framing),
            "pieces",
            waste,
            packages()["screws"],
            "box",
            fastener_schedule(use)[2],
        ),
    ]
    return (*out, *_joint_needs(plan, use, feet, waste))


def _fastener(name: str, use: str) -> str:
    """Name the nail where the panel's thickness stands in its name, else say fasteners."""
    found = re.search(r"[1-9]\d?/[1-9]\d?(?!\d)", name)
    return f"{nail_for(Fraction(found[0]))} nails" if use == "subfloor" and found else "fasteners"


def _joint_needs(plan: SheetPlan, use: str, feet: float, waste: float) -> tuple[Need, ...]:
    length, size = float(seams(plan)) / 12, packages()
    if use in ("backer", "ceiling backer"):
        return (
            Need(
                "alkali-resistant mesh tape",
                BACKER,
                length,
                "ft",
                waste,
                size["mesh_tape_ft"],
                "roll",
                "joints of the layout",
            ),
        )
    if use == "wallboard":
        return (
            Need("paper tape", BACKER, length, "ft", waste, size["tape_ft"], "roll", "joints of the layout"),
            Need(
                "joint compound",
                BACKER,
                feet / size["mud_sq_ft_per_gal"],
                "gal",
                waste,
                size["mud_gal"],
                "pail",
                "three coats, from memory",
            ),
        )
    return ()


def paint_needs(square_feet: float, coats: int = 2, waste: float = 0.1) -> tuple[Need, ...]:
    """Return primer (one coat) and paint for a wall area."""
    size = packages()
    return (
        Need(
            "primer",
            TRIM,
            square_feet / size["primer_sq_ft_per_gal"],
            "gal",
            waste,
            1,
            "gal",
            "300 sq ft a gallon, from memory",
        ),
        Need(
            "paint",
            TRIM,
            square_feet * coats / size["paint_sq_ft_per_gal"],
            "gal",
            waste,
            1,
            "gal",
            "350 sq ft a gallon, from memory",
        ),
    )


def coating_need(square_feet: float, feet_per_gallon: float, waste: float = 0.1) -> Need:
    """Return gallons of a waterproof coating in two coats at its label's square feet a gallon a coat."""
    gallons = liquid_gallons(square_feet, feet_per_gallon)
    return Need(
        "waterproof coating", BACKER, gallons, "gal", waste, 1, "gal", "two coats, the label's coverage"
    )


def leveler_need(square_feet: float, depth: Fraction, waste: float = 0.1) -> Need:
    """Return bags of self-leveling mix for an average ``depth`` in inches."""
    volume, bag = leveler_cubic_feet(square_feet, depth), packages()["leveler_cu_ft"]
    return Need(
        "self-leveling mix", SUBFLOOR, volume / bag, "bags", waste, 1, "bag of 50 lb", "0.5 cu ft a bag"
    )


def membrane_need(field: Field, wide: Fraction, long: Fraction) -> Need:
    """Return rolls of sheet membrane for the box around a field: by layout, so no waste on top."""
    box = field.box
    rolls = membrane_rolls(box.width, box.height, wide, long, Fraction(2))
    name = f"sheet membrane {inches(wide)} wide"
    return Need(name, TILE, rolls, "rolls", 0.0, 1, "roll", "strips with 2 in laps")
