"""What is said of one thing and holds for another too."""

from __future__ import annotations

from dataclasses import replace

from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting import draft_entries, draft_note
from journal_tui.walkthrough.drafting.merging import said_once
from tests.drafting.test_drafter import kinds, talk


def test_the_same_for_another_thing_is_an_entry_of_its_own() -> None:
    first, second = draft_entries(
        talk("The valve on the hot side drips at the packing nut.", "Same for the cold side.")
    )
    assert (second.kind, second.phase, second.open) == (first.kind, first.phase, first.open)
    assert second.text == "Same for the cold side: the valve on the hot side drips at the packing nut"
    assert second.heard == "Same for the cold side."
    assert "same as the entry before it" in second.why


def test_a_row_of_the_same_is_each_like_the_first_and_keeps_its_own_place() -> None:
    drafts = draft_entries(
        talk(
            "We need to cap the gas stub behind the dryer.",
            "And the same goes for the stub in the kitchen.",
            "Same with the old water line.",
        )
    )
    assert kinds(drafts) == [Kind.NEXT_STEP] * 3
    assert all(d.text.endswith("cap the gas stub behind the dryer") for d in drafts)
    assert drafts[1].hazards == drafts[0].hazards
    assert "gas stub" not in drafts[2].text.partition(":")[0]


def test_unpunctuated_talk_is_cut_before_the_same() -> None:
    drafts = draft_entries(
        talk("the left joist is notched half way through same with the one under the tub so sister both")
    )
    texts = [d.text for d in drafts]
    assert texts[1] == "Same with the one under the tub: the left joist is notched half way through"
    assert drafts[1].area == "tub"


def test_a_comparison_is_not_a_second_thing() -> None:
    drafts = draft_entries(
        talk(
            "She picked the gray tile instead of the white.",
            "It's the same thing as cardboard.",
            "Same thing every time.",
        )
    )
    assert len(drafts) == 1


def test_a_text_that_is_wholly_in_the_next_one_is_one_entry() -> None:
    first = draft_note("need to order the small dumpster")[0]
    longer = replace(first, text="Need to order the small dumpster, the ten-yard", start=2.0, end=4.0)
    early = replace(first, end=1.8)
    (one,) = said_once([early, longer])
    assert (one.text, one.start, one.end) == (longer.text, 0.0, 4.0)
    other = replace(longer, text="Need to order the subfloor glue")
    assert len(said_once([early, other])) == 2
    assert len(said_once([early, replace(longer, start=9.0)])) == 2, "said again later"
    assert len(said_once([early, replace(longer, kind=Kind.OBSERVATION)])) == 2
