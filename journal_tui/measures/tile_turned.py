"""Layouts that a straight grid cannot count: diagonal and herringbone, tile by tile.

A pattern is one or two tiles repeated along two steps. Every tile is clipped to the field (Sutherland
and Hodgman's clip to a convex window, one rectangle of the field at a time), so areas are exact to
rounding; sizes here are floats in inches.

Herringbone of modules a (long) by b (short): a level tile at (0, 0), an upright one at (a, b - a), steps
(b, b) and (a, -a); their cell has area 2 a b, so they cover the plane without gap or overlap.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.measures.fields import Field
from journal_tui.measures.fractions import to_sixteenth
from journal_tui.measures.offcuts import tiles_for
from journal_tui.measures.tiles import HALF_ENOUGH, Cut, Laying, Layout, Pattern, Tile, upright

XY = tuple[float, float]
Shape = tuple[XY, ...]
#: Left, bottom, right, top.
Window = tuple[float, float, float, float]
_EPS = 1e-7
_ENOUGH = float(HALF_ENOUGH)
#: Tiles looked at while searching for a start: about a second.
_BUDGET = 40_000


@dataclass(frozen=True, slots=True)
class Repeat:
    """Shapes about the origin and the two steps along which they repeat."""

    shapes: tuple[Shape, ...]
    step: XY
    other: XY


def repeat_of(tile: Tile, laying: Laying) -> Repeat:
    """Return how a pattern repeats, straight ones included (their start is a tile's lower left corner)."""
    w, h, j = float(tile.width), float(tile.height), float(tile.joint)
    if laying.pattern is Pattern.DIAGONAL:
        centred = _box(-w / 2, -h / 2, w, h)
        return _rotated(Repeat((centred,), (w + j, 0.0), (0.0, h + j)))
    if laying.pattern in (Pattern.HERRINGBONE, Pattern.HERRINGBONE_45):
        long, short = max(w, h), min(w, h)
        a, b = long + j, short + j
        shapes = (_box(0, 0, long, short), _box(a, b - a, short, long))
        made = Repeat(shapes, (b, b), (a, -a))
        return _rotated(made) if laying.pattern is Pattern.HERRINGBONE_45 else made
    if upright(tile, laying):
        return Repeat((_box(0, 0, w, h),), (w + j, float(laying.offset) * (h + j)), (0.0, h + j))
    offset = float(laying.offset) * (w + j) if laying.pattern is Pattern.BOND else 0.0
    return Repeat((_box(0, 0, w, h),), (w + j, 0.0), (offset, h + j))


def _box(x: float, y: float, w: float, h: float) -> Shape:
    return ((x, y), (x + w, y), (x + w, y + h), (x, y + h))


def _rotated(made: Repeat) -> Repeat:
    c = math.sqrt(0.5)

    def turn(p: XY) -> XY:
        return (p[0] - p[1]) * c, (p[0] + p[1]) * c

    return Repeat(
        tuple(tuple(turn(p) for p in shape) for shape in made.shapes), turn(made.step), turn(made.other)
    )


def places(made: Repeat, start: XY, box: Window) -> Iterator[tuple[Shape, XY]]:
    """Yield every shape whose outline box meets ``box``, and how far it is moved from the origin."""
    (ux, uy), (vx, vy) = made.step, made.other
    left, bottom, right, top = box
    det = ux * vy - uy * vx
    bounds = [
        (min(xs), min(ys), max(xs), max(ys)) for xs, ys in (tuple(zip(*s, strict=True)) for s in made.shapes)
    ]
    reach = max(abs(c) for bound in bounds for c in bound)
    xs = (left - reach - start[0], right + reach - start[0])
    ys = (bottom - reach - start[1], top + reach - start[1])
    along = [(x * vy - y * vx) / det for x in xs for y in ys]
    over = [(ux * y - uy * x) / det for x in xs for y in ys]
    for i in range(math.floor(min(along)), math.ceil(max(along)) + 1):
        for k in range(math.floor(min(over)), math.ceil(max(over)) + 1):
            dx, dy = start[0] + i * ux + k * vx, start[1] + i * uy + k * vy
            for shape, (a, b, c, d) in zip(made.shapes, bounds, strict=True):
                if c + dx > left and a + dx < right and d + dy > bottom and b + dy < top:
                    yield shape, (dx, dy)


def _bounds(shape: Shape) -> Window:
    xs, ys = [p[0] for p in shape], [p[1] for p in shape]
    return min(xs), min(ys), max(xs), max(ys)


def area(shape: Shape) -> float:
    """Return the area of a polygon (shoelace)."""
    return (
        abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(shape, (*shape[1:], *shape[:1]), strict=True))) / 2
    )


def clipped(shape: Shape, window: Window) -> Shape:
    """Return ``shape`` cut to a window given as left, bottom, right, top; empty if nothing is left."""
    left, bottom, right, top = window
    for axis, edge, keep_high in ((0, left, True), (0, right, False), (1, bottom, True), (1, top, False)):
        shape = _side(shape, axis, edge, keep_high)
        if not shape:
            return ()
    return shape


def _side(shape: Shape, axis: int, edge: float, keep_high: bool) -> Shape:
    out: list[XY] = []
    for a, b in zip(shape, (*shape[1:], *shape[:1]), strict=True):
        a_in = a[axis] >= edge if keep_high else a[axis] <= edge
        b_in = b[axis] >= edge if keep_high else b[axis] <= edge
        if a_in:
            out.append(a)
        if a_in != b_in:
            t = (edge - a[axis]) / (b[axis] - a[axis])
            out.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
    return tuple(out)


@dataclass(frozen=True, slots=True)
class Placed:
    """A tile of the layout and what of it is used: its outline, the used parts, and whether it is full."""

    shape: Shape
    parts: tuple[Shape, ...]
    full: bool

    @property
    def extent(self) -> XY:
        """Width and height of the box around what is used, along the walls."""
        left, bottom, right, top = _bounds(tuple(p for part in self.parts for p in part))
        return right - left, top - bottom


def placed(field: Field, tile: Tile, laying: Laying, start: XY) -> list[Placed]:
    """Return every tile that covers some of the field, with the parts used."""
    return _placed(_windows(field), repeat_of(tile, laying), start, float(tile.width * tile.height))


def _windows(field: Field) -> list[Window]:
    return [(float(r.left), float(r.bottom), float(r.right), float(r.top)) for r in field.rects()]


def _around(windows: list[Window]) -> Window:
    lefts, bottoms, rights, tops = zip(*windows, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def _placed(windows: list[Window], made: Repeat, start: XY, whole: float) -> list[Placed]:
    out = []
    for shape, (dx, dy) in places(made, start, _around(windows)):
        moved = tuple((x + dx, y + dy) for x, y in shape)
        box = _bounds(moved)
        if any(_within(box, window) for window in windows):
            out.append(Placed(moved, (moved,), True))
            continue
        parts = tuple(
            part for window in windows if _meet(box, window) and area(part := clipped(moved, window)) > _EPS
        )
        if parts:
            out.append(Placed(moved, parts, sum(map(area, parts)) >= whole - 1e-6))
    return out


def _within(box: Window, window: Window) -> bool:
    return box[0] >= window[0] and box[2] <= window[2] and box[1] >= window[1] and box[3] <= window[3]


def _meet(box: Window, window: Window) -> bool:
    return box[0] < window[2] and box[2] > window[0] and box[1] < window[3] and box[3] > window[1]


def best_turned(field: Field, tile: Tile, laying: Laying, also: Iterable[XY] = ()) -> XY:
    """Return the best start tried: ``also``, a net of starts over one cell, then closer round the best."""
    made, windows, whole = repeat_of(tile, laying), _windows(field), float(tile.width * tile.height)

    def rank(start: XY) -> tuple[float, int, int]:
        return _rank(_placed(windows, made, start, whole), made)

    box = _around(windows)
    tiles = (box[2] - box[0]) * (box[3] - box[1]) / whole
    steps = max(4, min(12, math.isqrt(int(_BUDGET / (2 * tiles + 1)))))
    best = max([*also, *_starts(box, made, steps)], key=rank)
    size = 1 / steps
    for _round in range(3):
        size /= 2
        best = max([best, *_near(best, made, size)], key=rank)
    return best


def _starts(box: Window, made: Repeat, steps: int) -> list[XY]:
    middle, corner = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2), (box[0], box[1])
    return [
        _moved(base, made, i / steps, k / steps)
        for base in (middle, corner)
        for i in range(steps)
        for k in range(steps)
    ]


def _near(start: XY, made: Repeat, size: float) -> list[XY]:
    ways = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1))
    return [_moved(start, made, i * size, k * size) for i, k in ways]


def _moved(base: XY, made: Repeat, i: float, k: float) -> XY:
    (ux, uy), (vx, vy) = made.step, made.other
    return round(base[0] + i * ux + k * vx, 6), round(base[1] + i * uy + k * vy, 6)


def _rank(tiles: list[Placed], made: Repeat) -> tuple[float, int, int]:
    cut = [piece for piece in tiles if not piece.full]
    share = min((_share(piece, made) for piece in cut), default=_ENOUGH)
    return round(min(share, _ENOUGH), 6), -len(tiles), -len(cut)


def _share(piece: Placed, made: Repeat) -> float:
    left, bottom, right, top = _bounds(made.shapes[0])
    return min(piece.extent) / min(right - left, top - bottom)


def lay_turned(field: Field, tile: Tile, laying: Laying, start: XY) -> Layout:
    """Return the layout from ``start``: every cut piece is aslant or odd and takes a tile of its own,
    except triangles of half a tile or less in a diagonal layout, two of which come out of one."""
    made = repeat_of(tile, laying)
    tiles = placed(field, tile, laying, start)
    cut = [piece for piece in tiles if not piece.full]
    sizes = Counter(_rounded(piece) for piece in cut)
    cuts = tuple(Cut(w, h, n, ("aslant",)) for (w, h), n in sorted(sizes.items()))
    full = len(tiles) - len(cut)
    share, _laid, _cut = _rank(tiles, made)
    least = min((min(piece.extent) for piece in cut), default=None)
    return Layout(
        laying,
        (Fraction(start[0]).limit_denominator(10**6), Fraction(start[1]).limit_denominator(10**6)),
        len(tiles),
        full,
        full + tiles_for(cuts, tile) - _paired(cut, tile, laying),
        None if least is None else Fraction(least).limit_denominator(10**6),
        Fraction(share).limit_denominator(10**6),
        cuts,
    )


def _rounded(piece: Placed) -> tuple[Fraction, Fraction]:
    w, h = piece.extent
    return to_sixteenth(Fraction(w)), to_sixteenth(Fraction(h))


def _paired(cut: list[Placed], tile: Tile, laying: Laying) -> int:
    """Return tiles saved in a diagonal layout by cutting two triangles, each under half, from one tile."""
    if laying.pattern is not Pattern.DIAGONAL or tile.width != tile.height or not tile.turns:
        return 0
    half = float(tile.width) / math.sqrt(2) - 0.125
    triangles = sum(
        1 for piece in cut if len(piece.parts) == 1 and len(piece.parts[0]) == 3 and min(piece.extent) <= half
    )
    return triangles // 2
