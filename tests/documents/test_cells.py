"""Terminal width and wrapping."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from journal_tui.documents.cells import cell_width, padded, wrapped
from journal_tui.domain.text import one_line

_shown = st.text(max_size=60).map(one_line)


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        ("tub wall", 8),
        ("", 0),
        ("床タイル", 8),  # UAX #11: W
        ("ｱｲ", 2),  # UAX #11: H
        ("ＡＢ", 4),  # UAX #11: F
        ("e\u0301", 1),  # a combining mark
        ("a\u200bb", 2),  # zero width space
        ("한글", 4),
        ("é", 1),
    ],
)
def test_width(text: str, cells: int) -> None:
    assert cell_width(text) == cells


@given(st.text(alphabet=st.characters(max_codepoint=0x1FFF, exclude_categories=["C", "M"]), max_size=40))
def test_width_is_that_of_the_library_that_draws_our_screens(text: str) -> None:
    assert cell_width(text) == cell_len(text)


@given(_shown, st.integers(2, 40))
def test_wrapped_lines_fit_and_lose_nothing(text: str, width: int) -> None:
    made = wrapped(text, width)
    assert all(cell_width(line) <= width for line in made)
    assert "".join("".join(made).split()) == "".join(text.split())


def test_words_are_broken_only_when_they_must_be() -> None:
    assert wrapped("set the new closet flange", 10) == ["set the", "new closet", "flange"]
    assert wrapped("a 床床床床 b", 5) == ["a", "床床", "床床", "b"]
    assert wrapped("", 10) == [""]
    assert wrapped("x" * 10, 5) == ["xxxxx", "xxxxx"]


@given(_shown, st.integers(0, 40))
def test_padding_fills_to_the_width(text: str, width: int) -> None:
    made = padded(text, width)
    assert made.startswith(text)
    assert cell_width(made) == max(width, cell_width(text))
