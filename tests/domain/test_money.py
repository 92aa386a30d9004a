"""Money in whole cents, checked with decimal arithmetic of the standard library."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.domain.money import cents_typed, divided, money, rate, rate_typed, share, spread

cents = st.integers(-(10**9), 10**9)


@given(cents, st.integers(0, 10_000))
def test_a_share_is_what_decimal_arithmetic_rounds_half_up(sum_: int, basis_points: int) -> None:
    # IEEE 754-2008 roundTiesToAway is Decimal's ROUND_HALF_UP.
    exact = Decimal(sum_) * basis_points / 10_000
    assert share(sum_, basis_points) == int(exact.quantize(Decimal(1), ROUND_HALF_UP))


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**6))
def test_division_rounds_half_away_from_zero(number: int, by: int) -> None:
    fraction = Decimal(number) / by
    if abs(fraction - fraction.to_integral_value()) != Decimal("0.5"):
        assert divided(number, by) == int(fraction.quantize(Decimal(1), ROUND_HALF_UP))
    assert divided(-number, by) == -divided(number, by)


@given(cents, st.lists(st.integers(-10_000, 10_000_000), max_size=8))
def test_parts_add_up_to_the_cent(sum_: int, parts: list[int]) -> None:
    given_ = spread(sum_, parts)
    assert len(given_) == len(parts)
    assert sum(given_) == (sum_ if parts else 0)
    total = sum(parts)
    if total:
        for part, one in zip(parts, given_, strict=True):
            assert abs(Decimal(sum_) * part / total - one) < 1


@given(cents)
def test_a_sum_is_read_as_it_is_written(sum_: int) -> None:
    assert cents_typed(money(sum_)) == sum_


@given(st.integers(0, 10_000))
def test_a_rate_is_read_as_it_is_written(basis_points: int) -> None:
    assert rate_typed(rate(basis_points)) == basis_points


@pytest.mark.parametrize(
    ("text", "sum_"),
    [("1,250", 125_000), ("$1250.5", 125_050), (" -80.05 ", -8_005), ("\u22123", -300), (".5", 50), ("0", 0)],
)
def test_sums_as_people_write_them(text: str, sum_: int) -> None:
    assert cents_typed(text) == sum_


@pytest.mark.parametrize(
    "text", ["", "$", "12,50", "1.234", "ten", "1e5", "NaN", "--3", "1 000", "99999999999", "٣"]
)
def test_what_is_no_sum_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        cents_typed(text)


@pytest.mark.parametrize("text", ["", "%", "-1", "100.01", "8.255", "a", "1e1"])
def test_what_is_no_percentage_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        rate_typed(text)
