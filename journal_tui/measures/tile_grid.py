"""Straight layouts, stack and running bond: counted by the grid, started where cuts come out best.

Everything is whole numbers of one small unit, so counts and cut sizes are exact. How wide the piece at
an edge comes out is a saw-tooth in the start; the start that keeps the narrowest piece widest is where
two teeth cross or where one turns, so trying those starts finds the best there is.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from journal_tui.measures.fields import Field
from journal_tui.measures.offcuts import tiles_for
from journal_tui.measures.tiles import HALF_ENOUGH, Cut, Laying, Layout, Pattern, Tile

#: How many of the equally good starts each way are tried together in both.
_TRIED = 24
#: Low edge, high edge and spans of a level slice of the field.
_Band = tuple[int, int, tuple[tuple[int, int], ...]]


@dataclass(frozen=True, slots=True)
class _Lines:
    """One direction in whole units: tile side, module, and the spans the field has across it."""

    side: int
    module: int
    spans: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A field and a tile in whole units of 1/``unit`` inch."""

    unit: int
    bands: tuple[_Band, ...]
    across: _Lines
    up: _Lines
    shifts: tuple[int, ...]
    tile: Tile
    laying: Laying


def grid(field: Field, tile: Tile, laying: Laying, finer: int = 1) -> Grid:
    """Return ``field`` and ``tile`` in the coarsest unit in which every size and 1/``finer`` in is whole."""
    turned = field.turned()
    mw, mh = tile.module
    courses = _courses(laying)
    step = mw * laying.offset if courses > 1 else Fraction(0)
    numbers = [tile.width, tile.height, mw, mh, step]
    for rect in field.rects():
        numbers += [rect.left, rect.right, rect.bottom, rect.top]
    unit = math.lcm(finer, *(n.denominator for n in numbers))

    def whole(n: Fraction) -> int:
        return int(n * unit)

    bands = tuple(
        (whole(b.low), whole(b.high), tuple((whole(x), whole(y)) for x, y in b.spans)) for b in field.bands
    )
    return Grid(
        unit,
        bands,
        _Lines(whole(tile.width), whole(mw), _spans(field, whole)),
        _Lines(whole(tile.height), whole(mh), _spans(turned, whole)),
        tuple(whole(step) * k % whole(mw) for k in range(courses)),
        tile,
        laying,
    )


def _courses(laying: Laying) -> int:
    """After how many courses a bond repeats: the denominator of its offset."""
    return laying.offset.denominator if laying.pattern is Pattern.BOND else 1


def _spans(field: Field, whole: Callable[[Fraction], int]) -> tuple[tuple[int, int], ...]:
    return tuple(dict.fromkeys((whole(a), whole(b)) for band in field.bands for a, b in band.spans))


def _ends(lines: _Lines, start: int, span: tuple[int, int]) -> tuple[int, int]:
    """Return how wide the first and the last piece in ``span`` come out."""
    low, high = span
    first = _index(lines, start, low)
    last = _last_index(lines, start, high)
    left, right = start + first * lines.module, start + last * lines.module
    return (
        min(left + lines.side, high) - max(left, low),
        min(right + lines.side, high) - max(right, low),
    )


def _index(lines: _Lines, start: int, low: int) -> int:
    """The first tile that reaches past ``low``."""
    return (low - start - lines.side) // lines.module + 1


def _last_index(lines: _Lines, start: int, high: int) -> int:
    """The last tile that begins before ``high``."""
    return -((start - high) // lines.module) - 1


def _least(lines: _Lines, start: int, shifts: Iterable[int]) -> int:
    """Return the narrowest piece any span is left with, all shifts of the courses together."""
    return min(min(_ends(lines, start + shift, span)) for shift in shifts for span in lines.spans)


def _candidates(lines: _Lines, shifts: tuple[int, ...]) -> list[int]:
    """Return starts (in half units, within one module) at which the narrowest piece can be at its best.

    A piece at a low edge widens as the start moves on, one at a high edge narrows. They are equal where
    twice the start is low + high - side, give or take a module; they turn where a tile's side or the
    joint meets the edge, and are wide enough a little after half a side before it.
    """
    module, side = lines.module, lines.side
    lows = {low - shift for shift in shifts for low, _high in lines.spans}
    highs = {high - shift for shift in shifts for _low, high in lines.spans}
    found = {start for edge in lows | highs for start in _turns(edge, side)}
    for low in lows:
        for high in highs:
            found |= {low + high - side, low + high - side + module}
    return sorted({start % (2 * module) for start in found})


def _turns(edge: int, side: int) -> tuple[int, ...]:
    """Starts in half units at which a piece at ``edge`` is full, none, or just wide enough, either way."""
    enough = math.ceil(2 * side * HALF_ENOUGH)
    return 2 * edge, 2 * edge - 2 * side, 2 * edge - enough, 2 * edge - 2 * side + enough


def _doubled(g: Grid) -> Grid:
    """The same grid in half units, so that half-way starts are whole too."""

    def lines(one: _Lines) -> _Lines:
        return _Lines(one.side * 2, one.module * 2, tuple((a * 2, b * 2) for a, b in one.spans))

    bands = tuple((lo * 2, hi * 2, tuple((a * 2, b * 2) for a, b in spans)) for lo, hi, spans in g.bands)
    shifts = tuple(shift * 2 for shift in g.shifts)
    return Grid(g.unit * 2, bands, lines(g.across), lines(g.up), shifts, g.tile, g.laying)


def best_start(g: Grid) -> tuple[Grid, int, int]:
    """Return the grid in half units and the best start in it, across and up."""
    across_starts, up_starts = _candidates(g.across, g.shifts), _candidates(g.up, (0,))
    g = _doubled(g)
    across = {x: _share(_least(g.across, x, g.shifts), g.across.side) for x in across_starts}
    up = {y: _share(_least(g.up, y, (0,)), g.up.side) for y in up_starts}
    floor = min(max(across.values()), max(up.values()))
    xs = _shortlist(g, g.across, [x for x, share in across.items() if share >= floor], g.shifts)
    ys = _shortlist(g, g.up, [y for y, share in up.items() if share >= floor], (0,))
    return g, *max(
        ((x, y) for x in xs for y in ys),
        key=lambda start: (_rank(g, *start), -_unevenness(g, *start)),
    )


def _share(least: int, side: int) -> Fraction:
    return min(Fraction(least, side), HALF_ENOUGH)


def _shortlist(g: Grid, lines: _Lines, starts: list[int], shifts: tuple[int, ...]) -> list[int]:
    """Keep the starts that need fewest tiles along the spans, the most even first."""

    def key(start: int) -> tuple[int, int]:
        count = sum(
            _last_index(lines, start + s, b) - _index(lines, start + s, a)
            for s in shifts
            for a, b in lines.spans
        )
        uneven = sum(
            abs(e[0] - e[1]) for e in (_ends(lines, start + s, sp) for s in shifts for sp in lines.spans)
        )
        return count, uneven

    return sorted(starts, key=key)[:_TRIED]


def _unevenness(g: Grid, x: int, y: int) -> int:
    sums = [
        abs(a - b) for a, b in (_ends(g.across, x + s, span) for s in g.shifts for span in g.across.spans)
    ]
    sums += [abs(a - b) for a, b in (_ends(g.up, y, span) for span in g.up.spans)]
    return sum(sums)


def _rank(g: Grid, x: int, y: int) -> tuple[Fraction, int, int]:
    laid, full = count(g, x, y)
    share = min(
        _share(_least(g.across, x, g.shifts), g.across.side), _share(_least(g.up, y, (0,)), g.up.side)
    )
    return share, -laid, -(laid - full)


def _rows(g: Grid, y: int) -> Iterable[tuple[int, int, int, list[_Band]]]:
    """Yield every course: its number, its low and high edge, and the bands it meets."""
    low, high = g.bands[0][0], g.bands[-1][1]
    for row in range(_index(g.up, y, low), _last_index(g.up, y, high) + 1):
        bottom = y + row * g.up.module
        top = bottom + g.up.side
        met = [band for band in g.bands if band[0] < top and band[1] > bottom]
        if met:
            yield row, bottom, top, met


def count(g: Grid, x: int, y: int) -> tuple[int, int]:
    """Return how many places the grid has from start (``x``, ``y``), and how many take a full tile."""
    laid = full = 0
    for row, bottom, top, met in _rows(g, y):
        start = x + g.shifts[row % len(g.shifts)]
        laid += _touched(g.across, start, met)
        if met[0][0] <= bottom and met[-1][1] >= top and _unbroken(met):
            full += sum(_whole(g.across, start, span) for span in _common(met))
    return laid, full


def _touched(lines: _Lines, start: int, met: list[_Band]) -> int:
    """Return how many tiles of a course meet any of the bands."""
    ranges = sorted(
        (_index(lines, start, a), _last_index(lines, start, b)) for *_, spans in met for a, b in spans
    )
    total, reached = 0, ranges[0][0] - 1
    for first, last in ranges:
        total += max(0, last - max(first, reached + 1) + 1)
        reached = max(reached, last)
    return total


def _whole(lines: _Lines, start: int, span: tuple[int, int]) -> int:
    """Return how many full tiles lie inside ``span``."""
    first, last = -((start - span[0]) // lines.module), (span[1] - lines.side - start) // lines.module
    return max(0, last - first + 1)


def _unbroken(met: list[_Band]) -> bool:
    return all(below[1] == above[0] for below, above in pairwise(met))


def _common(met: list[_Band]) -> list[tuple[int, int]]:
    """Return the spans that every band shares."""
    shared = list(met[0][2])
    for *_, spans in met[1:]:
        shared = [(max(a, c), min(b, d)) for a, b in shared for c, d in spans if max(a, c) < min(b, d)]
    return shared


def lay(g: Grid, x: int, y: int) -> Layout:
    """Return the layout from start (``x``, ``y``) in the units of ``g``: counts, cut list, tiles to buy."""
    pieces: Counter[tuple[int, int, tuple[str, ...]]] = Counter()
    full = 0
    for row, bottom, top, met in _rows(g, y):
        start = x + g.shifts[row % len(g.shifts)]
        for left, parts in _parts(g, start, met).items():
            piece = _piece(g, left, bottom, top, parts)
            if piece[2]:
                pieces[piece] += 1
            else:
                full += 1
    cuts = tuple(
        Cut(Fraction(w, g.unit), Fraction(h, g.unit), n, sides)
        for (w, h, sides), n in sorted(pieces.items(), key=lambda item: (item[0][2], item[0]))
    )
    least = _least_cut(g, x, y)
    laid = full + sum(cut.count for cut in cuts)
    return Layout(
        g.laying,
        (Fraction(x, g.unit), Fraction(y, g.unit)),
        laid,
        full,
        full + tiles_for(cuts, g.tile),
        None if least is None else Fraction(least, g.unit),
        _rank(g, x, y)[0],
        cuts,
    )


def _least_cut(g: Grid, x: int, y: int) -> int | None:
    found = [_least(g.across, x, g.shifts), _least(g.up, y, (0,))]
    cut = [least for least, lines in zip(found, (g.across, g.up), strict=True) if least < lines.side]
    return min(cut, default=None)


_Parts = dict[int, list[tuple[int, int, int, int]]]


def _parts(g: Grid, start: int, met: list[_Band]) -> _Parts:
    """Return for each tile of a course, by its left edge, the slices of the field it meets."""
    out: _Parts = {}
    for low, high, spans in met:
        for a, b in spans:
            for i in range(_index(g.across, start, a), _last_index(g.across, start, b) + 1):
                left = start + i * g.across.module
                slice_ = (max(left, a), min(left + g.across.side, b), low, high)
                out.setdefault(left, []).append(slice_)
    return out


def _piece(
    g: Grid, left: int, bottom: int, top: int, parts: list[tuple[int, int, int, int]]
) -> tuple[int, int, tuple[str, ...]]:
    """Return a piece's size and its cut sides; no sides for a full tile."""
    low, high = max(bottom, parts[0][2]), min(top, parts[-1][3])
    a, b = min(p[0] for p in parts), max(p[1] for p in parts)
    area = sum((p[1] - p[0]) * (min(p[3], top) - max(p[2], bottom)) for p in parts)
    if area < (b - a) * (high - low):
        return b - a, high - low, ("notched",)
    right = left + g.across.side
    edges = (("left", a > left), ("right", b < right), ("bottom", low > bottom), ("top", high < top))
    return b - a, high - low, tuple(name for name, cut in edges if cut)
