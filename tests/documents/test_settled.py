"""Sentences out of a note, and what was found and is dealt with told as what was."""

from __future__ import annotations

import re

import pytest
from hypothesis import given

from journal_tui.documents import update_markdown
from journal_tui.documents.deeds import told_result
from journal_tui.documents.sentences import sentences
from journal_tui.documents.settled import told_as_past
from journal_tui.domain.kinds import Kind, Party
from tests.documents.samples import fact, facts, lines


@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("the sill is in; it's got a nick; it's on the left",
         ["The sill is in.", "It's got a nick.", "It's on the left."]),
        ("we take the oak; quarter inch, no stain", ["We take the oak: quarter inch, no stain."]),
        ("we set a lamp; the kind that's for rain", ["We set a lamp, the kind that's for rain."]),
        ("R&amp; D", ["R&amp; D."]),
        ("", []),
    ],
)  # fmt: skip
def test_a_note_of_many_parts_is_told_in_sentences(note: str, told: list[str]) -> None:
    """Federal Plain Language Guidelines (March 2011, revision 1 of May 2011), III.b.1: short sentences."""
    assert sentences(note) == told


@given(lines)
def test_no_word_is_lost_between_sentences(text: str) -> None:
    kept = "".join(c for c in "".join(sentences(text)) if c.isalnum()).casefold()
    assert kept == "".join(c for c in text if c.isalnum()).casefold()


@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("the hinge is loose and it squeaks", "the hinge was loose and it squeaked"),
        ("There's mold behind the lath", "There was mold behind the lath"),
        ("the gutter leaks at the end", "the gutter leaked at the end"),
        ("the mason sets two lintels and he seals them", "the mason set two lintels and he sealed them"),
        ("the plumber drops the drain two inches", "the plumber dropped the drain two inches"),
        ("the hinge is loose, the shelf is oak", "the hinge was loose, the shelf is oak"),
        ("the latch is bent and the rail is oak", "the latch was bent and the rail is oak"),
        ("the lamp sits on the shelf", None),
        ("the hinge is loose, it should be changed", None),
        ("the hinge is still loose", None),
        ("the door is loose, it'd hit the rail", None),
        ("the lamp is on new wire and the loose wire is cut off", None),
    ],
)  # fmt: skip
def test_only_what_was_wrong_or_what_a_sub_did_is_told_in_the_past(note: str, told: str | None) -> None:
    assert told_as_past(note, fact(note, "yard")) == told


@given(lines)
def test_any_note_can_be_told_in_the_past_or_not(text: str) -> None:
    told = told_as_past(text, fact(text))
    assert told is None or isinstance(told, str)


def test_the_result_of_an_inspection_was_nobodys_choice() -> None:
    passed = fact("the framing inspection passed on the ninth", "", kind=Kind.DECISION, who=Party.CREW)
    failed = fact("the pressure test failed", "", kind=Kind.DECISION)
    did = fact("we doubled up the rafter", "attic", kind=Kind.DECISION)
    made = update_markdown(facts(decided=(passed, failed, did)))
    assert "What we decided" not in made
    done = made.partition("## What we did so far")[2]
    assert "The framing inspection passed on the ninth." in done and "We doubled up the rafter." in done
    assert "The pressure test failed." in made.partition("## What we did so far")[0]
    assert not told_result("if the inspection passed we close the wall")
    assert not told_result("we want the rough inspection before the board")


def test_what_is_summed_up_is_one_sentence_a_section_that_says_where() -> None:
    work = tuple(
        fact(f"haul off load {n} of old lath and plaster", "attic", kind=Kind.NEXT_STEP) for n in range(60)
    )
    found = tuple(fact(f"the hinge of door {n} is loose on its frame", "porch") for n in range(60))
    made = update_markdown(facts(found=found, done=(*work, *found)))
    assert made.count("more points are done") == 1
    assert re.search(r"On our list, \d+ more points are done, (most of them )?about the (attic|porch)", made)
    assert made.count("We also noted") == 1
