"""Layouts counted against brute force and worked cases, and measured against the usual starts."""

from __future__ import annotations

import itertools
import random
from fractions import Fraction as F
from xml.etree import ElementTree

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fields import Field, Rect, floor_field, rectangle_field
from journal_tui.measures.offcuts import tiles_for
from journal_tui.measures.rooms import walk
from journal_tui.measures.tile_drawing import as_svg, in_characters
from journal_tui.measures.tile_layout import (
    boxes,
    boxes_by_area,
    lay_from,
    lay_out,
    start_lines,
    usual_starts,
)
from journal_tui.measures.tile_turned import area, placed
from journal_tui.measures.tiles import HALF_ENOUGH, Cut, Laying, Layout, Pattern, Tile

FOOT = Tile(F(12), F(12), F(1, 8))
PLANK = Tile(F(24), F(6), F(3, 16))
HALF_BOND = Laying(Pattern.BOND, F(1, 2))
THIRD_BOND = Laying(Pattern.BOND, F(1, 3))


def field(width: int, height: int) -> Field:
    return rectangle_field(F(width), F(height))


# Counted by rows and columns; by area alone the second and third would be 20 and 13.
@pytest.mark.parametrize(
    ("where", "tile", "by_area", "places"),
    [
        (field(96, 60), FOOT, 40, 40),
        (field(96, 60), Tile(F(12), F(24), F(1, 8)), 20, 24),
        (field(60, 30), PLANK, 13, 15),
    ],
)
def test_the_grid_counts_what_area_does_not(where: Field, tile: Tile, by_area: int, places: int) -> None:
    module = tile.module[0] * tile.module[1]
    assert -(-where.area // module) == by_area
    assert lay_out(where, tile).laid == places


def brute(where: Field, tile: Tile, laying: Laying, x: F, y: F) -> tuple[int, int, F]:
    """Count places and full tiles, and the least share of a cut side, tile by tile over a wide range."""
    rects, box = where.rects(), where.box
    mw, mh = tile.module
    rows = range(int((box.bottom - y) / mh) - 2, int((box.top - y) / mh) + 2)
    laid = full = 0
    least = HALF_ENOUGH
    for row in rows:
        shift = mw * laying.offset * row if laying.pattern is Pattern.BOND else F(0)
        columns = range(int((box.left - x - shift) / mw) - 2, int((box.right - x - shift) / mw) + 2)
        for column in columns:
            left, bottom = x + shift + column * mw, y + row * mh
            parts = [
                (
                    min(left + tile.width, r.right) - max(left, r.left),
                    min(bottom + tile.height, r.top) - max(bottom, r.bottom),
                )
                for r in rects
            ]
            parts = [(w, h) for w, h in parts if w > 0 and h > 0]
            if not parts:
                continue
            laid += 1
            full += sum(w * h for w, h in parts) == tile.width * tile.height
            if len(rects) == 1:
                (w, h) = parts[0]
                least = min(least, w / tile.width, h / tile.height)
    return laid, full, least


@pytest.mark.parametrize("laying", [Laying(), HALF_BOND, THIRD_BOND])
@pytest.mark.parametrize("text", ["E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0", "E 5-0, N 2-6, W 5-0, S 2-6"])
def test_counts_against_brute_force(laying: Laying, text: str) -> None:
    where = floor_field(walk("bath", text), (Rect(F(0), F(0), F(14), F(9)),), F(1, 4))
    for tile, start in itertools.product(
        (FOOT, PLANK), ((F(0), F(0)), (F(31, 8), F(5, 3)), (F(-7, 2), F(11)))
    ):
        laid, full, _least = brute(where, tile, laying, *start)
        layout = lay_from(where, tile, laying, start)
        assert (layout.laid, layout.full) == (laid, full)
        assert sum(cut.count for cut in layout.cuts) == laid - full


@pytest.mark.parametrize("laying", [Laying(), HALF_BOND])
@pytest.mark.parametrize("size", [(31, 27), (40, 26), (25, 38), (37, 37), (50, 29)])
def test_no_start_on_a_fine_net_beats_ours(laying: Laying, size: tuple[int, int]) -> None:
    """Every start on a half-inch net of a small field, by brute force."""
    tile = Tile(F(12), F(9), F(1, 4))
    where = field(*size)
    ours = lay_out(where, tile, laying)
    laid, full, least = brute(where, tile, laying, *ours.start)
    assert (ours.laid, ours.full, ours.least_share) == (laid, full, least)
    for i, k in itertools.product(range(0, 49, 2), range(0, 37, 2)):
        theirs = brute(where, tile, laying, F(i, 4), F(k, 4))
        assert (ours.least_share, -ours.laid, -ours.cut) >= (theirs[2], -theirs[0], theirs[1] - theirs[0])


def least_leg(where: Field, tile: Tile, start: tuple[F, F]) -> F:
    """Return the least leg of any cut piece, as a share of the tile's side, by cutting pieces into cells."""
    least = HALF_ENOUGH
    (mw, mh), box = tile.module, where.box
    rows = range(int((box.bottom - start[1]) / mh) - 2, int((box.top - start[1]) / mh) + 2)
    columns = range(int((box.left - start[0]) / mw) - 2, int((box.right - start[0]) / mw) + 2)
    for row, column in itertools.product(rows, columns):
        left, low = start[0] + column * mw, start[1] + row * mh
        parts = [
            (
                max(left, r.left),
                max(low, r.bottom),
                min(left + tile.width, r.right),
                min(low + tile.height, r.top),
            )
            for r in where.rects()
        ]
        parts = [p for p in parts if p[0] < p[2] and p[1] < p[3]]
        for axis, side in ((0, tile.width), (1, tile.height)):
            cross = sorted({p[1 - axis] for p in parts} | {p[3 - axis] for p in parts})
            for a, b in itertools.pairwise(cross):
                spans = sorted((p[axis], p[axis + 2]) for p in parts if p[1 - axis] <= a and p[3 - axis] >= b)
                for length in _run_lengths(spans):
                    if length < side:
                        least = min(least, length / side)
    return least


def _run_lengths(spans: list[tuple[F, F]]) -> list[F]:
    runs: list[tuple[F, F]] = []
    for a, b in spans:
        if runs and a <= runs[-1][1]:
            runs[-1] = runs[-1][0], max(b, runs[-1][1])
        else:
            runs.append((a, b))
    return [b - a for a, b in runs]


@pytest.mark.parametrize("seed", range(8))
def test_least_piece_of_notched_fields_against_cells(seed: int) -> None:
    rng = random.Random(seed)
    wide, high = rng.randint(40, 90), rng.randint(40, 90)
    hole = Rect(
        F(rng.randint(0, 20)), F(rng.randint(0, 20)), F(rng.randint(25, wide)), F(rng.randint(25, high))
    )
    where = rectangle_field(F(wide), F(high), (hole,))
    tile = Tile(F(12), F(9), F(1, 4))
    ours = lay_out(where, tile)
    assert ours.least_share == least_leg(where, tile, ours.start)
    for _try in range(6):
        start = F(rng.randint(0, 98), 8), F(rng.randint(0, 74), 8)
        assert least_leg(where, tile, start) <= ours.least_share


#: Ten rooms: plain, L-shaped, with an alcove, long and narrow, with a tub left out.
ROOMS = {
    "hall bath": ("E 8-0, N 5-0, W 8-0, S 5-0", ()),
    "hall bath less its tub": ("E 8-0, N 5-0, W 8-0, S 5-0", (Rect(F(0), F(0), F(30), F(60)),)),
    "l-shaped bath": ("E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0", ()),
    "alcove bath": ("E 9-2, N 4-0, W 2-6, N 2-8, W 4-2, S 2-8, W 2-6, S 4-0", ()),
    "powder room": ("E 5-1, N 4-7, W 5-1, S 4-7", ()),
    "laundry": ("E 6-3 1/2, N 7-10, W 6-3 1/2, S 7-10", ()),
    "entry": ("E 4-5, N 11-9, W 4-5, S 11-9", ()),
    "kitchen": ("E 13-4, N 11-2, W 13-4, S 11-2", (Rect(F(0), F(110), F(160), F(134)),)),
    "mud room": ("E 7-7, N 3-1, E 2-2, N 3-3, W 9-9, S 6-4", ()),
    "hall": ("E 21-5, N 3-4, W 21-5, S 3-4", ()),
}


@pytest.mark.parametrize("name", ROOMS)
@pytest.mark.parametrize(("tile", "laying"), [(FOOT, Laying()), (Tile(F(24), F(12), F(1, 8)), THIRD_BOND)])
def test_never_worse_than_the_four_usual_starts(name: str, tile: Tile, laying: Laying) -> None:
    text, holes = ROOMS[name]
    where = floor_field(walk(name, text), holes, F(1, 4))
    ours = lay_out(where, tile, laying)
    for start, theirs in usual_starts(where, tile, laying).items():
        assert ours.rank >= theirs.rank, start


def test_balanced_cuts_where_a_corner_start_leaves_a_sliver() -> None:
    where = field(98, 61)  # from a corner: 98 - 8 x 12.125 = 1 in sliver
    corner = usual_starts(where, FOOT)["full tile in the near corner"]
    ours = lay_out(where, FOOT)
    assert corner.least == F(3, 8)
    assert ours.least is not None
    assert ours.least >= F(9, 20) * 12
    lines = start_lines(where, FOOT, ours)
    assert 0 <= lines.from_left < F(97, 8)


def cut(width: F | int, height: F | int, count: int, *sides: str) -> Cut:
    return Cut(F(width), F(height), count, sides)


@pytest.mark.parametrize(
    ("cuts", "tiles"),
    [
        ([cut(5, 12, 4, "left"), cut(6, 12, 4, "right")], 4),  # 5 + 6 + kerf <= 12: in pairs
        ([cut(6, 12, 4, "left"), cut(6, 12, 4, "right")], 8),  # two halves and a kerf do not fit
        ([cut(5, 12, 3, "left")], 2),
        ([cut(12, 5, 2, "top"), cut(5, 12, 1, "left")], 2),
        ([cut(5, 5, 4, "left", "top")], 2),
        ([cut(5, 12, 1, "left"), cut(5, 5, 2, "right", "top")], 1),  # both corners from the other half
        ([cut(8, 12, 2, "notched")], 2),
        ([cut(3, 12, 2, "left", "right")], 2),  # between two walls: one factory edge is not enough
    ],
)
def test_offcuts(cuts: list[Cut], tiles: int) -> None:
    assert tiles_for(cuts, FOOT) == tiles


def test_a_veined_tile_is_not_turned_end_for_end() -> None:
    veined = Tile(F(12), F(12), F(1, 8), turns=False)
    both = [cut(5, 12, 4, "left"), cut(6, 12, 2, "right")]
    assert tiles_for(both, FOOT) == 3
    assert tiles_for(both, veined) == 4


def test_offcuts_are_never_worse_than_a_tile_each() -> None:
    for name, (text, holes) in ROOMS.items():
        where = floor_field(walk(name, text), holes)
        layout = lay_out(where, PLANK, HALF_BOND)
        assert layout.full + -(-layout.cut // 4) <= layout.bought <= layout.laid
        assert layout.bought * PLANK.width * PLANK.height >= where.area * F(9, 10)


@pytest.mark.parametrize(
    "laying", [Laying(Pattern.DIAGONAL), Laying(Pattern.HERRINGBONE), Laying(Pattern.HERRINGBONE_45)]
)
def test_turned_patterns_cover_the_field_once(laying: Laying) -> None:
    """With no joint the used parts add up to the field's area, and nothing overlaps."""
    where = floor_field(walk("bath", ROOMS["l-shaped bath"][0]))
    tile = Tile(F(12), F(12), F(0)) if laying.pattern is Pattern.DIAGONAL else Tile(F(12), F(4), F(0))
    tiles = placed(where, tile, laying, (3.3, 1.7))
    assert sum(area(part) for one in tiles for part in one.parts) == pytest.approx(float(where.area))


@pytest.mark.parametrize("laying", [Laying(Pattern.DIAGONAL), Laying(Pattern.HERRINGBONE)])
def test_turned_patterns_never_worse_than_the_usual_starts(laying: Laying) -> None:
    tile = FOOT if laying.pattern is Pattern.DIAGONAL else Tile(F(12), F(4), F(1, 8))
    where = floor_field(walk("bath", ROOMS["l-shaped bath"][0]))
    ours = lay_out(where, tile, laying)
    assert all(ours.rank >= theirs.rank for theirs in usual_starts(where, tile, laying).values())
    assert ours.laid >= ours.bought >= ours.full


def test_a_straight_grid_and_the_clipped_tiles_agree() -> None:
    """Two separate ways of counting the same layout."""
    where = floor_field(walk("bath", ROOMS["l-shaped bath"][0]))
    for laying in (Laying(), HALF_BOND, THIRD_BOND):
        layout = lay_out(where, FOOT, laying)
        tiles = placed(where, FOOT, laying, (float(layout.start[0]), float(layout.start[1])))
        assert (layout.laid, layout.full) == (len(tiles), sum(one.full for one in tiles))


def test_a_tile_higher_than_wide_is_offset_in_upright_courses() -> None:
    where = floor_field(walk("bath", ROOMS["l-shaped bath"][0]))
    tall = Tile(F(6), F(24), F(3, 16))
    layout = lay_out(where, tall, THIRD_BOND)
    tiles = placed(where, tall, THIRD_BOND, (float(layout.start[0]), float(layout.start[1])))
    assert (layout.laid, layout.full) == (len(tiles), sum(one.full for one in tiles))
    on_its_side = lay_out(where.turned(), PLANK, THIRD_BOND)
    assert layout.rank == on_its_side.rank
    assert sum(c.count for c in layout.cuts if c.height < 24) == sum(
        c.count for c in on_its_side.cuts if c.width < 24
    )


def test_boxes_round_up_once() -> None:
    # 40 sf, 10 %, 15.5 sf a box: 44 / 15.5 = 2.84, so 3.
    assert boxes_by_area(F(40), F(31, 2), F(1, 10)) == 3
    assert boxes(100, 11, F(1, 10)) == 10
    assert boxes(101, 11, F(1, 10)) == 11
    with pytest.raises(BadInput, match="boxes"):
        boxes(10, 0)


def _drawn(laying: Laying, tile: Tile = FOOT) -> tuple[Field, Layout]:
    where = floor_field(walk("bath", ROOMS["l-shaped bath"][0]))
    return where, lay_out(where, tile, laying)


@pytest.mark.parametrize("pattern", list(Pattern))
def test_drawings(pattern: Pattern) -> None:
    tile = Tile(F(12), F(4), F(1, 8)) if "herring" in pattern.value else FOOT
    where, layout = _drawn(Laying(pattern), tile)
    lines = in_characters(where, tile, layout, 76, 18).splitlines()
    assert len(lines) <= 18
    assert max(map(len, lines)) <= 76
    assert lines[0].endswith("#")  # the notch of the L
    assert "#" not in lines[-1]
    root = ElementTree.fromstring(as_svg(where, tile, layout))
    shapes = root.findall("{http://www.w3.org/2000/svg}polygon")
    assert len(shapes) >= layout.laid


@pytest.mark.parametrize(
    "bad",
    [
        lambda: lay_out(field(10, 10), FOOT),
        lambda: Tile(F(0), F(12), F(1, 8)),
        lambda: Tile(F(12), F(12), F(-1, 8)),
        lambda: Tile(F(12), F(12), F(12)),
        lambda: Laying(Pattern.BOND, F(1)),
        lambda: lay_out(field(12000, 12000), Tile(F(1), F(1), F(1, 8))),
        lambda: lay_out(field(1200, 1200), Tile(F(1), F(1), F(1, 8)), Laying(Pattern.DIAGONAL)),
    ],
)
def test_bad_layouts_are_refused(bad: object) -> None:
    assert callable(bad)
    with pytest.raises(BadInput):
        bad()
