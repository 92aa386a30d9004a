"""Every text of every labelled walk-through: short, whole, and nothing in it that was not said."""

from __future__ import annotations

from functools import cache

import pytest

from journal_tui.domain.draft import Draft
from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.drafting import draft_entries
from journal_tui.walkthrough.drafting.clauses import LONGEST_TEXT
from journal_tui.walkthrough.drafting.cleaning import rules
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.words import key_of, words_in, words_of
from tests.drafting.labelled import machine_copy, walks_in
from tests.drafting.score import Walk

WALKS = {walk.name: walk for walk in walks_in()[::4]}


@cache
def drafts_of(name: str, machine: bool) -> tuple[Captions, tuple[Draft, ...]]:
    """Return the captions (as a machine would write them, if asked) and the drafts of a walk-through."""
    walk: Walk = machine_copy(WALKS[name]).walk if machine else WALKS[name]
    return walk.captions, draft_entries(walk.captions)


each = pytest.mark.parametrize("machine", [False, True])
every = pytest.mark.parametrize("name", list(WALKS))


@every
@each
def test_every_word_was_said(name: str, machine: bool) -> None:
    captions, drafts = drafts_of(name, machine)
    said = {
        part for word in repaired(words_of(captions)) for part in word.key.replace(" ", "-").split("-")
    } | {word.key for word in repaired(words_of(captions))}
    said |= {key.removesuffix("s") for key in said}  # "the drain's cracked" names the drain
    said |= {*rules()["in_full"].values(), "has", "the"}  # a contraction in full, a thing's article
    for draft in drafts:
        for word in words_in(draft.text):
            assert {word.key, *word.key.split("-")} & said, (word.key, draft.text)


@every
@each
def test_texts_are_short_and_whole(name: str, machine: bool) -> None:
    _captions, drafts = drafts_of(name, machine)
    assert drafts
    for draft in drafts:
        words = draft.text.split()
        assert 1 <= len(words) <= LONGEST_TEXT, draft.text
        first, last = key_of(words[0].strip(",;:")), key_of(words[-1])
        assert first not in ("and", "but", "so", "because", "or"), draft.text
        assert last not in ("the", "a", "an", "and", "but", "or", "because", "of", "my", "your"), draft.text
        assert draft.text[:1] == draft.text[:1].upper() and draft.text[-1] not in ",;:-", draft.text
        assert "  " not in draft.text and not {"um", "uh"} & {key_of(w.strip(",;:")) for w in words}


def _named(name: str) -> tuple[int, int]:
    """Return how many texts of a walk-through name a thing or a place, and how many there are."""
    from journal_tui.walkthrough.drafting import vocabulary

    _captions, drafts = drafts_of(name, False)
    keys = [[part for w in words_in(d.text) for part in w.key.split("-")] for d in drafts]
    named = sum(bool(vocabulary.things().longest(k) or vocabulary.areas().longest(k)) for k in keys)
    return named, len(drafts)


@every
def test_a_third_and_more_of_the_texts_name_what_they_are_about(name: str) -> None:
    # Some speakers stay on one thing for a minute and name it once.
    named, count = _named(name)
    assert named >= 0.35 * count


def test_three_texts_of_four_name_what_they_are_about() -> None:
    counts = [_named(name) for name in WALKS]
    assert sum(named for named, _n in counts) >= 0.75 * sum(count for _n, count in counts)
