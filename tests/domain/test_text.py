"""Text from people is kept as given and never acts when shown."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.text import folded, one_line, storable, visible

any_text = st.text(st.characters(exclude_categories=()))


@given(st.text())
def test_sound_text_without_nul_is_stored_as_it_is(text: str) -> None:
    assert storable(text) == text.replace("\x00", "\ufffd")


@given(any_text)
def test_stored_text_always_encodes(text: str) -> None:
    assert storable(text).encode("utf-8").decode("utf-8") == storable(text)
    assert len(storable(text)) == len(text)


@given(any_text)
def test_nothing_shown_is_a_control_or_turns_direction(text: str) -> None:
    shown = visible(text)
    assert not [c for c in shown if unicodedata.category(c) == "Cc" and c not in "\n\t"]
    # UAX #9, table 4: the explicit directional formatting characters.
    assert not set(shown) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c")


@given(any_text)
def test_one_line_is_one_line(text: str) -> None:
    assert len(one_line(text).splitlines()) <= 1
    assert "\t" not in one_line(text)


def test_escape_is_seen_not_obeyed() -> None:
    assert visible("\x1b[31mred\x1b[0m") == "␛[31mred␛[0m"


def test_folding_meets_wide_and_cased_forms() -> None:
    assert folded("  Hall\tBATH ½ ") == folded("hall bath ½")
    assert folded("Straße") == folded("STRASSE")
