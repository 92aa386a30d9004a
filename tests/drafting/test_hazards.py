"""A danger that is named is always shown, in talk and in typed lines. Common practice, no source."""

from __future__ import annotations

import pytest

from journal_tui.domain.kinds import Hazard
from journal_tui.walkthrough.captions import read_text
from journal_tui.walkthrough.drafting import draft_entries, draft_note
from journal_tui.walkthrough.drafting.hazards import hazards_named


@pytest.mark.parametrize(
    ("line", "hazard"),
    [
        ("I smell gas by the dryer", Hazard.GAS),
        ("that nine inch tile is probably asbestos", Hazard.ASBESTOS),
        ("the wrap on that pipe is old", Hazard.ASBESTOS),
        ("mold behind the vanity", Hazard.MOLD),
        ("the paint on the sill is probably lead", Hazard.LEAD),
        ("old paint flaking off the casing", Hazard.LEAD),
        ("anything painted gets treated as lead until the test is back", Hazard.LEAD),
        ("lab called, the window is lead", Hazard.LEAD),
        ("knob and tube in the ceiling", Hazard.ELECTRICAL),
        ("the joist is notched in the middle", Hazard.STRUCTURE),
    ],
)
def test_a_named_danger_is_shown(line: str, hazard: Hazard) -> None:
    assert hazard in draft_note(line)[0].hazards


@pytest.mark.parametrize(
    ("line", "hazard"),
    [
        ("I smell gas by the dryer", Hazard.GAS),
        ("that nine inch tile is probably asbestos", Hazard.ASBESTOS),
        ("the paint on the sill is probably lead", Hazard.LEAD),
    ],
)
def test_a_grave_danger_in_talk_is_never_passed_over(line: str, hazard: Hazard) -> None:
    talk = f"[0:01] Okay, second visit.\n[0:04] {line.capitalize()}.\n[0:09] That's it for today.\n"
    drafts = draft_entries(read_text("walk.txt", talk.encode()))
    assert [d for d in drafts if hazard in d.hazards], [d.text for d in drafts]


@pytest.mark.parametrize("line", ["the lead time on the tile is two weeks", "paint the trim white"])
def test_everyday_words_are_no_danger(line: str) -> None:
    assert Hazard.LEAD not in draft_note(line)[0].hazards


@pytest.mark.parametrize(
    ("line", "hazard"),
    [
        ("put the fire caulk around the pipe", Hazard.FIRE),
        ("fire blocking is in over the tub", Hazard.FIRE),
        ("the breaker trips and resets", Hazard.FALL),
        ("new sash cord on both windows", Hazard.FALL),
        ("the drain falls a quarter inch a foot", Hazard.FALL),
        ("we start again in the fall", Hazard.FALL),
    ],
)
def test_a_word_that_only_looks_like_a_danger_is_none(line: str, hazard: Hazard) -> None:
    assert hazard not in hazards_named(line.split())


@pytest.mark.parametrize(
    ("line", "hazard"),
    [
        ("that lint could start a fire", Hazard.FIRE),
        ("somebody could fall through there", Hazard.FALL),
        ("you trip over that edge", Hazard.FALL),
    ],
)
def test_the_danger_itself_is_one(line: str, hazard: Hazard) -> None:
    assert hazard in hazards_named(line.split())
