"""Why what was found matters: the library, and how entries are matched with it."""

from __future__ import annotations

import re

import pytest
from hypothesis import given

from journal_tui.documents import readability, standard_glossary, update_markdown
from journal_tui.documents.conditions import conditions, conditions_in, family_notes, notes_for
from journal_tui.documents.flesch import sentences_in
from journal_tui.domain.document import Length
from tests.documents.samples import fact, facts, lines


def test_the_library_is_large_and_each_condition_has_a_source_or_says_it_has_none() -> None:
    known = conditions()
    assert len(known) >= 40
    assert len({c.name for c in known}) == len(known)
    for condition in known:
        assert condition.source or re.search(r"common practice|MEM|READ", condition.standing), condition.name
        assert condition.left


def test_reasons_are_short_calm_and_blame_nobody() -> None:
    # Federal Plain Language Guidelines (March 2011, revision 1): short sentences, one idea in each.
    blame = re.compile(
        r"\b(?:they should have|fault|careless|botched|illegal|sloppy|nightmare|disaster|terrible)\b"
    )
    for condition in conditions():
        for text in (condition.say, condition.left):
            assert not blame.search(text), condition.name
            assert all(len(s.split()) <= 34 for s in sentences_in(text)), condition.name
        assert readability(condition.say).grade <= 9.5, condition.name
    whole = readability(" ".join(c.say for c in conditions()))
    assert whole.grade <= 7 and whole.words / whole.sentences <= 20


def test_words_a_reason_explains_are_words_the_glossary_would_explain() -> None:
    glossary = standard_glossary()
    explained = [word for condition in conditions() for word in condition.explains]
    assert explained and all(glossary.used_in(word) for word in explained)


#: Sentences of the trade, each with the beginning of the reason it must be given. Common practice, no source.
CASES = [
    ("the gray flex under the sink is polybutylene", "", "This kind of plastic pipe"),
    ("green crust on the stem", "shutoff valve", "Green crust on copper or brass"),
    ("the closet flange has leaked under the floor", "toilet", "The ring under the toilet"),
    ("wet particleboard under the vinyl", "floor", "Particleboard swells"),
    ("floor's bouncy by the door", "floor", "Tile does not bend"),
    ("there is no fan in here", "ceiling", "A bath without a working fan"),
    ("knob-and-tube runs across the bay", "ceiling", "Knob-and-tube is wiring"),
    ("no blocking for the grab bar", "long wall", "A grab bar, a vanity"),
    ("mold behind the vanity", "vanity", "Mold grows where things stay damp"),
    ("the shutoff won't turn", "cabinet", "A shutoff is there for the day"),
    ("It's galvanized, hot and cold", "supply", "Galvanized pipe is steel"),
    ("one joist is notched more than halfway", "joist", "A joist carries the floor"),
    ("drum trap under the tub", "tub", "This is an old kind of drain bend"),
    ("somebody made a splice inside this wall, no box, just tape", "walls", "Wires may be joined only"),
    ("The sill's rotted at the left end", "window", "Rotten wood has lost its strength"),
    ("the hole in the top plate isn't fire-blocked", "drain", "A hole between floors"),
    ("the outlet is two prong, no ground", "outlet", "An outlet without a ground"),
    ("nine-inch tiles and black glue under them", "closet", "Old floor tile, black glue"),
    ("the tile behind the tub sounds hollow", "tub", "When it sounds hollow"),
    ("wall is out of plumb half an inch", "long wall", "A wall that is not straight"),
    ("the dryer duct is plastic and full of lint", "laundry", "Lint burns easily"),
    ("wrong glass in the sash, it isn't tempered", "window", "Glass near a tub"),
]


@pytest.mark.parametrize(("text", "place", "reason"), CASES)
def test_a_known_condition_is_known_by_its_words(text: str, place: str, reason: str) -> None:
    assert any(c.say.startswith(reason) for c in conditions_in(text, place))


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("no mold behind the vanity", "vanity"),
        ("there isn't any mold", "wall"),
        ("the joists are true and dry", "floor"),
        ("soft-close hinges on the doors", "cabinet"),
        ("white molding at the ceiling", "ceiling"),
        ("the lead time on the vanity is six weeks", "vanity"),
        ("black metal strip at the door", "floor"),
        ("tile is on two thirds of it", "floor"),
        ("no leak at the shoe", "tub"),
        ("", ""),
    ],
)
def test_what_is_not_there_is_given_no_reason(text: str, place: str) -> None:
    assert conditions_in(text, place) == []


@given(lines, lines)
def test_any_text_can_be_looked_through(text: str, place: str) -> None:
    assert len(conditions_in(text, place)) <= 2


def test_a_reason_is_told_once_and_spares_the_glossary() -> None:
    some = facts(found=(fact("it's galvanized pipe", "supply"), fact("more galvanized pipe", "basement")))
    made = update_markdown(some)
    assert made.count("Galvanized pipe is steel with a zinc coat") == 1
    assert "with age it rusts shut from the inside" not in made
    assert "(See:" not in made
    with_sources = update_markdown(
        facts(found=(fact("no fire blocking at the top plate", "wall"),)), length=Length.FULL
    )
    assert "(See: International Residential Code, 2021 edition, section R302.11.)" in with_sources


@pytest.mark.parametrize(
    ("phase", "text", "label"),
    [
        ("rough plumbing", "shut the water off and swap the valve", "Water off"),
        ("tile", "grout the wall tile of the shower", "No shower or bath yet"),
        ("demo", "haul it off", "Dust and noise"),
        ("tile", "set the floor in thin-set", "Keep off the floor"),
        ("rough plumbing", "pull the toilet", "A toilet out of use"),
        ("trim", "paint the ceiling", "Smell"),
    ],
)
def test_the_family_is_told_what_the_days_ahead_bring(phase: str, text: str, label: str) -> None:
    assert label in [note.label for note in notes_for([(phase, "room", text)])]
    assert label not in [note.label for note in notes_for([("trim", "room", "look at the door")])]


def test_every_note_to_the_family_stands_by_itself() -> None:
    for note in family_notes():
        assert note.label and note.standing
        assert 1 <= readability(note.say).sentences <= 2
