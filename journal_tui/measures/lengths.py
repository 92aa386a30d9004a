"""Lengths as people write them, read exactly; what could mean two things is asked, not guessed.

1 in = 25.4 mm exactly (international inch, NIST SP 811 Appendix B). Feet and inches with a dash,
``12-3``, are 12 ft 3 in, as span tables print them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.measures.fractions import feet_inches, mixed

ACCEPTED = '12-3, 12\' 3", 12 ft 3 in, 3/4", 1 5/8, 147 in, 3.5 m or 19 mm'
#: Longer than any house: a slip of the key, not a measure.
LONGEST = Fraction(12 * 1000)

_VULGAR = dict(
    zip(
        "½⅓⅔¼¾⅛⅜⅝⅞⅙⅚⅕⅖⅗⅘",
        "1/2 1/3 2/3 1/4 3/4 1/8 3/8 5/8 7/8 1/6 5/6 1/5 2/5 3/5 4/5".split(),
        strict=True,
    )
)
_UNITS = {
    "in": Fraction(1),
    "ft": Fraction(12),
    "mm": Fraction(5, 127),
    "cm": Fraction(50, 127),
    "m": Fraction(5000, 127),
}
_NAMES = {
    **dict.fromkeys(('"', "in", "in.", "inch", "inches"), "in"),
    **dict.fromkeys(("'", "ft", "ft.", "foot", "feet"), "ft"),
    **dict.fromkeys(("mm", "millimeter", "millimeters", "millimetre", "millimetres"), "mm"),
    **dict.fromkeys(("cm", "centimeter", "centimeters", "centimetre", "centimetres"), "cm"),
    **dict.fromkeys(("m", "meter", "meters", "metre", "metres"), "m"),
}
_NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d*\.\d+|\d+\.?"
_PART = re.compile(rf"\s*({_NUMBER})\s*(\"|'|[a-z]+\.?)?\s*")
_DASHED = re.compile(rf"(\d+)\s*(?:'|ft\.?|feet|foot)?\s*-\s*({_NUMBER})\s*(?:\"|in\.?|inch(?:es)?)?")
_DASH_FRACTION = re.compile(r"(\d+)\s*-\s*(\d+/\d+)")
_FOOT_DASH_FRACTION = re.compile(r"(\d+)\s*-\s*(\d+)\s*-\s*(\d+/\d+)\s*(?:\"|in\.?)?")


def parse_length(text: str, field: str = "length", *, bare: str | None = None) -> Fraction:
    """Return the length written in ``text`` in inches, exact and above zero.

    ``field`` names what is being asked, for the error. ``bare`` is the unit ("in", "ft", "mm") of a plain
    whole or decimal number where the field says it; without it a plain number is ambiguous. A fraction
    without a unit (``3/4``, ``1 5/8``) is inches.

    Raises `BadInput` naming the field, what is accepted and, where there are two readings, both.
    """
    value = parse_signed(text, field, bare=bare)
    if value <= 0:
        raise BadInput(f"{field}: {one_line(text)}", "A size is more than zero.")
    return value


def parse_signed(text: str, field: str = "length", *, bare: str | None = None) -> Fraction:
    """Return a length that may be zero or negative (a rise or a drop), else as `parse_length`."""
    raw = _tidied(text)
    sign = -1 if raw.startswith("-") else 1
    value = _value(raw.lstrip("+-").strip(), text, field, bare)
    if value > LONGEST:
        raise BadInput(
            f"{field}: {one_line(text)}",
            f"That is {feet_inches(value)}; no house is that long. {_accepted()}",
        )
    return sign * value


def _accepted() -> str:
    return f"Write it like {ACCEPTED}."


def _tidied(text: str) -> str:
    out = text.strip().lower()
    for mark, plain in (("′", "'"), ("’", "'"), ("‘", "'"), ("″", '"'), ("”", '"'), ("“", '"'), ("''", '"')):
        out = out.replace(mark, plain)
    for mark, plain in (("–", "-"), ("—", "-"), ("−", "-"), ("⁄", "/")):
        out = out.replace(mark, plain)
    out = "".join(f" {_VULGAR[c]}" if c in _VULGAR else c for c in out)
    return re.sub(r"\s+", " ", out).strip()


def _value(raw: str, text: str, field: str, bare: str | None) -> Fraction:
    refused = BadInput(f"{field}: {one_line(text) or 'nothing given'}", _accepted())
    if not raw:
        raise refused
    _ask_about(raw, text, field)
    if found := _FOOT_DASH_FRACTION.fullmatch(raw):
        rest = _number(f"{found[2]} {found[3]}", refused)
        return _feet_and(int(found[1]), rest, text, field)
    if found := _DASHED.fullmatch(raw):
        return _feet_and(int(found[1]), _number(found[2], refused), text, field)
    return _parts(raw, text, field, bare, refused)


def _ask_about(raw: str, text: str, field: str) -> None:
    """Raise for the writings that have two readings."""
    if found := _DASH_FRACTION.fullmatch(raw):
        whole, part = int(found[1]), found[2]
        raise _two_readings(text, field, f'{whole} {part}"', f"{whole}' {part}\"")
    if "," in raw:
        dotted, joined = raw.replace(",", "."), raw.replace(",", "")
        raise _two_readings(text, field, dotted, joined)
    if found := re.fullmatch(r"(\d+) x (\d+)|(\d+)x(\d+)", raw):
        raise BadInput(
            f"{field}: {one_line(text)}",
            "That is two sizes or a nominal lumber size; give one length, such as 9 1/4 in.",
        )
    if found := re.fullmatch(r"(\d+) (\d+)", raw):
        raise _two_readings(text, field, f"{found[1]}' {found[2]}\"", f'{found[1]}{found[2]}"')


def _two_readings(text: str, field: str, first: str, second: str) -> BadInput:
    return BadInput(
        f"{field}: {one_line(text)}", f"This could be {first} or {second}. Write the one you mean."
    )


def _feet_and(feet: int, rest: Fraction, text: str, field: str) -> Fraction:
    if rest >= 12:
        raise BadInput(
            f"{field}: {one_line(text)}",
            f"{mixed(rest)} inches after the feet is a foot or more. "
            f"If it is {feet_inches(feet * 12 + rest)}, write that.",
        )
    return feet * 12 + rest


def _parts(raw: str, text: str, field: str, bare: str | None, refused: BadInput) -> Fraction:
    total, at, units = Fraction(0), 0, list[str]()
    while at < len(raw):
        found = _PART.match(raw, at)
        if not found or found.end() == at:
            raise refused
        number = _number(found[1], refused)
        unit = _unit(found[2], found[1], units, text, field, bare, refused)
        if unit == "in" and units and number >= 12:
            _feet_and(0, number, text, field)
        total += number * _UNITS[unit]
        units.append(unit)
        at = found.end()
    _one_system(units, text, field)
    return total


def _unit(
    named: str | None,
    number: str,
    before: list[str],
    text: str,
    field: str,
    bare: str | None,
    refused: BadInput,
) -> str:
    if named:
        if named not in _NAMES:
            raise refused
        return _NAMES[named]
    if before == ["ft"]:
        return "in"
    if before:
        raise refused
    if "/" in number:
        return "in"
    if bare:
        return bare
    raise _two_readings(text, field, f"{number} in", f"{number} ft")


def _one_system(units: list[str], text: str, field: str) -> None:
    metric = [unit for unit in units if unit in ("mm", "cm", "m")]
    if metric and len(metric) < len(units):
        raise BadInput(
            f"{field}: {one_line(text)}", "Feet or inches and metric in one length. Use one of them."
        )
    order = ["m", "cm", "mm"] if metric else ["ft", "in"]
    places = [order.index(unit) for unit in units]
    if places != sorted(set(places)):
        raise BadInput(f"{field}: {one_line(text)}", f"The same unit twice or out of order. {_accepted()}")


def _number(text: str, refused: BadInput) -> Fraction:
    try:
        whole, _, part = text.strip().rpartition(" ")
        return (Fraction(whole) if whole else Fraction(0)) + Fraction(part.rstrip("."))
    except (ValueError, ZeroDivisionError):
        raise refused from None


@dataclass(frozen=True, slots=True)
class Lumber:
    """A nominal size and what it measures dry and surfaced: thickness by depth, inches."""

    nominal: str
    thickness: Fraction
    depth: Fraction

    @property
    def inertia(self) -> float:
        """Second moment of area about the strong axis, in^4: b d^3 / 12."""
        return float(self.thickness * self.depth**3 / 12)

    @property
    def section(self) -> float:
        """Section modulus about the strong axis, in^3: b d^2 / 6."""
        return float(self.thickness * self.depth**2 / 6)


def parse_lumber(text: str, field: str = "lumber") -> Lumber:
    """Return the dressed size of nominal lumber written like ``2x10`` or ``5/4 x 6``.

    Dry dressed sizes as in American Softwood Lumber Standard PS 20, Table 3 (from memory): 1 in is 3/4,
    5/4 is 1, nominal 2 to 7 is 1/2 less, 8 and up 3/4 less (thickness of 2 to 4: 1/2 less).
    Raises `BadInput` for anything else.
    """
    found = re.fullmatch(r"\s*(5/4|\d+)\s*(?:x|×|by|\*)\s*(\d+)\s*", text.lower())
    accepted = BadInput(f"{field}: {one_line(text)}", "Write a nominal size like 2x8, 2x10 or 4x4.")
    if not found:
        raise accepted
    first, second = found[1], int(found[2])
    if second not in (2, 3, 4, 5, 6, 8, 10, 12, 14, 16) or (
        first != "5/4" and int(first) not in (1, 2, 3, 4, 6)
    ):
        raise accepted
    depth = second - (Fraction(1, 2) if second < 8 else Fraction(3, 4))
    known = {"1": Fraction(3, 4), "5/4": Fraction(1)}
    thickness = known[first] if first in known else int(first) - Fraction(1, 2)
    return Lumber(f"{first}x{second}", thickness, depth)


def board_feet(lumber: Lumber, length: Fraction) -> Fraction:
    """Return board feet of one piece of ``length`` inches: nominal thickness x width x feet / 12."""
    thick, _, wide = lumber.nominal.partition("x")
    return Fraction(thick) * Fraction(wide) * (length / 12) / 12
