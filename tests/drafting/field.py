"""A linear-chain conditional random field, in plain arithmetic: the same bytes everywhere.

Lafferty, McCallum and Pereira, "Conditional Random Fields" (ICML 2001), with a Gaussian prior on the
weights (Sha and Pereira, "Shallow Parsing with Conditional Random Fields", HLT-NAACL 2003) and the
gradient steps of ``logistic``. Sums over paths are kept as shares of one, so that no logarithm is needed.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting.linear import Linear
from tests.drafting.logistic import Regression, exponential

#: A share of an item's gradient smaller than this is not worth a step.
_SLIGHT = 0.01
#: No share is less than this, so that the shares of a step never sum to nought.
_LEAST = 1e-30


@dataclass(frozen=True, slots=True)
class Chain:
    """A sequence to learn: what shows of each item, its right label, and how much it counts.

    ``among`` are the labels an item may have at all, for a sequence known to hold no other; None for any.
    """

    items: Sequence[Sequence[str]]
    right: Sequence[int]
    counts: float = 1.0
    among: Sequence[int] | None = None


def train_field(
    chains: Sequence[Chain],
    labels: Sequence[str],
    before: Sequence[Sequence[int]],
    recipe: Regression,
    *,
    unit: int,
) -> Linear:
    """Return a model that labels every item of a sequence; label ``n`` stands only after one of
    ``before[n]``, and at the head only where 0 may go before it. Weights are whole ``unit`` parts."""
    counts = Counter(name for chain in chains for names in chain.items for name in set(names))
    names = sorted(name for name, count in counts.items() if count >= recipe.least)
    at = {name: n for n, name in enumerate(names)}
    size = len(labels)
    weights = [[0.0] * size for _ in names]
    spread = [[1e-6] * size for _ in names]
    pull = [recipe.prior / counts[name] for name in names]
    pairs = [[0.0] * size for _ in labels]
    pair_spread = [[1e-6] * size for _ in labels]
    ready = [[sorted({at[n] for n in item if n in at}) for item in chain.items] for chain in chains]
    order = list(range(len(chains)))
    chance = random.Random(1)
    for turn in range(recipe.passes):
        chance.shuffle(order)
        step = recipe.step / (1.0 + turn / 4.0)
        for number in order:
            chain, known = chains[number], ready[number]
            nothing = [0.0] * size
            rows = [list(map(sum, zip(*[weights[f] for f in k], strict=True))) or nothing for k in known]
            single, double = _shares(rows, pairs, before, chain.among)
            for share, label, k in zip(single, chain.right, known, strict=True):
                share[label] -= 1.0
                wanted = [(n, chain.counts * s) for n, s in enumerate(share) if abs(s) > _SLIGHT]
                for f in k if wanted else ():
                    row, seen, back = weights[f], spread[f], pull[f]
                    for n, slope in wanted:
                        g = slope + back * row[n]
                        seen[n] += g * g
                        row[n] -= step * g / seen[n] ** 0.5
            for a, b in zip(chain.right, chain.right[1:], strict=False):
                double[a][b] -= 1.0
            for a in range(size):
                for b in range(size):
                    g = chain.counts * double[a][b]
                    if abs(g) > _SLIGHT:
                        pair_spread[a][b] += g * g
                        pairs[a][b] -= step * g / pair_spread[a][b] ** 0.5
    rounded = {n: [round(unit * w) for w in row] for n, row in zip(names, weights, strict=True)}
    kept = {name: row for name, row in rounded.items() if any(row)}
    return Linear(tuple(labels), kept, [[round(unit * w) for w in row] for row in pairs])


def _shares(
    rows: Sequence[Sequence[float]],
    pairs: Sequence[Sequence[float]],
    before: Sequence[Sequence[int]],
    among: Sequence[int] | None,
) -> tuple[list[list[float]], list[list[float]]]:
    """Return the share of all paths that give each item each label, and how often each label is expected
    to follow each (the forward-backward algorithm)."""
    size = len(before)
    space = range(size)
    most_pair = max(map(max, pairs))
    link = [[exponential(pairs[p][n] - most_pair) for n in space] for p in space]
    likely: list[list[float]] = []
    for row in rows:
        most = max(row)
        likely.append(
            [
                max(_LEAST, exponential(w - most)) if among is None or n in among else 0.0
                for n, w in enumerate(row)
            ]
        )
    forward: list[list[float]] = [_whole([likely[0][n] if 0 in before[n] else 0.0 for n in space])]
    for chance in likely[1:]:
        held = forward[-1]
        forward.append(_whole([chance[n] * sum([held[p] * link[p][n] for p in before[n]]) for n in space]))
    backward = [1.0] * size
    single = [[0.0] * size for _ in rows]
    double = [[0.0] * size for _ in space]
    for at in range(len(rows) - 1, -1, -1):
        single[at] = _whole([f * b for f, b in zip(forward[at], backward, strict=True)])
        if at:
            onward = [chance * b for chance, b in zip(likely[at], backward, strict=True)]
            held = forward[at - 1]
            flow = [(p, n, held[p] * link[p][n] * onward[n]) for n in space for p in before[n]]
            total = sum([share for _p, _n, share in flow]) or 1.0
            backward = [0.0] * size
            for p, n, share in flow:
                double[p][n] += share / total
                backward[p] += link[p][n] * onward[n]
            backward = _whole(backward)
    return single, double


def _whole(parts: list[float]) -> list[float]:
    total = sum(parts)
    return [part / total for part in parts] if total > 0.0 else parts
