"""Sound-alike keys and the repair of misheard trade words."""

from __future__ import annotations

import pytest

from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting import draft_entries
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.soundalike import metaphone
from journal_tui.walkthrough.drafting.words import words_of


@pytest.mark.parametrize(
    ("word", "key"),
    [
        # The word list of Apache Commons Codec's MetaphoneTest.testMetaphone (keys cut at four
        # sounds there, as in Philips's article), from memory.
        ("howl", "HL"),
        ("testing", "TSTN"),
        ("The", "0"),
        ("quick", "KK"),
        ("brown", "BRN"),
        ("fox", "FKS"),
        ("jumped", "JMPT"),
        ("over", "OFR"),
        ("lazy", "LS"),
        ("dogs", "TKS"),
        # The same source: silent and special letters.
        ("COMB", "KM"),
        ("TOMB", "TM"),
        ("WOMB", "WM"),
        ("SCIENCE", "SNS"),
        ("SCENE", "SN"),
        ("SCY", "S"),
        ("WHY", ""),
        ("GNU", "N"),
        ("KNIGHT", "NT"),
        ("MATCH", "MX"),
    ],
)
def test_keys_of_published_examples(word: str, key: str) -> None:
    assert metaphone(word)[:4] == key


def shown(text: str) -> str:
    """Return talk as it is shown after repair."""
    captions = Captions("t", "webvtt", (Cue(0, 20, text),), "", "")
    return " ".join(w.text for w in repaired(words_of(captions)))


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("the joyce is cracked", "the joist is cracked"),
        ("run the new line in pecks to the valve", "run the new line in PEX to the valve"),
        ("screw the back her board to the studs", "screw the backer board to the studs"),
        ("spread the thin set with a notch", "spread the thinset with a notch"),
        ("the stain on the sealing is dry", "the stain on the ceiling is dry"),
        ("the p trap is dripping", "the P-trap is dripping"),
        ("put the ledge er back on the deck", "put the ledger back on the deck"),
        ("the escution by the tub valve", "the escutcheon by the tub valve"),
        ("a new flanje for the toilet", "a new flange for the toilet"),
    ],
)
def test_misheard_trade_words_are_set_right(heard: str, meant: str) -> None:
    assert shown(heard) == meant


@pytest.mark.parametrize(
    "talk",
    [
        "we are sealing the grout on monday",
        "the bird pecks at the window",
        "he was on trial last year",
        "my cousin plays the bass and sings the blues",
        "shut off the water before you cut the pipe",
        "clean out the closet before the floor man comes",
        "there was a jam on the highway with a truck in it",
        "great work on the tile",
        "the windy side of the house has two doors",
        "it's a duck pond behind the shed",
    ],
)
def test_words_that_make_sense_where_they_stand_are_left(talk: str) -> None:
    assert shown(talk) == talk


def test_what_was_heard_is_kept_beside_what_is_shown() -> None:
    cue = Cue(0, 9, "we need to replace that rotten joyce by the tub before the floor goes down")
    (draft,) = draft_entries(Captions("t", "webvtt", (cue,), "", ""))
    assert "joist" in draft.text and "joyce" not in draft.text
    assert "joyce" in draft.heard
    assert [(r.heard, r.shown) for r in draft.repairs] == [("joyce", "joist")]
