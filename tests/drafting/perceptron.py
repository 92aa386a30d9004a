"""Averaged perceptrons with a margin, in whole numbers: the same bytes on every machine.

After Collins, "Discriminative Training Methods for Hidden Markov Models" (EMNLP 2002): where the best
answer is wrong move the weights towards the right one; the mean over all steps is kept. A wrong
answer is given a head start of ``margin`` so that right ones must win clearly.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting.linear import Linear

#: The mean weights are kept in tenths, rounded to whole numbers.
UNIT = 10


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a model is trained: passes over the data, head start of wrong answers, and in how many examples
    a feature must occur to count."""

    passes: int
    margin: int
    least: int


class _Rows:
    """Weights being learned, and their sum over time."""

    def __init__(
        self,
        examples: Iterable[Iterable[str]],
        labels: int,
        least: int,
        start: Mapping[str, Sequence[int]] | None = None,
    ) -> None:
        counts = Counter(name for names in examples for name in set(names))
        self.names = sorted(name for name, count in counts.items() if count >= least)
        self.at = {name: n for n, name in enumerate(self.names)}
        start = start or {}
        self.now = [list(start.get(name, [0] * labels)) for name in self.names]
        self.sums = [[0] * labels for _ in self.names]
        self.labels = labels
        self.time = 1

    def known(self, names: Iterable[str]) -> list[int]:
        return [self.at[name] for name in dict.fromkeys(names) if name in self.at]

    def scores(self, known: Sequence[int]) -> list[int]:
        now = self.now
        return [sum(c) for c in zip(*[now[f] for f in known], strict=True)] if known else [0] * self.labels

    def move(self, known: Sequence[int], right: int, wrong: int) -> None:
        time = self.time
        for f in known:
            self.now[f][right] += 1
            self.now[f][wrong] -= 1
            self.sums[f][right] += time
            self.sums[f][wrong] -= time

    def mean(self) -> dict[str, list[int]]:
        out: dict[str, list[int]] = {}
        for name, now, sums in zip(self.names, self.now, self.sums, strict=True):
            row = [_mean(w, s, self.time) for w, s in zip(now, sums, strict=True)]
            if any(row):
                out[name] = row
        return out


def _mean(weight: int, summed: int, time: int) -> int:
    """Return the weight's mean over time in units, rounded half away from zero."""
    scaled = UNIT * (weight * time - summed)
    return (2 * abs(scaled) + time) // (2 * time) * (1 if scaled >= 0 else -1)


def train_labels(
    examples: Sequence[tuple[Sequence[str], str]],
    labels: Sequence[str],
    recipe: Recipe,
    start: Mapping[str, Sequence[int]] | None = None,
) -> Linear:
    """Return a model that gives each example's features one of ``labels``; training moves on from
    the weights of ``start``."""
    rows = _Rows((names for names, _label in examples), len(labels), recipe.least, start)
    ready = [(rows.known(names), labels.index(label)) for names, label in examples]
    order = list(range(len(ready)))
    chance = random.Random(1)
    for _ in range(recipe.passes):
        chance.shuffle(order)
        for n in order:
            known, right = ready[n]
            scores = rows.scores(known)
            wrong = max((k for k in range(len(labels)) if k != right), key=lambda k: scores[k])
            if scores[wrong] + recipe.margin > scores[right]:
                rows.move(known, right, wrong)
            rows.time += 1
    return Linear(tuple(labels), rows.mean())
