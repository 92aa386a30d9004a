"""The shipped weights are what the shipped data gives, to the byte."""

from __future__ import annotations

import json

import pytest

from journal_tui.walkthrough.drafting.linear import trained
from tests.drafting.labelled import is_machine, machine_copy, walks_in
from tests.drafting.logistic import Example, Regression, exponential, train_regression
from tests.drafting.perceptron import Recipe, train_labels
from tests.drafting.train import WEIGHTS, boundary_model


def test_a_fresh_training_of_the_boundary_model_gives_the_shipped_weights() -> None:
    # The other models take a quarter of a minute: python -m tests.drafting.train --check does all.
    model = boundary_model([machine_copy(walk) for walk in walks_in() if not is_machine(walk)])
    shipped = trained()["boundary"]
    assert {name: tuple(row) for name, row in model.features.items()} == shipped.features


def test_weights_are_whole_numbers_and_sorted() -> None:
    table = json.loads(WEIGHTS.read_text(encoding="utf-8"))
    assert set(table) == {"boundary", "kind", "line", "phase", "open", "who", "danger"}
    for model in table.values():
        names = list(model["features"])
        assert names == sorted(names)
        assert all(isinstance(w, int) for row in model["features"].values() for w in row)


def test_both_trainers_learn_a_separable_rule() -> None:
    examples = [(["bias", f"n{n}", "wet" if n % 2 else "dry"], "bad" if n % 2 else "good") for n in range(40)]
    for model in (
        train_labels(examples, ("good", "bad"), Recipe(5, 5, 1)),
        train_regression([Example(*e) for e in examples], ("good", "bad"), Regression(10, 0.2, 1.0, 1)),
    ):
        assert model.best(["bias", "wet"]) == "bad"
        assert model.best(["bias", "dry"]) == "good"


@pytest.mark.parametrize(("x", "y"), [(0.0, 1.0), (-1.0, 0.36788), (-5.0, 0.0067379), (-2000.0, 0.0)])
def test_our_exponential_is_near_the_table(x: float, y: float) -> None:
    # Values of e^x: Abramowitz and Stegun, Handbook of Mathematical Functions, table 4.4.
    assert exponential(x) == pytest.approx(y, abs=2e-3)
