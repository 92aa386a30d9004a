"""What a client update says and how it is put together."""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given

from journal_tui.documents import read_glossary, update_markdown
from journal_tui.documents.update import update_letter
from journal_tui.domain.document import Length, UpdateFacts
from journal_tui.domain.kinds import Hazard, Kind, Party
from tests.documents.samples import DAY, fact, facts, update_facts

MONDAY, FRIDAY = dt.date(2026, 3, 9), dt.date(2026, 3, 13)


def section(markdown: str, heading: str) -> str:
    """Return what stands under a heading of the second level."""
    _, _, rest = markdown.partition(f"\n## {heading}\n\n")
    assert rest, f"no section {heading!r} in {markdown!r}"
    return rest.partition("\n\n## ")[0].partition("\n\nIf anything here is not clear")[0].rstrip("\n")


def test_a_small_update_in_full() -> None:
    made = update_markdown(
        facts(
            since=dt.date(2026, 3, 6),
            visits=(MONDAY, FRIDAY),
            found=(fact("two planks are soft"), fact("Sill is dry", "window")),
            decided=(fact("planks stay", kind=Kind.DECISION),),
            done=(fact("the tub is out", "tub", phase="demo"),),
            next=(
                fact("screw down the planks", kind=Kind.NEXT_STEP),
                fact("block the seams", kind=Kind.NEXT_STEP),
            ),
            needed=(fact("which mirror cabinet", "sink", day=FRIDAY, who=Party.CLIENT),),
            waiting=(fact("look at the pipes", "tub", day=DAY, who=Party.INSPECTOR),),
        )
    )
    assert made == (
        "# Upstairs hall bath\n\n"
        "Update of Tuesday, March 17, 2026, for 27 Quince Street.\n"
        "This is about our visits on March 9 and March 13.\n"
        "Our last update to you was on March 6.\n"
        "We need one thing from you. You will find it below, under “What we need from you”.\n\n"
        "## What we found\n\n"
        "**Floor.** Two planks are soft.\n\n"
        "**Why it matters.** A soft or dark spot means the wood has been wet for some time. We open it up, "
        "find where the water came from and replace what has lost its strength.\n\n"
        "**Window.** Sill is dry.\n\n"
        "## What we decided\n\n"
        "**Floor.** Planks stay.\n\n"
        "## What we did since the last update\n\n"
        "**The tub** is out.\n\n"
        "## What comes next\n\n"
        "This is the step we do next.\n\n"
        "### The base of the floor\n\n"
        "**Floor.** We will screw down the planks and block the seams.\n\n"
        "## What we need from you\n\n"
        "Please let us know about the points below. If one of them is not clear, just ask.\n\n"
        "1. **Sink.** Which mirror cabinet?\n"
        "   (On our list since March 13.)\n\n"
        "## What we are waiting for\n\n"
        "These points are not in our hands. We keep after them.\n\n"
        "**Tub.** We wait for the inspector to look at the pipes.\n\n"
        "If anything here is not clear, please ask. We are glad to explain.\n"
    )


@given(update_facts)
def test_same_facts_make_the_same_text(some: UpdateFacts) -> None:
    made = update_markdown(some)
    assert update_markdown(some) == made
    assert made.endswith("\n") and not made.endswith("\n\n")


def test_dates_are_english_whatever_the_machine_speaks() -> None:
    some = facts(found=(fact("dry"),), visits=(MONDAY,))
    before = update_markdown(some)

    class Foreign(dt.date):
        def strftime(self, form: str) -> str:
            raise AssertionError("a date was written in the machine's language")

        __format__ = strftime

    foreign = Foreign(2026, 3, 17)
    told = facts(found=(fact("dry", day=foreign),), visits=(Foreign(2026, 3, 9),))
    assert update_markdown(dataclasses.replace(told, as_of=foreign)) == before


def test_nothing_new_is_said_kindly() -> None:
    made = update_markdown(facts(since=FRIDAY))
    assert made == (
        "# Upstairs hall bath\n\n"
        "Update of Tuesday, March 17, 2026, for 27 Quince Street.\n\n"
        "We have nothing new to tell you since our update on March 13.\n"
        "We will write again when there is news. If you have a question, please ask.\n"
    )
    assert "nothing new to tell you today" in update_markdown(facts())


def test_an_update_is_grouped_by_place_not_by_row() -> None:
    made = update_markdown(
        facts(found=(fact("long", "Floor"), fact("dry", "window"), fact("level", "floor "), fact("old", "")))
    )
    assert section(made, "What we found").split("\n\n") == [
        "**Floor.** Long.\nLevel.",
        "**Window.** Dry.",
        "**The job as a whole.** Old.",
    ]


def test_what_comes_next_keeps_the_order_of_the_phases_given() -> None:
    made = update_markdown(
        facts(
            next=(
                fact("haul it off", "tub", phase="demo"),
                fact("run the wire", "sink", phase="rough electrical"),
                fact("lay it out", "floor", phase="tile"),
                fact("seed the lawn", "yard", phase="landscaping"),
            )
        )
    )
    titles = [line for line in section(made, "What comes next").split("\n") if line.startswith("###")]
    assert titles == [
        "### Taking out the old work",
        "### Wiring inside the walls",
        "### Tile",
        "### Landscaping",
    ]


def test_other_work_is_not_said_to_follow_the_order() -> None:
    tile, other = fact("lay it out", phase="tile"), fact("run the wire", phase="other")
    order = "Each step covers the one before it, so we do the work in this order."
    both = section(update_markdown(facts(next=(tile, other))), "What comes next")
    assert both.startswith(f"{order}\nWhat stands under “Other work” is not tied to that order.\n\n")
    assert order not in update_markdown(facts(next=(other,)))


def test_the_same_thing_is_not_told_twice_in_a_place() -> None:
    made = update_markdown(
        facts(found=(fact("Sill is dry"), fact("sill is  dry"), fact("Sill is dry", "tub")))
    )
    assert section(made, "What we found") == "**Floor.** Sill is dry.\n\n**Tub.** Sill is dry."


def test_what_the_reader_has_to_move_is_told_once_as_a_request_or_as_found_when_it_is_none() -> None:
    asked = fact("client to pick a door", "cabinet", who=Party.CLIENT)
    made = update_markdown(facts(found=(asked, fact("dry")), needed=(asked,)))
    assert made.count("pick a door") == 1
    assert "Please pick a door." in section(made, "What we need from you")
    cracked = fact("one door is cracked", "cabinet", who=Party.CLIENT)
    letter = update_letter(facts(needed=(cracked,)))
    assert section(letter.markdown, "What we found") == "**Cabinet.** One door is cracked."
    assert "What we need from you" not in letter.markdown
    assert [(one.words, one.kept) for one in letter.left_out] == [(cracked.text, True)]


def test_requests_are_numbered_and_counted_once_each() -> None:
    asks = tuple(fact(f"pick color {n}", "floor", who=Party.CLIENT) for n in range(12))
    made = update_markdown(facts(needed=(*asks, asks[0])))
    assert "We need 12 things from you." in made
    assert section(made, "What we need from you").count("Please pick color") == 12
    assert "\n\n12. **Floor.** Please pick color 11." in made


def test_what_waits_is_told_by_party_and_place() -> None:
    made = update_markdown(
        facts(
            waiting=(
                fact("look at the pipes", "tub", who=Party.INSPECTOR),
                fact("send the tile", day=dt.date(2025, 12, 30), who=Party.SUPPLIER),
                fact("look at the frame", "wall", who=Party.INSPECTOR),
            )
        )
    )
    assert section(made, "What we are waiting for").split("\n\n")[1:] == [
        "**Tub.** We wait for the inspector to look at the pipes.",
        "**Wall.** We wait for the inspector to look at the frame.",
        "**Floor.** We wait for a supplier to send the tile. (On our list since December 30, 2025.)",
    ]


def test_many_visits_are_counted() -> None:
    days = tuple(dt.date(2026, 3, n) for n in (9, 2, 3, 5, 6, 9))
    made = update_markdown(facts(found=(fact("dry"),), visits=days))
    assert "This is about our five visits from March 2 to March 9." in made


def test_a_first_update_does_not_speak_of_a_last_one() -> None:
    made = update_markdown(facts(done=(fact("tub is out"),)))
    assert "## What we did so far" in made
    assert "last update" not in made


def test_an_address_that_is_the_title_is_not_said_again() -> None:
    made = update_markdown(facts(title="27 Quince Street, hall bath", found=(fact("dry"),)))
    assert "Update of Tuesday, March 17, 2026.\n" in made


def test_a_trade_word_is_explained_once_where_it_is_first_used() -> None:
    made = update_markdown(
        facts(
            found=(fact("the P-trap is new", "sink"), fact("p trap is old", "tub")),
            next=(fact("new P-trap and a nail plate", "sink"),),
        )
    )
    assert made.count("A P-trap is the bend under a drain") == 1
    assert section(made, "What we found").split("\n\n")[:2] == [
        "**Sink.** The P-trap is new.",
        "*A P-trap is the bend under a drain that holds water to keep sewer gas out.*",
    ]
    assert section(made, "What comes next").endswith(
        "*A nail plate is a small steel plate that keeps nails and screws out of a pipe or a wire.*"
    )


def test_a_glossary_of_ones_own_takes_the_place_of_ours() -> None:
    words = read_glossary('[[term]]\nforms = ["wonder board"]\nsay = "A *board* of wonder."\n')
    made = update_markdown(facts(found=(fact("wonder-boards and a P-trap"),)), words)
    assert section(made, "What we found").split("\n\n")[1] == "*A \\*board\\* of wonder.*"
    assert "sewer" not in made


def test_a_danger_is_followed_by_its_caution_with_place_and_rule() -> None:
    made = update_markdown(
        facts(
            found=(fact("trim paint is flaking", "window", hazards=[Hazard.LEAD]),),
            next=(
                fact("test the paint", "door", hazards=[Hazard.LEAD]),
                fact("cut board", "yard", hazards=[Hazard.SILICA]),
            ),
        ),
        length=Length.FULL,
    )
    care = section(made, "Please take care").split("\n\n")
    assert [block.partition("**")[2].partition(".**")[0] for block in care[1:-1]] == [
        "Old paint (window and door)",
        "Dust from cutting tile and cement (yard)",
    ]
    assert "40 CFR Part 745" in care[1] and "29 CFR 1926.1153" in care[2]
    assert care[-1].startswith("Local code and your inspector have the last word.")


def test_what_is_done_is_no_longer_warned_of() -> None:
    made = update_markdown(facts(done=(fact("old outlet is out", hazards=[Hazard.ELECTRICAL]),)))
    assert "take care" not in made


def test_notes_about_the_client_speak_to_them() -> None:
    made = update_markdown(
        facts(
            decided=(fact("client wants the niche lower"),),
            needed=(fact("Client to clear the driveway"),),
        )
    )
    assert "You want the niche lower." in made
    assert "Please clear the driveway." in made


def test_a_very_long_note_is_told_whole() -> None:
    long = "word " * 4000 + "end"
    some = facts(found=(fact(long),))
    assert long.strip().capitalize() in update_markdown(some, length=Length.FULL)
    # What takes half an hour to read is in no letter of three minutes; the remodeler is told so.
    letter = update_letter(some)
    assert "We noted one thing, about the floor." in letter.markdown
    assert [one.words for one in letter.left_out] == [long]
