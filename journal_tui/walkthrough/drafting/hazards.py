"""Dangers an entry names."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Hazard
from journal_tui.walkthrough.drafting import vocabulary


def hazards_in(keys: Sequence[str]) -> tuple[Hazard, ...]:
    """Return the hazards ``keys`` name, in the order first named, each once."""
    return tuple(dict.fromkeys(Hazard(name) for _a, _b, name in vocabulary.hazards().found(keys)))
