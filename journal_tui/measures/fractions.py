"""Lengths as a tape measure shows them: to the nearest sixteenth, with the true value kept beside."""

from __future__ import annotations

from fractions import Fraction


def to_sixteenth(length: Fraction) -> Fraction:
    """Return ``length`` (inches) at the nearest 1/16 in, halves rounded up away from zero."""
    sign = -1 if length < 0 else 1
    return sign * Fraction(int(abs(length) * 16 + Fraction(1, 2)), 16)


def mixed(value: Fraction) -> str:
    """Return an exact fraction as a mixed number: ``12``, ``3/4``, ``1 5/8``, ``-1 5/8``."""
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value), 1)
    if not part:
        return f"{sign}{whole}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def inches(length: Fraction) -> str:
    """Return ``length`` (inches) as ``41 13/16 in``, to the nearest sixteenth.

    A length that is not on a sixteenth is marked ``about`` and its true value follows.
    """
    shown = to_sixteenth(length)
    text = f"{mixed(shown)} in"
    return text if shown == length else f"about {text} ({_decimal(length)})"


def tape(length: Fraction) -> str:
    """Return ``length`` (inches) to the nearest sixteenth and nothing else: for drawings and cut lists."""
    return mixed(to_sixteenth(length))


def feet_inches(length: Fraction) -> str:
    """Return ``length`` (inches) as ``12' 3"``, ``12' 3 1/2"`` or ``7 5/8"``, to the nearest sixteenth."""
    shown = to_sixteenth(length)
    sign = "-" if shown < 0 else ""
    feet, rest = divmod(abs(shown), 12)
    if not feet:
        return f'{sign}{mixed(rest)}"'
    return f"{sign}{feet}' {mixed(rest)}\""


def dash(length: Fraction) -> str:
    """Return ``length`` (inches) as span tables print it, ``12-3``, to the nearest inch."""
    whole = int(length + Fraction(1, 2))
    return f"{whole // 12}-{whole % 12}"


def display(length: Fraction) -> str:
    """Return ``length`` (inches) as a person reads it: inches under two feet, feet and inches from there on.

    ``about`` and the true value in inches are added where the sixteenth is not exact.
    """
    if abs(length) < 24:
        return inches(length)
    shown = to_sixteenth(length)
    text = feet_inches(length)
    return text if shown == length else f"about {text} ({_decimal(length)})"


def _decimal(length: Fraction) -> str:
    """The true value: as a fraction where rulers and panel stamps have one, else in decimals."""
    if length.denominator in (32, 64):
        return f"{mixed(length)} in true"
    return f"{float(length):.4f}".rstrip("0").rstrip(".") + " in true"
