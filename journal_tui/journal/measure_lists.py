"""Forms that list: a take-off by phase, and the cautions that go with the work."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.journal.measure_forms import (
    ROOM_ASKS,
    Answer,
    Ask,
    Form,
    Values,
    choice,
    floor_in,
    needed,
    number,
    room_in,
    said,
    several,
    share,
    sizes,
    wall_in,
)
from journal_tui.journal.measure_layouts import TILE_ASKS, laying_in, tile_in
from journal_tui.measures.cautions import (
    DEFER,
    cautions_for,
    cautions_of_age,
    dust_control,
    filled_tub_pounds,
    is_minor_repair,
    mold_size,
    neshap_applies,
    not_known,
    words,
)
from journal_tui.measures.fields import Field, wall_field
from journal_tui.measures.lengths import parse_length
from journal_tui.measures.materials import as_lines, materials_list
from journal_tui.measures.quantities import Need
from journal_tui.measures.rooms import Room
from journal_tui.measures.sheets import Sheet
from journal_tui.measures.take_off import (
    TileWork,
    coating_need,
    leveler_need,
    membrane_need,
    paint_needs,
    panel_needs,
    tile_needs,
)


def take_off(values: Values) -> Answer:
    """Work out the take-off form: everything asked for, as a materials list by phase."""
    needs = list(_asked(values))
    if not needs:
        raise BadInput("nothing to count", "Give tile, panel, wallboard or paint.")
    listed = materials_list(needs)
    data = {
        "materials": [
            {
                "name": m.need.name,
                "phase": m.need.phase,
                "amount": round(m.need.amount, 3),
                "unit": m.need.unit,
                "waste": m.need.waste,
                "packages": m.need.packages,
                "package": m.need.package,
                "packed": m.need.packed,
                "basis": m.need.basis,
                "standing": m.standing.value,
            }
            for m in listed
        ]
    }
    return Answer(
        lines=("materials, waste added once and packages rounded once", *as_lines(listed)), data=data
    )


def needs_of(values: Values) -> list[Need]:
    """Return the needs of a take-off as it was typed, defaults filled in."""
    typed = {ask.name: values.get(ask.name, "").strip() or ask.default for ask in TAKE_OFF.asks}
    return list(_asked(typed))


def _asked(values: Values) -> Iterable[Need]:
    found = room_in(values)
    tiled = _tiled_walls(values, found)
    if said(values, "tile"):
        yield from tile_needs(_work("floor", floor_in(values), values, "tile", "per-box", "notch"))
    if said(values, "wall-tile"):
        for field in tiled.values():
            yield from tile_needs(_work("walls", field, values, "wall-tile", "wall-per-box", "wall-notch"))
    yield from _boards(values, found, tiled)
    waste = share(values, "waste")
    if said(values, "coating"):
        area = float(sum((field.area for field in tiled.values()), Fraction(0))) / 144
        yield coating_need(area, number(values, "coating", 1, 1000), waste)
    if choice(values, "paint", ("no", "yes")) == "yes":
        bare = float(found.wall_area() - sum((field.area for field in tiled.values()), Fraction(0))) / 144
        yield from paint_needs(bare, waste=waste)


def _tiled_walls(values: Values, found: Room) -> dict[int, Field]:
    """Return the walls that are tiled, by number, up to where they are."""
    wanted = ("wall-tile", "wall-backer", "coating")
    if not any(said(values, name) for name in wanted):
        return {}
    numbers = re.split(r"[,;\s]+", needed(values, "on-walls", "2, 3"))
    counted = [int(number({"on-walls": text}, "on-walls", 1, 999)) for text in numbers]
    return {n: wall_in(values, found, n)[0] for n in dict.fromkeys(counted)}


def _work(name: str, field: Field, values: Values, tile: str, per_box: str, notch: str) -> TileWork:
    return TileWork(
        name,
        field,
        tile_in(values, tile),
        laying_in(values),
        int(number(values, per_box, 1, 10_000)),
        said(values, notch),
        share(values, "overage"),
        share(values, "waste"),
    )


def _boards(values: Values, found: Room, tiled: dict[int, Field]) -> Iterable[Need]:
    """Yield panels and boards: on the floor, on tiled walls, and on the walls that are not tiled."""
    waste = share(values, "waste")
    if text := said(values, "subfloor"):
        yield from panel_needs(
            text, {"floor": floor_in(values)}, Sheet(text), "subfloor", Fraction(16), waste
        )
    if said(values, "leveler"):
        depth = parse_length(said(values, "leveler"), "leveler", bare="in")
        yield leveler_need(float(floor_in(values).area) / 144, depth, waste)
    if said(values, "membrane-roll"):
        wide, long = sizes(said(values, "membrane-roll"), "membrane-roll", (2,))
        yield membrane_need(floor_in(values), wide, long)
    if text := said(values, "panel"):
        yield from panel_needs(text, {"floor": floor_in(values)}, Sheet(text), "underlayment", waste=waste)
    if text := said(values, "backer"):
        yield from panel_needs(text, {"floor": floor_in(values)}, _backer(text), "backer", waste=waste)
    if text := said(values, "wall-backer"):
        walls = {f"wall {n}": field for n, field in tiled.items()}
        yield from panel_needs(text, walls, _backer(text), "backer", Fraction(16), waste)
    if text := said(values, "wallboard"):
        walls = {
            f"wall {w.number}": wall_field(found, w.number) for w in found.walls if w.number not in tiled
        }
        if walls:
            board = Sheet(text, kerf=Fraction(0), gap=Fraction(0))
            yield from panel_needs(text, walls, board, "wallboard", Fraction(16), waste)


def _backer(name: str) -> Sheet:
    return Sheet(name, Fraction(60), Fraction(36), Fraction(0), Fraction(0))


TAKE_OFF = Form(
    "take-off",
    "List what a room takes, by phase: tile, mortar, grout, panels, board, fasteners, tape, paint.",
    (
        *ROOM_ASKS,
        Ask("gap", "gap at the walls", "1/4"),
        *TILE_ASKS,
        Ask("notch", "trowel notch", "1/4 x 3/8"),
        Ask("wall-tile", "tile on walls, measured size"),
        Ask("on-walls", "which walls, by number: 2, 3"),
        Ask("up-to", "how high they are tiled; the ceiling unless you say"),
        Ask("wall-per-box", "wall tiles in a box", "10"),
        Ask("wall-notch", "trowel notch on walls", "1/4 x 1/4"),
        Ask("coating", "waterproof coating under wall tile, two coats: its label's sq ft a gallon"),
        Ask("subfloor", "new subfloor on joists at 16, by name: plywood 3/4"),
        Ask("leveler", "self-leveling mix on the floor: its average depth"),
        Ask("membrane-roll", "sheet membrane on the floor: the roll's width x length, 39 x 98-0"),
        Ask("panel", "underlayment on the floor, by name: plywood 3/4"),
        Ask("backer", "backer on the floor, by name, in sheets of 36x60"),
        Ask("wall-backer", "backer under wall tile, by name, in sheets of 36x60"),
        Ask("wallboard", "board on the walls that are not tiled, by name, in sheets of 48x96"),
        Ask("paint", "primer and two coats on the walls", "no", choices=("no", "yes")),
        Ask("waste", "percent, once, on all but tile and sheets", "10"),
    ),
    take_off,
)


def cautions(values: Values) -> Answer:
    """Work out the cautions form."""
    text = said(values, "year")
    year = int(number(values, "year", 1600, 2200)) if text else None
    given = (*several(values, "task"), *several(values, "material"))
    met = cautions_for(year, given) if given else cautions_of_age(year)
    lines = [*_not_known(given), *(caution.line() for caution in met), *_amounts(values)]
    lines = lines or ["No caution of ours bites; that is no clearance."]
    data = {
        "cautions": [
            {
                "id": c.id,
                "hazard": c.hazard.value,
                "bites": c.bites,
                "first": c.first,
                "rule": c.rule,
                "edition": c.edition,
                "standing": c.standing,
                "why": c.why,
            }
            for c in met
        ],
        "not_known": list(not_known(given)),
        "note": DEFER,
    }
    return Answer(lines=tuple(lines), data=data)


def _not_known(given: Iterable[str]) -> list[str]:
    """Return first of all what no caution listens for: it is no word that nothing is wrong."""
    unknown = not_known(given)
    if not unknown:
        return []
    asked = f"not known here: {one_line(', '.join(unknown))}; that is no clearance"
    return [f"{asked}. Words that are: {', '.join(words())}"]


def _amounts(values: Values) -> list[str]:
    """Return what the amounts given come to under their rules."""
    out = []
    if areas := several(values, "painted"):
        inside = choice(values, "painted-where", ("inside", "outside")) == "inside"
        pairs = [(wide, high) for wide, high in (sizes(text, "painted", (2,)) for text in areas)]
        minor = is_minor_repair(pairs, outside=not inside)
        said_of = "within" if minor else "past"
        out.append(f"painted area disturbed: {said_of} EPA's minor repair limit (40 CFR 745.83)")
    if said(values, "mold"):
        size = mold_size(number(values, "mold", 0, 100_000))
        out.append(f"mold: a {size} area (EPA 402-K-01-001, Table 2)")
    if said(values, "asbestos-sq-ft"):
        reached = neshap_applies(square_ft=number(values, "asbestos-sq-ft", 0, 1e6))
        out.append(f"asbestos: {'at or past' if reached else 'under'} the NESHAP's 160 sq ft (40 CFR 61.145)")
    if said(values, "tool"):
        out.append(_dust(values))
    if said(values, "tub-gallons"):
        gallons = number(values, "tub-gallons", 1, 500)
        weight = filled_tub_pounds(number(values, "tub-weight", 0, 5000), gallons)
        out.append(f"the tub in use weighs {weight:.0f} lb and whoever is in it: the floor by an engineer")
    return out


def _dust(values: Values) -> str:
    tool, place = said(values, "tool"), choice(values, "place", ("indoors", "outdoors"))
    control = dust_control(tool, place, number(values, "hours", 0, 24))
    if control is None:
        return f"{one_line(tool)} {place}: not in Table 1; exposure must be assessed, or work outdoors"
    mask = (
        f"a respirator of factor {control.protection}" if control.protection else "no respirator by the table"
    )
    return f"{one_line(tool)} {place}: {control.control}; {mask} (29 CFR 1926.1153; {control.standing})"


CAUTIONS = Form(
    "cautions",
    "Say where the work can hurt someone, by year built, task and material, with the rule.",
    (
        Ask("year", "year built; left out, the house counts as old"),
        Ask("task", "what is done: demo, cutting tile", many=True),
        Ask("material", "what is met: vinyl, cast iron tub", many=True),
        Ask("painted", "painted surface disturbed, old paint: 30x80; 1x36", many=True),
        Ask("painted-where", "where it is", "inside", choices=("inside", "outside")),
        Ask("mold", "mold, square feet"),
        Ask("asbestos-sq-ft", "presumed asbestos disturbed, square feet"),
        Ask("tool", "dusty tool: wet tile saw, handheld grinder"),
        Ask("place", "where it is used", "indoors", choices=("indoors", "outdoors")),
        Ask("hours", "hours a day", "4"),
        Ask("tub-gallons", "water in a full tub"),
        Ask("tub-weight", "weight of the empty tub, lb", "300"),
    ),
    cautions,
)

FORMS = (TAKE_OFF, CAUTIONS)
