"""The corner problem against textbooks, an optimiser and brute force; the way in against worked cases."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from fractions import Fraction as F

import pytest
from scipy.optimize import minimize_scalar  # type: ignore[import-untyped]

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Verdict
from journal_tui.measures.corner import corner_slack, fits_opening, longest_plate, longest_rod, tipped
from journal_tui.measures.way_in import (
    Corner,
    Door,
    Hall,
    Piece,
    Room,
    Stairs,
    check_way_in,
    check_way_in_slack,
)


# Stewart, Calculus, Applied Optimization, 4.7 exercise 70 (9 and 6 ft); the rest from the same formula.
@pytest.mark.parametrize(
    ("a", "b", "length"),
    [
        (9, 6, 21.0704),
        (1, 1, 2.8284),
        (27, 64, 125.0),
        (8, 27, 46.8722),
        (36, 36, 101.823),
        (8, 4, 16.6478),  # ladder over an 8 ft fence 4 ft from the wall; printed solution 16.65
        (5.8, 8.73, 20.408),
        (8, 12.685, 29.0),  # a puzzle forum: the other hall must be 12.685 wide for a 29 ft ladder
    ],
)
def test_the_rod(a: float, b: float, length: float) -> None:
    assert longest_rod(a, b) == pytest.approx(length, abs=6e-4)
    assert longest_plate(a, b, 1e-9) == pytest.approx(length, abs=6e-4)


# Two answers printed on the web that are wrong, kept so that nobody "corrects" the formula to them.
@pytest.mark.parametrize(("a", "b", "wrong"), [(9, 6, 10.82), (5.8, 8.73, 20.97)])
def test_wrong_answers_in_print_are_not_ours(a: float, b: float, wrong: float) -> None:
    assert abs(longest_rod(a, b) - wrong) > 0.5


# Worked from 2 (a sqrt 2 - w).
@pytest.mark.parametrize(("width", "length"), [(30, 41.82), (16, 69.82), (20, 61.82)])
def test_plates_in_a_three_foot_hall(width: float, length: float) -> None:
    assert longest_plate(36, 36, width) == pytest.approx(length, abs=0.006)


@pytest.mark.parametrize("seed", range(12))
def test_plate_against_an_optimiser(seed: int) -> None:
    rng = random.Random(seed)
    a, b = rng.uniform(20, 60), rng.uniform(20, 60)
    w = rng.uniform(0, min(a, b) * 0.9)
    best = minimize_scalar(
        lambda t: (a * math.sin(t) + b * math.cos(t) - w) / math.sin(t) / math.cos(t),
        bounds=(1e-4, math.pi / 2 - 1e-4),
        method="bounded",
        options={"xatol": 1e-10},
    ).fun
    assert longest_plate(a, b, w) == pytest.approx(best, rel=1e-6)


@pytest.mark.parametrize("seed", range(12))
def test_plate_against_brute_force_placing(seed: int) -> None:
    """Slide a real rectangle along both outer walls and see whether it ever covers the inside corner."""
    rng = random.Random(100 + seed)
    a, b = rng.uniform(20, 60), rng.uniform(20, 60)
    w = rng.uniform(5, min(a, b) * 0.9)
    limit = longest_plate(a, b, w)
    assert _clears(limit * 0.999, w, a, b)
    assert not _clears(limit * 1.001, w, a, b)


def _clears(length: float, width: float, a: float, b: float) -> bool:
    for step in range(1, 4000):
        t = step / 4000 * math.pi / 2
        foot, head = (length * math.cos(t), 0.0), (0.0, length * math.sin(t))
        along = ((head[0] - foot[0]) / length, (head[1] - foot[1]) / length)
        normal = (along[1], -along[0])
        if normal[0] < 0:
            normal = (-normal[0], -normal[1])
        rel = (a - foot[0], b - foot[1])
        s, d = rel[0] * along[0] + rel[1] * along[1], rel[0] * normal[0] + rel[1] * normal[1]
        if 0 < s < length and 0 < d < width:
            return False
    return True


def test_a_short_piece_goes_round_sideways() -> None:
    assert corner_slack(30, 30, 31, 31) == pytest.approx(1)
    assert corner_slack(40, 30, 31, 31) < 0


@pytest.mark.parametrize(
    ("p", "q", "fits"), [(80, 30, True), (81, 2, True), (81, 20, False), (29, 29, True), (31, 31, False)]
)
def test_a_rectangle_in_a_doorway(p: float, q: float, fits: bool) -> None:
    assert fits_opening(p, q, 30, 80) is fits


@pytest.mark.parametrize("seed", range(20))
def test_the_doorway_criterion_against_brute_force(seed: int) -> None:
    rng = random.Random(seed)
    p, q = rng.uniform(60, 90), rng.uniform(2, 30)
    turns = (i / 3000 * math.pi / 2 for i in range(3001))
    brute = any(
        p * math.cos(t) + q * math.sin(t) <= 80 + 1e-9 and p * math.sin(t) + q * math.cos(t) <= 30 + 1e-9
        for t in turns
    )
    near = fits_opening(p * 0.999, q * 0.999, 30, 80), fits_opening(p * 1.001, q * 1.001, 30, 80)
    assert brute in near


def test_tipping_a_box_is_not_the_diagonal_of_a_rod() -> None:
    ceiling = 60.0
    plan = tipped(80, 20, ceiling)
    assert plan is not None
    rod_plan = math.sqrt(80**2 - ceiling**2)
    assert plan > rod_plan
    assert tipped(80, 0, ceiling) == pytest.approx(rod_plan)


@pytest.mark.parametrize("seed", range(10))
def test_tipping_against_brute_force(seed: int) -> None:
    rng = random.Random(seed)
    length, height = rng.uniform(60, 90), rng.uniform(5, 25)
    ceiling = rng.uniform(height + 1, math.hypot(length, height) - 1)
    leans = (i / 20000 * math.atan2(length, height) for i in range(20001))
    best = min(
        length * math.cos(t) + height * math.sin(t)
        for t in leans
        if length * math.sin(t) + height * math.cos(t) <= ceiling
    )
    plan = tipped(length, height, ceiling)
    assert (plan if plan is not None else length) == pytest.approx(best, rel=1e-3)


TUB = Piece("tub", F(60), F(30), F(16))
HALL_CORNER = Corner("hall corner", F(36), F(36), F(59))


def test_a_tub_flat_fails_a_corner_that_it_passes_on_edge() -> None:
    assert corner_slack(60, 30, 36, 36) < 0
    check = check_way_in(TUB, (HALL_CORNER,))
    assert check.verdict is Verdict.PASSES
    assert check.figures["slack_in"] == pytest.approx(9.82, abs=0.01)
    assert "on edge" in check.sentence


def test_hands_and_wrap_make_a_near_thing_tight() -> None:
    deep = Piece("tub", F(60), F(30), F(20))
    check = check_way_in(deep, (HALL_CORNER,))
    assert check.figures["slack_in"] == pytest.approx(1.82, abs=0.01)
    assert any("treat it as tight" in note for note in check.notes)


@pytest.mark.parametrize("size", ["60x30", "60x32", "60x36", "54x30", "48x32", "66x32", "72x36"])
def test_common_tubs_flat_never_turn_in_three_foot_halls(size: str) -> None:
    # Sizes from memory (high confidence). 48x32: 2(36 sqrt2 - 32) = 37.8.
    length, width = map(int, size.split("x"))
    assert corner_slack(length, width, 36, 36) < 0


OLD_STAIRS = Stairs("stairs", F(36), F(76), F(33, 4), F(9))
WAY_OUT = (Door("bath door", F(30)), Hall("hall", F(36)), Corner("landing", F(36), F(36)), OLD_STAIRS)


def test_a_tub_older_than_its_walls_comes_out_in_halves() -> None:
    """Common practice, no source: a five-foot tub that the walls were built around is cut in half."""
    tub = Piece("tub", F(60), F(32), F(22))
    whole = check_way_in(tub, WAY_OUT)
    assert whole.verdict is Verdict.SHORT
    assert whole.governs in ("landing", "stairs")
    assert check_way_in(tub.halves(), WAY_OUT).verdict is Verdict.PASSES
    assert any("half" in fix.what and fix.verdict is Verdict.PASSES for fix in whole.fixes)


def test_the_door_off_its_hinges() -> None:
    slab = Piece("vanity", F(60), F(40), F(59, 2))
    door = Door("bath door", F(30), F(80))
    assert door.clear == 28
    assert replace(door, hung=False).clear == F(235, 8)  # 1 3/8 in more
    narrow = Piece("vanity", F(60), F(34), F(29))
    check = check_way_in(narrow, (door,))
    assert check.verdict is Verdict.SHORT
    assert check.margin == "1 in too tight"
    assert check.fixes[0].verdict is Verdict.PASSES
    assert check_way_in(slab, (door,)).fixes[0].verdict is Verdict.SHORT
    assert check_way_in(slab, (door,)).fixes[1].verdict is Verdict.PASSES


def test_the_hold_changes_only_where_the_piece_can_be_turned_over() -> None:
    low, slot = Hall("duct drop", F(40), F(31)), Hall("slot", F(17), F(96))
    piece = Piece("cabinet", F(60), F(40), F(16))
    assert check_way_in_slack(piece, (low, slot)) < 0
    assert check_way_in_slack(piece, (low, Room("den", F(120), F(120)), slot)) >= 0
    assert check_way_in_slack(piece, (low, Room("closet", F(62), F(42)), slot)) < 0


# IRC 2018 R311.7.1 as read in a county handout: 36 in, 31 1/2 with one rail, 27 with two.
@pytest.mark.parametrize(("rails", "clear"), [(0, F(36)), (1, F(63, 2)), (2, F(27))])
def test_rails_narrow_the_stairs(rails: int, clear: F) -> None:
    assert Stairs("stairs", F(36), rails=rails).clear == clear


def test_headroom_square_to_the_slope() -> None:
    assert Stairs("stairs", F(36), F(80), F(31, 4), F(10)).square_headroom == pytest.approx(63.23, abs=0.01)


@pytest.mark.parametrize(
    ("piece", "way"),
    [
        (Piece("tub", F(0), F(30), F(16)), (HALL_CORNER,)),
        (TUB, (Corner("corner", F(-1), F(36)),)),
        (TUB, (Stairs("stairs", F(36), riser=F(0)),)),
        (TUB, (Room("den", F(120), F(120)),)),
    ],
)
def test_bad_sizes_are_refused(piece: Piece, way: tuple[Corner]) -> None:
    with pytest.raises(BadInput):
        check_way_in(piece, way)
