"""Things and places named, and which of them an entry is about."""

from __future__ import annotations

import pytest

from journal_tui.domain.draft import JobWords, OwnWord
from journal_tui.domain.kinds import Hazard, Party
from journal_tui.walkthrough.drafting import draft_note
from journal_tui.walkthrough.drafting.place import area_of
from journal_tui.walkthrough.drafting.things import things_in


def leading(text: str) -> list[str]:
    """Return the names of the things that lead."""
    return [thing.name for thing in things_in(text.split()) if thing.leads]


def test_what_only_says_where_or_which_does_not_lead() -> None:
    assert leading("the joist under the tub is cracked") == ["joist"]
    assert leading("move the vanity drain over") == ["drain"]
    assert leading("the grout cracked because the floor moves") == ["grout"]


def test_if_nothing_leads_all_do() -> None:
    assert leading("look behind the toilet") == ["toilet"]


def test_the_jobs_own_areas_are_known() -> None:
    words = JobWords(areas=("garden room",))
    assert area_of("the garden room ceiling leaks".split(), words) == "garden room"
    assert area_of("nothing here".split(), words) is None


@pytest.mark.parametrize(
    ("line", "phase"),
    [
        ("order two boxes of grout", "tile"),
        ("sister the joist by the stack", "subfloor"),
        ("run a new vent from the trap arm", "rough plumbing"),
        ("tape the cement board seams", "backer"),
        ("caulk the baseboard", "trim"),
        ("haul the debris to the dumpster", "demo"),
        ("electrician to label the breaker", "other"),
    ],
)
def test_typed_lines_get_the_phase_their_things_belong_to(line: str, phase: str) -> None:
    assert draft_note(line)[0].phase == phase


def test_hazards_are_of_known_kinds() -> None:
    (draft,) = draft_note("there's a live wire hanging out of the wall with no box")
    assert Hazard.ELECTRICAL in draft.hazards


def test_whose_move() -> None:
    assert draft_note("you need to pick a floor tile by Friday")[0].who is Party.CLIENT
    assert draft_note("pull the toilet and check the flange")[0].who is Party.CREW


def test_a_learned_word_moves_only_what_it_names() -> None:
    words = JobWords(own=(OwnWord("wing wall", area="entry", phase="trim"),))
    assert draft_note("the wing wall is cracked", words)[0].area == "entry"
    assert draft_note("the joist is cracked", words)[0].learned == ()
