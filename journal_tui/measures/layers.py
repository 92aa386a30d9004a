"""A layer of a floor or wall, the one description that heights, stiffness and quantities all read."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fractions import inches


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a build-up: material, thickness in inches, and where the figure is from."""

    material: str
    thickness: Fraction
    source: str = "measured"

    def __post_init__(self) -> None:
        if self.thickness <= 0:
            raise BadInput(
                f"layer {self.material}: {inches(self.thickness)}", "A layer is thicker than zero."
            )


def thickness(layers: tuple[Layer, ...]) -> Fraction:
    """Return the height of a stack of layers in inches, exact."""
    return sum((layer.thickness for layer in layers), Fraction(0))
