"""Blame, alarm and bad words: told another way in a letter, and shown to a writer who used them himself."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents.story import TONE
from journal_tui.documents.tone import MOST_REMARKS, calmed, remarks, rules
from journal_tui.documents.update import update_letter
from journal_tui.domain.kinds import Hazard
from tests.documents.samples import fact, facts, lines


@pytest.mark.parametrize(
    ("note", "calm", "cut"),
    [
        ("this stair is a death trap", "This stair is a danger", []),
        ("the deck is about to collapse", "The deck is at risk of giving way", []),
        ("that outlet is a time bomb", "That outlet is a weak point", []),
        ("an awful smell by the drain", "A bad smell by the drain", []),
        ("there's toxic mold on the studs", "There's mold on the studs", []),
        ("the damn valve is stuck", "The valve is stuck", []),
        ("the joist was hacked up for a pipe", "The joist was not done right for a pipe", []),
        ("some idiot cut it; it's two inches deep", "It's two inches deep", ["some idiot cut it"]),
        ("the vent is loose, whoever did this is dumb", "The vent is loose", ["whoever did this is dumb"]),
        ("I told you the tile was late", "", ["I told you the tile was late"]),
        ("whoever wired this was a hack, and it's live", "It's live", ["whoever wired this was a hack"]),
    ],
)  # fmt: skip
def test_a_note_is_told_without_blame_or_alarm(note: str, calm: str, cut: list[str]) -> None:
    """Federal Plain Language Guidelines (March 2011, revision 1 of May 2011), I.a: "identify and write for
    your audience", who was not there and has to live in the house."""
    assert calmed(note) == (calm, cut)


@pytest.mark.parametrize(
    "note",
    [
        "screw the plate to the stud", "the drain is cracked", "the hacksaw is in the truck",
        "asbestos in the glue",
        "the plate is crooked", "the passage is clear", "cut the corner bead", "the lead came back high",
        "a class of pipe no longer made", "the crew missed nothing", "it is a hazard", "grass by the vent",
    ],
)  # fmt: skip
def test_words_of_the_trade_are_left_alone(note: str) -> None:
    assert remarks(note) == []
    assert calmed(note) == (note, [])


def test_remarks_give_line_words_and_reason() -> None:
    found = remarks("# Update\n\nThe stair is a Death Trap.\nYou should’ve told us, idiots.\n")
    assert [(one.line, one.words, one.kind) for one in found] == [
        (3, "Death Trap", "alarm"),
        (4, "You should’ve", "blame"),
        (4, "idiots", "blame"),
    ]
    assert found[0].instead == "danger" and found[1].instead is None
    assert all(one.why for one in found)


def test_what_cannot_be_said_another_way_is_left_out_and_named() -> None:
    letter = update_letter(facts(found=(fact("the sill is rotten; the last guy was an idiot"),)))
    assert "The sill is rotten." in letter.markdown and "idiot" not in letter.markdown
    assert [(one.words, one.why) for one in letter.left_out] == [("the last guy was an idiot", TONE)]


def test_a_danger_told_with_blame_keeps_its_caution() -> None:
    letter = update_letter(facts(found=(fact("some idiot left this live", hazards=[Hazard.ELECTRICAL]),)))
    assert "idiot" not in letter.markdown
    assert "**Wiring (floor).**" in letter.markdown
    assert [one.words for one in letter.left_out] == ["some idiot left this live"]


def test_no_word_a_rule_puts_in_is_one_a_rule_takes_out() -> None:
    for rule in rules():
        assert rule.kind in ("blame", "alarm", "profanity") and rule.why
        assert not remarks(rule.instead or "")
        assert "safe" not in (rule.instead or "")


@given(
    st.one_of(
        lines,
        st.lists(
            st.sampled_from(["a", "death trap", "the", "idiot", ";", ", and", "damn", "awful", "is"])
        ).map(" ".join),
    )
)
def test_what_is_calmed_needs_no_more_calming(text: str) -> None:
    calm, cut = calmed(text)
    assert not remarks(calm)
    assert calm == text or cut or remarks(text)


def test_a_long_note_of_nothing_but_such_words_is_calmed_in_one_go() -> None:
    assert calmed("damn " * 4000 + "valve") == ("Valve", [])
    assert calmed("an awful " * 2000 + "smell")[0].count("bad") == 2000
    assert len(remarks("a death trap\n" * 500)) == MOST_REMARKS
