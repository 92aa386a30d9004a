"""Numbers of tile work, each with the standard it is read from."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Verdict
from journal_tui.measures.tile_rules import (
    check_movement_joints,
    check_offset,
    contact,
    flatness,
    least_joint,
    lippage,
    shower_fall,
)
from journal_tui.measures.tiles import Tile


def tile(width: F | int, height: F | int) -> Tile:
    return Tile(F(width), F(height), F(1, 8))


@pytest.mark.parametrize(
    ("size", "offset", "verdict"),
    [
        ((12, 24), F(1, 2), Verdict.SHORT),
        ((12, 24), F(1, 3), Verdict.PASSES),
        ((12, 24), F(2, 3), Verdict.PASSES),
        ((3, 6), F(1, 2), Verdict.PASSES),
    ],
)
def test_offset_of_long_tile(size: tuple[int, int], offset: F, verdict: Verdict) -> None:
    assert check_offset(tile(*size), offset).verdict is verdict


def test_the_older_text_said_eighteen_inches() -> None:
    # A guide quoting ANSI A108.02 4.3.3.
    assert check_offset(tile(6, 16), F(1, 2)).verdict is Verdict.SHORT
    assert check_offset(tile(6, 16), F(1, 2), long_edge=F(18)).verdict is Verdict.PASSES


def test_flatness_goes_by_the_tile_and_not_by_the_joint() -> None:
    """A retail guide in print goes by the width of the joint: wrong (A108.02 4.2.2, two columns)."""
    for joint in (F(1, 16), F(3, 8)):
        assert flatness(Tile(F(12), F(12), joint))[0] == F(1, 4)
        assert flatness(Tile(F(12), F(24), joint))[0] == F(1, 8)
    assert flatness(tile(15, 6))[0] == F(1, 8)


def test_lippage() -> None:
    # ANSI A108.02-2013 4.3.7; 12x24 porcelain with 1/8 joints: 1/32 (a tile foundation's worked case).
    assert lippage(F(1, 8)) == F(1, 32)
    assert lippage(F(1, 4)) == F(1, 16)
    assert lippage(F(1, 8), F(1, 64)) == F(3, 64)
    assert lippage(F(1, 4), stone=True) == F(1, 32)


def test_joint_width_and_contact() -> None:
    assert least_joint(F(1, 32)) == F(3, 32)
    assert least_joint(F(1, 100)) == F(1, 16)
    assert (contact(wet=False), contact(wet=True)) == (0.80, 0.95)


def test_shower_fall() -> None:
    # IRC P2709.1: 1/4 to 1/2 in a foot; 48 in at the least is 1 in (a tile foundation's tip).
    assert shower_fall(F(48)) == 1
    assert shower_fall(F(48), F(1, 2)) == 2
    with pytest.raises(BadInput):
        shower_fall(F(48), F(1, 8))


@pytest.mark.parametrize(
    ("feet", "exposed", "verdict", "parts"),
    [
        (18, False, Verdict.PASSES, 1),
        (22, False, Verdict.PASSES, 2),  # warned from 20 on, NTCA 2024/25
        (26, False, Verdict.SHORT, 2),  # 25 at most, 2018
        (11, True, Verdict.PASSES, 2),
        (13, True, Verdict.SHORT, 2),
    ],
)
def test_movement_joints(feet: int, exposed: bool, verdict: Verdict, parts: int) -> None:
    check = check_movement_joints(F(60), F(feet * 12), exposed=exposed)
    assert check.verdict is verdict
    assert check.figures["parts_along"] == parts
    assert bool(check.fixes) is (parts > 1)
