"""A pipe's route through the house: pipe, fittings, clamps, hangers and the board that must come off."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.supply import pipe

#: How wide a strip of board comes off over a pipe between framing 16 in on centre: common practice.
PATCH_WIDTH = Fraction(16)
_WAYS = ("along", "up")
_COVERS = ("open", "wall", "ceiling")


@dataclass(frozen=True, slots=True)
class Leg:
    """A straight part of a route: inches, which way ("along" or "up"), and what covers it
    ("open", "wall" or "ceiling")."""

    length: Fraction
    way: str = "along"
    cover: str = "open"
    #: Branches teed off this leg, and floors or plates bored through.
    tees: int = 0
    holes: int = 0


@dataclass(frozen=True, slots=True)
class RouteTakeOff:
    """What a route takes. Pipe in feet; clamps are one a barb: two an elbow or coupling, three a tee."""

    pipe_ft: int
    elbows: int
    tees: int
    couplings: int
    clamps: int
    hangers: int
    nail_plates: int
    patches: tuple[tuple[str, Fraction, Fraction], ...]

    @property
    def patch_sq_ft(self) -> float:
        """Square feet of board to replace."""
        return float(sum((wide * long for _where, wide, long in self.patches), Fraction(0)) / 144)


def take_off(legs: tuple[Leg, ...], material: str = "pex", *, waste: float = 0.1) -> RouteTakeOff:
    """Return pipe and parts along ``legs``; an elbow at every change of leg, waste applied once to the pipe.

    Raises `BadInput` for an empty or impossible route.
    """
    _sound(legs, waste)
    data = pipe(material)
    length = sum((leg.length for leg in legs), Fraction(0))
    feet = math.ceil(float(length) / 12 * (1 + waste) - 1e-9)
    elbows, tees = len(legs) - 1, sum(leg.tees for leg in legs)
    couplings = max(0, math.ceil(feet / data["coil_ft"]) - 1)
    return RouteTakeOff(
        feet,
        elbows,
        tees,
        couplings,
        clamps=2 * elbows + 3 * tees + 2 * couplings + 2,
        hangers=sum(_hangers(leg, data) for leg in legs),
        nail_plates=sum(leg.holes for leg in legs),
        patches=tuple((leg.cover, PATCH_WIDTH, leg.length) for leg in legs if leg.cover != "open"),
    )


def _hangers(leg: Leg, data: dict[str, int]) -> int:
    """Supports on one leg: never farther apart than the limit, at least one."""
    return max(1, math.ceil(leg.length / data["upright_in" if leg.way == "up" else "hanger_in"]))


def _sound(legs: tuple[Leg, ...], waste: float) -> None:
    if not legs:
        raise BadInput("route", "Give at least one leg.")
    if not 0 <= waste <= 1:
        raise BadInput(f"waste: {waste:g}", "Waste is a share from 0 to 1, such as 0.1.")
    for number, leg in enumerate(legs, 1):
        if leg.length <= 0 or leg.tees < 0 or leg.holes < 0:
            raise BadInput(f"leg {number}", "Lengths are more than zero, counts zero or more.")
        if leg.way not in _WAYS or leg.cover not in _COVERS:
            raise BadInput(f"leg {number}", f"Way is {' or '.join(_WAYS)}; cover is {', '.join(_COVERS)}.")
