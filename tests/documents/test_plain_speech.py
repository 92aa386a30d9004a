"""Spoken words in a letter: "we" for "I", no fillers, days as dates; nothing said that was not."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given

from journal_tui.documents import update_markdown
from journal_tui.documents.plain_speech import plain_words, plainly
from journal_tui.domain.document import ClientFact
from journal_tui.domain.kinds import Kind, Party
from tests.documents.samples import DAY, client_text, fact, facts, lines

#: A Monday, eight days before the letter of Tuesday, 17 March 2026.
SAID = dt.date(2026, 3, 9)


def said(text: str, kind: Kind = Kind.OBSERVATION, who: Party | None = None) -> ClientFact:
    return ClientFact(kind, "", client_text("sink"), client_text(text), SAID, who, said_on=SAID, spoken=True)


@pytest.mark.parametrize(
    ("spoken", "written"),
    [
        ("okay, so I checked the wall", "We checked the wall"),
        ("And I'm going to need my saw", "We're going to need our saw"),
        ("I was there and the pipe gave me trouble", "We were there and the pipe gave us trouble"),
        ("the trap is, you know, upside down", "the trap is, upside down"),
        ("Look, it's dry", "it's dry"),
        ("look at the pipes", "look at the pipes"),
        ("the plumber's gotta move the vent", "the plumber has to move the vent"),
        ("we gotta wait", "we have to wait"),
        ("I think the joist is cracked", "We think the joist is cracked"),
        ("type I cement", "type I cement"),
        ("write to me@a.example", "write to me@a.example"),
        ("Half the studs are soft", "Half the studs are soft"),
    ],
)  # fmt: skip
def test_a_note_is_written_as_a_letter_writes(spoken: str, written: str) -> None:
    """Federal Plain Language Guidelines (March 2011, revision 1 of May 2011), III.a.2.ii "use pronouns to
    speak directly to readers" ("we" who write, "you" who read) and III.a.3.ii "omit unnecessary words"."""
    assert plain_words(spoken) == written


def test_the_place_is_not_said_twice() -> None:
    made = update_markdown(
        facts(found=(fact("Tub: the sill is dry", "tub"), fact("note: it is dry", "vent")))
    )
    assert "**Tub.** The sill is dry." in made
    assert "**Vent.** Note: it is dry." in made


def test_a_guess_stays_a_guess() -> None:
    made = update_markdown(facts(found=(fact("I think that joist is cracked"),)))
    assert "We think that joist is cracked." in made


@pytest.mark.parametrize(
    ("spoken", "written"),
    [
        ("the sash came in yesterday", "the sash came in on March 8"),
        ("I took a chip this morning", "We took a chip on March 9"),
        ("the post went in last Tuesday", "the post went in on Tuesday, March 3"),
        ("the sash comes tomorrow", "the sash comes on March 10"),
        ("the lab called Friday", "the lab called on Friday, March 6"),
        ("the final is Friday", "the final is Friday"),
        ("the kit has to be here before Friday", "the kit has to be here before Friday, March 13"),
        ("dry as it should be", "dry as it should be"),
    ],
)  # fmt: skip
def test_days_are_told_from_the_day_of_the_visit(spoken: str, written: str) -> None:
    assert plainly(said(spoken), DAY) == written
    # In a letter of that very day they are as they were said.
    assert plainly(said("the sash comes tomorrow"), SAID) == "the sash comes tomorrow"


def test_a_planned_day_that_is_over_is_not_promised_again() -> None:
    step = said("grout the floor Friday", Kind.NEXT_STEP)
    assert plainly(step, DAY, ahead=True) == "grout the floor"
    assert plainly(step, dt.date(2026, 3, 10), ahead=True) == "grout the floor Friday, March 13"
    owed = said("the yard brings the door Friday", Kind.NEXT_STEP, Party.SUPPLIER)
    assert plainly(owed, DAY, ahead=True) == "the yard brings the door Friday, March 13"


@pytest.mark.parametrize(
    ("spoken", "written"),
    [
        ("the doors came Monday; one is cracked", "the doors came on Monday, March 2; one is cracked"),
        ("the yard was closed Friday", "the yard was closed Friday"),
        ("the yard was closed, they bring it Friday", "the yard was closed, they bring it Friday, March 13"),
        ("the box is supposed to be here Tuesday", "the box is supposed to be here Tuesday, March 10"),
    ],
)  # fmt: skip
def test_a_day_of_what_was_is_never_told_as_one_to_come(spoken: str, written: str) -> None:
    owed = said(spoken, Kind.NEXT_STEP, Party.SUPPLIER)
    assert plainly(owed, DAY, ahead=True) == written


def test_work_that_is_done_does_not_say_when_it_was_planned_for() -> None:
    step = said("set the post first thing tomorrow", Kind.NEXT_STEP)
    assert plainly(step, DAY, done=True) == "set the post"


def test_she_is_the_client_only_where_the_choice_was_the_clients() -> None:
    theirs = said("She wants the niche lower", Kind.DECISION, Party.CLIENT)
    ours = said("She wants the niche lower", Kind.DECISION, Party.CREW)
    assert plainly(theirs, DAY) == "You want the niche lower"
    assert plainly(ours, DAY) == "She wants the niche lower"


@given(lines)
def test_any_note_can_be_written(text: str) -> None:
    made = plain_words(text)
    assert "\n" not in made
    assert plain_words(made) == plain_words(made)
