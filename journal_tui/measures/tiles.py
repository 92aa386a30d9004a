"""Tile and pattern: the choices a layout is worked out from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fractions import inches

#: Width of a saw cut, inches; a scored tile loses less.
KERF = Fraction(1, 8)
#: From this share of a tile on, a piece counts as half a tile: ANSI A108.02 (from memory) wants none under
#: half where possible; an inch less on a wide tile is not seen and often saves a course (common practice).
HALF_ENOUGH = Fraction(9, 20)


class Pattern(StrEnum):
    """Ways to lay tile."""

    STACK = "stack"
    BOND = "running bond"
    DIAGONAL = "diagonal"
    HERRINGBONE = "herringbone"
    HERRINGBONE_45 = "herringbone at 45"


@dataclass(frozen=True, slots=True)
class Tile:
    """A tile by its measured size, not its name ("12x12" may be 11 13/16), and its joint. Inches.

    ``turns`` says that a piece may be laid turned end for end: no vein or print with a direction.
    """

    width: Fraction
    height: Fraction
    joint: Fraction
    thickness: Fraction = Fraction(3, 8)
    turns: bool = True

    def __post_init__(self) -> None:
        for field, size in (("width", self.width), ("height", self.height), ("thickness", self.thickness)):
            if size <= 0:
                raise BadInput(f"tile {field}: {inches(size)}", "A tile's sizes are more than zero.")
        if not 0 <= self.joint < min(self.width, self.height):
            raise BadInput(
                f"joint: {inches(self.joint)}", "A joint is zero or more and narrower than the tile."
            )

    @property
    def module(self) -> tuple[Fraction, Fraction]:
        """Tile and one joint, across and up."""
        return self.width + self.joint, self.height + self.joint


@dataclass(frozen=True, slots=True)
class Laying:
    """A pattern and, for running bond, how far each course is offset as a share of the tile.

    Courses run along the tile's longer side: a tile higher than wide is laid in upright courses.
    """

    pattern: Pattern = Pattern.STACK
    offset: Fraction = Fraction(1, 2)

    def __post_init__(self) -> None:
        if self.pattern is Pattern.BOND and not 0 < self.offset < 1:
            raise BadInput(
                f"offset: {self.offset}", "A running bond is offset by a share such as 1/2 or 1/3."
            )


def upright(tile: Tile, laying: Laying) -> bool:
    """Whether the courses of a running bond stand upright."""
    return laying.pattern is Pattern.BOND and tile.height > tile.width


@dataclass(frozen=True, slots=True)
class Cut:
    """Pieces of one cut size: across and up in inches, how many, and what is cut.

    ``sides`` names the cut edges: some of "left", "right", "bottom", "top"; a piece with a corner or a
    hole out of it, or cut aslant, is "notched" or "aslant" and takes its own tile.
    """

    width: Fraction
    height: Fraction
    count: int
    sides: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """A layout worked out: where it starts and what it takes.

    ``start`` is the lower left corner of one full tile (or the centre of one, laid diagonally), in the
    field's own inches. ``least`` is the narrowest piece left anywhere, None where nothing is cut, and
    ``least_share`` the same as a share of that tile side, at most 9/20, which counts as half. ``laid``
    counts every place in the grid, ``bought`` what is left of that when offcuts are used again.
    """

    laying: Laying
    start: tuple[Fraction, Fraction]
    laid: int
    full: int
    bought: int
    least: Fraction | None
    least_share: Fraction
    cuts: tuple[Cut, ...]

    @property
    def cut(self) -> int:
        """How many places take a cut piece."""
        return self.laid - self.full

    @property
    def rank(self) -> tuple[Fraction, int, int]:
        """What makes a layout better: no sliver first, then fewer tiles, then fewer cuts."""
        return self.least_share, -self.laid, -self.cut
