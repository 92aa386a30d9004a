"""An update in three lengths, the price and the dates in it."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace

import pytest
from hypothesis import given

from journal_tui.documents import plain_text, readability, update_markdown
from journal_tui.documents.story import SUMMED_UP
from journal_tui.documents.update import update_letter
from journal_tui.domain.document import ChangeFact, Length, TermsFact, UpdateFacts
from journal_tui.domain.kinds import Hazard, Kind, Party
from tests.documents.samples import DAY, client_text, fact, facts, update_facts

MONDAY, FRIDAY = dt.date(2026, 3, 23), dt.date(2026, 3, 27)


def rich() -> UpdateFacts:
    """Return the facts of a week with something of everything."""
    return facts(
        since=dt.date(2026, 3, 6),
        visits=(dt.date(2026, 3, 9), dt.date(2026, 3, 13)),
        found=(
            fact("the closet flange has leaked under the floor", "toilet"),
            *(fact(f"board {n} is long and straight", "floor") for n in range(9)),
            fact("mold on two boards", "floor"),
        ),
        decided=(fact("new tile goes to the ceiling", "tub"),),
        done=(fact("haul the old tub", "tub", kind=Kind.NEXT_STEP),),
        next=(
            fact("replace the soft boards", kind=Kind.NEXT_STEP, begins=MONDAY, ends=MONDAY),
            fact("test the drain", "tub", phase="rough plumbing", begins=FRIDAY, ends=FRIDAY),
        ),
        needed=(
            fact("which mirror cabinet", "sink", who=Party.CLIENT, by=FRIDAY),
            fact("pick the grout color", "floor", who=Party.CLIENT),
            fact("sign the permit", "", who=Party.CLIENT),
        ),
        changes=(
            ChangeFact(3, client_text("New subfloor"), 128_450, 2, DAY, True),
            ChangeFact(4, client_text("Heated floor"), 96_000, 1, DAY, None),
            ChangeFact(2, client_text("Niche"), 45_000, 1, DAY, False),
        ),
        terms=TermsFact(3_128_450, dt.date(2026, 4, 17)),
    )


@given(update_facts)
def test_a_short_message_always_fits(some: UpdateFacts) -> None:
    made = update_markdown(some, length=Length.SHORT)
    assert len(plain_text(made)) < 600
    assert update_markdown(some, length=Length.SHORT) == made


@pytest.mark.parametrize("text", ["word " * 4000, "x" * 20_000, "# h\n\n<b>", "a" * 149])
def test_a_short_message_of_long_things_fits_and_points_to_the_rest(text: str) -> None:
    made = update_markdown(
        facts(title=text, found=(fact(text),) * 3, needed=(fact(text),) * 5), length=Length.SHORT
    )
    assert len(plain_text(made)) < 600
    assert "The full update says more." in made


def test_a_short_message_asks_first_of_all_and_reads_well() -> None:
    made = plain_text(update_markdown(rich(), length=Length.SHORT))
    assert made == (
        "Upstairs hall bath, March 17.\n\n"
        "Done: We hauled the old tub.\n\n"
        "We found: The closet flange has leaked under the floor. The ring under the toilet holds it down "
        "and seals it to the drain. When it fails, water gets under the floor with each flush, and you do "
        "not see it until the wood is soft. Mold on two boards.\n\n"
        "Next: We will replace the soft boards and test the drain.\n\n"
        "Price: $1,284.50. It adds two working days.\n\n"
        "From you: Which mirror cabinet? Please answer by Friday, March 27. Please pick the grout color. "
        "And one more thing, in the full update.\n\n"
        "The full update says more.\n"
    )


def test_the_standard_length_says_how_much_it_leaves_out_and_keeps_what_weighs() -> None:
    some = rich()
    many = tuple(
        fact(f"board {n} of the back stair is long, straight and dry as it should be", "stair")
        for n in range(80)
    )
    some = replace(some, found=(*some.found, *many))
    letter = update_letter(some)
    made = letter.markdown
    told = made.count("of the back stair")
    out = [one for one in letter.left_out if one.why == SUMMED_UP]
    assert re.search(
        rf"We also noted {len(out)} more things, (?:some of them )?about the stair(?: and the floor)?\.", made
    )
    assert len([one for one in out if one.area == "stair"]) == 80 - told
    assert 350 <= readability(made).words <= 700
    assert "Mold on two boards." in made and "Mold grows where things stay damp" in made
    for kept in ("$1,284.50", "Please pick the grout color.", "Please sign the permit.", "two working days"):
        assert kept in made
    full = update_markdown(some, length=Length.FULL)
    assert "more things" not in full and "$1,284.50" in full
    assert all(f"Board {n} is long and straight." in full for n in range(9))
    assert len(update_markdown(some, length=Length.SHORT)) < len(made) < len(full)


def test_dangers_are_all_told_also_where_there_is_no_room_for_them() -> None:
    live = tuple(
        fact(
            f"outlet {n} on the north wall of the back bedroom is loose and hot",
            "wall",
            hazards=[Hazard.ELECTRICAL],
        )
        for n in range(70)
    )
    done = tuple(fact(f"haul off load {n} of plaster", kind=Kind.NEXT_STEP) for n in range(40))
    letter = update_letter(facts(found=live, done=done))
    assert all(f"Outlet {n} on the north wall" in letter.markdown for n in range(70))
    # There is hardly room for the rest: a little is told, and how much there is more.
    told = letter.markdown.count("haul")
    assert "We hauled off load" in letter.markdown
    assert (
        re.search(r"On our list, \d+ more points are done, about the floor\.\n", letter.markdown)
        and told < 10
    )


def test_dates_of_the_plan_are_told_by_phase_and_an_answer_by_its_day() -> None:
    made = update_markdown(replace(rich(), finish=FRIDAY))
    assert "We plan this for Monday, March 23." in made
    assert "We plan this for Friday, March 27." in made
    assert "By our plan the last day of work is Friday, March 27, 2026." in made
    assert "1. **Sink.** Which mirror cabinet?\n   Please answer by Friday, March 27.\n" in made
    late = facts(needed=(fact("pick a color", by=dt.date(2026, 3, 16)),))
    assert "We had hoped for an answer by Monday, March 16, and still need it." in update_markdown(late)


def test_what_changes_in_price_and_days_is_told_with_the_sum_it_comes_to() -> None:
    made = update_markdown(rich())
    assert (
        "## Changes in price and time\n\n"
        "**Change order 3, New subfloor.** You said yes to it on March 17.\n"
        "It adds $1,284.50 to the price.\nIt adds two working days.\n\n"
        "**Change order 4, Heated floor.** We sent it to you on March 17, and it waits for your answer.\n"
        "It adds $960.00 to the price.\nIt adds one working day.\n\n"
        "**Change order 2, Niche.** You said no to it on March 17, so price and time stay as they were.\n\n"
        "With all you have said yes to, the contract now stands at $31,284.50.\n"
        "The last day of work under the contract is Friday, April 17.\n"
    ) in made


def test_an_update_with_only_a_change_is_not_empty() -> None:
    some = facts(changes=(ChangeFact(1, client_text("Credit"), -5_000, -1, DAY, True),))
    assert not some.empty
    made = update_markdown(some)
    assert "It takes $50.00 off the price.\nIt saves one working day." in made


def test_a_rich_update_follows_the_plain_language_guidelines() -> None:
    """Federal Plain Language Guidelines, March 2011, revision 1 of May 2011 (PLAIN): no more than three
    levels of headings (section II), short sentences (III.b.1), "you" for the reader (III.a.2.ii), no "shall"
    (III.a.1.iv); and Flesch-Kincaid grade 8 as the project's own mark."""
    for length in Length:
        made = update_markdown(rich(), length=length)
        measured = readability(made)
        assert measured.grade <= 8
        assert measured.words / measured.sentences <= 20
        assert " you " in made and "shall" not in made.casefold()
        assert "####" not in made
