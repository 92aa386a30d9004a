"""Whose move an entry is, or whose choice it was."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Kind, Party
from journal_tui.walkthrough.drafting import vocabulary


def party_of(keys: Sequence[str], kind: Kind) -> Party | None:
    """Return the party of an entry that says ``keys``."""
    found = {name for _a, _b, name in vocabulary.parties().found(keys)}
    if kind is Kind.OBSERVATION:
        return Party.INSPECTOR if "inspector" in found and "crew" not in found else None
    if "supplier" in found:
        return Party.SUPPLIER if kind is Kind.NEXT_STEP else Party.CREW
    if "client" in found and (keys[:1] and keys[0] in ("you", "youve", "she", "shes", "owner", "client")):
        return Party.CLIENT
    return Party.CREW
