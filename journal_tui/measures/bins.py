"""Cutting lengths out of stock of one length: the fewest stock pieces, and what comes from which."""

from __future__ import annotations

import math
from fractions import Fraction

#: Places tried by the exact search before the best found so far is taken.
_MOST_NODES = 20_000


def fewest_bins(
    lengths: tuple[Fraction, ...], stock: Fraction, kerf: Fraction = Fraction(0)
) -> list[list[Fraction]]:
    """Return ``lengths`` shared out over as few pieces of ``stock`` as found, longest first in each.

    First fit decreasing, then branch and bound until it meets the lower bound or runs out of places to
    try. ``kerf`` is lost between two pieces. Every length must be at most ``stock``.
    """
    pieces = sorted(lengths, reverse=True)
    best = _first_fit(pieces, stock, kerf)
    least = math.ceil(sum((p + kerf for p in pieces), Fraction(0)) / (stock + kerf))
    if len(best) > least:
        best = _Search(pieces, stock, kerf, best, least).run()
    return best


def _first_fit(pieces: list[Fraction], stock: Fraction, kerf: Fraction) -> list[list[Fraction]]:
    bins: list[list[Fraction]] = []
    for piece in pieces:
        home = next((b for b in bins if _used(b, kerf) + kerf + piece <= stock), None)
        if home is None:
            bins.append([piece])
        else:
            home.append(piece)
    return bins


def _used(one: list[Fraction], kerf: Fraction) -> Fraction:
    return sum(one, Fraction(0)) + kerf * (len(one) - 1)


class _Search:
    """Branch and bound over where each piece goes, longest piece first."""

    def __init__(
        self, pieces: list[Fraction], stock: Fraction, kerf: Fraction, best: list[list[Fraction]], least: int
    ) -> None:
        self.pieces, self.stock, self.kerf, self.least = pieces, stock, kerf, least
        self.best, self.nodes = best, 0

    def run(self) -> list[list[Fraction]]:
        """Return the best sharing found."""
        self._place(0, [])
        return self.best

    def _place(self, at: int, bins: list[list[Fraction]]) -> None:
        self.nodes += 1
        if self.nodes > _MOST_NODES or len(self.best) == self.least or len(bins) >= len(self.best):
            return
        if at == len(self.pieces):
            self.best = [list(one) for one in bins]
            return
        piece, seen = self.pieces[at], set[Fraction]()
        for one in bins:
            used = _used(one, self.kerf)
            if used not in seen and used + self.kerf + piece <= self.stock:
                seen.add(used)
                one.append(piece)
                self._place(at + 1, bins)
                one.pop()
        bins.append([piece])
        self._place(at + 1, bins)
        bins.pop()
