"""Sizes, counts, dates and sums found as said."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.text import plain_letters
from journal_tui.walkthrough.drafting.measures import _LETTERS, _MEASURE, measures_in
from tests.drafting.score import plain_words

_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen".split()
)
_ONES += "sixteen seventeen eighteen nineteen".split()
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
_PARTS = {
    2: ("half", "halves"),
    4: ("quarter", "quarters"),
    8: ("eighth", "eighths"),
    16: ("sixteenth", "sixteenths"),
}


def spelled(number: int) -> str:
    """Return 0 to 99 in words (the English rule: tens, hyphen, ones)."""
    if number < 20:
        return _ONES[number]
    tens, ones = divmod(number, 10)
    return _TENS[tens - 2] + (f"-{_ONES[ones]}" if ones else "")


@given(st.integers(2, 99), st.sampled_from(["inches", "feet", "pounds", "percent", "sheets", "weeks"]))
def test_spelled_counts_are_found_and_another_parser_reads_the_same_number(number: int, unit: str) -> None:
    (found,) = measures_in(f"it is about {spelled(number)} {unit} by the tape")
    assert found == f"{spelled(number)} {unit}"
    # The scorer's own number reader shares no code with the drafter's.
    assert plain_words(found)[0] == str(number)


@pytest.mark.parametrize("parts", [4, 8, 16])
def test_spelled_fractions_are_found(parts: int) -> None:
    for over in range(3, parts, 2):
        value = Fraction(over, parts)
        found = measures_in(f"trim {_ONES[over]} {_PARTS[parts][1]} of an inch off")
        assert found, value
        assert plain_words(found[0])[0] == f"{over}/{parts}"


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("the gap is 3/8 wide", ("3/8",)),
        ("order two sheets and a case of glue by Friday", ("two sheets", "Friday")),
        ("that adds $450 to the price", ("$450",)),
        ("sixty-seven and three eighths", ("sixty-seven and three eighths",)),
        ("the joists are sixteen on center", ("sixteen on center",)),
        ("the plumber is here on the fifth", ("the fifth",)),
        ("tile by the twenty second and grout the 24th", ("the twenty second", "the 24th")),
        # Words that only end as an ordinal does.
        ("paint the bath along the north wall, the width of the path", ()),
        ("it is fine", ()),
    ],
)
def test_measures_as_said(said: str, found: tuple[str, ...]) -> None:
    assert measures_in(said) == found


@given(st.from_regex(_MEASURE))
def test_every_text_with_a_measure_has_the_letters_looked_for_first(said: str) -> None:
    assert any(letters in plain_letters(said) for letters in _LETTERS)
