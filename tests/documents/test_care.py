"""Cautions: for what is a danger still, of the place it is in, and never for what guards against one."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.documents import update_markdown
from journal_tui.documents.cautions import cautions_for, only_guards
from journal_tui.documents.conditions import notes_for
from journal_tui.domain.document import Length
from journal_tui.domain.kinds import Hazard, Kind, Party
from tests.documents.samples import DAY, fact, facts

BEFORE, AFTER = DAY - dt.timedelta(days=9), DAY - dt.timedelta(days=2)


def care(markdown: str) -> str:
    return markdown.partition("\n## Please take care\n\n")[2]


@pytest.mark.parametrize(
    "note", ["pick up fire sealant", "the fire door is hung", "new smoke detectors are here"]
)
def test_what_guards_against_fire_is_no_fire(note: str) -> None:
    made = update_markdown(facts(found=(fact(note, "attic", hazards=[Hazard.FIRE]),)))
    assert only_guards(note, Hazard.FIRE) and "Fire" not in care(made)


@pytest.mark.parametrize(
    "note", ["the box is charred", "fire sealant is missing, and there is a burnt wire", "lint in the flue"]
)
def test_a_fire_danger_is_warned_of_where_it_is(note: str) -> None:
    made = update_markdown(facts(found=(fact(note, "attic", hazards=[Hazard.FIRE]),)))
    assert "**Fire (attic).** Please keep your smoke alarms working" in care(made)
    assert "away from the attic" in care(made)


def test_no_caution_speaks_of_a_place_that_was_not_named() -> None:
    for caution in cautions_for(Hazard):
        assert "we named" not in caution.say + caution.brief
        told = fact("it may come down, it is dangerous", "", hazards=[caution.hazard])
        made = care(update_markdown(facts(found=(told,)), length=Length.FULL))
        assert f"**{caution.label}.**" in made and "{" not in made
        assert ("the work area" in made) == ("{" in caution.say)


def test_a_material_taken_out_by_those_who_may_is_warned_of_no_more() -> None:
    wrap = fact("the duct wrap is asbestos", "crawl space", day=BEFORE, hazards=[Hazard.ASBESTOS])
    out = fact("a licensed abatement firm took the wrap out", "crawl space", day=AFTER)
    made = update_markdown(facts(found=(wrap, out)))
    assert "hold asbestos" not in made and care(made) == ""
    assert "The duct wrap is asbestos." in made and "took the wrap out." in made


@pytest.mark.parametrize(
    ("place", "day", "words"),
    [
        ("shed", AFTER, "a licensed abatement firm took the wrap out"),  # another place
        (
            "crawl space",
            BEFORE - dt.timedelta(days=9),
            "a licensed abatement firm took the wrap out",
        ),  # before
        ("crawl space", AFTER, "the abatement firm comes on Tuesday"),  # not yet
        ("crawl space", AFTER, "somebody took the wrap out"),  # nobody who may
    ],
)
def test_a_danger_not_shown_to_be_over_is_still_warned_of(place: str, day: dt.date, words: str) -> None:
    wrap = fact("the duct wrap is asbestos", "crawl space", day=BEFORE, hazards=[Hazard.ASBESTOS])
    made = update_markdown(facts(found=(wrap, fact(words, place, day=day))))
    assert "leave the old material at the crawl space alone" in care(made)


def test_a_danger_of_no_kind_is_warned_of_only_where_words_tell_of_it() -> None:
    quiet = fact("the pane is the wrong size", "porch", hazards=[Hazard.OTHER])
    loud = fact("the arch is about to come down", "porch", hazards=[Hazard.OTHER])
    assert care(update_markdown(facts(found=(quiet,)))) == ""
    assert "keep away from the porch until" in care(update_markdown(facts(found=(loud,))))


def test_what_is_only_fetched_brings_nothing_into_the_house() -> None:
    fetched = [("trim", "supply lines", "pick up the primer")]
    assert notes_for(fetched) == []
    assert [n.label for n in notes_for([("trim", "hall", "prime the wall with the primer")])] == ["Smell"]
    # A place named for pipes says nothing of shutting the water.
    assert notes_for([("trim", "supply line", "hang the shelf")]) == []
    assert [n.label for n in notes_for([("trim", "yard", "order the brick, delivered Friday")])] == [
        "A delivery"
    ]


def test_a_kitchen_is_not_asked_to_spare_its_shower() -> None:
    work = [("tile", "backsplash", "grout the backsplash")]
    assert "No shower or bath yet" not in [n.label for n in notes_for(work, "Lane kitchen")]
    assert "No shower or bath yet" in [n.label for n in notes_for(work, "Lane bath")]


def test_work_that_is_behind_us_brings_no_note() -> None:
    passed = fact("The breaker is in", "cellar", kind=Kind.NEXT_STEP)
    assert care(update_markdown(facts(next=(passed,)))) == ""


def test_a_request_is_no_opening_to_fall_into_unless_it_says_so() -> None:
    pick = fact("pick the roof color", "porch", who=Party.CLIENT, hazards=[Hazard.FALL])
    rail = fact("keep the dog off the open stair", "porch", who=Party.CLIENT, hazards=[Hazard.FALL])
    assert care(update_markdown(facts(needed=(pick,)))) == ""
    assert "Openings and steps (porch)" in care(update_markdown(facts(needed=(rail,))))


def test_an_outlet_that_trips_is_nothing_to_trip_over() -> None:
    outlet = fact("the outlets trip and reset", "porch", hazards=[Hazard.FALL])
    hose = fact("the hose is something to trip over", "porch", hazards=[Hazard.FALL])
    assert care(update_markdown(facts(found=(outlet,)))) == ""
    assert "Openings and steps (porch)" in care(update_markdown(facts(found=(hose,))))
