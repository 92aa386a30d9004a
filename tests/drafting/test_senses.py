"""Words that mean much the same, and the endings they are known by."""

from __future__ import annotations

import pytest

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.senses import forms, senses_in, senses_of


@pytest.mark.parametrize(
    ("word", "third", "past", "continuous"),
    # Regular verbs and their spelling: Quirk et al., A Comprehensive Grammar of the English Language
    # (1985), sections 3.5 to 3.9, from memory.
    [
        ("look", "looks", "looked", "looking"),
        ("push", "pushes", "pushed", "pushing"),
        ("grab", "grabs", "grabbed", "grabbing"),
        ("scrape", "scrapes", "scraped", "scraping"),
        ("carry", "carries", "carried", "carrying"),
        ("play", "plays", "played", "playing"),
    ],
)
def test_regular_endings_are_found(word: str, third: str, past: str, continuous: str) -> None:
    assert {word, third, past, continuous} <= forms(word)


def test_a_word_the_talks_have_not_is_known_by_its_like() -> None:
    assert set(senses_of("hauling")) == set(senses_of("haul"))
    assert "rot" in senses_of("cornbread") and "rot" in senses_of("punky")
    assert senses_of("zebra") == ()


def test_each_group_is_named_once_in_order() -> None:
    found = senses_in(["pulled", "pull", "joists"])
    assert found == sorted(set(found)) and "floor_frame" in found


def test_groups_hold_several_words_each_written_once() -> None:
    for name, words in vocabulary.data("senses.toml")["senses"].items():
        assert len(words) >= 4, name
        assert len(words) == len(set(words)), name
        assert all(word == word.casefold() for word in words), name
