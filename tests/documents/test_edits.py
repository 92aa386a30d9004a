"""Edits survive when the facts under a document change."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents import merge_edits, unsettled
from journal_tui.documents.edits import END_MARK, FRESH_MARK, YOURS_MARK

# Few different lines, so that both sides often touch the same place, move lines and repeat them.
texts = st.lists(st.sampled_from(["", "a", "b", "c", "d", "a b", "## h"]), max_size=9).map("\n".join)


def _lines(text: str) -> Counter[str]:
    return Counter(text.split("\n"))


@given(texts, texts)
def test_when_the_facts_did_not_change_his_text_stands(base: str, edited: str) -> None:
    assert merge_edits(base, edited, base).text == edited


@given(texts, texts)
def test_when_he_changed_nothing_the_new_text_stands(base: str, fresh: str) -> None:
    assert merge_edits(base, base, fresh).text == fresh


@given(texts, texts)
def test_when_both_made_the_same_change_it_is_made_once(base: str, both: str) -> None:
    merged = merge_edits(base, both, both)
    assert merged.text == both and not merged.conflicts


@given(texts, texts, texts)
def test_no_line_he_wrote_is_lost(base: str, edited: str, fresh: str) -> None:
    written = _lines(edited) - _lines(base)
    assert not written - _lines(merge_edits(base, edited, fresh).text)


@given(texts, texts, texts)
def test_no_line_the_journal_added_is_lost(base: str, edited: str, fresh: str) -> None:
    added = _lines(fresh) - _lines(base) - _lines(edited)
    assert not added - _lines(merge_edits(base, edited, fresh).text)


@given(texts, texts, texts)
def test_a_conflict_shows_both_wordings_where_it_says(base: str, edited: str, fresh: str) -> None:
    merged = merge_edits(base, edited, fresh)
    assert unsettled(merged.text) == bool(merged.conflicts)
    rows = merged.text.split("\n")
    for conflict in merged.conflicts:
        block = [
            *(YOURS_MARK, "", *conflict.yours.split("\n")),
            *("", FRESH_MARK, "", *conflict.fresh.split("\n"), "", END_MARK),
        ]
        assert rows[conflict.line : conflict.line + len(block)] == block


UPDATE = "# Bath\n\n## What we found\n\n**Floor.** It is soft.\nIt is old.\n\n**Tub.** It leaks.\n"


def test_an_edited_sentence_and_a_new_fact_in_the_same_paragraph() -> None:
    edited = UPDATE.replace("It is soft.", "It gives a little by the door.")
    fresh = UPDATE.replace("It is old.\n", "It is old.\nIt is out of level.\n")
    merged = merge_edits(UPDATE, edited, fresh)
    assert not merged.conflicts
    assert merged.text == edited.replace("It is old.\n", "It is old.\nIt is out of level.\n")


def test_changes_that_only_touch_are_both_taken() -> None:
    edited = UPDATE.replace("It is soft.", "It gives.")
    fresh = UPDATE.replace("It is old.", "It is from 1954.")
    merged = merge_edits(UPDATE, edited, fresh)
    assert not merged.conflicts
    assert "**Floor.** It gives.\nIt is from 1954.\n" in merged.text


def test_what_both_put_in_at_one_place_is_all_kept_his_first() -> None:
    edited, fresh = UPDATE + "\nCall me any time.\n", UPDATE + "\n**Sink.** It drips.\n"
    merged = merge_edits(UPDATE, edited, fresh)
    assert not merged.conflicts
    assert merged.text == UPDATE + "\nCall me any time.\n\n**Sink.** It drips.\n"


def test_what_both_put_in_alike_stands_once_beside_their_other_changes() -> None:
    edited = UPDATE.replace("It is soft.", "It gives.") + "\nThank you.\n"
    fresh = UPDATE.replace("It leaks.", "It drips.") + "\nThank you.\n"
    merged = merge_edits(UPDATE, edited, fresh)
    assert not merged.conflicts
    assert merged.text == edited.replace("It leaks.", "It drips.")


def test_the_same_sentence_changed_by_both_is_shown_twice() -> None:
    edited = UPDATE.replace("It leaks.", "It drips a bit.")
    fresh = UPDATE.replace("It leaks.", "It leaked and is fixed.")
    merged = merge_edits(UPDATE, edited, fresh)
    assert [(c.yours, c.fresh) for c in merged.conflicts] == [
        ("**Tub.** It drips a bit.", "**Tub.** It leaked and is fixed.")
    ]
    assert unsettled(merged.text)
    chosen = [row for row in merged.text.split("\n") if not row.startswith("[[") and "fixed" not in row]
    assert not unsettled("\n".join(chosen))


def test_a_paragraph_he_took_out_stays_out() -> None:
    edited = UPDATE.replace("\n**Tub.** It leaks.\n", "")
    fresh = UPDATE.replace("It is soft.", "It is soft by the door.")
    merged = merge_edits(UPDATE, edited, fresh)
    assert not merged.conflicts
    assert "Tub" not in merged.text and "soft by the door" in merged.text


def test_a_fact_withdrawn_while_he_edited_it_is_asked_about() -> None:
    edited = UPDATE.replace("It leaks.", "It drips.")
    merged = merge_edits(UPDATE, edited, UPDATE.replace("\n**Tub.** It leaks.\n", ""))
    assert len(merged.conflicts) == 1
    assert "**Tub.** It drips." in merged.text


@pytest.mark.parametrize("mark", [YOURS_MARK, FRESH_MARK, END_MARK])
def test_a_mark_left_alone_still_counts(mark: str) -> None:
    assert unsettled(f"text\n  {mark}  \ntext")
    assert not unsettled(f"he typed {mark} inside a line")
