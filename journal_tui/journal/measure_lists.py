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
    wall_in,
)
from journal_tui.journal.measure_layouts import TILE_ASKS, laying_in, tile_in
from journal_tui.measures.cautions import DEFER, cautions_for, words
from journal_tui.measures.fields import Field, wall_field
from journal_tui.measures.materials import as_lines, materials_list
from journal_tui.measures.quantities import Need
from journal_tui.measures.rooms import Room
from journal_tui.measures.sheets import Sheet
from journal_tui.measures.take_off import TileWork, coating_need, paint_needs, panel_needs, tile_needs


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
    met = cautions_for(year, several(values, "task"), several(values, "material"))
    unknown = sorted(set(several(values, "task") + several(values, "material")) - set(words()))
    lines = [caution.line() for caution in met] or ["No caution of ours bites; that is no clearance."]
    if unknown:
        lines.append(f"not known here: {one_line(', '.join(unknown))}; words that are: {', '.join(words())}")
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
        "note": DEFER,
    }
    return Answer(lines=tuple(lines), data=data)


CAUTIONS = Form(
    "cautions",
    "Say where the work can hurt someone, by year built, task and material, with the rule.",
    (
        Ask("year", "year built; left out, the house counts as old"),
        Ask("task", "what is done: demo, cutting tile", many=True),
        Ask("material", "what is met: vinyl, cast iron tub", many=True),
    ),
    cautions,
)

FORMS = (TAKE_OFF, CAUTIONS)
