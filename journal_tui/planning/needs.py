"""What a visit's items call for: to load, to bring, to heed, to photograph."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from journal_tui.planning.items import PlanItem

LEAD_YEAR = 1978
ASBESTOS_YEAR = 1980


@dataclass(frozen=True, slots=True)
class Needs:
    """What some items call for, each thing once: to load, to bring, to heed, to photograph."""

    load: tuple[str, ...]
    tools: tuple[str, ...]
    cautions: tuple[str, ...]
    photos: tuple[str, ...]


def needs_of(items: Sequence[PlanItem], year_built: int | None) -> Needs:
    """Return what ``items`` call for in a house of that year (None: not known)."""
    return Needs(
        _once(m for i in items for m in i.materials),
        _once(t for i in items for t in i.tools),
        _once([*_age_cautions(items, year_built), *(c for i in items for c in i.cautions)]),
        _once(f"{p} ({i.area})" if i.area else p for i in items for p in i.photos),
    )


def _age_cautions(items: Sequence[PlanItem], year_built: int | None) -> list[str]:
    """Return what the year of the house says about breaking into old surfaces.

    Lead: target housing is built before 1978 (EPA renovation rule, 73 FR 21692). Asbestos:
    flooring and mastic up to 1980 are presumed to hold it (29 CFR 1926.1101).
    """
    return age_cautions(year_built) if any(i.disturbs for i in items) else []


def age_cautions(year_built: int | None) -> list[str]:
    """Return what the year of the house alone warns of (the rules of ``_age_cautions``)."""
    if year_built is None:
        return ["Year built unknown: treat old paint, floor covering and pipe wrap as untested."]
    said: list[str] = []
    if year_built < LEAD_YEAR:
        said.append(
            f"Lead: built {year_built}, before {LEAD_YEAR}; paint not tested free of lead falls under the"
            " federal renovation rule: a certified renovator sets up and cleans."
        )
    if year_built <= ASBESTOS_YEAR:
        said.append(
            f"Asbestos: built {year_built}; old vinyl or asphalt floor, mastic and pipe wrap are presumed"
            " to hold it until tested. Stop and have it tested."
        )
    return said


def _once(things: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(things))
