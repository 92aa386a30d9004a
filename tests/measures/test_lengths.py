"""Lengths as people write them. Conversions are checked against pint's unit registry."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.measures.fractions import dash, display, feet_inches, inches, mixed, to_sixteenth
from journal_tui.measures.lengths import board_feet, parse_length, parse_lumber, parse_signed

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()


@pytest.mark.parametrize(
    ("text", "inches_"),
    [
        ("12-3", F(147)),
        ("12' 3\"", F(147)),
        ("12ft 3in", F(147)),
        ("12 ft. 3 in.", F(147)),
        ("12’ 3½”", F(295, 2)),
        ("5'6", F(66)),
        ("12-3 1/2", F(295, 2)),
        ("12-3-1/2", F(295, 2)),
        ('3/4"', F(3, 4)),
        ("1 5/8", F(13, 8)),
        ("147 in", F(147)),
        ("12-9", F(153)),  # 12 ft 9 in, never 12.9
        ("12.9 ft", F(774, 5)),
        ("3.5 m", F(17500, 127)),
        ("19 mm", F(95, 127)),
        ("1 m 20 cm", F(6000, 127)),
        (".5 in", F(1, 2)),
    ],
)
def test_reads_what_people_write(text: str, inches_: F) -> None:
    assert parse_length(text) == inches_


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("12", ("12 in", "12 ft")),
        ("12.9", ("12.9 in", "12.9 ft")),
        ("1-5/8", ('1 5/8"', "1' 5/8\"")),
        ("12 3", ("12' 3\"", '123"')),
        ("1,5 m", ("1.5 m", "15 m")),
    ],
)
def test_two_readings_are_asked_about(text: str, readings: tuple[str, str]) -> None:
    with pytest.raises(BadInput) as caught:
        parse_length(text, "span")
    assert all(reading in caught.value.body for reading in readings)
    assert caught.value.title.startswith("span")


@pytest.mark.parametrize(
    "text",
    (
        "|0 in|-3 in|nan|inf ft|1e5 in|12-15|3 ft 14 in|5 ft 20 mm|3 in 2 in|2x10|1/0 in|99999 ft|"
        "twelve|4 cubits|1 2 3 in"
    ).split("|"),
)
def test_refuses_and_names_the_field(text: str) -> None:
    with pytest.raises(BadInput, match="room width"):
        parse_length(text, "room width")


def test_a_plain_number_is_fine_where_the_field_says_its_unit() -> None:
    assert parse_length("16", "spacing", bare="in") == 16
    assert parse_length("8", "rise", bare="ft") == 96
    assert parse_signed("-2 1/2 in") == F(-5, 2)


@pytest.mark.parametrize("unit", ["in", "ft", "mm", "cm", "m"])
@given(number=st.decimals(min_value="0.01", max_value="90", places=2))
def test_units_agree_with_pint(unit: str, number: object) -> None:
    ours = parse_length(f"{number} {unit}")
    theirs = UNITS.Quantity(float(str(number)), unit).to("inch").magnitude
    assert float(ours) == pytest.approx(theirs, rel=1e-12)


_PIECES = st.sampled_from(
    ["12", "3", "1/2", "-", "'", '"', " ", "ft", "in", "mm", "m", ".", "½", "x", "0", ",", "/"]
)


@given(st.one_of(st.text(max_size=30), st.lists(_PIECES, max_size=8).map("".join)))
def test_anything_typed_is_a_length_or_refused_in_words(text: str) -> None:
    try:
        assert parse_length(text, "span") > 0
    except BadInput as error:
        assert error.title.startswith("span")
        assert error.body


@given(st.integers(min_value=1, max_value=16 * 12 * 99))
def test_what_is_shown_reads_back_exactly(sixteenths: int) -> None:
    length = F(sixteenths, 16)
    assert parse_length(display(length)) == length
    assert parse_length(feet_inches(length)) == length


@given(st.fractions(min_value=0, max_value=1000))
def test_nearest_sixteenth_is_never_off_by_more_than_a_thirty_second(length: F) -> None:
    assert abs(to_sixteenth(length) - length) <= F(1, 32)


def test_the_true_value_stays_beside_a_rounded_one() -> None:
    assert inches(F(95, 127)) == "about 3/4 in (0.748 in true)"
    assert inches(F(669, 16)) == "41 13/16 in"
    assert mixed(F(-13, 8)) == "-1 5/8"
    assert dash(F(14736, 100)) == "12-3"


# American Softwood Lumber Standard PS 20, Table 3, dry dressed sizes (from memory).
@pytest.mark.parametrize(
    ("nominal", "thickness", "depth"),
    [
        ("2x4", F(3, 2), F(7, 2)),
        ("2x6", F(3, 2), F(11, 2)),
        ("2x8", F(3, 2), F(29, 4)),
        ("2 x 10", F(3, 2), F(37, 4)),
        ("2x12", F(3, 2), F(45, 4)),
        ("1x4", F(3, 4), F(7, 2)),
        ("5/4x6", F(1), F(11, 2)),
        ("4x4", F(7, 2), F(7, 2)),
    ],
)
def test_nominal_lumber_knows_its_dressed_size(nominal: str, thickness: F, depth: F) -> None:
    lumber = parse_lumber(nominal)
    assert (lumber.thickness, lumber.depth) == (thickness, depth)


@pytest.mark.parametrize("text", ["2x7", "10x2", "2", "x", "2x10x16", "0x4"])
def test_refuses_lumber_nobody_mills(text: str) -> None:
    with pytest.raises(BadInput):
        parse_lumber(text, "joist")


def test_board_feet() -> None:
    # Nominal t x w x L / 12, "Material Selection, Dimensions, and Span Tables": 2x10x16 is 26.67.
    assert board_feet(parse_lumber("2x10"), F(16 * 12)) == F(80, 3)
