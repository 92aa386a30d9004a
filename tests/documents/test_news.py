"""What of a note is news, what cannot stand by itself, and that its writer is told what is left out."""

from __future__ import annotations

import pytest
from hypothesis import given

from journal_tui.documents.news import unclear, warns, without_talk
from journal_tui.documents.told import story_of
from journal_tui.documents.tone import calmed
from journal_tui.documents.update import update_letter
from journal_tui.domain.document import ClientFact, Length, UpdateFacts
from journal_tui.domain.kinds import Hazard, Kind, Party
from tests.documents.samples import DAY, client_text, fact, facts, lines, update_facts


def said(text: str, kind: Kind = Kind.OBSERVATION, hazards: tuple[Hazard, ...] = ()) -> ClientFact:
    return ClientFact(kind, "", client_text("sink"), client_text(text), DAY, None, hazards, spoken=True)


@pytest.mark.parametrize(
    ("note", "left", "cut"),
    [
        ("the helper's holding the light", "", ["the helper's holding the light"]),
        ("the trap leaks; put your hand there", "the trap leaks", ["put your hand there"]),
        ("the plate is crooked; it's driving me crazy", "the plate is crooked", ["it's driving me crazy"]),
        ("Write that down, and the vent is clear", "the vent is clear", ["Write that down"]),
        ("the vent is clear", "the vent is clear", []),
    ],
)  # fmt: skip
def test_talk_is_left_out_by_the_part_of_the_sentence(note: str, left: str, cut: list[str]) -> None:
    assert without_talk(note) == (left, cut)


@pytest.mark.parametrize(
    ("note", "why"),
    [
        ("He wants the duct insulated", "it says “he”, not who that is"),
        ("The crew wiped it down", "it says “it”, not what that is"),
        ("They've got them at the yard", "it says “they”, not who or what that is"),
        ("turn that fitting a quarter turn", "it says “that fitting”, not which that is"),
        ("That breaker stays off", "it says “that breaker”, not which that is"),
        ("order the saddle, two by that, white", "it says “that”, not what that is"),
        ("the mason comes for that and is done", "it says “that”, not what that is"),
        ("The plumber has to come back and bring it out", "it says “it”, not what that is"),
        ("The shop called, they're sending another one", "it says “another one”, not which that is"),
        ("no plate over the stud, both fixed", "it says “both”, not of what"),
        ("add one by the sill", "it says “one”, not which that is"),
        ("the box is here, we left them the paper", "it says “them”, not who that is"),
        ("The firm comes if she ever opens it", "it says “she”, not who that is"),
        ("That has to come out", "it says “that”, not what that is"),
        ("Poured the whole thing solid", "it does not say who or what"),
        ("Goes in a bag by the door", "it does not say who or what"),
        ("is that the vent?", "it is a question"),
        ("The drum is gone the pipe is out to the street", "it reads like two sentences run together"),
        ("I need you to call, it's her order", "it speaks of the client and of “she” or “he”"),
    ],
)  # fmt: skip
def test_what_a_reader_who_was_not_there_would_not_know(note: str, why: str) -> None:
    assert unclear(note) == why


@pytest.mark.parametrize(
    "note",
    [
        "The mud bed is out; it took two days",
        "The plumber came and he moved the vent",
        "A pipe with white wrap on it",
        "One joist has a hole bored in it",
        "The store says the washer is late",
        "two planks are soft",
        "Nine tiles broken",
        "It takes two days to dry",
        "The valve is stuck, and that valve has to go",
        "we were told that water comes on at noon",
        "The drill stays in this room",
        "",
    ],
)  # fmt: skip
def test_what_can_stand_by_itself(note: str) -> None:
    assert unclear(note) == ""


def test_it_is_the_thing_a_note_was_typed_under() -> None:
    assert unclear("We set it in mortar", named=True) == ""
    letter = update_letter(facts(found=(fact("it is cracked", "sink"),)))
    assert "**Sink.** It is cracked." in letter.markdown and not letter.left_out


def test_what_cannot_stand_is_told_in_full_only_and_its_writer_is_told() -> None:
    some = facts(found=(said("He wants the duct insulated"), said("the sill is dry")))
    letter = update_letter(some)
    assert "insulated" not in letter.markdown and "The sill is dry." in letter.markdown
    assert [(one.area, one.words, one.why) for one in letter.left_out] == [
        ("sink", "He wants the duct insulated", "it says “he”, not who that is")
    ]
    full = update_letter(some, length=Length.FULL)
    assert "## Short notes from our visits\n\nThese are notes as we made them on site." in full.markdown
    assert "He wants the duct insulated." in full.markdown and not full.left_out


def test_a_letter_of_nothing_else_tells_it_all_the_same() -> None:
    made = update_letter(facts(found=(said("He wants the duct insulated"),))).markdown
    assert "He wants the duct insulated." in made


def test_a_danger_is_never_left_out() -> None:
    danger = said("They say it's live, watch your head", hazards=(Hazard.ELECTRICAL,))
    many = tuple(said(f"board {n} is long and straight and of the same wood as the rest") for n in range(90))
    letter = update_letter(facts(found=(*many, danger)))
    assert "They say it's live" in letter.markdown
    assert "**Wiring (sink).**" in letter.markdown
    kept = [one for one in letter.left_out if one.words == danger.text]
    assert [one.kept for one in kept] == [True]


@pytest.mark.parametrize(
    "note", ["He found a box and it's live", "it's about to collapse", "they smell gas in there"]
)
def test_a_danger_nobody_marked_is_known_by_its_words(note: str) -> None:
    many = tuple(said(f"board {n} is long and straight and of the same wood as the rest") for n in range(90))
    letter = update_letter(facts(found=(*many, said(note))))
    assert calmed(note)[0][1:] in letter.markdown
    assert [one.kept for one in letter.left_out if one.words == note] == [True]
    assert not unclear("the delivery room is dry") and not warns("the delivery came")


def test_what_is_asked_of_the_client_is_never_left_out() -> None:
    asks = tuple(fact(f"she has to pick color {n}", who=Party.CLIENT) for n in range(60))
    made = update_letter(facts(needed=asks)).markdown
    assert all(f"pick color {n}." in made for n in range(60))


@given(update_facts)
def test_whatever_is_not_told_is_named_to_its_writer(some: UpdateFacts) -> None:
    story = story_of(some)
    told = [one for part in (*story.parts, story.needed, story.waiting, story.notes) for one in part]
    named = " ".join(one.words for one in story.left_out)
    for part in (some.found, some.decided, some.done, some.next, some.needed, some.waiting):
        for each in part:
            if each.text.strip() and not any(
                one.fact.text.casefold() == each.text.casefold() for one in told
            ):
                words = [w for w in each.text.split() if w.isascii() and w.isalpha() and len(w) > 6]
                again = " ".join(one.fact.text for one in told).casefold()
                assert all(word in named or word.casefold() in again for word in words)


@given(lines)
def test_any_note_can_be_judged(text: str) -> None:
    left, cut = without_talk(text)
    assert isinstance(unclear(text), str)
    assert left or cut or not text.strip()
