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
        whole = draft.text.endswith("to speak of")
        cut_off = ("the", "a", "an", "and", "but", "or", "because", "of", "my", "your")
        assert whole or last not in cut_off, draft.text
        assert draft.text[:1] == draft.text[:1].upper() and draft.text[-1] not in ",;:-", draft.text
        assert "  " not in draft.text and not {"um", "uh"} & {key_of(w.strip(",;:")) for w in words}


def _names(text: str) -> bool:
    from journal_tui.walkthrough.drafting import vocabulary

    keys = [part for word in words_in(text) for part in word.key.split("-")]
    return bool(vocabulary.things().longest(keys) or vocabulary.areas().longest(keys))


@every
def test_a_text_names_what_its_words_name(name: str) -> None:
    named = [draft for draft in drafts_of(name, False)[1] if _names(draft.heard)]
    assert sum(_names(draft.text) for draft in named) >= 0.8 * len(named)


def test_three_texts_of_four_name_what_they_are_about() -> None:
    # Some speakers stay on one thing for a minute and name it once.
    drafts = [draft for name in WALKS for draft in drafts_of(name, False)[1]]
    named = [draft for draft in drafts if _names(draft.heard)]
    assert sum(_names(draft.text) for draft in drafts) >= 0.75 * len(drafts)
    assert sum(_names(draft.text) for draft in named) >= 0.97 * len(named)
