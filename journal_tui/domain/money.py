"""Money as whole cents, and shares of it as hundredths of a percent (basis points).

Nothing here is ever a float. A share that does not come out in whole cents is rounded half away from
zero, as invoices are (common practice, no source); sums of parts are made to add up by giving the odd
cents to the parts with the largest remainders (the largest-remainder method, Hamilton).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from decimal import Decimal

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

#: 100 percent in basis points.
WHOLE = 10_000
#: More than this for one job is a slip of the keys.
MOST_CENTS = 1_000_000_000
_SUM = re.compile(
    r"^(?P<sign>[-\u2212+]?)\s*\$?\s*(?P<whole>[0-9]{1,3}(?:,[0-9]{3})+|[0-9]{1,10})?(?:\.(?P<cents>[0-9]{1,2}))?$"
)
_RATE = re.compile(r"^[0-9]{1,3}(?:\.[0-9]{1,2})?\s*%?$")


def cents_typed(text: str) -> int:
    """Return the cents in a sum as people write it: ``1,250``, ``$1250.00``, ``-80.5``.

    Raises ``BadInput`` for anything else and for more than ten million dollars.
    """
    found = _SUM.match(text.strip())
    if not found or not (found["whole"] or found["cents"]):
        raise BadInput(f'"{one_line(text)[:30]}" is no sum of money', "Write it like 1,250 or 1250.50.")
    whole = int((found["whole"] or "0").replace(",", ""))
    cents = whole * 100 + int((found["cents"] or "0").ljust(2, "0"))
    if cents > MOST_CENTS:
        raise BadInput(f"{one_line(text)[:30]} is too large a sum", "Check the figures.")
    return cents if found["sign"] in ("", "+") else -cents


def rate_typed(text: str) -> int:
    """Return a percentage as people write it (``15``, ``8.25%``) in basis points, 0 to 10,000.

    Raises ``BadInput`` for anything else.
    """
    cleaned = text.strip()
    rate = int(Decimal(cleaned.rstrip("% ")) * 100) if _RATE.match(cleaned) else -1
    if not 0 <= rate <= WHOLE:
        raise BadInput(
            f'"{one_line(text)[:30]}" is no percentage', "Write it like 15 or 8.25, from 0 to 100."
        )
    return rate


def money(cents: int) -> str:
    """Return cents as ``$1,250.00``, with a minus sign in front when less than nothing."""
    sign = "-" if cents < 0 else ""
    return f"{sign}${abs(cents) // 100:,}.{abs(cents) % 100:02d}"


def rate(basis_points: int) -> str:
    """Return basis points as ``8.25%``."""
    text = f"{basis_points // 100}.{basis_points % 100:02d}".rstrip("0").rstrip(".")
    return f"{text}%"


def share(cents: int, basis_points: int) -> int:
    """Return a share of a sum in whole cents, a half rounded away from zero."""
    return divided(cents * basis_points, WHOLE)


def divided(number: int, by: int) -> int:
    """Return ``number / by`` (``by`` above 0) as a whole number, a half rounded away from zero."""
    whole = (2 * abs(number) + by) // (2 * by)
    return whole if number >= 0 else -whole


def spread(cents: int, parts: Sequence[int]) -> list[int]:
    """Return ``cents`` divided over ``parts`` in proportion, in whole cents that add up to it exactly.

    Parts whose sum is nothing get it all on the first one; without parts there is nothing to give.
    """
    total = sum(parts)
    if not parts:
        return []
    if total == 0:
        return [cents, *([0] * (len(parts) - 1))]
    floors = [cents * part // total for part in parts]
    rest = cents - sum(floors)
    remainders = [
        (cents * part % total if total > 0 else -(cents * part % total), -at) for at, part in enumerate(parts)
    ]
    for _size, at in sorted(remainders, reverse=True)[:rest]:
        floors[-at] += 1
    return floors
