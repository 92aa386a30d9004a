"""The closed vocabularies every other module shares."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    """What an entry is: something found or done, something chosen, something owed."""

    OBSERVATION = "observation"
    DECISION = "decision"
    NEXT_STEP = "next_step"

    @property
    def spoken(self) -> str:
        """The kind as a person says it, in the fixed five-letter column of lists."""
        return {"observation": "saw", "decision": "chose", "next_step": "owed"}[self.value]

    @property
    def plain(self) -> str:
        """The kind in running text."""
        return self.value.replace("_", " ")


class Party(StrEnum):
    """Whose move it is, or whose choice it was."""

    CREW = "crew"
    CLIENT = "client"
    INSPECTOR = "inspector"
    SUPPLIER = "supplier"


class Audience(StrEnum):
    """Who may read a thing: the client (and so everyone), the crew, or nobody but its owner."""

    CLIENT = "client"
    CREW = "crew"
    PRIVATE = "private"


class Hazard(StrEnum):
    """Ways work in an opened house can hurt someone."""

    ELECTRICAL = "electrical"
    STRUCTURE = "structure"
    LEAD = "lead"
    ASBESTOS = "asbestos"
    SILICA = "silica"
    MOLD = "mold"
    LIFTING = "lifting"
    SCALD = "scald"
    GAS = "gas"
    FIRE = "fire"
    FALL = "fall"
    OTHER = "other"


DEMO = "demo"
ROUGH_PLUMBING = "rough plumbing"
SUBFLOOR = "subfloor"
BACKER = "backer"
TILE = "tile"
TRIM = "trim"
OTHER_PHASE = "other"

#: The order work goes in; what is closed in by a later phase cannot be reached again.
STANDARD_PHASES: tuple[str, ...] = (DEMO, ROUGH_PLUMBING, SUBFLOOR, BACKER, TILE, TRIM)

WHOLE_ROOM = "whole room"
