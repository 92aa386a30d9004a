"""Words of cues: which full stops end a sentence (common practice, no source)."""

from __future__ import annotations

import pytest

from journal_tui.walkthrough.drafting.utterances import punctuated
from journal_tui.walkthrough.drafting.words import words_in


def ends(line: str) -> list[str]:
    """Return the words of ``line`` a full stop ends a sentence after."""
    return [w.text for w in words_in(line) if "." in w.mark]


@pytest.mark.parametrize(
    ("line", "last"),
    [
        ("Mrs. Pell's bath is open. Mr. Alder came.", ["open", "came"]),
        ("Ask Dr. Moss. Ms. Reed paid.", ["Moss", "paid"]),
        ("It is approx. ten feet.", ["feet"]),
        ("Move it 3 in. left.", ["left"]),
        ("Cut 12 ft. of pipe.", ["pipe"]),
        ("The vanity is in. We set it.", ["in", "it"]),
        ("It is 12 ft. We measured.", ["ft", "measured"]),
        ("See No. 4 first.", ["first"]),
        ("I said no. Four of them said yes.", ["no", "yes"]),
        ("St. Clair tile came.", ["came"]),
        ("We are on Elm St. The door is blue.", ["St", "blue"]),
    ],
)
def test_an_abbreviation_ends_no_sentence(line: str, last: list[str]) -> None:
    assert ends(line) == last


def test_the_stop_stays_with_its_word_and_nothing_is_lost() -> None:
    words = words_in("Mrs. Pell's vanity is 3 in. left.")
    assert [w.text + w.mark for w in words] == ["Mrs.", "Pell's", "vanity", "is", "3", "in.", "left."]
    assert [w.key for w in words][:2] == ["mrs", "pells"]


def test_full_stops_of_abbreviations_alone_are_no_punctuation() -> None:
    assert not punctuated(words_in("mr. alder and mrs. pell and dr. moss were in the house " * 3))
