"""Rooms that close and those that do not; areas against pint and by hand."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fields import Rect, floor_field, rectangle_field, wall_field
from journal_tui.measures.rooms import Opening, drawing, rectangle, walk

L_SHAPE = "E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0"


def test_an_l_shape() -> None:
    room = walk("bath", L_SHAPE)
    units: pint.UnitRegistry[Any] = pint.UnitRegistry()
    area = units.Quantity(8, "ft") * units.Quantity(5, "ft") - units.Quantity(2, "ft") * units.Quantity(
        18, "inch"
    )
    assert float(room.floor_area) == pytest.approx(area.to("inch**2").magnitude)
    assert room.perimeter == 26 * 12
    assert [wall.length for wall in room.walls] == [96, 42, 24, 18, 72, 60]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("E 8-0, N 5-0, W 8-0, S 4-0", "does not close"),
        ("E 8-0, N 5-0", "does not close"),
        ("E 8-0, N 5-0, W 4-0, S 7-0, W 4-0, N 2-0", "crosses itself"),
        ("E 8-0, N, W 8-0, S 5-0", "wall 2"),
        ("E 8-0, N 5, W 8-0, S 5-0", "wall 2"),
        ("E 8-0, W 8-0, E 8-0, W 8-0", ""),
        ("", "does not close"),
    ],
)
def test_a_room_that_does_not_close_is_refused(text: str, says: str) -> None:
    with pytest.raises(BadInput) as caught:
        walk("bath", text)
    assert says in caught.value.title


def test_how_far_off_is_said() -> None:
    with pytest.raises(BadInput, match=r"ends 1' 0\" N from"):
        walk("bath", "E 8-0, N 5-0, W 8-0, S 4-0")


@pytest.mark.parametrize("bad", [(F(0), F(60)), (F(96), F(-1))])
def test_sizes_are_more_than_zero(bad: tuple[F, F]) -> None:
    with pytest.raises(BadInput):
        rectangle("bath", *bad)


@pytest.mark.parametrize(
    "opening",
    [
        Opening("door", 9, F(0), F(30), F(0), F(80)),
        Opening("door", 2, F(40), F(30), F(0), F(80)),
        Opening("window", 1, F(0), F(30), F(60), F(80)),
        Opening("niche", 1, F(-1), F(30), F(0), F(80)),
        Opening("niche", 1, F(1), F(0), F(0), F(80)),
    ],
)
def test_openings_fit_in_their_wall(opening: Opening) -> None:
    with pytest.raises(BadInput, match="bath"):
        rectangle("bath", F(96), F(60), openings=(opening,))


def test_fields_keep_the_area() -> None:
    room = walk("bath", L_SHAPE)
    assert floor_field(room).area == room.floor_area
    gap = floor_field(room, gap=F(1, 4))
    assert gap.area == room.floor_area - room.perimeter / 4 + 4 * F(1, 16)
    assert floor_field(room).turned().area == room.floor_area
    assert floor_field(room, (Rect(F(0), F(0), F(30), F(60)),)).area == room.floor_area - 30 * 60


def test_a_wall_less_its_window() -> None:
    room = rectangle("bath", F(96), F(60), openings=(Opening("window", 1, F(30), F(36), F(40), F(30)),))
    assert wall_field(room, 1).area == 96 * 96 - 36 * 30
    assert wall_field(room, 1, F(48)).area == 96 * 48 - 36 * 8
    assert room.wall_area() == room.perimeter * 96 - 36 * 30
    assert room.wall_area(openings_over=F(16 * 144)) == room.perimeter * 96


@given(st.integers(1, 40), st.integers(1, 40), st.integers(1, 20), st.integers(1, 20))
def test_notched_fields_add_up(w: int, h: int, a: int, b: int) -> None:
    hole = Rect(F(1, 2), F(1, 3), F(1, 2) + a, F(1, 3) + b)
    field = rectangle_field(F(w + a + 1), F(h + b + 1), (hole,))
    assert field.area == (w + a + 1) * (h + b + 1) - a * b


def test_nothing_left_is_said() -> None:
    with pytest.raises(BadInput, match="Nothing is left"):
        rectangle_field(F(10), F(10), (Rect(F(-1), F(-1), F(11), F(11)),))


def test_the_plan_in_characters() -> None:
    room = walk("bath", L_SHAPE, openings=(Opening("door", 1, F(6), F(28), F(0), F(80)),))
    text = drawing(room, 40, 12)
    plan, legend = text.splitlines()[:-6], text.splitlines()[-6:]
    assert max(map(len, plan)) <= 40
    assert len(plan) <= 12
    assert sum(line.count("+") for line in plan) == 6
    assert legend[0] == "a  8' 0\"  door 28 in wide at 6 in"
