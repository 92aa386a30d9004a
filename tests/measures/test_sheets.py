"""Sheet counts against exhaustive search on small fields; rules held; strips for any room."""

from __future__ import annotations

import itertools
from fractions import Fraction as F
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.measures.bins import fewest_bins
from journal_tui.measures.fields import Field, floor_field, rectangle_field, wall_field
from journal_tui.measures.rooms import Opening, rectangle, walk
from journal_tui.measures.sheets import Rules, Sheet, cut_list, lay_sheets
from journal_tui.measures.strips import runs_round, strip_plan

PLYWOOD = Sheet("plywood 3/4")
BOARD = Sheet("wallboard", kerf=F(0), gap=F(0))


def fewest_by_exhaustion(pieces: tuple[tuple[int, int], ...], sheet: tuple[int, int]) -> int:
    """Return the fewest sheets that give ``pieces`` by straight cuts, every order and both ways to cut."""

    @cache
    def go(left: tuple[tuple[int, int], ...], stock: tuple[tuple[int, int], ...]) -> int:
        if not left:
            return 0
        best = len(left)
        for i in range(len(left)):
            rest = left[:i] + left[i + 1 :]
            for one in {*stock, sheet}:
                length, width = left[i]
                if one[0] < length or one[1] < width:
                    continue
                pool = list(stock)
                cost = 0 if one in pool else 1
                if not cost:
                    pool.remove(one)
                for extra in (
                    [(one[0], one[1] - width), (one[0] - length, width)],
                    [(one[0] - length, one[1]), (length, one[1] - width)],
                ):
                    new = tuple(sorted([*pool, *(e for e in extra if min(e) > 0)]))
                    best = min(best, cost + go(rest, new))
        return best

    return go(tuple(sorted(pieces)), ())


def exhaustive(width: int, height: int, rules: Rules) -> int:
    """Return the fewest sheets over every jointing of every row (no gap, no kerf, rows from the bottom
    or the top), each packed exhaustively."""
    marks = list(range(16, width, 16))
    best = 99
    heights = [[48] * (height // 48) + ([height % 48] if height % 48 else [])]
    heights.append(heights[0][::-1])
    for rows in heights:
        ways = [
            joints
            for n in range(3)
            for joints in itertools.combinations(marks, n)
            if all(16 <= b - a <= 96 for a, b in itertools.pairwise((0, *joints, width)))
        ]
        for choice in itertools.product(ways, repeat=len(rows)):
            pairs = itertools.pairwise(choice)
            if any(abs(a - b) < rules.stagger for one, two in pairs for a in one for b in two):
                continue
            pieces = tuple(
                (b - a, high)
                for joints, high in zip(choice, rows, strict=True)
                for a, b in itertools.pairwise((0, *joints, width))
            )
            if len(pieces) <= 5:
                best = min(best, fewest_by_exhaustion(pieces, (96, 48)))
    return best


@pytest.mark.parametrize(
    "size", [(60, 96), (96, 60), (60, 60), (112, 60), (144, 48), (144, 64), (128, 72), (40, 110), (120, 54)]
)
def test_as_few_sheets_as_exhaustive_search(size: tuple[int, int]) -> None:
    plan = lay_sheets({"floor": rectangle_field(F(size[0]), F(size[1]))}, BOARD)
    fewest = exhaustive(*size, Rules())
    assert plan.sheets <= fewest
    assert plan.proved or plan.sheets == fewest


def test_rules_taken_when_nobody_says() -> None:
    # CTEF "Backer Board 101" on ANSI A108.11: joints staggered 16 in, 8 in off the seams below; APA E30V
    # p. 37: 1/8 in between panels.
    assert (Rules().stagger, Rules().clear) == (F(16), F(8))
    assert PLYWOOD.gap == F(1, 8)


def test_a_hall_bath_floor() -> None:
    plan = lay_sheets({"floor": rectangle_field(F(96), F(60))}, PLYWOOD)
    assert plan.sheets == plan.bound == 2
    assert plan.proved
    assert len(cut_list(plan)) == len(plan.pieces)


def _covers(plan_pieces: object, field: Field) -> F:
    assert isinstance(plan_pieces, tuple)
    return sum((p.length * p.width for p in plan_pieces), F(0))


@pytest.mark.parametrize("width", [100, 150, 197, 260])
@pytest.mark.parametrize("height", [50, 97, 133])
def test_every_rule_is_kept(width: int, height: int) -> None:
    rules = Rules(old_ends=(F(48), F(144)), old_rows=(F(48),))
    plan = lay_sheets({"floor": rectangle_field(F(width), F(height))}, BOARD, rules)
    rows = sorted({piece.row for piece in plan.pieces})
    for row in rows:
        joints = plan.end_joints("floor", row)
        assert all(j % 16 == 0 for j in joints)
        assert all(abs(j - old) >= 8 for j in joints for old in rules.old_ends)
        above = plan.end_joints("floor", row + 1)
        assert all(abs(a - b) >= 16 for a in joints for b in above)
    bottoms = {piece.bottom for piece in plan.pieces} - {F(0)}
    assert all(abs(b - 48) >= 8 for b in bottoms)
    assert all(16 <= piece.length <= 96 and piece.width <= 48 for piece in plan.pieces)
    assert _covers(plan.pieces, rectangle_field(F(width), F(height))) == width * height
    assert plan.sheets >= plan.bound


def test_no_sheet_gives_more_than_it_has() -> None:
    plan = lay_sheets({"floor": rectangle_field(F(230), F(170))}, PLYWOOD)
    for number in range(1, plan.sheets + 1):
        used = sum((p.length * p.width for p in plan.pieces if p.sheet == number), F(0))
        assert 0 < used <= 96 * 48


def test_walls_share_offcuts() -> None:
    room = rectangle("bath", F(96), F(60), openings=(Opening("door", 2, F(10), F(30), F(0), F(80)),))
    walls = {f"wall {n}": wall_field(room, n) for n in (1, 2, 3, 4)}
    together = lay_sheets(walls, BOARD)
    apart = sum(lay_sheets({name: field}, BOARD).sheets for name, field in walls.items())
    assert together.sheets <= apart
    assert together.sheets >= together.bound


def test_an_l_shaped_floor() -> None:
    room = walk("bath", "E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0")
    plan = lay_sheets({"floor": floor_field(room)}, BOARD)
    assert plan.sheets == 2


def test_rules_that_cannot_be_kept_are_said() -> None:
    with pytest.raises(BadInput, match="No layout keeps"):
        lay_sheets({"floor": rectangle_field(F(200), F(48))}, BOARD, Rules(least=F(90)))
    with pytest.raises(BadInput, match="old seams"):
        lay_sheets(
            {"f": rectangle_field(F(90), F(90))}, BOARD, Rules(old_rows=tuple(F(n * 8) for n in range(12)))
        )
    with pytest.raises(BadInput):
        Sheet("board", F(48), F(96))


# Four strips a foot high come out of a sheet. By hand: 26 ft round less a 30 in door is 282 in; walls of
# 96, 60, 96 and 30 in give strips 96, 96, 60 + 30: three strips, one sheet.
def test_a_band_of_board_all_round_a_room() -> None:
    """Common practice, no source: base tile takes the board's face with it, so a foot is replaced."""
    room = rectangle("bath", F(96), F(60), openings=(Opening("door", 4, F(0), F(30), F(0), F(80)),))
    plan = strip_plan(room)
    assert sorted(plan.runs) == [30, 60, 96, 96]
    assert (plan.strips, plan.per_sheet, plan.sheets) == (3, 4, 1)


@settings(max_examples=40, deadline=None)
@given(st.integers(30, 300), st.integers(30, 300), st.sampled_from([8, 12, 16]))
def test_strips_reach_all_the_way_round_any_room(width: int, depth: int, height: int) -> None:
    room = rectangle("room", F(width), F(depth))
    plan = strip_plan(room, F(height))
    assert sum(plan.runs) == room.perimeter == sum(length * n for length, n in plan.pieces)
    assert all(length <= 96 for length, _n in plan.pieces)
    assert plan.strips * 96 >= room.perimeter
    assert plan.sheets * plan.per_sheet >= plan.strips


def test_a_window_above_the_band_does_not_break_it() -> None:
    openings = (
        Opening("window", 1, F(30), F(30), F(40), F(30)),
        Opening("door", 1, F(70), F(26), F(0), F(80)),
    )
    room = rectangle("bath", F(96), F(60), openings=openings)
    assert list(runs_round(room, F(12))) == [70, 60, 96, 60]
    with pytest.raises(BadInput, match="strip"):
        strip_plan(room, F(50))


@settings(max_examples=25, deadline=None)
@given(st.lists(st.integers(10, 96), min_size=1, max_size=5))
def test_lengths_from_stock_against_every_sharing(lengths: list[int]) -> None:
    found = fewest_bins(tuple(F(n) for n in lengths), F(96), F(1, 8))
    assert sorted(x for one in found for x in one) == sorted(lengths)
    assert all(sum(one) + F(len(one) - 1, 8) <= 96 for one in found)
    best = len(lengths)
    for homes in itertools.product(range(len(lengths)), repeat=len(lengths)):
        bins = [[n for n, h in zip(lengths, homes, strict=True) if h == k] for k in set(homes)]
        if len(bins) < best and all(sum(one) + F(len(one) - 1, 8) <= 96 for one in bins):
            best = len(bins)
    assert len(found) == best
