"""The linear models: feature weights from a data file, and best-sequence decoding."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

#: Labels of an utterance: nothing; or the first, or a later, utterance of an entry of a kind.
LABELS = ("O", "B-observation", "I-observation", "B-decision", "I-decision", "B-next_step", "I-next_step")


def allowed(before: int, after: int) -> bool:
    """True when label ``after`` may follow ``before``: a continuation continues its own kind."""
    name = LABELS[after]
    return not name.startswith("I-") or LABELS[before][2:] == name[2:]


@dataclass(frozen=True, slots=True)
class SequenceModel:
    """Weights of features and of label pairs; ``best`` finds the labels of greatest total weight."""

    features: Mapping[str, Sequence[float]]
    pairs: Sequence[Sequence[float]]

    def scores(self, names: Iterable[str]) -> list[float]:
        """Return the summed weight of ``names`` for each label."""
        total = [0.0] * len(LABELS)
        weights = self.features
        for name in names:
            row = weights.get(name)
            if row is not None:
                total = [a + b for a, b in zip(total, row, strict=True)]
        return total

    def best(self, rows: Sequence[Sequence[float]]) -> list[int]:
        """Return the best label sequence for utterances with these label scores (Viterbi)."""
        return viterbi(rows, self.pairs)


_BEFORE = tuple(tuple(p for p in range(len(LABELS)) if allowed(p, n)) for n in range(len(LABELS)))


def viterbi(rows: Sequence[Sequence[float]], pairs: Sequence[Sequence[float]]) -> list[int]:
    """Return the label sequence with the greatest sum of ``rows`` and ``pairs`` scores."""
    if not rows:
        return []
    current = [rows[0][n] + (0.0 if allowed(0, n) else -1e9) for n in range(len(LABELS))]
    back: list[list[int]] = []
    for row in rows[1:]:
        links: list[int] = []
        following: list[float] = []
        for n, score in enumerate(row):
            best_at, best = 0, -1e18
            for p in _BEFORE[n]:
                total = current[p] + pairs[p][n]
                if total > best:
                    best_at, best = p, total
            links.append(best_at)
            following.append(best + score)
        back.append(links)
        current = following
    at = max(range(len(LABELS)), key=lambda n: current[n])
    path = [at]
    for links in reversed(back):
        at = links[at]
        path.append(at)
    return path[::-1]
