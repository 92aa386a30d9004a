"""Why a draft is what it is: one plain line, quoting what was said."""

from __future__ import annotations

import re

import pytest

from journal_tui.domain.draft import OwnWord
from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting import draft_entries, draft_note
from journal_tui.walkthrough.drafting.attributes import Stretch
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.linear import trained
from journal_tui.walkthrough.drafting.reasons import InHand, why
from tests.drafting.saying import said, stretch
from tests.drafting.test_drafter import talk

STEP = stretch("We need to swap the union and the trap.", before=("The tub is in.",), kind=Kind.NEXT_STEP)


def reason(*signs: str, area: str = "tub", in_hand: InHand = InHand("tub", 72.0), here: bool = False) -> str:  # noqa: B008
    """Return the reason given for ``STEP`` by ``signs``."""
    return why(STEP, Span(1, 1, Kind.NEXT_STEP, signs), "rough plumbing", area, in_hand, (), here)


def test_kind_phase_and_area_are_told_in_plain_words() -> None:
    assert (
        reason("s:need", "g:number")
        == 'next step: something needed ("need to"), a number; rough plumbing: "union", "trap"; '
        "tub: last place named at 1:12"
    )
    assert reason("s:need", here=True).endswith("tub: named here")
    assert reason("s:need", area="whole room", in_hand=InHand()).endswith("whole room: no place named")


def test_signs_without_plain_words_are_left_out() -> None:
    assert reason("len:4-6", "b:to_the", "first:we", "zz:unheard of", "bias").startswith(
        'next step: something needed ("need to");'
    )


def test_a_neighbour_is_quoted_as_a_neighbour() -> None:
    told = why(
        Stretch(said("Put it there.", "The drain leaks."), 0, 0, Kind.NEXT_STEP),
        Span(0, 0, Kind.NEXT_STEP, ("n:fault",)),
        "rough plumbing",
        "tub",
        InHand(),
        (),
        True,
    )
    assert told.startswith('next step: something wrong just after it ("leaks")')


def test_own_words_are_named() -> None:
    told = why(
        STEP,
        Span(1, 1, Kind.NEXT_STEP, ("s:need",)),
        "trim",
        "powder room",
        InHand(),
        (OwnWord("union", area="powder room", phase="trim"),),
        False,
    )
    assert told.endswith('your own word "union": trim, powder room')


@pytest.mark.parametrize("kind", list(Kind))
def test_no_sign_of_the_model_is_ever_shown_raw(kind: Kind) -> None:
    """Whatever sign weighs most, the reason names no feature: no underscore, no "family:name"."""
    entry = Stretch(STEP.utterances, 1, 1, kind)
    raw = re.compile(r"_|\b(?:[spn]|pp|nn|w|b|g|st|ph|head|next|first2?|len|two):\w")
    for sign in trained()["kind"].features:
        told = why(entry, Span(1, 1, kind, (sign,)), "rough plumbing", "tub", InHand(), (), True)
        assert not raw.search(told.removeprefix(kind.plain)), (sign, told)


def test_what_is_quoted_was_said() -> None:
    lines = (
        "The drain under the tub leaks.",
        "We need to order the tile by Friday.",
        "She picked the gray grout.",
    )
    drafts = draft_entries(talk(*lines))
    assert drafts
    for draft in drafts:
        for quoted in re.findall(r'"([^"]+)"', draft.why):
            assert quoted.casefold() in " ".join(lines).casefold(), draft.why


def test_the_last_place_named_is_told_with_its_time() -> None:
    lines = ("Good morning.", "Here we are at the tub.", "It's late.", "We need to order the tile by Friday.")
    drafts = draft_entries(talk(*lines, gap=20.0))
    assert drafts[-1].why.endswith("tub: last place named at 0:20")
    (note,) = draft_note("need to order tile")
    assert "no place named" in note.why
