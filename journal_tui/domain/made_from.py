"""What a material line of a change order was made from: a line of the materials list, as it stood then."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FromMeasure:
    """The share of one measure in a material: its name then, and the net ``amount`` it called for."""

    measure_id: str
    name: str
    amount: float


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """A line of the materials list on a ``day``: whole ``packages``, and what they were counted from.

    ``amount`` is net, in ``unit``; ``waste`` a share on top; one package, called ``packed``, holds
    ``package`` of the unit; ``basis`` is where the coverage is from.
    """

    name: str
    phase: str
    packages: int
    packed: str
    package: float
    unit: str
    amount: float
    waste: float
    basis: str
    day: dt.date
    parts: tuple[FromMeasure, ...] = ()

    @property
    def key(self) -> tuple[str, str, str, float]:
        """What tells it from every other line of the list."""
        return (self.phase, self.name, self.unit, self.package)

    @property
    def sold_by(self) -> str:
        """The unit it is bought in: ``sheet``, ``box of 80 tiles``, ``bag of 50 lb``."""
        return self.packed if self.package == 1 else f"{self.packed} of {self.package:g} {self.unit}"
