"""A layout drawn in characters and as SVG; both are pictures of the same clipped tiles."""

from __future__ import annotations

from journal_tui.measures.fields import Field
from journal_tui.measures.fractions import display
from journal_tui.measures.tile_turned import Placed, Shape, placed
from journal_tui.measures.tiles import Layout, Tile

LEGEND = "| _ joints   . cut tile   # not tiled"
_SCALE = 8  # SVG units an inch


def _tiles(field: Field, tile: Tile, layout: Layout) -> list[Placed]:
    return placed(field, tile, layout.laying, (float(layout.start[0]), float(layout.start[1])))


def in_characters(field: Field, tile: Tile, layout: Layout, columns: int = 76, rows: int = 20) -> str:
    """Return the layout drawn in at most ``columns`` by ``rows`` cells, cells twice as high as wide."""
    box = field.box
    step = max(float(box.width) / columns, float(box.height) / (2 * rows))
    wide = max(1, min(columns, round(float(box.width) / step)))
    high = max(1, min(rows, round(float(box.height) / (2 * step))))
    dx, dy = float(box.width) / wide, float(box.height) / high
    left, top = float(box.left), float(box.top)
    tiles = _tiles(field, tile, layout)
    owner: dict[tuple[int, int], int] = {}
    for number, one in enumerate(tiles):
        for part in one.parts:
            for cell in _cells(part, left, top, dx, dy):
                owner[cell] = number
    lines = []
    for r in range(high):
        y = top - (r + 0.5) * dy
        inside = [_covers(field, left + (c + 0.5) * dx, y) for c in range(wide)]
        lines.append("".join(_cell(owner, tiles, c, r, high) if inside[c] else "#" for c in range(wide)))
    return "\n".join(lines)


def _cells(part: Shape, left: float, top: float, dx: float, dy: float) -> list[tuple[int, int]]:
    """Return the cells (column, row from the top) whose middle lies in a convex ``part``."""
    xs, ys = [p[0] for p in part], [p[1] for p in part]
    found = []
    for c in range(int((min(xs) - left) / dx - 0.5), int((max(xs) - left) / dx + 0.5) + 1):
        for r in range(int((top - max(ys)) / dy - 0.5), int((top - min(ys)) / dy + 0.5) + 1):
            if c >= 0 and r >= 0 and _holds(part, left + (c + 0.5) * dx, top - (r + 0.5) * dy):
                found.append((c, r))
    return found


def _holds(part: Shape, x: float, y: float) -> bool:
    sides = [
        (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
        for a, b in zip(part, (*part[1:], *part[:1]), strict=True)
    ]
    return all(s >= -1e-9 for s in sides) or all(s <= 1e-9 for s in sides)


def _covers(field: Field, x: float, y: float) -> bool:
    return any(band.low <= y <= band.high and any(a <= x <= b for a, b in band.spans) for band in field.bands)


def _cell(owner: dict[tuple[int, int], int], tiles: list[Placed], c: int, r: int, high: int) -> str:
    mine = owner.get((c, r))
    if mine is None:  # a joint as wide as the cell
        return "|" if (c - 1, r) in owner and (c + 1, r) in owner else "_"
    left, below = owner.get((c - 1, r)), owner.get((c, r + 1))
    if left is not None and left != mine:
        return "|"
    if r + 1 < high and below is not None and below != mine:
        return "_"
    return " " if tiles[mine].full else "."


def as_svg(field: Field, tile: Tile, layout: Layout) -> str:
    """Return the layout as one self-contained SVG 1.1 drawing, to scale, cut tiles hatched by tone."""
    box = field.box
    left, top = float(box.left), float(box.top)
    wide, high = float(box.width) * _SCALE, float(box.height) * _SCALE
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-20 -20 {wide + 40:.2f} {high + 70:.2f}" '
        f'role="img" aria-label="tile layout, {layout.laying.pattern.value}">',
        f'<rect x="-20" y="-20" width="{wide + 40:.2f}" height="{high + 70:.2f}" fill="#ffffff"/>',
    ]
    for one in _tiles(field, tile, layout):
        for part in one.parts:
            points = " ".join(f"{(x - left) * _SCALE:.2f},{(top - y) * _SCALE:.2f}" for x, y in part)
            fill = "#f4f1ea" if one.full else "#cfc6b2"
            out.append(f'<polygon points="{points}" fill="{fill}" stroke="#6b6557" stroke-width="1"/>')
    for rect in field.rects():
        x, y = (float(rect.left) - left) * _SCALE, (top - float(rect.top)) * _SCALE
        out.append(
            f'<rect x="{x:.2f}" y="{y:.2f}" width="{float(rect.width) * _SCALE:.2f}" '
            f'height="{float(rect.height) * _SCALE:.2f}" fill="none" stroke="#222222" stroke-opacity=".25"/>'
        )
    words = (
        f"{display(box.width)} by {display(box.height)}, {layout.laying.pattern.value}: "
        f"{layout.laid} places, {layout.full} full, {layout.cut} cut"
    ).replace('"', "&quot;")
    out.append(f'<text x="0" y="{high + 30:.2f}" font-family="sans-serif" font-size="20">{words}</text>')
    out.append("</svg>")
    return "\n".join(out)
