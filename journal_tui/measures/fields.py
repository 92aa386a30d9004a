"""A field to be covered: a floor or wall with right angles, less what is not covered. Exact inches."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from journal_tui.domain.errors import BadInput
from journal_tui.measures.rooms import Point, Room


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle by its edges."""

    left: Fraction
    bottom: Fraction
    right: Fraction
    top: Fraction

    @property
    def width(self) -> Fraction:
        """Width."""
        return self.right - self.left

    @property
    def height(self) -> Fraction:
        """Height."""
        return self.top - self.bottom


Span = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class Band:
    """A level slice of a field, ``low`` to ``high``, in which it covers the same ``spans``."""

    low: Fraction
    high: Fraction
    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class Field:
    """What is covered, as level bands from the bottom up."""

    bands: tuple[Band, ...]

    @property
    def area(self) -> Fraction:
        """Square inches."""
        return sum((r.width * r.height for r in self.rects()), Fraction(0))

    @property
    def box(self) -> Rect:
        """The rectangle around the field."""
        return Rect(
            min(a for band in self.bands for a, _ in band.spans),
            self.bands[0].low,
            max(b for band in self.bands for _, b in band.spans),
            self.bands[-1].high,
        )

    def rects(self) -> tuple[Rect, ...]:
        """Disjoint rectangles that make up the field."""
        return tuple(Rect(a, band.low, b, band.high) for band in self.bands for a, b in band.spans)

    def turned(self) -> Field:
        """The field mirrored in its diagonal: x and y change places."""
        return _field([Rect(r.bottom, r.left, r.top, r.right) for r in self.rects()])


def _field(rects: list[Rect]) -> Field:
    levels = sorted({r.bottom for r in rects} | {r.top for r in rects})
    bands: list[Band] = []
    for low, high in pairwise(levels):
        spans = _joined([(r.left, r.right) for r in rects if r.bottom <= low and r.top >= high])
        if not spans:
            continue
        if bands and bands[-1].high == low and bands[-1].spans == spans:
            bands[-1] = Band(bands[-1].low, high, spans)
        else:
            bands.append(Band(low, high, spans))
    if not bands:
        raise BadInput("field", "Nothing is left to cover.")
    return Field(tuple(bands))


def _joined(spans: list[Span]) -> tuple[Span, ...]:
    out: list[Span] = []
    for a, b in sorted(spans):
        if out and a <= out[-1][1]:
            out[-1] = (out[-1][0], max(out[-1][1], b))
        else:
            out.append((a, b))
    return tuple(out)


def rectangle_field(width: Fraction, height: Fraction, holes: tuple[Rect, ...] = ()) -> Field:
    """Return a field ``width`` by ``height`` inches less ``holes``. Raises `BadInput` for no size."""
    if width <= 0 or height <= 0:
        raise BadInput("field", "Width and height are more than zero.")
    zero = Fraction(0)
    return _less([(zero, zero), (width, zero), (width, height), (zero, height)], holes)


def floor_field(room: Room, holes: tuple[Rect, ...] = (), gap: Fraction = Fraction(0)) -> Field:
    """Return a room's floor drawn in by ``gap`` inches from every wall, less ``holes`` (a tub, a cabinet)."""
    return _less(_drawn_in(room, gap), holes)


def wall_field(room: Room, number: int, top: Fraction | None = None) -> Field:
    """Return wall ``number`` (from 1) up to ``top`` inches (else the ceiling), less its openings."""
    wall = room.walls[number - 1]
    high = min(top, room.height) if top is not None else room.height
    holes = tuple(
        Rect(o.start, o.sill, o.start + o.width, o.sill + o.height) for o in room.openings if o.wall == number
    )
    return rectangle_field(wall.length, high, holes)


def _drawn_in(room: Room, gap: Fraction) -> list[Point]:
    corners = list(room.corners if room.signed_area > 0 else reversed(room.corners))
    out = []
    for i, at in enumerate(corners):
        x, y = at
        for a, b in ((corners[i - 1], at), (at, corners[(i + 1) % len(corners)])):
            if a[0] == b[0]:
                x = at[0] - gap if b[1] > a[1] else at[0] + gap
            else:
                y = at[1] + gap if b[0] > a[0] else at[1] - gap
        out.append((x, y))
    return out


def _less(corners: list[Point], holes: tuple[Rect, ...]) -> Field:
    """Cut the plan into the cells of every edge's line and keep those inside and not in a hole."""
    xs = sorted({p[0] for p in corners} | {x for h in holes for x in (h.left, h.right)})
    ys = sorted({p[1] for p in corners} | {y for h in holes for y in (h.bottom, h.top)})
    kept = []
    for low, high in pairwise(ys):
        for left, right in pairwise(xs):
            x, y = (left + right) / 2, (low + high) / 2
            held = any(h.left < x < h.right and h.bottom < y < h.top for h in holes)
            if _inside(corners, x, y) and not held:
                kept.append(Rect(left, low, right, high))
    return _field(kept)


def _inside(corners: list[Point], x: Fraction, y: Fraction) -> bool:
    ring = [*corners, corners[0]]
    crossings = sum(
        1 for a, b in pairwise(ring) if a[0] == b[0] and a[0] > x and min(a[1], b[1]) < y < max(a[1], b[1])
    )
    return crossings % 2 == 1
