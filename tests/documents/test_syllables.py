"""Syllables, against the Carnegie Mellon Pronouncing Dictionary."""

from __future__ import annotations

import pytest

from journal_tui.documents.syllables import syllables_in
from journal_tui.documents.wording import data_table

#: Syllables of words a letter to a home owner uses: how many vowels the dictionary's entries have
#: (cmudict.dict of 2024; where it gives several ways to say a word, one of them).
CMU = {
    1: """board pipe tile floor wall leak joist grout niche valve drain trap door paint cut stairs light
          vent flange plank screwed glued tiled closed cured breathes should through tub""",
    2: """toilet plumbing window bathroom shower mirror water copper plaster mortar faucet framing corner
          kitchen carpet timber solder plywood sealant panel flooring drying lying client needed painted
          boxes hinges little table being seeing create driveway basement careful lately something wooden
          concrete ceiling pressure owner lawyer threshold valiant""",
    3: """area electric cabinet vanity inspector carpenter galvanized adhesive ventilate remodel radiant
          deliver replacement medium piano allowance carpenters museum poetry idea finally usable
          audience Australian reptilian Italian familiar""",
    4: """electrician ventilation humidity appliances insulation material interior exterior television
          January necessary usually variation immediate society""",
    5: """refrigerator electricity opportunity immediately possibility evacuated""",
}


def test_words_have_the_syllables_the_dictionary_gives() -> None:
    wrong = {
        word: (syllables_in(word), count)
        for count, words in CMU.items()
        for word in words.split()
        if syllables_in(word) != count
    }
    assert not wrong


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("P-trap", 2),
        ("well-kept", 2),
        ("3/4", 1),
        ("1,250", 1),
        ("GFCI", 1),
        ("40%", 1),
        ("don't", 1),
        ("doesn't", 2),
        ("owner's", 2),
        ("bosses'", 2),
        ("“niche.”", 1),
        ("x", 1),
        ("&", 1),
        ("", 1),
        ("Тамбур", 1),
    ],
)
def test_pieces_that_are_no_plain_words(text: str, count: int) -> None:
    assert syllables_in(text) == count


def test_every_exception_is_needed() -> None:
    known = dict(data_table("syllables.toml")["counts"])
    idle = []
    for word, count in known.items():
        table = data_table("syllables.toml")["counts"]
        del table[word]
        _forget()
        if syllables_in(word) == count:
            idle.append(word)
        table[word] = count
    _forget()
    assert not idle


def _forget() -> None:
    from journal_tui.documents import syllables

    syllables._part.cache_clear()
