"""What a letter asks for: clear by itself, once, and never for a day that is over."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given

from journal_tui.documents import plain_text, update_markdown
from journal_tui.documents.asking import Ask, ask_in, without_past_days
from journal_tui.documents.story import OVER
from journal_tui.documents.update import update_letter
from journal_tui.domain.document import ClientFact, Length
from journal_tui.domain.kinds import Kind, Party
from tests.documents.samples import DAY, client_text, fact, facts, lines

#: A Monday, eight days before the letter of Tuesday, 17 March 2026.
SAID = dt.date(2026, 3, 9)
FRIDAY = dt.date(2026, 3, 13)


def owed(text: str, area: str = "sink", day: dt.date = SAID) -> ClientFact:
    return ClientFact(
        Kind.NEXT_STEP, "", client_text(area), client_text(text), day, Party.CLIENT, said_on=day, spoken=True
    )


@pytest.mark.parametrize(
    ("note", "asked", "by"),
    [
        ("client to choose the tap by Friday", "Please choose the tap.", FRIDAY),
        ("tell me which tap by the twelfth, so I can order", "Please tell us which tap, so we can order.",
         dt.date(2026, 3, 12)),
        ("she has to sign the drawing before March 11", "Please sign the drawing.", dt.date(2026, 3, 11)),
        ("when the cousin visits Saturday, the two of you choose a lamp", "Please choose a lamp.", None),
        ("client to choose the tap by the thirtieth", "Please choose the tap by the thirtieth.", None),
        ("I'd like you to empty the shed", "Please empty the shed.", None),
        ("would you clear the porch", "Would you clear the porch?", None),
    ],
)  # fmt: skip
def test_a_day_that_is_over_is_not_asked_for_but_what_was_asked_is(
    note: str, asked: str, by: dt.date | None
) -> None:
    made = update_markdown(facts(needed=(owed(note),)))
    assert f"1. **Sink.** {asked}\n" in made
    gone = f"We asked for this by {by:%A}, March {by.day}, and still need it." if by else "We asked for this"
    assert (gone in made) == (by is not None)


@pytest.mark.parametrize(
    "note",
    [
        "the mason comes at nine; can you be here Thursday",
        "client to meet the mason on Wednesday",
        "please let nobody in till tomorrow, so the paint dries",
    ],
)
def test_what_was_asked_for_a_day_only_is_left_to_the_remodeler(note: str) -> None:
    for length in Length:
        letter = update_letter(facts(found=(fact("dry"),), needed=(owed(note),)), length=length)
        assert "need from you" not in letter.markdown and "From you" not in letter.markdown
        assert [one.why for one in letter.left_out] == [OVER]
    # On the day it is asked it stands.
    assert ask_in("can you be here on Thursday", SAID, SAID) == Ask(("Can you be here on Thursday?",))


@pytest.mark.parametrize(
    "note",
    ["the small lamp", "I'd like you to take that up", "it is hers"],
)
def test_what_no_rule_makes_clear_is_quoted(note: str) -> None:
    letter = update_letter(facts(needed=(owed(note),)))
    assert "We noted this for you: “" in letter.markdown
    assert any(one.kept and one.words == note for one in letter.left_out)


def test_what_is_needed_is_asked_for_when_it_says_what_about() -> None:
    made = update_markdown(facts(needed=(owed("What I need from you is the wall color"),)))
    assert "Please let us know about the wall color." in made


def test_a_thing_nothing_more_is_said_of_is_asked_about_and_named_to_the_remodeler() -> None:
    note = "What I need from you is the hook"
    letter = update_letter(facts(needed=(owed(note),)))
    assert "1. **Sink.** We need your answer about the hook.\n" in letter.markdown
    assert "What we need from you is" not in letter.markdown
    assert [(one.words, one.kept) for one in letter.left_out] == [(note, True)]


def test_one_request_drafted_for_two_places_is_made_once() -> None:
    hook = "What I need from you is the hook"
    made = update_markdown(facts(needed=(owed(hook), owed(f"{hook}; let me know by Friday", "door"))))
    assert "We need one thing from you." in made
    assert (
        "1. **Sink and door.** We need your answer about the hook.\n"
        "   We asked for this by Friday, March 13, and still need it.\n"
    ) in made
    # On another day it was asked again.
    again = update_markdown(facts(needed=(owed(hook), owed(hook, "door", DAY))))
    assert "We need two things from you." in again


def test_a_client_named_in_work_to_come_is_asked() -> None:
    named = fact("you's gonna tell me which lamp", "hall", kind=Kind.NEXT_STEP)
    made = update_markdown(facts(next=(named,)))
    assert "1. **Hall.** Please tell us which lamp." in made
    assert "What comes next" not in made
    helper = fact("you tell me which lamp", "hall", kind=Kind.NEXT_STEP)
    assert "need from you" not in update_markdown(facts(next=(helper,)))


def test_a_message_does_not_ask_for_a_day_that_is_over() -> None:
    late = fact("pick a color", by=dt.date(2026, 3, 16))
    made = plain_text(update_markdown(facts(needed=(late,)), length=Length.SHORT))
    assert "Please answer by" not in made and "and still need it." in made


def test_work_to_come_is_not_promised_for_a_day_that_is_over() -> None:
    step = replace(owed("tomorrow the roofer seals the sill"), who=Party.CREW)
    made = update_markdown(facts(next=(step,)))
    assert "The roofer seals the sill." in made and "March 10" not in made
    assert (
        without_past_days("seal it before Friday, March 20", SAID, DAY) == "seal it before Friday, March 20"
    )


@given(lines)
def test_any_note_can_be_asked(text: str) -> None:
    ask = ask_in(text, SAID, DAY)
    assert ask == ask_in(text, SAID, DAY)
    if text.strip() and text.isalpha():
        assert ask.lines or ask.over
