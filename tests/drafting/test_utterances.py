"""Sentence and clause cutting, negation and modality.

The examples are made after the clause types of Huddleston and Pullum, "A Student's Introduction to
English Grammar" (Cambridge 2005): coordination (ch. 14), clause type (ch. 9), mood and modality
(ch. 3, sections 8 and 9), negation (ch. 8); sections from memory, sentences our own.
"""

from __future__ import annotations

import pytest

from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting.features import clause_of
from journal_tui.walkthrough.drafting.linear import trained
from journal_tui.walkthrough.drafting.utterances import Utterance, punctuated, utterances_of
from journal_tui.walkthrough.drafting.words import words_of


def cut(*lines: str, seconds: float = 4.0) -> list[Utterance]:
    """Return the utterances of lines spoken one after another."""
    cues = tuple(Cue(n * seconds, (n + 1) * seconds, line) for n, line in enumerate(lines))
    captions = Captions("t", "webvtt", cues, "", "")
    return utterances_of(words_of(captions), trained()["boundary"])


def said(utterances: list[Utterance]) -> list[str]:
    """Return the words of each utterance."""
    return [u.said for u in utterances]


def test_a_sentence_is_rebuilt_across_cue_breaks() -> None:
    assert said(cut("I think the window", "was painted shut.", "It opens now.")) == [
        "I think the window was painted shut.",
        "It opens now.",
    ]


def test_coordinate_clauses_with_their_own_subjects_are_parted() -> None:
    found = said(cut("The door was rehung last week, and it closes without a sound. We left."))
    assert found[0].startswith("The door was rehung last week,")
    assert found[1].startswith("and it closes")


def test_coordinate_phrases_stay_together() -> None:
    assert len(cut("Sam bought paint, brushes and rollers. He came home.")) == 2


@pytest.mark.parametrize(
    ("talk", "head"),
    [
        ("she wrote the letter yesterday afternoon and then she took it to the office on the corner", "and"),
        ("they wanted to leave before the rain so they loaded the truck right after breakfast", "so"),
        ("the soup was cold by the time it came but nobody at the table said a word about it", "but"),
    ],
)
def test_unpunctuated_talk_is_cut_at_its_joints(talk: str, head: str) -> None:
    assert head in [u.keys[0] for u in cut(talk)[1:]]


def test_times_are_shared_out_by_the_words() -> None:
    first, second = cut("I opened the first box today. I opened the other one later.", seconds=8.0)
    assert first.start == 0.0 and abs(first.end - 4.0) < 1.0
    assert abs(second.start - first.end) < 0.01 and second.end == 8.0


def test_lower_case_talk_without_stops_is_not_taken_for_punctuated() -> None:
    def words(text: str) -> bool:
        return punctuated(words_of(Captions("t", "webvtt", (Cue(0, 9, text),), "", "")))

    assert words("I saw it. It was red.")
    assert not words("i saw it and it was red and i went home")
    assert not words("i saw the. red one and. the blue one i think is. better")


def signs(sentence: str) -> set[str]:
    """Return the features of a one-clause sentence."""
    (utterance,) = cut(sentence)
    return set(clause_of(utterance).own)


@pytest.mark.parametrize(
    "sentence",
    [
        "He does not like it.",
        "Nobody saw the accident.",
        "They never wrote.",
        "It isn't raining.",
        "She left without paying.",
    ],
)
def test_verbal_and_other_negation_is_seen(sentence: str) -> None:
    assert "g:negation" in signs(sentence)


@pytest.mark.parametrize("sentence", ["He likes it.", "Everybody saw the accident.", "They wrote often."])
def test_no_negation_is_seen_in_positive_clauses(sentence: str) -> None:
    assert "g:negation" not in signs(sentence)


@pytest.mark.parametrize(
    ("sentence", "sign"),
    [
        ("You must tell her the truth.", "s:need"),
        ("You need to leave by ten.", "s:request"),
        ("He has got to finish it.", "s:need"),
        ("They will arrive tomorrow.", "g:modal"),
        ("It might have been stolen.", "g:condition"),
        ("If it had rained we would have stayed.", "g:condition"),
    ],
)
def test_modality_is_seen(sentence: str, sign: str) -> None:
    assert sign in signs(sentence)


@pytest.mark.parametrize("sentence", ["Call her.", "Please move the chair.", "Bring the other one."])
def test_imperatives_are_seen(sentence: str) -> None:
    assert "g:imperative" in signs(sentence)


@pytest.mark.parametrize("sentence", ["She called her.", "I moved the chair.", "He brings the other one."])
def test_declaratives_are_not_imperatives(sentence: str) -> None:
    assert "g:imperative" not in signs(sentence)
