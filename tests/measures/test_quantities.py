"""Quantities against worked cases, trade charts and pint."""

from __future__ import annotations

import datetime as dt
from fractions import Fraction as F
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fields import floor_field, rectangle_field, wall_field
from journal_tui.measures.materials import Material, Standing, as_lines, load_for, materials_list
from journal_tui.measures.quantities import (
    Need,
    bed_after_setting,
    combined,
    fastener_schedule,
    fasteners,
    fasteners_in_sheet,
    grout_kilograms_per_square_metre,
    grout_per_square_foot,
    grout_pounds,
    grout_usual_form,
    leveler_cubic_feet,
    liquid_gallons,
    membrane_rolls,
    mortar,
    mortar_cubic_feet,
    mortar_pounds,
    nail_for,
    sealant_cubic_inches,
    seams,
)
from journal_tui.measures.rooms import Opening, rectangle
from journal_tui.measures.sheets import Sheet, lay_sheets
from journal_tui.measures.take_off import TileWork, paint_needs, panel_needs, tile_needs
from journal_tui.measures.tiles import Laying, Pattern, Tile


def tile(width: str, height: str, thick: str, joint: str) -> Tile:
    return Tile(F(width), F(height), F(joint), F(thick))


# Exact joint volume and the usual chart form, cubic inches a square foot.
@pytest.mark.parametrize(
    ("one", "exact", "usual"),
    [
        (tile("12", "12", "3/8", "1/8"), 1.108, 1.125),
        (tile("12", "24", "3/8", "1/8"), 0.834, 0.844),
        (tile("17/4", "17/4", "5/16", "1/16"), 1.295, 1.324),
        (tile("2", "2", "1/4", "1/8"), 4.111, 4.5),
    ],
)
def test_grout(one: Tile, exact: float, usual: float) -> None:
    assert grout_per_square_foot(one) == pytest.approx(exact, abs=0.0006)
    assert grout_usual_form(one) == pytest.approx(usual, abs=0.0006)


@pytest.mark.parametrize(("size", "pounds"), [("12", 0.064), ("24", 0.048)])
def test_grout_by_weight(size: str, pounds: float) -> None:
    assert grout_pounds(tile("12", size, "3/8", "1/8"), 1) == pytest.approx(pounds, abs=0.0005)


def test_grout_as_two_charts_print_it() -> None:
    # A calculator page: 12x12, 1/4 joint, 5/16 deep, 104 lb a cubic foot: 0.1128 lb/sf by the usual form.
    floor = tile("12", "12", "5/16", "1/4")
    assert grout_usual_form(floor) / 1728 * 104 == pytest.approx(0.1128, abs=5e-5)
    # A supplier's chart: 3/8 x 3/8 x 3/8 mosaic, 1/16 joint: 0.94 lb/sf with a tenth for waste. The exact
    # form meets it; the usual one would be a quarter high.
    mosaic = tile("3/8", "3/8", "3/8", "1/16")
    assert grout_pounds(mosaic, 1, 104) * 1.1 == pytest.approx(0.94, rel=0.02)
    assert grout_usual_form(mosaic) / 1728 * 104 * 1.1 > 0.94 * 1.2


def test_a_printed_example_that_forgot_the_square_foot() -> None:
    """A web page calls T J (L + W) / (L W) "cubic inches per square foot": it lacks the 144."""
    one = tile("12", "12", "3/8", "1/8")
    wrong = float(F(3, 8) * F(1, 8) * 24 / 144)
    assert wrong == pytest.approx(0.0078, abs=1e-4)
    assert grout_usual_form(one) == pytest.approx(144 * wrong)


# Metric chart form: kg a square metre at 1.6 kg/l.
@pytest.mark.parametrize(("sizes", "kilograms"), [((300, 300, 10, 3), 0.32), ((200, 200, 8, 5), 0.64)])
def test_grout_in_metric(sizes: tuple[float, float, float, float], kilograms: float) -> None:
    assert grout_kilograms_per_square_metre(*sizes) == pytest.approx(kilograms)


def test_grout_against_pint() -> None:
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    mm = units.Quantity(1, "mm")
    tiles_wide = units.Quantity(1, "m") / (303 * mm)
    joint = units.Quantity(1, "m**2") - tiles_wide**2 * (300 * mm) ** 2
    weight = (joint * 10 * mm * units.Quantity(1.6, "kg/l")).to("kg").magnitude
    side, joint_, thick = (F(n) * F(5, 127) for n in (300, 3, 10))
    per_foot = grout_per_square_foot(Tile(side, side, joint_, thick))
    ours = units.Quantity(per_foot, "inch**3/ft**2") * units.Quantity(1.6, "kg/l")
    assert ours.to("kg/m**2").magnitude == pytest.approx(weight, rel=1e-9)


# A 50 lb bag, from a handyman's article; bed half the notch (common practice).
@pytest.mark.parametrize(
    ("notch", "low", "high", "bed", "cubic"),
    [
        ("1/4 x 1/4", 80, 100, F(1, 8), 0.0104),
        ("1/4 x 3/8", 60, 80, F(3, 16), 0.0156),
        ("1/2x1/2", 40, 50, F(1, 4), 0.0208),
    ],
)
def test_mortar(notch: str, low: int, high: int, bed: F, cubic: float) -> None:
    assert (mortar(notch)["low"], mortar(notch)["high"]) == (low, high)
    assert bed_after_setting(notch) == bed
    assert mortar_cubic_feet(1, notch) == pytest.approx(cubic, abs=5e-5)
    assert mortar_pounds(low, notch) == 50
    with pytest.raises(BadInput, match="notch"):
        mortar("3/4 x 3/4")


def test_waste_once_and_round_once() -> None:
    """(1 + .1), never 1.1 x 1.1; two rooms are added before the bag is rounded."""
    assert Need("mortar", "tile", 100, "lb", 0.1, 50, "bag").packages == 3  # 110, not 121
    assert Need("mortar", "tile", 90, "lb", 0.1, 50, "bag").packages == 2  # 99; twice wasted it would be 109
    parts = [Need("mortar", "tile", amount, "lb", 0.1, 50, "bag") for amount in (55, 33)]
    (both,) = combined(parts)
    assert both.packages == 2
    assert sum(part.packages for part in parts) == 3


@given(st.lists(st.tuples(st.floats(0, 1e4), st.sampled_from([0.0, 0.05, 0.1])), min_size=1, max_size=6))
def test_adding_up_never_asks_for_more(parts: list[tuple[float, float]]) -> None:
    needs = [Need("grout", "tile", amount, "lb", waste, 25, "bag") for amount, waste in parts]
    (total,) = combined(needs)
    assert total.amount == pytest.approx(sum(amount for amount, _w in parts))
    assert total.amount * (1 + total.waste) == pytest.approx(sum(a * (1 + w) for a, w in parts))
    assert total.packages <= sum(need.packages for need in needs)


@pytest.mark.parametrize("bad", [-1.0, float("nan"), float("inf")])
def test_amounts_are_numbers(bad: float) -> None:
    with pytest.raises(BadInput, match="grout"):
        Need("grout", "tile", bad, "lb", 0.1, 25, "bag")


PANEL, BOARD = Sheet("plywood"), Sheet("backer", F(60), F(36), F(0), F(0))


def test_fasteners_by_schedule() -> None:
    # 4x8 on joists at 16: 7 supports; 9 nails at each end support (6 in), 5 on each of 5 others (12 in).
    edge, field, _ = fastener_schedule("subfloor")
    assert fasteners_in_sheet(PANEL, edge, field, F(16)) == 2 * 9 + 5 * 5
    # 3x5 backer at 8 in everywhere: 26 round the rim (8 + 5 a side), 7 x 4 inside.
    edge, field, source = fastener_schedule("backer")
    assert fasteners_in_sheet(BOARD, edge, field) == 26 + 28
    assert "A108.11" in source
    assert list(fastener_schedule("underlayment")[:2]) == [3, 6]  # APA E30V Table 14
    assert list(fastener_schedule("underlayment 11/32")[:2]) == [6, 8]
    assert list(fastener_schedule("ceiling backer")[:2]) == [6, 6]
    assert fasteners(32, PANEL, "subfloor", F(16)) == 43
    with pytest.raises(BadInput):
        fastener_schedule("chewing gum")


def test_nails() -> None:
    # APA E30V p. 37.
    assert nail_for(F(3, 4)).startswith("6d")
    assert nail_for(F(7, 8)).startswith("8d")


def test_sealant_against_pint() -> None:
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    cartridge = units.Quantity(10.1, "fluid_ounce").to("inch**3").magnitude
    assert cartridge == pytest.approx(18.2, abs=0.05)
    assert sealant_cubic_inches(F(291), F(1, 4), F(1, 4)) / cartridge == pytest.approx(1, abs=0.01)


def test_leveler_membrane_and_coats() -> None:
    assert leveler_cubic_feet(12, F(1, 2)) == 0.5  # a 50 lb bag, from memory
    assert liquid_gallons(60, 50, coats=2) == 2.4
    # 60 x 96 in field, roll 39 in by 98 ft, 2 in laps: two strips of 96 in.
    assert membrane_rolls(F(60), F(96), F(39), F(98 * 12), F(2)) == 1
    assert membrane_rolls(F(60), F(96), F(39), F(100), F(2)) == 2
    with pytest.raises(BadInput):
        membrane_rolls(F(60), F(96), F(2), F(100), F(2))


def test_seams_of_a_sheet_plan() -> None:
    plan = lay_sheets({"floor": rectangle_field(F(96), F(96))}, Sheet("board", kerf=F(0), gap=F(0)))
    assert seams(plan) == 96
    plan = lay_sheets({"floor": rectangle_field(F(144), F(48))}, Sheet("board", kerf=F(0), gap=F(0)))
    assert seams(plan) == 48 * (len(plan.pieces) - 1)


ROOM = rectangle("bath", F(96), F(60), F(96), (Opening("door", 4, F(6), F(30), F(0), F(80)),))


def bath_needs() -> list[Need]:
    """A hall bath: tiled floor, a tiled tub wall, a new plywood layer, backer, wallboard, paint."""
    floor = TileWork("floor", floor_field(ROOM, gap=F(1, 4)), Tile(F(12), F(12), F(1, 8)), per_box=15)
    wall = TileWork(
        "tub wall",
        wall_field(ROOM, 2, F(80)),
        Tile(F(12), F(4), F(1, 8), F(5, 16)),
        Laying(Pattern.BOND, F(1, 3)),
        per_box=30,
        notch="1/4 x 1/4",
    )
    floors = {"floor": floor_field(ROOM)}
    walls = {f"wall {n}": wall_field(ROOM, n) for n in (1, 3, 4)}
    return [
        *tile_needs(floor),
        *tile_needs(wall),
        *panel_needs("plywood 3/4", floors, PANEL, "underlayment"),
        *panel_needs("backer 1/2", {"tub wall": wall_field(ROOM, 2, F(80))}, BOARD, "backer"),
        *panel_needs("wallboard 1/2", walls, Sheet("wallboard", kerf=F(0), gap=F(0)), "wallboard", F(16)),
        *paint_needs(float(ROOM.wall_area()) / 144),
    ]


def test_the_list_of_a_demo_bath_read_as_a_supplier_would() -> None:
    listed = {m.need.name: m for m in materials_list(bath_needs())}
    assert listed["plywood 3/4"].need.packages == 2
    assert listed["tile 12 in x 12 in, floor"].need.amount == 40
    assert listed["tile 12 in x 12 in, floor"].need.packages == 3  # 44 tiles, 15 a box
    # 39.0 sf at 60 and 33.3 sf at 80 a bag, added and a tenth on: 58.6 lb, two bags and not three.
    assert listed["thin-set mortar"].need.packages == 2
    phases = [m.need.phase for m in materials_list(bath_needs())]
    assert phases == sorted(phases, key=["subfloor", "backer", "tile", "trim"].index)
    lines = as_lines(materials_list(bath_needs()))
    assert lines[0] == "subfloor"
    assert "  2 sheets  plywood 3/4  (to buy)" in lines


def test_what_to_load_and_what_is_held() -> None:
    boxes, grout, board = (
        Need("tile", "tile", 40, "tiles", 0.1, 15, "box"),
        Need("grout", "tile", 5, "lb", 0.1, 25, "bag"),
        Need("wallboard", "backer", 6, "sheets", 0, 1, "sheet"),
    )
    listed = [
        Material(boxes, Standing.ORDERED, dt.date(2026, 3, 16)),
        Material(grout),
        Material(board, Standing.ON_SITE),
    ]
    early = load_for(listed, ["tile", "backer"], dt.date(2026, 3, 13))
    assert [m.need.name for m in early.held] == ["tile"]
    assert [m.need.name for m in early.bring] == ["grout"]
    assert [m.need.name for m in early.there] == ["wallboard"]
    assert not load_for(listed, ["tile"], dt.date(2026, 3, 16)).held
    with pytest.raises(BadInput):
        Material(boxes, Standing.ORDERED)
