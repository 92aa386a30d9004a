"""Rooms as they are measured: walls at right angles that close, with openings. Exact inches."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.measures.fractions import feet_inches, inches
from journal_tui.measures.lengths import parse_length

Point = tuple[Fraction, Fraction]
_WAYS = {"e": (1, 0), "n": (0, 1), "w": (-1, 0), "s": (0, -1)}


@dataclass(frozen=True, slots=True)
class Opening:
    """A door, window or niche in wall number ``wall`` (from 1): inches from the wall's start, sill, size."""

    name: str
    wall: int
    start: Fraction
    width: Fraction
    sill: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall of a room; what is in it is measured from its start, in the order the room is walked."""

    number: int
    start: Point
    end: Point

    @property
    def length(self) -> Fraction:
        """Length in inches."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])


@dataclass(frozen=True, slots=True)
class Room:
    """A room: its corners in order, ceiling height and openings. Build it with the functions below."""

    name: str
    corners: tuple[Point, ...]
    height: Fraction = Fraction(96)
    openings: tuple[Opening, ...] = ()

    def __post_init__(self) -> None:
        _closes(self)

    @property
    def walls(self) -> tuple[Wall, ...]:
        """The walls in order, numbered from 1."""
        ring = (*self.corners, self.corners[0])
        return tuple(Wall(n, a, b) for n, (a, b) in enumerate(pairwise(ring), 1))

    @property
    def signed_area(self) -> Fraction:
        """Twice-counted ring sum halved (shoelace): positive when the corners run counter-clockwise."""
        ring = (*self.corners, self.corners[0])
        return sum((a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring)), Fraction(0)) / 2

    @property
    def floor_area(self) -> Fraction:
        """Floor in square inches."""
        return abs(self.signed_area)

    @property
    def perimeter(self) -> Fraction:
        """Length of all walls in inches."""
        return sum((wall.length for wall in self.walls), Fraction(0))

    def wall_area(self, *, openings_over: Fraction = Fraction(0)) -> Fraction:
        """Walls in square inches, less every opening larger than ``openings_over`` square inches."""
        less = sum(
            (o.width * o.height for o in self.openings if o.width * o.height > openings_over), Fraction(0)
        )
        return self.perimeter * self.height - less

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Width and depth of the box around the room."""
        xs, ys = zip(*self.corners, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)


def rectangle(
    name: str,
    width: Fraction,
    depth: Fraction,
    height: Fraction = Fraction(96),
    openings: tuple[Opening, ...] = (),
) -> Room:
    """Return a room of four walls. Raises `BadInput` for sizes of zero or less."""
    for field, size in (("width", width), ("depth", depth), ("height", height)):
        if size <= 0:
            raise BadInput(f"{name}, {field}: {inches(size)}", "A size is more than zero.")
    zero = Fraction(0)
    return Room(name, ((zero, zero), (width, zero), (width, depth), (zero, depth)), height, openings)


def walk(name: str, text: str, height: Fraction = Fraction(96), openings: tuple[Opening, ...] = ()) -> Room:
    """Return the room whose walls ``text`` walks along: ``E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0``.

    Letters are the way walked, not the compass. Raises `BadInput` naming the wall that cannot be read, or
    by how much the room does not close.
    """
    at: Point = (Fraction(0), Fraction(0))
    corners = [at]
    for number, part in enumerate(filter(None, re.split(r"[,;\n]", text)), 1):
        found = re.fullmatch(r"\s*([enws])\w*\s+(.+?)\s*", part, re.IGNORECASE)
        if not found:
            raise BadInput(
                f"{name}, wall {number}: {one_line(part)}", "Write each wall like E 8-0: a way and a length."
            )
        dx, dy = _WAYS[found[1].lower()]
        length = parse_length(found[2], f"{name}, wall {number}")
        at = (at[0] + dx * length, at[1] + dy * length)
        corners.append(at)
    if at != corners[0]:
        raise BadInput(f"{name} does not close", f"The last wall ends {_off(at)} from the first corner.")
    return Room(name, tuple(corners[:-1]), height, openings)


def _off(at: Point) -> str:
    gaps = [f"{feet_inches(abs(d))} {w[d < 0]}" for d, w in ((at[0], "EW"), (at[1], "NS")) if d]
    return " and ".join(gaps)


def _closes(room: Room) -> None:
    """Raise unless the corners make one ring of right angles that does not cross itself."""
    if len(room.corners) < 4:
        raise BadInput(f"{room.name} does not close", "A room has four walls or more.")
    if room.height <= 0:
        raise BadInput(f"{room.name}, height: {inches(room.height)}", "A size is more than zero.")
    walls = room.walls
    for wall in walls:
        if wall.length == 0 or (wall.start[0] != wall.end[0]) == (wall.start[1] != wall.end[1]):
            raise BadInput(
                f"{room.name}, wall {wall.number}", "Walls run straight, at right angles, some length."
            )
    for one in walls:
        for other in walls[one.number + 1 :]:
            if (one.number, other.number) != (1, len(walls)) and _touch(one, other):
                raise BadInput(
                    f"{room.name} crosses itself", f"Walls {one.number} and {other.number} meet. Check both."
                )
    if room.signed_area == 0:
        raise BadInput(f"{room.name} has no floor", "The walls fold back on themselves.")
    for opening in room.openings:
        _opening_fits(room, opening)


def _touch(one: Wall, other: Wall) -> bool:
    boxes = [(sorted((w.start[0], w.end[0])), sorted((w.start[1], w.end[1]))) for w in (one, other)]
    (ax, ay), (bx, by) = boxes
    return ax[0] <= bx[1] and bx[0] <= ax[1] and ay[0] <= by[1] and by[0] <= ay[1]


def _opening_fits(room: Room, opening: Opening) -> None:
    where = f"{room.name}, {opening.name}"
    if not 1 <= opening.wall <= len(room.corners):
        raise BadInput(f"{where}: wall {opening.wall}", f"Walls are numbered 1 to {len(room.corners)}.")
    if min(opening.width, opening.height) <= 0 or min(opening.start, opening.sill) < 0:
        raise BadInput(where, "Width and height are more than zero; start and sill zero or more.")
    wall = room.walls[opening.wall - 1]
    if opening.start + opening.width > wall.length or opening.sill + opening.height > room.height:
        raise BadInput(where, f"It does not fit in wall {opening.wall}, {feet_inches(wall.length)} long.")


def drawing(room: Room, columns: int = 60, rows: int = 16) -> str:
    """Return the plan drawn in characters, north up, with each wall's length beside its middle.

    Character cells are taken as twice as high as wide. A wall's letter marks it; the list below gives
    letter, length and the openings in it.
    """
    width, depth = room.size
    scale = max(Fraction(width, max(columns - 2, 1)), Fraction(depth, 2 * max(rows - 2, 1)))
    wide, high = int(width / scale) + 1, int(depth / (2 * scale)) + 1
    left, bottom = min(x for x, _ in room.corners), min(y for _, y in room.corners)
    cells = [[" "] * (wide + 1) for _ in range(high + 1)]

    def spot(point: Point) -> tuple[int, int]:
        return round((point[0] - left) / scale), high - round((point[1] - bottom) / (2 * scale))

    for wall in room.walls:
        _draw_wall(cells, spot(wall.start), spot(wall.end))
    for wall in room.walls:
        (x0, y0), (x1, y1) = spot(wall.start), spot(wall.end)
        cells[(y0 + y1) // 2][(x0 + x1) // 2] = _letter(wall.number)
    plan = "\n".join("".join(row).rstrip() for row in cells)
    return f"{plan}\n" + "\n".join(_legend(room, wall) for wall in room.walls)


def _draw_wall(cells: list[list[str]], start: tuple[int, int], end: tuple[int, int]) -> None:
    (x0, y0), (x1, y1) = start, end
    for x in range(min(x0, x1), max(x0, x1) + 1):
        for y in range(min(y0, y1), max(y0, y1) + 1):
            cells[y][x] = "-" if y0 == y1 else "|"
    cells[y0][x0] = cells[y1][x1] = "+"


def _letter(number: int) -> str:
    return chr(ord("a") + (number - 1) % 26)


def _legend(room: Room, wall: Wall) -> str:
    holes = [
        f"{one_line(o.name)} {inches(o.width)} wide at {inches(o.start)}"
        for o in room.openings
        if o.wall == wall.number
    ]
    return f"{_letter(wall.number)}  {feet_inches(wall.length)}" + (f"  {'; '.join(holes)}" if holes else "")
