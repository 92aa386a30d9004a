"""Laying out tile: the best start for a field, the four usual starts beside it, boxes to buy."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fields import Field
from journal_tui.measures.fractions import display
from journal_tui.measures.tile_grid import best_start, grid, lay
from journal_tui.measures.tile_turned import best_turned, lay_turned
from journal_tui.measures.tiles import Laying, Layout, Pattern, Tile, upright

#: More places than any room has: past this a layout is a slip in a size.
MOST_PLACES = 60_000
STRAIGHT = (Pattern.STACK, Pattern.BOND)
#: Turned patterns are tried tile by tile from many starts, which is slow for mosaics.
MOST_TURNED = 3_000


def lay_out(field: Field, tile: Tile, laying: Laying | None = None) -> Layout:
    """Return the layout with no sliver where there is one, then the fewest tiles, then the fewest cuts.

    Raises `BadInput` for a tile bigger than the field or a field of too many tiles.
    """
    laying = laying or Laying()
    _sound(field, tile, laying)
    if upright(tile, laying):
        return _swapped(lay_out(field.turned(), _on_its_side(tile), laying))
    if laying.pattern in STRAIGHT:
        g, x, y = best_start(grid(field, tile, laying))
        return lay(g, x, y)
    usual = [(float(x), float(y)) for x, y in _usual(field, tile, laying).values()]
    return lay_turned(field, tile, laying, best_turned(field, tile, laying, usual))


def lay_from(field: Field, tile: Tile, laying: Laying, start: tuple[Fraction, Fraction]) -> Layout:
    """Return the layout from a start of one's own: a tile's lower left corner, or its centre if diagonal."""
    _sound(field, tile, laying)
    if laying.pattern not in STRAIGHT:
        return lay_turned(field, tile, laying, (float(start[0]), float(start[1])))
    if upright(tile, laying):
        return _swapped(lay_from(field.turned(), _on_its_side(tile), laying, (start[1], start[0])))
    widened = grid(field, tile, laying)
    factor = math.lcm(widened.unit, start[0].denominator, start[1].denominator)
    scaled = grid(field, tile, laying, factor)
    return lay(scaled, int(start[0] * factor), int(start[1] * factor))


def _on_its_side(tile: Tile) -> Tile:
    return replace(tile, width=tile.height, height=tile.width)


_MIRRORED = {"left": "bottom", "bottom": "left", "right": "top", "top": "right", "notched": "notched"}


def _swapped(layout: Layout) -> Layout:
    """Return a layout worked out on the field mirrored in its diagonal as it lies on the field itself."""
    cuts = tuple(
        replace(c, width=c.height, height=c.width, sides=tuple(_MIRRORED[s] for s in c.sides))
        for c in layout.cuts
    )
    return replace(layout, start=(layout.start[1], layout.start[0]), cuts=cuts)


def usual_starts(field: Field, tile: Tile, laying: Laying | None = None) -> dict[str, Layout]:
    """Return the four starts most people use: from either corner, a joint or a tile on the centre lines."""
    laying = laying or Laying()
    return {name: lay_from(field, tile, laying, start) for name, start in _usual(field, tile, laying).items()}


def _usual(field: Field, tile: Tile, laying: Laying) -> dict[str, tuple[Fraction, Fraction]]:
    box, (w, h) = field.box, (tile.width, tile.height)
    middle = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    turned = laying.pattern is Pattern.DIAGONAL
    half = (Fraction(0), Fraction(0)) if turned else (w / 2, h / 2)
    return {
        "full tile in the near corner": (box.left, box.bottom),
        "full tile in the far corner": (box.right - w, box.top - h),
        "joint on both centre lines": (middle[0] + tile.joint / 2, middle[1] + tile.joint / 2),
        "tile on both centre lines": (middle[0] - half[0], middle[1] - half[1]),
    }


def _sound(field: Field, tile: Tile, laying: Laying) -> None:
    box = field.box
    if tile.width > box.width and tile.height > box.height:
        raise BadInput(
            f"tile {display(tile.width)} x {display(tile.height)}",
            f"The tile is bigger than the field, {display(box.width)} x {display(box.height)}.",
        )
    most = MOST_PLACES if laying.pattern in STRAIGHT else MOST_TURNED
    places = box.width * box.height / (tile.module[0] * tile.module[1])
    if places > most:
        raise BadInput(
            f"field of about {int(places)} tiles",
            f"{laying.pattern.value} is worked out for up to {most} tiles: check the sizes, or lay a part.",
        )


def boxes(tiles: int, per_box: int, overage: Fraction = Fraction(1, 10)) -> int:
    """Return boxes of one lot for ``tiles`` and ``overage`` (breakage, attic stock), rounded up once."""
    if per_box <= 0 or tiles < 0 or overage < 0:
        raise BadInput("boxes", "Tiles a box is one or more; overage is zero or more, such as 1/10.")
    return math.ceil(tiles * (1 + overage) / per_box)


def boxes_by_area(square_feet: Fraction, per_box: Fraction, waste: Fraction) -> int:
    """Return boxes for an area with ``waste`` once: ceil(sf (1 + w) / sf a box)."""
    if per_box <= 0 or square_feet < 0 or waste < 0:
        raise BadInput("boxes", "Square feet a box is more than zero; waste is zero or more, such as 1/10.")
    return math.ceil(square_feet * (1 + waste) / per_box)


@dataclass(frozen=True, slots=True)
class StartLines:
    """Where to snap the lines: inches from the field's left and bottom edge to the first full tile."""

    from_left: Fraction
    from_bottom: Fraction


def start_lines(field: Field, tile: Tile, layout: Layout) -> StartLines:
    """Return the first joint lines that a straight layout starts from, inside the field."""
    box = field.box
    return StartLines(
        (layout.start[0] - box.left) % tile.module[0], (layout.start[1] - box.bottom) % tile.module[1]
    )
