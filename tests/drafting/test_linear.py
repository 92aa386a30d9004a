"""Sums of weights are right however they are made."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from journal_tui.walkthrough.drafting.boundaries import CUT, RUNS_ON, Pulls, gap_features
from journal_tui.walkthrough.drafting.linear import Linear, beside
from journal_tui.walkthrough.drafting.words import words_in

_NAMES = st.sampled_from("abcdefgh")
_WEIGHT = st.integers(-900_000, 900_000)


def _linear(size: int) -> st.SearchStrategy[Linear]:
    rows = st.lists(_WEIGHT, min_size=size, max_size=size)
    return st.builds(Linear, st.just(tuple("klmnopq"[:size])), st.dictionaries(_NAMES, rows))


@given(st.data(), st.integers(1, 7), st.lists(_NAMES, max_size=200))
def test_weights_packed_in_one_number_add_up_as_they_do_one_by_one(
    data: st.DataObject, size: int, names: list[str]
) -> None:
    model = data.draw(_linear(size))
    one_by_one = [sum(model.features[n][at] for n in names if n in model.features) for at in range(size)]
    assert model.scores(names) == one_by_one


@given(_linear(2), _linear(3), st.lists(_NAMES, max_size=30))
def test_models_beside_each_other_give_what_each_gives(one: Linear, other: Linear, names: list[str]) -> None:
    both = beside(one, other)
    assert both.labels == ("0 k", "0 l", "1 k", "1 l", "1 m")
    assert both.scores(names) == one.scores(names) + other.scores(names)


_SAID = st.lists(
    st.sampled_from("so we the valve it leaks and then tile goes up here pull out 12".split()), min_size=2
)


@given(_SAID, st.integers(1, 15), st.dictionaries(st.text("abcdefghi:_ ", max_size=8), st.integers(-90, 90)))
def test_a_gap_pulls_as_the_sum_of_its_features(said: list[str], since: int, odd: dict[str, int]) -> None:
    words = words_in(" ".join(said))
    names = [name for at in range(len(words) - 1) for name in gap_features(words, at, since)]
    weights = {name: [at % 7, at % 11 - 5] for at, name in enumerate(dict.fromkeys([*names, *odd]))}
    model = Linear((RUNS_ON, CUT), weights)
    pulls = Pulls(model)
    for at in (*range(len(words) - 1), 0):
        on, cut = model.scores(gap_features(words, at, since))
        assert pulls.of(words, at, since) == cut - on
