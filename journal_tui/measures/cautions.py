"""Where work can hurt someone: the rule, when it bites, what to do first; never that all is well."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import Hazard
from journal_tui.domain.text import folded, one_line
from journal_tui.measures.data_files import table

DEFER = "Local code and licensed people decide."
#: EPA's minor repair limits, square feet of painted surface a room inside and in all outside, in 30 days.
MINOR_INSIDE, MINOR_OUTSIDE = Fraction(6), Fraction(20)
_WATER_LB_GAL = 8.34


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution: hazard, when it bites, what to do first, and the rule with edition and standing."""

    id: str
    hazard: Hazard
    bites: str
    first: str
    rule: str
    edition: str
    standing: str
    why: str = ""

    def line(self) -> str:
        """Return the caution on one line."""
        return f"{self.id}: {self.bites}. First: {self.first}. ({self.rule}; {self.edition}.) {DEFER}"


def cautions_for(
    year_built: int | None, tasks: Iterable[str] = (), materials: Iterable[str] = ()
) -> tuple[Caution, ...]:
    """Return the cautions that a house of ``year_built`` calls for, given the work and what is met.

    A year not known counts as old. A caution is given when the year fits and any task or material does,
    and in any year when the danger itself is named; each says which. Raises `BadInput` for an impossible
    year.
    """
    if year_built is not None and not 1600 <= year_built <= 2200:
        raise BadInput(f"year built: {year_built}", "Give the year as four digits, or leave it out.")
    said = {_plain(word) for word in (*tasks, *materials)}
    out = []
    for row in table("cautions")["caution"]:
        met = [word for word in (*row.get("tasks", ()), *row.get("materials", ())) if _plain(word) in said]
        named = [word for word in row.get("named", ()) if _plain(word) in said]
        if named or (met and _year_fits(row, year_built)):
            out.append(_caution(row, [*named, *met], year_built))
    return tuple(out)


def cautions_of_age(year_built: int | None) -> tuple[Caution, ...]:
    """Return the cautions the year of a house alone calls for; none while it is not known."""
    if year_built is None:
        return ()
    rows = (row for row in table("cautions")["caution"] if year_built < row.get("before", 0))
    return tuple(_caution(row, [f"built {year_built}"], year_built) for row in rows)


def not_known(said: Iterable[str]) -> tuple[str, ...]:
    """Return the words of ``said`` that no caution listens for, in order, each once."""
    known = {_plain(word) for word in words()}
    return tuple(dict.fromkeys(word for word in said if _plain(word) not in known))


def _plain(word: str) -> str:
    """Return a word as it is compared: case, hyphens and the last word's plural aside."""
    line = folded(word).replace("-", " ")
    return line[:-1] if len(line) > 4 and line.endswith("s") and not line.endswith("ss") else line


def _year_fits(row: dict[str, Any], year: int | None) -> bool:
    if year is None:
        return True
    return bool(year < row.get("before", 9999) and row.get("from", 0) <= year <= row.get("until", 9999))


def _caution(row: dict[str, Any], met: list[str], year: int | None) -> Caution:
    why = ", ".join(met)
    if year is None and {"before", "from"} & set(row):
        why += "; year built not known, taken as old"
    return Caution(
        row["id"],
        Hazard(row["hazard"]),
        row["bites"],
        row["first"],
        row["rule"],
        row["edition"],
        row["standing"],
        why,
    )


def words() -> tuple[str, ...]:
    """Return every task and material word the cautions listen for."""
    rows = table("cautions")["caution"]
    return tuple(
        sorted({word for row in rows for key in ("tasks", "materials", "named") for word in row.get(key, ())})
    )


def is_minor_repair(painted: Iterable[tuple[Fraction, Fraction]], *, outside: bool = False) -> bool:
    """Return whether painted areas disturbed in 30 days stay inside EPA's minor repair limit.

    Each area is width and height in inches of what is disturbed: a component taken off counts whole, a
    strip planed off a door only the strip. Windows replaced and demolition are never minor.
    """
    total = sum((w * h for w, h in painted), Fraction(0)) / 144
    return total <= (MINOR_OUTSIDE if outside else MINOR_INSIDE)


def mold_size(square_feet: float) -> str:
    """Return EPA's class of an area of mold: under 10 sq ft small, to 100 medium, over 100 large."""
    if square_feet < 0:
        raise BadInput(f"mold: {square_feet:g} sq ft", "An area is zero or more.")
    return "small" if square_feet < 10 else "medium" if square_feet <= 100 else "large"


def neshap_applies(pipe_ft: float = 0, square_ft: float = 0, cubic_ft: float = 0) -> bool:
    """Return whether asbestos amounts reach the NESHAP's 260 ft, 160 sq ft or 35 cu ft (40 CFR 61.145)."""
    return pipe_ft >= 260 or square_ft >= 160 or cubic_ft >= 35


@dataclass(frozen=True, slots=True)
class DustControl:
    """What Table 1 asks of a tool: the control, and the least respirator protection factor (0: none)."""

    control: str
    protection: int
    standing: str


def dust_control(tool: str, place: str, hours: float) -> DustControl | None:
    """Return what 29 CFR 1926.1153 Table 1 asks for ``tool``, "indoors" or "outdoors", for ``hours`` a day.

    None where the table has no such row (a fiber-cement saw indoors): exposure must be assessed instead.
    """
    rows = table("cautions")["silica"]
    known = tuple(dict.fromkeys(row["tool"] for row in rows))
    if folded(tool) not in known or place not in ("indoors", "outdoors"):
        raise BadInput(
            f"{one_line(tool)}, {one_line(place)}", f"Accepted: {', '.join(known)}; indoors or outdoors."
        )
    row = next((r for r in rows if r["tool"] == folded(tool) and r["place"] in (place, "any")), None)
    if row is None:
        return None
    return DustControl(row["control"], row["short"] if hours <= 4 else row["long"], row["standing"])


def filled_tub_pounds(empty: float, gallons: float, person: float = 0.0) -> float:
    """Return the weight on the floor of a tub in use: water at 8.34 lb a gallon."""
    return empty + gallons * _WATER_LB_GAL + person
