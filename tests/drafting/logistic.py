"""Multinomial logistic regression with a Gaussian prior, in plain arithmetic: the same bytes everywhere.

Stochastic gradient steps scaled per weight (Duchi, Hazan and Singer, "Adaptive Subgradient Methods",
JMLR 12, 2011). The prior's mean is where training starts: what the word lists say outright.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting.linear import Linear

#: Weights are kept in hundredths, rounded to whole numbers.
UNIT = 100
#: A feature none of whose weights is further from nought than this, in units, is not worth its line.
_FAINT = 4


@dataclass(frozen=True, slots=True)
class Regression:
    """How a model is trained: passes over the data, size of a step, pull of the prior, and in how many
    examples a feature must occur to count."""

    passes: int
    step: float
    prior: float
    least: int


def exponential(x: float) -> float:
    """Return e to the power ``x`` (at most 0), near enough, by multiplication alone.

    The mathematics library's own may differ in the last bit from machine to machine.
    """
    y = max(0.0, 1.0 + x / 1024.0)
    for _ in range(10):
        y *= y
    return y


@dataclass(frozen=True, slots=True)
class Example:
    """What shows, what is right, and how much it counts (1 for an entry of a talk)."""

    names: Sequence[str]
    label: str
    counts: float = 1.0


def train_regression(
    examples: Sequence[Example],
    labels: Sequence[str],
    recipe: Regression,
    start: Mapping[str, Sequence[int]] | None = None,
) -> Linear:
    """Return a model that gives each example's features one of ``labels``. ``start`` is in units."""
    counts = Counter(name for example in examples for name in set(example.names))
    names = sorted(name for name, count in counts.items() if count >= recipe.least)
    at = {name: n for n, name in enumerate(names)}
    size = len(labels)
    mean = [[v / UNIT for v in (start or {}).get(name, [0] * size)] for name in names]
    weights = [list(row) for row in mean]
    spread = [[1e-6] * size for _ in names]
    pull = [recipe.prior / counts[name] for name in names]
    ready = [(sorted({at[n] for n in e.names if n in at}), labels.index(e.label), e.counts) for e in examples]
    order = list(range(len(ready)))
    chance = random.Random(1)
    for turn in range(recipe.passes):
        chance.shuffle(order)
        step = recipe.step / (1.0 + turn / 4.0)
        for n in order:
            known, right, much = ready[n]
            wanted = _chances([sum(column) for column in zip(*[weights[f] for f in known], strict=True)])
            wanted[right] -= 1.0
            wanted = [much * w for w in wanted]
            for f in known:
                row, seen, centre, back = weights[f], spread[f], mean[f], pull[f]
                for k in range(size):
                    slope = wanted[k] + back * (row[k] - centre[k])
                    seen[k] += slope * slope
                    row[k] -= step * slope / seen[k] ** 0.5
    rows = {name: [round(UNIT * w) for w in row] for name, row in zip(names, weights, strict=True)}
    return Linear(tuple(labels), {name: row for name, row in rows.items() if max(map(abs, row)) > _FAINT})


def _chances(scores: Sequence[float]) -> list[float]:
    most = max(scores)
    raw = [exponential(s - most) for s in scores]
    whole = sum(raw)
    return [r / whole for r in raw]
