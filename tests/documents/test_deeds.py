"""What is to be done and what was done, as sentences; and which things seen are finished work."""

from __future__ import annotations

import re

import pytest
from hypothesis import given

from journal_tui.documents import plain_text, update_markdown
from journal_tui.documents.deeds import deed_in, tells_of_done_work, told_to_reader
from journal_tui.documents.sentences import sentences
from journal_tui.documents.update import update_letter
from journal_tui.documents.wording import DAYS, data_table, data_text
from journal_tui.domain.document import Length, UpdateFacts
from journal_tui.domain.kinds import Kind, Party
from tests.documents.samples import fact, facts, lines, update_facts


@pytest.mark.parametrize(
    ("note", "ahead", "behind"),
    [
        ("strap the new supply", "We will strap the new supply.", "We strapped the new supply."),
        ("We need to float that spot", "We will float that spot.", "We floated that spot."),
        ("Cut the top and paint it.", "We will cut the top and paint it.", "We cut the top and painted it."),
        ("the plumber has to swap the arrester", "The plumber will swap the arrester.",
         "The plumber swapped the arrester."),
        ("Electrician needs to fish a new line", "The electrician will fish a new line.",
         "The electrician fished a new line."),
        ("I'm gonna call the shop", "We will call the shop.", "We called the shop."),
        ("set the ring and seal", "We will set the ring and seal.", "We set the ring and seal."),
    ],
)  # fmt: skip
def test_a_note_is_told_as_work_to_come_and_as_work_done(note: str, ahead: str, behind: str) -> None:
    next_ = update_markdown(facts(next=(fact(note, kind=Kind.NEXT_STEP),)))
    done = update_markdown(facts(done=(fact(note, kind=Kind.NEXT_STEP),)))
    assert ahead in next_
    assert behind in done


def test_every_past_form_is_one_word_and_no_verb_stands_twice() -> None:
    # The irregular ones, as any dictionary has them.
    past = data_table("verbs.toml")["past"]
    for verb, form in {
        "lay": "laid",
        "hang": "hung",
        "grind": "ground",
        "tear": "tore",
        "bring": "brought",
    }.items():
        assert past[verb] == form
    assert all(form.isalpha() for form in past.values())
    regular = [v for v, form in past.items() if form.endswith("ed")]
    assert all(past[v][:2] == v[:2] for v in regular)


@pytest.mark.parametrize(
    "note",
    [
        "The door needs to be cut", "A flat light with a switch", "Dryer's backordered", "", "# heading",
        "They need a threshold at the hall", "settle the color", "Drain and vent passed",
        "load list for Monday", "fire caulk around the vent",
    ],
)  # fmt: skip
def test_other_notes_are_left_as_they_are(note: str) -> None:
    assert deed_in(note) is None


@given(lines)
def test_any_note_can_be_read(note: str) -> None:
    tells_of_done_work(note)
    deed = deed_in(note)
    if deed:
        assert deed.to_do().lower().startswith(deed.verb)
        assert deed.done()


#: Common practice, no source: how a tradesman says that work is behind him, and how he says it is not.
DONE = [
    "the mud bed is out", "valve is in", "Backer's all up and the seams are taped", "The post came out",
    "We set it in a bed of mortar this morning, filled it to the overflow", "All five joists are sistered",
    "Framing passed with the engineer's letter", "Washer is in and level", "the plumber capped the line",
]  # fmt: skip
FOUND = [
    "The valve is in the wall", "Two joists were cut for the drain", "I pulled the register and looked in",
    "The elbow under the sink drips", "Hex is down on two thirds of it", "The wall is out of plumb",
    "somebody set it without a seal", "the old trap is capped with tape", "the cabinet is in the way",
    "the fan isn't in", "the drain is not done", "",
]  # fmt: skip


@pytest.mark.parametrize("note", DONE)
def test_work_seen_finished_is_told_as_done(note: str) -> None:
    assert tells_of_done_work(note)
    made = update_markdown(facts(found=(fact(note),)))
    assert "## What we found" not in made
    assert "## What we did so far" in made


@pytest.mark.parametrize("note", FOUND)
def test_a_thing_found_is_not(note: str) -> None:
    assert not tells_of_done_work(note)


def test_short_works_of_a_place_share_a_sentence_and_long_ones_do_not() -> None:
    made = update_markdown(
        facts(
            next=(
                fact("strap the supply", kind=Kind.NEXT_STEP),
                fact("plate the studs", kind=Kind.NEXT_STEP),
                fact("test the drain, all ten feet of it, before we board", kind=Kind.NEXT_STEP),
                fact("clean up", kind=Kind.NEXT_STEP),
            )
        )
    )
    assert (
        "**Floor.** We will strap the supply and plate the studs.\n"
        "We will also test the drain, all ten feet of it, before we board.\n"
        "We will also clean up.\n"
    ) in made


@pytest.mark.parametrize(
    ("note", "told"),
    [
        ("When we trim out, set the limit stop low", "When we trim out, we will set the limit stop low"),
        ("the sash is loose; fix the cord", "the sash is loose; we will fix the cord"),
        ("Along the tub, keep the tile off it", "Along the tub, we will keep the tile off it"),
        ("we took the door down; put it back", "we took the door down; put it back"),
        ("the trap is loose; paint peels", "the trap is loose; paint peels"),
    ],
)  # fmt: skip
def test_an_order_to_the_crew_is_told_as_what_we_will_do(note: str, told: str) -> None:
    assert told_to_reader(note) == told
    made = update_markdown(facts(found=(fact(note),)))
    assert all(line in made for line in sentences(told))


@pytest.mark.parametrize(
    ("note", "ahead"),
    [
        ("I want the engineer to look at that hole", "The engineer will look at that hole."),
        ("the plumber has to come back and move the vent", "The plumber will move the vent."),
        ("Still to do after tile, hang the grab bar", "We will hang the grab bar."),
        ("Keep the lid on the tub", "We will keep the lid on the tub."),
        ("Leave the rest of the floor down", "We will leave the rest of the floor down."),
    ],
)  # fmt: skip
def test_whoever_has_the_work_is_told_of(note: str, ahead: str) -> None:
    assert ahead in update_markdown(facts(next=(fact(note, kind=Kind.NEXT_STEP),)))


def test_what_was_found_and_settled_is_one_list_in_the_past_and_quoted_where_no_rule_tells_it_so() -> None:
    settled = facts(
        done=(
            fact("the elbow drips", "sink"),
            fact("the trap is cracked", "sink"),
            fact("the wall tile comes out to the studs", "tub", kind=Kind.NEXT_STEP),
            fact("We shut that breaker off", "panel", kind=Kind.NEXT_STEP),
        )
    )
    made = update_markdown(settled)
    assert (
        "**Panel.** We shut that breaker off.\n\n"
        "We noted these points on earlier visits. They are now taken care of:\n\n"
        "- **Sink.** The elbow dripped. The trap was cracked.\n"
    ) in made
    assert made.count("taken care of") == 1
    assert "On our list, one more point is done, about the tub." in made
    full = update_markdown(settled, length=Length.FULL)
    assert "- **Tub.** “The wall tile comes out to the studs.”\n" in full


def test_what_the_reader_did_is_told_of_the_reader() -> None:
    made = update_markdown(facts(done=(fact("pick the floor tile", kind=Kind.NEXT_STEP, who=Party.CLIENT),)))
    assert "You picked the floor tile." in made
    made = update_markdown(
        facts(done=(fact("answer change order 3", kind=Kind.NEXT_STEP, who=Party.CLIENT),))
    )
    assert "You answered change order 3." in made


def test_what_is_held_says_what_it_waits_for() -> None:
    held = fact("board the wall", kind=Kind.NEXT_STEP, held="your answer to change order 2")
    made = update_markdown(facts(next=(held,)))
    assert "We will board the wall.\nThis waits for your answer to change order 2." in made


@given(update_facts)
def test_nothing_told_is_lost_on_the_way(some: UpdateFacts) -> None:
    """Every word of every note stands in the full update, or among what the remodeler is told it leaves out;

    but for what the data files say is only said ("okay, so") and for days, which are told as dates."""
    letter = update_letter(some, length=Length.FULL)
    out = " ".join(one.words for one in letter.left_out)
    made = f"{plain_text(letter.markdown)} {out}".casefold()
    spoken = set(
        re.findall(r"\w+", " ".join([*DAYS, data_text("spoken.toml"), data_text("tone.toml")]).casefold())
    )
    for part in (some.found, some.decided, some.done, some.next, some.needed, some.waiting):
        for note in part:
            deed = deed_in(note.text)
            words = deed.rest.split() if deed else note.text.split()
            for word in words:
                plain = "".join(c for c in word if c.isascii() and c.isalpha())
                if len(plain) > 6 and plain == word and plain.casefold() not in spoken:
                    assert plain.casefold()[:5] in made


@pytest.mark.parametrize(
    ("note", "behind"),
    [
        ("hang the mirror and have the glazier check it", "We hung the mirror and had the glazier check it."),
        ("move the vanity out and hoist it", "We moved the vanity out."),
        ("Set the curb before the pan goes down", "We set the curb."),
        ("start the plaster once the inspector has signed", "We started the plaster."),
        ("open the crate and look", "We opened the crate and looked."),
        ("the plumber with the gas card has to cap the tee", "The plumber with the gas card capped the tee."),
        ("Cut two-inch strips for the jamb", "We cut two-inch strips for the jamb."),
        ("the mason seals the hearth", "The mason sealed the hearth."),
    ],
)  # fmt: skip
def test_what_was_done_is_told_whole_in_the_past_or_not_at_all(note: str, behind: str) -> None:
    made = update_markdown(facts(done=(fact(note, "porch", kind=Kind.NEXT_STEP),)))
    assert made.partition("## What we did so far\n\n")[2].startswith(f"**Porch.** {behind}\n")


def test_what_the_reader_was_asked_by_a_day_is_told_without_it() -> None:
    asked = fact("pick the knobs, by the tenth, so that we can order", kind=Kind.NEXT_STEP, who=Party.CLIENT)
    assert "You picked the knobs.\n" in update_markdown(facts(done=(asked,)))


def test_what_others_owed_they_did_and_not_we() -> None:
    owed = fact("look at the footing", "porch", kind=Kind.NEXT_STEP, who=Party.INSPECTOR)
    made = update_markdown(facts(done=(owed,)))
    assert "The inspector looked at the footing." in made and "We looked" not in made


def test_errands_that_are_done_are_counted_where_there_is_other_news() -> None:
    errand = fact("order the door knobs", "porch", kind=Kind.NEXT_STEP)
    work = fact("strip the old paint off the rail", "porch", kind=Kind.NEXT_STEP)
    letter = update_letter(facts(done=(errand, work)))
    assert "We stripped the old paint" in letter.markdown and "door knobs" not in letter.markdown
    assert "On our list, one more point is done, about the porch." in letter.markdown
    assert [one.words for one in letter.left_out] == [errand.text]
    assert "We ordered the door knobs." in update_markdown(facts(done=(errand,)))
    assert "ordered the door knobs" in update_markdown(facts(done=(errand, work)), length=Length.FULL)
