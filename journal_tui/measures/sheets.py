"""Panels and boards: rows with staggered end joints on framing, off old seams, from the fewest sheets.

The long side runs along the field's x axis, across joists or studs that stand every ``spacing`` inches
from ``first``. Rows are searched one after the other, keeping the most promising layouts (a beam
search); each piece is cut from the smallest offcut that gives it, else from a new sheet. A layout that
meets the lower bound is marked as proved.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice, pairwise, product

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fields import Field
from journal_tui.measures.fractions import display

_BEAM = 24
_MOST_WAYS = 60
_MOST_SHEETS = 200


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet by its sizes in inches, what a cut takes, and the gap left at every joint."""

    name: str
    length: Fraction = Fraction(96)
    width: Fraction = Fraction(48)
    kerf: Fraction = Fraction(1, 8)
    gap: Fraction = Fraction(1, 8)

    def __post_init__(self) -> None:
        if not 0 < self.width <= self.length:
            raise BadInput(f"{self.name}", "A sheet is longer than it is wide, and both are more than zero.")
        if self.kerf < 0 or self.gap < 0:
            raise BadInput(f"{self.name}", "Kerf and gap are zero or more.")


@dataclass(frozen=True, slots=True)
class Rules:
    """Where joints may fall, inches: on framing every ``spacing`` from ``first``; end joints of neighbouring
    rows ``stagger`` apart; end joints ``clear`` of the seams below (``old_ends`` across, ``old_rows`` up);
    no piece shorter than ``least``."""

    spacing: Fraction = Fraction(16)
    first: Fraction = Fraction(16)
    stagger: Fraction = Fraction(16)
    least: Fraction = Fraction(16)
    clear: Fraction = Fraction(8)
    old_ends: tuple[Fraction, ...] = ()
    old_rows: tuple[Fraction, ...] = ()

    def __post_init__(self) -> None:
        if self.spacing <= 0 or self.least <= 0 or min(self.stagger, self.clear) < 0:
            raise BadInput(
                "joint rules", "Spacing and least piece are more than zero; stagger and clear zero or more."
            )


@dataclass(frozen=True, slots=True)
class SheetPiece:
    """A piece to cut: which surface and row, where it starts, its size, and the sheet it comes from."""

    surface: str
    row: int
    start: Fraction
    bottom: Fraction
    length: Fraction
    width: Fraction
    sheet: int


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """Sheets and their cut list. ``bound`` is the fewest any layout could take; ``proved`` says it is met."""

    sheets: int
    bound: int
    pieces: tuple[SheetPiece, ...]
    offcuts: tuple[tuple[Fraction, Fraction], ...]

    @property
    def proved(self) -> bool:
        """Whether no layout can take fewer sheets."""
        return self.sheets == self.bound

    def end_joints(self, surface: str, row: int) -> tuple[Fraction, ...]:
        """The end joints of a row: where all but its first piece start."""
        starts = sorted(p.start for p in self.pieces if (p.surface, p.row) == (surface, row))
        return tuple(starts[1:])


_Spans = tuple[tuple[int, int], ...]
#: What is left of a sheet: length, width, and the sheet's number, in whole units.
_Offcut = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class _Row:
    surface: str
    number: int
    bottom: int
    width: int
    spans: _Spans


@dataclass(frozen=True, slots=True)
class _Piece:
    row: _Row
    start: int
    length: int
    sheet: int


@dataclass(frozen=True, slots=True)
class _State:
    sheets: int = 0
    offcuts: tuple[_Offcut, ...] = ()
    ends: frozenset[int] = frozenset()
    pieces: tuple[_Piece, ...] = ()


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Sheet and rules in whole units of 1/``unit`` inch, so that the search adds integers."""

    unit: int
    length: int
    width: int
    kerf: int
    gap: int
    spacing: int
    first: int
    stagger: int
    least: int
    clear: int
    old_ends: tuple[int, ...]
    old_rows: tuple[int, ...]


def _sizes(surfaces: Iterable[Field], sheet: Sheet, rules: Rules) -> _Sizes:
    edges = [e for field in surfaces for r in field.rects() for e in (r.left, r.right, r.bottom, r.top)]
    numbers = [sheet.length, sheet.width, sheet.kerf, sheet.gap, rules.spacing, rules.first, rules.stagger]
    numbers += [rules.least, rules.clear, *rules.old_ends, *rules.old_rows, *edges]
    # Twice, so that a first row ripped to the middle is whole too.
    unit = 2 * math.lcm(*(n.denominator for n in numbers))

    def whole(n: Fraction) -> int:
        return int(n * unit)

    return _Sizes(
        unit,
        length=whole(sheet.length),
        width=whole(sheet.width),
        kerf=whole(sheet.kerf),
        gap=whole(sheet.gap),
        spacing=whole(rules.spacing),
        first=whole(rules.first),
        stagger=whole(rules.stagger),
        least=whole(rules.least),
        clear=whole(rules.clear),
        old_ends=tuple(map(whole, rules.old_ends)),
        old_rows=tuple(map(whole, rules.old_rows)),
    )


def lay_sheets(surfaces: dict[str, Field], sheet: Sheet, rules: Rules | None = None) -> SheetPlan:
    """Return the plan with the fewest sheets found for all ``surfaces`` together, offcuts shared.

    Raises `BadInput` where no row can keep the rules, or for more than a house of sheets.
    """
    if not surfaces:
        raise BadInput("sheets", "Give at least one surface.")
    area = sum((field.area for field in surfaces.values()), Fraction(0))
    bound = math.ceil(area / (sheet.length * sheet.width))
    if bound > _MOST_SHEETS:
        raise BadInput(
            f"{bound} sheets", f"Lay out up to {_MOST_SHEETS} at once: check the sizes, or do a part."
        )
    z = _sizes(surfaces.values(), sheet, rules or Rules())
    best: _State | None = None
    for rows, rip_first in product(list(_row_choices(surfaces, z)), (True, False)):
        state = _search(rows, z, rip_first)
        if state and (best is None or _promise(state) < _promise(best)):
            best = state
        if best and best.sheets == bound:
            break
    if best is None:
        raise BadInput(
            "sheets", "No layout keeps every rule: ease the stagger, the old seams or the least piece."
        )
    return _plan(best, bound, z.unit)


def _plan(state: _State, bound: int, unit: int) -> SheetPlan:
    pieces = tuple(
        SheetPiece(
            p.row.surface,
            p.row.number,
            Fraction(p.start, unit),
            Fraction(p.row.bottom, unit),
            Fraction(p.length, unit),
            Fraction(p.row.width, unit),
            p.sheet,
        )
        for p in state.pieces
    )
    left = tuple((Fraction(length, unit), Fraction(width, unit)) for length, width, _n in state.offcuts)
    return SheetPlan(state.sheets, bound, pieces, left)


def _row_choices(surfaces: dict[str, Field], z: _Sizes) -> Iterator[list[_Row]]:
    """Yield row layouts: whole sheets from the bottom, from the top, or ripped even at both.

    Those that leave a strip narrower than half a foot come last, and only if there is no other.
    """
    found: dict[tuple[tuple[str, int, int], ...], list[_Row]] = {}
    for way in ("bottom", "top", "even"):
        rows = [row for name, field in surfaces.items() for row in _rows(name, field, z, way)]
        if {row.surface for row in rows} == set(surfaces):
            found.setdefault(tuple((row.surface, row.bottom, row.width) for row in rows), rows)
    if not found:
        raise BadInput("old seams", "No row joint can stay clear of them all.")
    sound = [rows for rows in found.values() if all(row.width >= 6 * z.unit for row in rows)]
    yield from sound or found.values()


def _rows(name: str, field: Field, z: _Sizes, way: str) -> Iterator[_Row]:
    bands = [
        (int(b.low * z.unit), int(b.high * z.unit), [(int(x * z.unit), int(y * z.unit)) for x, y in b.spans])
        for b in field.bands
    ]
    bottom, top = bands[0][0], bands[-1][1]
    pitch = z.width + z.gap
    rest = top - bottom - (math.ceil((top - bottom + z.gap) / pitch) - 1) * pitch
    first = {"bottom": z.width, "top": rest, "even": (z.width + rest) // 2}[way]
    for number, (low, high) in enumerate(pairwise(_edges(bottom, top, first, z)), 1):
        met = [band for band in bands if band[0] < high and band[1] > low]
        if met:
            at, width = max(low, met[0][0]), min(min(high, met[-1][1]) - max(low, met[0][0]), z.width)
            yield _Row(name, number, at, width, _merged([span for band in met for span in band[2]]))


def _edges(bottom: int, top: int, first: int, z: _Sizes) -> list[int]:
    """Return where rows begin and the last one ends, the first ripped narrower to clear old seams; empty
    where that cannot be done."""
    pitch = z.width + z.gap
    for less in range(0, first, z.unit):
        edges = [bottom]
        while edges[-1] < top:
            step = first - less + z.gap if len(edges) == 1 else pitch
            edges.append(min(edges[-1] + step, top))
        if all(abs(e - old) >= z.clear for e in edges[1:-1] for old in z.old_rows):
            return edges
    return []


def _merged(spans: Iterable[tuple[int, int]]) -> _Spans:
    out: list[tuple[int, int]] = []
    for a, b in sorted(spans):
        if out and a <= out[-1][1]:
            out[-1] = out[-1][0], max(out[-1][1], b)
        else:
            out.append((a, b))
    return tuple(out)


def _search(rows: list[_Row], z: _Sizes, rip_first: bool) -> _State | None:
    beam, surface = [_State()], ""
    for row in rows:
        if row.surface != surface:
            surface, beam = row.surface, [replace(state, ends=frozenset()) for state in beam]
        ways = list(product(*(_row_ways(span, z) for span in row.spans)))
        found: dict[tuple[int, tuple[_Offcut, ...], frozenset[int]], _State] = {}
        for state in beam:
            for joints in ways:
                if any(abs(j - end) < z.stagger for span in joints for j in span for end in state.ends):
                    continue
                grown = _cut_row(state, row, joints, z, rip_first)
                found.setdefault((grown.sheets, grown.offcuts, grown.ends), grown)
        beam = sorted(found.values(), key=_promise)[:_BEAM]
    return min(beam, key=_promise, default=None)


def _promise(state: _State) -> tuple[int, int, int]:
    """Fewest sheets first, then the biggest single offcut left to use, then fewest pieces."""
    biggest = max((length * width for length, width, _n in state.offcuts), default=0)
    return state.sheets, -biggest, len(state.pieces)


def _row_ways(span: tuple[int, int], z: _Sizes) -> list[tuple[int, ...]]:
    """Return the ways to joint one span: end joints on framing, no piece too long or too short."""
    start, end = span
    out: list[tuple[int, ...]] = [()] if end - start <= z.length else []
    low, high = -((z.first - start) // z.spacing), (end - z.first) // z.spacing
    marks = [z.first + k * z.spacing for k in range(low, high + 1)]
    marks = [m for m in marks if start < m < end and all(abs(m - old) >= z.clear for old in z.old_ends)]
    least = math.ceil((end - start) / z.length)
    for count in (least - 1, least):
        if count > 0:
            out += _jointings(start, end, marks, count, z)
    return out


def _jointings(start: int, end: int, marks: list[int], count: int, z: _Sizes) -> Iterator[tuple[int, ...]]:
    """Yield ways to place ``count`` joints: the same number for every first joint, long pieces first."""
    share = max(3, _MOST_WAYS // max(1, len(marks)))

    def go(at: int, left: int) -> Iterator[tuple[int, ...]]:
        if left == 0:
            if z.least <= end - at <= z.length:
                yield ()
            return
        for mark in reversed(marks):
            if z.least <= mark - at <= z.length and end - mark <= z.length * left:
                yield from ((mark, *rest) for rest in go(mark, left - 1))

    for mark in reversed(marks):
        if z.least <= mark - start <= z.length:
            yield from islice(((mark, *rest) for rest in go(mark, count - 1)), share)


def _cut_row(
    state: _State, row: _Row, joints: tuple[tuple[int, ...], ...], z: _Sizes, rip_first: bool
) -> _State:
    sizes = [
        (a, b - a)
        for (start, end), inner in zip(row.spans, joints, strict=True)
        for a, b in pairwise((start, *inner, end))
    ]
    sheets, offcuts, made = state.sheets, list(state.offcuts), []
    for start, length in sorted(sizes, key=lambda piece: -piece[1]):
        fitting = [o for o in offcuts if o[0] >= length and o[1] >= row.width]
        if fitting:
            stock = min(fitting, key=lambda o: (o[0] * o[1], o))
            offcuts.remove(stock)
        else:
            sheets += 1
            stock = (z.length, z.width, sheets)
        offcuts += _left(stock, length, row.width, z.kerf, rip_first)
        made.append(_Piece(row, start, length, stock[2]))
    ends = frozenset(j for inner in joints for j in inner)
    return _State(sheets, tuple(sorted(offcuts)), ends, (*state.pieces, *sorted(made, key=lambda p: p.start)))


def _left(stock: _Offcut, length: int, width: int, kerf: int, rip_first: bool) -> list[_Offcut]:
    """Return what is left of ``stock``: ripped first leaves a full-length strip, crosscut first an end."""
    long, wide, number = stock
    end, side = long - length - kerf, wide - width - kerf
    if rip_first:
        left = [(long, side, number), (end, width, number)]
    else:
        left = [(end, wide, number), (length, side, number)]
    return [piece for piece in left if piece[0] > 0 and piece[1] > 0]


def cut_list(plan: SheetPlan) -> list[str]:
    """Return the cut list as lines: sheet by sheet, each piece with its row and start."""
    lines = []
    for piece in sorted(plan.pieces, key=lambda p: (p.sheet, p.surface, p.row, p.start)):
        lines.append(
            f"sheet {piece.sheet}: {display(piece.length)} x {display(piece.width)}  "
            f"{piece.surface}, row {piece.row}, from {display(piece.start)}"
        )
    return lines
