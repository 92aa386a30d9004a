"""Naming what can hurt someone at a thing seen, chosen or owed."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Hazard
from journal_tui.screens.picker import Picker

_NONE = "none of them"


class HazardPicker(Picker):
    """The hazards by their letters; the result is the word for ``hazard_chosen``."""

    HELP = (
        "Press the letter before a hazard to name it; of one that is named (now), to take it away. Esc "
        "leaves it as it is. What is named comes with the usual caution in every document."
    )

    def __init__(self, hazards: Sequence[Hazard]) -> None:
        super().__init__("hazard", [*Hazard, _NONE], hazards or [_NONE])


def hazard_chosen(word: str) -> Hazard | None:
    """Return the hazard a ``HazardPicker`` gave; None when all are to be taken away."""
    return None if word == _NONE else Hazard(word)
