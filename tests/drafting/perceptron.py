"""Averaged perceptrons with a margin, in whole numbers: the same bytes on every machine.

After Collins, "Discriminative Training Methods for Hidden Markov Models" (EMNLP 2002): decode, and
where the best answer is wrong move the weights towards the right one; the mean over all steps is
kept. A wrong answer is given a head start of ``margin`` so that right ones must win clearly.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting.linear import Linear

#: The mean weights are kept in tenths, rounded to whole numbers.
UNIT = 10


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a model is trained: passes over the data, head start of wrong answers, in how many examples
    a feature must occur to count, and how many orderings of the data are trained on and averaged."""

    passes: int
    margin: int
    least: int
    rounds: int = 1


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


Decoder = Callable[[Sequence[Sequence[int]], Sequence[Sequence[int]]], list[int]]


def train_sequences(
    sequences: Sequence[tuple[Sequence[Sequence[str]], Sequence[int]]],
    labels: Sequence[str],
    recipe: Recipe,
    decode: Decoder,
) -> Linear:
    """Return a model that labels every item of a sequence, with weights for label pairs: the mean of
    those trained on ``recipe.rounds`` orderings."""
    found = [_sequence_model(sequences, labels, recipe, decode, seed + 1) for seed in range(recipe.rounds)]
    names = sorted({name for model in found for name in model.features})
    nothing = [0] * len(labels)
    rows = {name: _middle([model.features.get(name, nothing) for model in found]) for name in names}
    pairs = [_middle([model.pairs[at] for model in found]) for at in range(len(labels))]
    return Linear(tuple(labels), {name: row for name, row in rows.items() if any(row)}, pairs)


def _middle(rows: Sequence[Sequence[int]]) -> list[int]:
    return [sum(column) // len(rows) for column in zip(*rows, strict=True)]


def _sequence_model(
    sequences: Sequence[tuple[Sequence[Sequence[str]], Sequence[int]]],
    labels: Sequence[str],
    recipe: Recipe,
    decode: Decoder,
    seed: int,
) -> Linear:
    size = len(labels)
    rows = _Rows((names for items, _right in sequences for names in items), size, recipe.least)
    pairs = [[0] * size for _ in labels]
    sums = [[0] * size for _ in labels]
    ready = [([rows.known(names) for names in items], list(right)) for items, right in sequences]
    order = list(range(len(ready)))
    chance = random.Random(seed)
    for _ in range(recipe.passes):
        chance.shuffle(order)
        for n in order:
            items, right = ready[n]
            scores = [rows.scores(known) for known in items]
            for row, label in zip(scores, right, strict=True):
                for k in range(size):
                    row[k] += recipe.margin if k != label else 0
            path = decode(scores, pairs)
            for at, known in enumerate(items):
                if path[at] != right[at]:
                    rows.move(known, right[at], path[at])
                if at and (path[at - 1], path[at]) != (right[at - 1], right[at]):
                    for before, after, step in (
                        (right[at - 1], right[at], 1),
                        (path[at - 1], path[at], -1),
                    ):
                        pairs[before][after] += step
                        sums[before][after] += step * rows.time
            rows.time += 1
    mean = [
        [_mean(w, s, rows.time) for w, s in zip(a, b, strict=True)] for a, b in zip(pairs, sums, strict=True)
    ]
    return Linear(tuple(labels), rows.mean(), mean)
