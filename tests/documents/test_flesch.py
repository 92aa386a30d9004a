"""Flesch and Flesch-Kincaid, on published examples and on what is and is not prose."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents import readability, update_markdown
from journal_tui.documents.flesch import Readability, measured, sentences_in
from journal_tui.domain.document import UpdateFacts
from tests.documents.samples import update_facts


@pytest.mark.parametrize(
    ("words", "sentences", "syllables", "grade", "ease"),
    [
        # "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature": the worked
        # example of the encyclopedia article on the Flesch-Kincaid tests: 24 syllables, 13 words, grade
        # 11.3. The ease follows from the formula.
        (13, 1, 24, 11.3, 37.5),
        # The same article: the lowest grade there can be is -3.40, one word of one syllable; 121.22 is
        # the highest ease.
        (1, 1, 1, -3.4, 121.2),
        # The same article: a children's book of 5.7 words a sentence and 1.02 syllables a word, -1.3.
        (570, 100, 581, -1.3, 114.8),
    ],
)
def test_the_formulas_give_the_published_figures(
    words: int, sentences: int, syllables: int, grade: float, ease: float
) -> None:
    found = measured(words, sentences, syllables)
    assert round(found.grade, 1) == grade
    assert round(found.ease, 1) == ease


def test_the_published_sentence_is_counted_as_published() -> None:
    found = readability("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.")
    assert (found.words, found.sentences, found.syllables) == (13, 1, 24)
    assert round(found.grade, 1) == 11.3
    assert not found.plain


def test_two_kept_texts_are_counted_by_hand() -> None:
    # Opening of the Gettysburg Address (1863), 30 words in one sentence; syllables counted by hand.
    lincoln = (
        "Four score and seven years ago our fathers brought forth on this continent, a new nation, "
        "conceived in Liberty, and dedicated to the proposition that all men are created equal."
    )
    found = readability(lincoln)
    assert (found.words, found.sentences) == (30, 1)
    # four score and sev-en years a-go our fa-thers brought forth on this con-ti-nent a new na-tion
    # con-ceived in lib-er-ty and ded-i-cat-ed to the prop-o-si-tion that all men are cre-at-ed e-qual
    assert found.syllables == 48
    rhyme = "Jack and Jill went up the hill to fetch a pail of water. Jack fell down and broke his crown."
    found = readability(rhyme)
    assert (found.words, found.sentences, found.syllables) == (20, 2, 21)
    assert found.plain


def test_headings_and_labels_and_code_are_not_prose() -> None:
    prose = readability("The floor is dry.\n\nThe wall is wet.\n")
    dressed = readability(
        "# An extraordinarily polysyllabic heading\n\n## Another\n\n**Particularly.** The *floor* is dry.\n\n"
        "1. **Vanity.** The wall is **wet**.\n\n```\ncode goes here\n```\n"
    )
    assert dressed == prose == Readability(8, 2, 8, prose.grade, prose.ease)


def test_a_strong_word_inside_a_sentence_is_prose() -> None:
    assert readability("The **floor** is dry.").words == 4


def test_a_list_item_without_a_full_stop_is_a_sentence() -> None:
    assert readability("- two soft planks\n- one wet wall\n").sentences == 2


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("One. Two! Three? Four… Five", 5),
        ("It is 2.5 in. thick and 1 ft. wide.", 1),
        ("He said “Stop.” We did.", 2),
        ("Call J. Doe. He knows.", 2),
        ("See no. 4 at 9 a.m. or later.", 1),
        ("It is 4 in. The rest is dry.", 2),
        ("Really?! Yes...", 2),
        ("", 0),
        ("...", 1),
    ],
)
def test_where_sentences_end(text: str, sentences: int) -> None:
    assert len(sentences_in(text)) == sentences


def test_numbers_are_one_syllable_each() -> None:
    # Flesch, "How to Write Plain English", chapter 2: count what figures and symbols stand for as one.
    assert readability("Set 127 at 3/4.").syllables == 4


def test_a_text_without_words_has_no_grade() -> None:
    assert readability("") == readability("# Only a heading") == Readability(0, 0, 0, 0.0, 0.0)
    assert str(readability("The floor is dry.")) == "grade -2.2, reading ease 118, 4 words"


@given(update_facts)
def test_any_update_can_be_measured(some: UpdateFacts) -> None:
    found = readability(update_markdown(some))
    assert found.words >= found.sentences > 0
    assert found.syllables >= found.words
    assert math.isfinite(found.grade) and math.isfinite(found.ease)


@given(st.integers(1, 500), st.integers(1, 50), st.floats(1, 4))
def test_longer_sentences_and_longer_words_are_never_easier(w: int, s: int, per_word: float) -> None:
    base = measured(w, s, round(w * per_word))
    assert measured(w * 2, s, round(w * per_word) * 2).grade > base.grade
    assert measured(w, s, round(w * per_word) + 1).ease < base.ease
