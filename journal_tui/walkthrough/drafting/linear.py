"""Linear models: what each feature weighs for each label, read from the trained weights file."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache
from importlib.resources import files
from itertools import repeat
from operator import mul
from struct import unpack

WEIGHTS_FILE = "weights.json"
#: A feature's weights are packed into one whole number of so many bits a label, and are added up by one
#: addition a feature; no sum of them is as great as half of what so many bits hold.
_BITS, _HALF = 32, 1 << 31


@dataclass(frozen=True, slots=True, eq=False)
class Linear:
    """Weights (whole numbers) of features for each of ``labels``, and of label pairs in sequences."""

    labels: tuple[str, ...]
    features: Mapping[str, Sequence[int]]
    pairs: Sequence[Sequence[int]] = ()
    _packed: Mapping[str, int] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        places = [1 << _BITS * at for at in range(len(self.labels))]
        packed = {name: sum(map(mul, row, places)) for name, row in self.features.items()}
        object.__setattr__(self, "_packed", packed)

    def scores(self, names: Iterable[str]) -> list[int]:
        """Return the summed weight of ``names`` for each label."""
        size = len(self.labels)
        # So much more that the sum for no label is below zero.
        above = sum(_HALF << _BITS * at for at in range(size))
        total = sum(map(self._packed.get, names, repeat(0)), above)
        return [part - _HALF for part in unpack(f"<{size}I", total.to_bytes(4 * size, "little"))]

    def best(self, names: Iterable[str], among: Sequence[str] | None = None) -> str:
        """Return the label of greatest weight, the first named on a tie, among ``among`` if given."""
        scores = self.scores(names)
        order = [at for at, label in enumerate(self.labels) if among is None or label in among]
        return self.labels[max(order, key=lambda at: scores[at])]

    def reasons(self, names: Iterable[str], label: str, against: str, most: int = 3) -> list[str]:
        """Return the features that pull hardest towards ``label`` rather than ``against``."""
        a, b = self.labels.index(label), self.labels.index(against)
        pulls = [(self.features[n][b] - self.features[n][a], n) for n in set(names) if n in self.features]
        return [name for pull, name in sorted(pulls)[:most] if pull < 0]


@lru_cache(8)
def beside(*models: Linear) -> Linear:
    """Return one model of all labels of ``models``, each after its model's number ("0 yes"): what they
    make of the same features is then one sum."""
    names = {name for model in models for name in model.features}
    nothing = [[0] * len(model.labels) for model in models]
    rows = {
        name: [
            weight for m, none in zip(models, nothing, strict=True) for weight in m.features.get(name, none)
        ]
        for name in names
    }
    return Linear(tuple(f"{n} {label}" for n, model in enumerate(models) for label in model.labels), rows)


Models = Mapping[str, Linear]


def parsed(text: str) -> dict[str, Linear]:
    """Return the models of a weights file's text, by name."""
    # Tuples of numbers, unlike lists, are nothing the collector of garbage has to look through.
    return {
        name: Linear(
            tuple(table["labels"]),
            {feature: tuple(row) for feature, row in table["features"].items()},
            table.get("pairs", ()),
        )
        for name, table in json.loads(text).items()
    }


@cache
def trained() -> dict[str, Linear]:
    """Return the models shipped with the package."""
    return parsed((files(__package__) / "data" / WEIGHTS_FILE).read_text(encoding="utf-8"))
