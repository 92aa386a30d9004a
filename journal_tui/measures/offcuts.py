"""Which cut pieces can share a tile. A piece's joint edges must be factory edges; its wall edge is cut.

A tile cut once in one direction gives two such pieces, cut once each way four. Pieces between two walls
and pieces with a corner out take a tile each.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from journal_tui.measures.tiles import KERF, Cut, Tile


def tiles_for(cuts: Iterable[Cut], tile: Tile, kerf: Fraction = KERF) -> int:
    """Return how many tiles ``cuts`` come out of, offcuts used again; never fewer than can be cut."""
    across: list[tuple[Fraction, str]] = []
    up: list[tuple[Fraction, str]] = []
    corners: list[tuple[Fraction, Fraction]] = []
    whole = 0
    for cut in cuts:
        side = set(cut.sides)
        if len(cut.sides) == 1 and side <= {"left", "right"}:
            across += [(cut.width, cut.sides[0])] * cut.count
        elif len(cut.sides) == 1 and side <= {"bottom", "top"}:
            up += [(cut.height, cut.sides[0])] * cut.count
        elif len(cut.sides) == 2 and len(side & {"left", "right"}) == 1 and tile.turns:
            corners += [(cut.width, cut.height)] * cut.count
        else:
            whole += cut.count
    pairs_across, alone_across = _pairs(across, tile.width - kerf, tile.turns)
    pairs_up, alone_up = _pairs(up, tile.height - kerf, tile.turns)
    spare = [(tile.width - kerf - w, tile.height) for w in alone_across]
    spare += [(tile.width, tile.height - kerf - h) for h in alone_up]
    left = _into_spare(corners, spare, kerf)
    singles = len(alone_across) + len(alone_up)
    return whole + pairs_across + pairs_up + singles + _fours(left, tile, kerf)


def _pairs(pieces: list[tuple[Fraction, str]], room: Fraction, turns: bool) -> tuple[int, list[Fraction]]:
    """Return the most tiles that yield two pieces, and the pieces left alone."""
    if turns:
        return _any_two(sorted(size for size, _side in pieces), room)
    sides = sorted({side for _size, side in pieces})
    if len(sides) < 2:
        return 0, [size for size, _side in pieces]
    first, second = (sorted((s for s, side in pieces if side == name), reverse=True) for name in sides)
    count, alone = 0, []
    for size in first:
        fitting = next((other for other in second if other + size <= room), None)
        if fitting is None:
            alone.append(size)
        else:
            second.remove(fitting)
            count += 1
    return count, alone + second


def _any_two(sizes: list[Fraction], room: Fraction) -> tuple[int, list[Fraction]]:
    count, alone, low, high = 0, [], 0, len(sizes) - 1
    while low < high:
        if sizes[low] + sizes[high] <= room:
            count, low = count + 1, low + 1
        else:
            alone.append(sizes[high])
        high -= 1
    if low == high:
        alone.append(sizes[low])
    return count, alone


def _into_spare(
    corners: list[tuple[Fraction, Fraction]], spare: list[tuple[Fraction, Fraction]], kerf: Fraction
) -> list[tuple[Fraction, Fraction]]:
    """Take corner pieces out of halves already cut: up to two from each, end to end on the long side."""
    left = sorted(corners, key=lambda piece: piece[0] * piece[1], reverse=True)
    for wide, high in sorted(spare, key=lambda s: s[0] * s[1]):
        tall = high >= wide
        room = high if tall else wide
        taken = 0
        for piece in tuple(left):
            along, other = (piece[1], piece[0]) if tall else piece
            if taken < 2 and other <= (wide if tall else high) and along <= room:
                left.remove(piece)
                room, taken = room - along - kerf, taken + 1
    return left


def _fours(corners: list[tuple[Fraction, Fraction]], tile: Tile, kerf: Fraction) -> int:
    """Return tiles for corner pieces alone: two columns of two where they fit, else one tile each."""
    left = sorted(corners, key=lambda piece: piece[0] * piece[1], reverse=True)
    tiles = 0
    while left:
        tiles += 1
        wide, high = left.pop(0)
        for piece in tuple(left[:]):
            beside = piece[0] + wide + kerf <= tile.width
            above = piece[1] + high + kerf <= tile.height
            if beside or above:
                left.remove(piece)
                break
    return tiles
