"""The shipped weights are what the shipped data gives, to the byte."""

from __future__ import annotations

import json

import pytest

from journal_tui.walkthrough.drafting.linear import trained
from tests.drafting.field import Chain, train_field
from tests.drafting.labelled import is_machine, machine_copy, walks_in
from tests.drafting.logistic import Example, Regression, exponential, train_regression
from tests.drafting.perceptron import Recipe, train_labels
from tests.drafting.train import WEIGHTS, boundary_model


def test_a_fresh_training_of_the_boundary_model_gives_the_shipped_weights() -> None:
    # The other models take some minutes: python -m tests.drafting.train --check does all.
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


def test_a_field_learns_what_may_follow_what_and_what_shows_of_each_item() -> None:
    # Rain and dry days, as in the umbrella world: what was the day before tells where nothing is seen.
    rain = Chain((("seen:coat",), (), ("seen:sun",)), (0, 0, 1))
    dry = Chain((("seen:sun",), (), ("seen:sun",)), (1, 1, 1))
    model = train_field(
        [rain, dry] * 20, ("rain", "dry"), ((0, 1), (0, 1)), Regression(20, 0.2, 1.0, 1), unit=300
    )
    assert model.best(["seen:coat"]) == "rain" and model.best(["seen:sun"]) == "dry"
    assert model.pairs[0][0] > model.pairs[1][0]


def test_a_field_never_weighs_a_label_a_chain_cannot_have() -> None:
    known = [Chain((("hot",),), (1,), among=(1, 2)), Chain((("cold",),), (2,), among=(1, 2))] * 20
    model = train_field(
        known, ("none", "warm", "cool"), ((0, 1, 2),) * 3, Regression(20, 0.2, 1.0, 1), unit=300
    )
    assert model.best(["hot"]) == "warm" and model.best(["cold"]) == "cool"
    assert model.features["hot"][0] == 0 == model.features["cold"][0]


@pytest.mark.parametrize(("x", "y"), [(0.0, 1.0), (-1.0, 0.36788), (-5.0, 0.0067379), (-2000.0, 0.0)])
def test_our_exponential_is_near_the_table(x: float, y: float) -> None:
    # Values of e^x: Abramowitz and Stegun, Handbook of Mathematical Functions, table 4.4.
    assert exponential(x) == pytest.approx(y, abs=2e-3)
