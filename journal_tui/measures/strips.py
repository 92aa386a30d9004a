"""Repair strips: a band of board cut out low on the walls and put back, all the way round a room."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.bins import fewest_bins
from journal_tui.measures.fractions import inches
from journal_tui.measures.rooms import Room

#: Shortest piece worth fitting between two joints: one stud bay.
_LEAST = Fraction(16)


@dataclass(frozen=True, slots=True)
class StripPlan:
    """Strips for a room: runs of wall, the pieces each takes, strips of a sheet's length, sheets. Inches."""

    height: Fraction
    runs: tuple[Fraction, ...]
    pieces: tuple[tuple[Fraction, int], ...]
    strips: int
    per_sheet: int
    sheets: int


def runs_round(room: Room, height: Fraction) -> tuple[Fraction, ...]:
    """Return the lengths of wall a band ``height`` inches high meets, between corners and openings."""
    out: list[Fraction] = []
    for wall in room.walls:
        at = Fraction(0)
        holes = sorted(
            (o.start, o.start + o.width) for o in room.openings if o.wall == wall.number and o.sill < height
        )
        for start, end in [*holes, (wall.length, wall.length)]:
            if start > at:
                out.append(start - at)
            at = max(at, end)
    return tuple(out)


def strip_plan(
    room: Room,
    height: Fraction = Fraction(12),
    sheet: tuple[Fraction, Fraction] = (Fraction(96), Fraction(48)),
    kerf: Fraction = Fraction(0),
) -> StripPlan:
    """Return the strips, cut pieces and sheets for a band round ``room``; scored board loses no kerf.

    A run longer than a sheet is split so that no piece is shorter than a stud bay. Raises `BadInput` for
    a band wider than the sheet or higher than the room.
    """
    if not 0 < height <= min(sheet[1], room.height):
        raise BadInput(
            f"strip: {inches(height)} high", f"Between 0 and {inches(min(sheet[1], room.height))}."
        )
    runs = runs_round(room, height)
    pieces = tuple(piece for run in runs for piece in _split(run, sheet[0]))
    strips = fewest_bins(pieces, sheet[0], kerf)
    per_sheet = int((sheet[1] + kerf) / (height + kerf))
    listed = tuple(sorted(Counter(pieces).items(), reverse=True))
    return StripPlan(height, runs, listed, len(strips), per_sheet, math.ceil(len(strips) / per_sheet))


def _split(run: Fraction, longest: Fraction) -> list[Fraction]:
    whole, rest = divmod(run, longest)
    pieces = [longest] * int(whole)
    if 0 < rest < _LEAST and pieces:
        pieces[-1] -= _LEAST
        rest += _LEAST
    return pieces + ([rest] if rest else [])
