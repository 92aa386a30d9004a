"""Finished heights and what follows them, worked by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.measures.buildup import (
    BuildUp,
    check_door,
    check_flange,
    check_threshold,
    check_tub_rim,
    check_valve,
    rim_height,
    rough_in,
)
from journal_tui.measures.checks import Verdict
from journal_tui.measures.layers import Layer, thickness

NEW = (
    Layer("plywood", F(19, 32)),
    Layer("plywood", F(19, 32)),
    Layer("thin-set", F(3, 32)),
    Layer("backer", F(1, 4)),
    Layer("thin-set", F(3, 32)),
    Layer("tile", F(3, 8)),
)
OLD = (Layer("board", F(3, 4)), Layer("vinyl", F(5, 64)))
FLOOR = BuildUp((), OLD, NEW)


def test_the_stack_is_exact() -> None:
    assert thickness(NEW) == 2
    assert float(FLOOR.before) == pytest.approx(0.828, abs=0.0005)
    assert FLOOR.change == F(75, 64)  # 1.172 in


def test_the_flange_comes_up_with_the_floor() -> None:
    check = check_flange(FLOOR)
    assert check.verdict is Verdict.SHORT
    assert check.figures["flange_low_in"] == pytest.approx(1.172, abs=0.0005)
    assert check.figures["flange_top_wanted_in"] == 2.25
    results = {fix.what: fix for fix in check.fixes}
    assert "11/64 in true" in results["4 spacers of 1/4 in (1 in)"].result
    assert results["4 spacers of 1/4 in (1 in)"].verdict is Verdict.SHORT
    five = results["5 spacers of 1/4 in (1 1/4 in)"]
    assert "5/64 in true" in five.result
    assert five.result.endswith("high")
    assert five.verdict is Verdict.PASSES


@pytest.mark.parametrize(
    ("underside", "verdict"),
    [
        (F(2), Verdict.PASSES),
        (F(17, 8), Verdict.PASSES),
        (F(9, 4), Verdict.SHORT),  # half an inch proud
        (F(7, 4), Verdict.SHORT),  # flush with the tile: low by the trade's rule
    ],
)
def test_flange_heights(underside: F, verdict: Verdict) -> None:
    assert check_flange(FLOOR, underside).verdict is verdict


def test_plywood_for_particleboard_and_what_it_does_to_height_and_flange() -> None:
    """Common practice, no source: 5/8 particleboard and sheet vinyl out, 3/4 plywood and tile in."""
    kept = (Layer("plywood", F(19, 32)),)
    out = (Layer("particleboard", F(5, 8)), Layer("vinyl", F(5, 64)))
    new = (Layer("plywood", F(3, 4)), Layer("thin-set", F(3, 32)), Layer("tile", F(3, 8)))
    build = BuildUp(kept, out, new)
    assert build.change == F(3, 4) + F(3, 32) + F(3, 8) - F(5, 8) - F(5, 64)
    flange = check_flange(build)
    assert flange.figures["flange_low_in"] == float(build.change)
    assert flange.verdict is Verdict.SHORT


def test_a_door_is_cut_by_what_is_missing() -> None:
    check = check_door(FLOOR, F(1))
    assert check.verdict is Verdict.SHORT
    assert check.figures["gap_after_in"] == pytest.approx(1 - 75 / 64)
    assert "cut" in check.fixes[0].what
    assert check_door(FLOOR, F(2)).verdict is Verdict.PASSES


def test_the_threshold_takes_the_step() -> None:
    assert check_threshold(FLOOR, F(3, 4)).figures["step_in"] == 1.25
    assert check_threshold(FLOOR, F(3, 4)).fixes
    assert check_threshold(FLOOR, F(2)).verdict is Verdict.PASSES


def test_the_rim_sinks_as_the_floor_rises() -> None:
    assert rim_height(FLOOR, F(20), F(19, 16)) == F(20) + F(19, 16) - 2
    assert check_tub_rim(FLOOR, F(20), F(19, 16)).verdict is Verdict.PASSES
    assert check_tub_rim(FLOOR, F(20), F(3)).verdict is Verdict.SHORT


def test_a_valve_follows_the_wall() -> None:
    wall = BuildUp((), (), (Layer("backer", F(1, 2)), Layer("thin-set", F(1, 8)), Layer("tile", F(3, 8))))
    assert check_valve(wall, F(-2), (F(2), F(3))).verdict is Verdict.PASSES
    deep = check_valve(wall, F(-3), (F(2), F(3)))
    assert deep.verdict is Verdict.SHORT
    assert deep.fixes[0].what == "move the valve 1 in out"
    with pytest.raises(BadInput):
        check_valve(wall, F(0), (F(3), F(2)))


def test_rough_in_is_measured_from_the_finished_wall() -> None:
    # 12 in from the finished wall: 12 + board + tile from the studs.
    assert rough_in(F(12), (Layer("board", F(1, 2)), Layer("tile", F(3, 8)))) == F(103, 8)


def test_a_layer_has_thickness() -> None:
    with pytest.raises(BadInput, match="layer tile"):
        Layer("tile", F(0))
