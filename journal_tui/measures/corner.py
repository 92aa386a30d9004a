"""Getting a stiff thing round the corner of two halls, in plan and exact.

A rod round a square corner of halls a and b wide: L = (a^(2/3) + b^(2/3))^(3/2), the textbook
result (Stewart, Calculus, section 4.7, exercise 70). A plate w wide: the least, over the turn t, of
(a sin t + b cos t - w) / (sin t cos t), from the distance of the inside corner to the plate's outer
edge while that edge slides on both outer walls. Both ask for halls that go on as far as the piece is
long; a hall that runs on past the corner gives more room, which is not counted.
"""

from __future__ import annotations

import math
from collections.abc import Callable

_GOLDEN = (math.sqrt(5) - 1) / 2


def longest_rod(a: float, b: float) -> float:
    """Return the longest rod that turns between halls ``a`` and ``b`` wide; same unit as given."""
    return float((a ** (2 / 3) + b ** (2 / 3)) ** 1.5)


def longest_plate(a: float, b: float, width: float) -> float:
    """Return the longest plate ``width`` wide that turns between halls ``a`` and ``b``; 0 if too wide."""
    if width > min(a, b):
        return 0.0
    if width == 0:
        return longest_rod(a, b)
    if a == b:
        return 2 * (a * math.sqrt(2) - width)
    return _least(lambda t: (a * math.sin(t) + b * math.cos(t) - width) / (math.sin(t) * math.cos(t)))


def _least(f: Callable[[float], float]) -> float:
    """Return the least value of a one-valley function over the open quarter turn, by golden section."""
    low, high = 1e-9, math.pi / 2 - 1e-9
    for _ in range(120):
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if f(left) < f(right):
            high = right
        else:
            low = left
    return f((low + high) / 2)


def corner_slack(length: float, width: float, a: float, b: float) -> float:
    """Return how much longer a plate could be and still get round; negative is by how much it fails.

    A plate no longer than one hall is wide need not turn: it goes in lengthwise and leaves sideways.
    """
    turning = longest_plate(a, b, width) - length if width <= min(a, b) else min(a, b) - width
    sideways = max(min(a - width, b - length), min(b - width, a - length))
    return max(turning, sideways)


def fits_opening(p: float, q: float, wide: float, high: float) -> bool:
    """Return whether a ``p`` x ``q`` rectangle passes a ``wide`` x ``high`` opening, tilted if need be.

    Carver's criterion for a rectangle in a rectangle (American Mathematical Monthly 64, 1957, problem
    E1225; from memory).
    """
    p, q, wide, high = max(p, q), min(p, q), max(wide, high), min(wide, high)
    if p <= wide:
        return q <= high
    if q > high:
        return False
    diagonal = p * p + q * q
    return high >= (2 * p * q * wide + (p * p - q * q) * math.sqrt(diagonal - wide * wide)) / diagonal


def tipped(length: float, height: float, ceiling: float) -> float | None:
    """Return the plan length of a box tipped up on one end as far as ``ceiling`` lets it.

    A box ``length`` x ``height`` leaned by t is length cos t + height sin t long in plan and
    length sin t + height cos t high. None where tipping does not shorten it. Only for a rod is the
    diagonal of the vertical plane the length that fits.
    """
    diagonal = math.hypot(length, height)
    if height > ceiling:
        return None
    if diagonal <= ceiling:
        return height if height < length else None
    lean = math.asin(ceiling / diagonal) - math.atan2(height, length)
    plan = length * math.cos(lean) + height * math.sin(lean)
    return plan if plan < length else None
