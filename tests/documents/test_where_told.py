"""Under which heading a note is told, whatever it was drafted as, and that it is told once."""

from __future__ import annotations

import dataclasses

import pytest

from journal_tui.documents import update_markdown
from journal_tui.documents.story import BEHIND, NOT_ON_LIST, SAYS_NOTHING, SEEN_DONE, TWICE
from journal_tui.documents.update import update_letter
from journal_tui.domain.document import ChangeFact, ClientFact, Length
from journal_tui.domain.kinds import Kind, Party
from tests.documents.samples import DAY, client_text, fact, facts

FOUND, DONE, NEXT, WAITING = (
    "What we found",
    "What we did so far",
    "What comes next",
    "What we are waiting for",
)


def said(
    text: str, area: str = "porch", kind: Kind = Kind.OBSERVATION, who: Party | None = None
) -> ClientFact:
    return dataclasses.replace(fact(text, area, kind=kind, who=who), spoken=True)


def step(text: str, area: str = "porch") -> ClientFact:
    return said(text, area, Kind.NEXT_STEP, Party.CREW)


def under(markdown: str, heading: str) -> str:
    return markdown.partition(f"\n## {heading}\n\n")[2].partition("\n\n## ")[0]


@pytest.mark.parametrize(
    "note",
    [
        "The footing inspection passed on the fourth",
        "The rail is primed",
        "Final passed, and the meter is in",
        "the gas test passed with ten pounds on it",
    ],
)
def test_a_result_already_had_is_never_a_step_to_come(note: str) -> None:
    letter = update_letter(facts(next=(step(note), step("hang the porch light"))))
    assert note[:12].lower() in under(letter.markdown, DONE).lower()
    assert note[:12].lower() not in under(letter.markdown, NEXT).lower()
    assert [(one.why, one.kept) for one in letter.left_out] == [(BEHIND, True)]


@pytest.mark.parametrize(
    "note",
    [
        "The rail is primed and it wants two coats",
        "Once the footing inspection passed we pour",
        "the meter has to be in by June",
        "pour the slab, the forms are in",
    ],
)
def test_what_has_work_left_in_it_still_comes_next(note: str) -> None:
    letter = update_letter(facts(next=(step(note),)))
    assert under(letter.markdown, DONE) == ""
    assert BEHIND not in [one.why for one in letter.left_out]


def test_what_is_only_wrong_is_found_though_it_was_drafted_as_a_step() -> None:
    made = update_markdown(
        facts(next=(step("The screen door doesn't meet its frame"), step("hang the light")))
    )
    assert "The screen door doesn't meet its frame." in under(made, FOUND)
    assert "screen door" not in under(made, NEXT)


@pytest.mark.parametrize(
    ("note", "heading"),
    [
        ("The new newel is in; it's got a crack down one side", FOUND),
        ("The stair light is up, but its glass is chipped", FOUND),
        ("The cracked newel is out and the new one is in", DONE),
        ("The stair light is up and the chipped glass is replaced", DONE),
    ],
)
def test_a_fault_in_what_is_done_is_told_as_found(note: str, heading: str) -> None:
    made = update_markdown(facts(found=(fact(note, "stair"),)))
    other = DONE if heading == FOUND else FOUND
    assert note[:12] in under(made, heading).replace("**", "") and under(made, other) == ""


def test_what_comes_next_is_not_also_told_as_decided() -> None:
    chosen = said("The old rail stays; order the balusters from the mill", kind=Kind.DECISION, who=Party.CREW)
    made = update_markdown(
        facts(decided=(chosen,), next=(step("Order the balusters from the mill", "stair"),))
    )
    assert made.count("balusters") == 1 and "balusters" in under(made, NEXT)
    assert "The old rail stays." in made
    whole = said("Order the balusters from the mill", kind=Kind.DECISION, who=Party.CREW)
    letter = update_letter(
        facts(decided=(whole,), next=(step("Order the balusters from the mill", "stair"),))
    )
    assert letter.markdown.count("balusters") == 1
    assert [one.why for one in letter.left_out] == [TWICE]


def test_a_thought_drafted_twice_is_not_begun_twice() -> None:
    first = said("There's old slate under the roll roofing, and the tar")
    again = said("There's old slate under the roll roofing, and it is cracked at the eave")
    made = update_markdown(facts(found=(first, again)))
    assert made.count("old slate") == 1 and "It is cracked at the eave." in made


def test_a_part_that_says_nothing_by_itself_is_not_told_and_is_named() -> None:
    letter = update_letter(facts(found=(said("The gutter is bent; we've got nothing; it is what it is"),)))
    assert (
        under(letter.markdown, FOUND).startswith("**The gutter") or "The gutter is bent." in letter.markdown
    )
    assert "nothing" not in letter.markdown
    assert {one.words for one in letter.left_out} == {"we've got nothing", "it is what it is"}
    alone = update_letter(facts(found=(fact("dry"),), next=(step("I need a yes or a no"),)))
    assert "a yes or a no" not in alone.markdown
    assert [one.why for one in alone.left_out] == [SAYS_NOTHING]


def test_a_fault_is_not_told_without_its_being_put_right() -> None:
    note = "The hanger was missing at the ledger; both fixed"
    letter = update_letter(facts(found=(said(note), fact("dry", "yard"))))
    assert "hanger" not in letter.markdown
    assert [(one.words, one.kept) for one in letter.left_out] == [(note, False)]


def test_what_can_stand_behind_an_unclear_beginning_is_told() -> None:
    letter = update_letter(
        facts(found=(said("It sits in the shed in its crate; one pane of the window is cracked"),))
    )
    assert "One pane of the window is cracked." in letter.markdown and "crate" not in letter.markdown
    chosen = said("We're not doing that, the old porch comes down", kind=Kind.DECISION)
    assert "The old porch comes down." in update_markdown(facts(decided=(chosen,)))
    hangs = said("If that is wet, the old porch comes down", kind=Kind.DECISION)
    assert "comes down" not in update_markdown(facts(decided=(hangs,), found=(fact("dry"),)))


def test_words_of_where_go_on_into_what_is_there() -> None:
    made = update_markdown(facts(found=(said("Over the stove; there's a dark ring on the plaster"),)))
    assert "Over the stove, there's a dark ring on the plaster." in made
    made = update_markdown(facts(found=(said("The cistern; it's nine foot across"),)))
    assert "The cistern: it's nine foot across." in made


def test_a_place_is_named_once_at_the_front_of_its_paragraph() -> None:
    made = update_markdown(facts(found=(fact("The cistern is nine foot across", "cistern"),)))
    assert "**The cistern** is nine foot across." in made
    # "Cistern lid" is another thing than the cistern.
    made = update_markdown(facts(found=(fact("The cistern lid is heavy", "cistern"),)))
    assert "**Cistern.** The cistern lid is heavy." in made


def test_who_others_are_is_told_once_and_where_it_is_about() -> None:
    inspector = said("He wants the rail raised", "stair", who=Party.INSPECTOR)
    yard = said("The yard is milling another one; we've got nothing", "porch", Kind.NEXT_STEP, Party.SUPPLIER)
    nobody = said("the shingles are late", "roof", Kind.NEXT_STEP, Party.SUPPLIER)
    told = under(update_markdown(facts(waiting=(inspector, yard, nobody))), WAITING).split("\n\n")
    assert told[1] == "**Stair.** The inspector wants the rail raised."
    assert told[2] == "**Porch.** The yard is milling another one."
    assert told[3].startswith("**Roof, with a supplier.** The shingles are late.")


def test_an_answer_is_told_once_with_its_price() -> None:
    order = ChangeFact(4, client_text("A new porch roof"), 5_000, 1, DAY, True)
    answered = fact("answer change order 4, A new porch roof", kind=Kind.NEXT_STEP, who=Party.CLIENT)
    made = update_markdown(facts(done=(answered,), changes=(order,)), length=Length.FULL)
    assert "You answered" not in made and "You said yes to it" in made


def test_a_need_is_ours() -> None:
    assert "We need a longer ladder." in update_markdown(facts(next=(step("need a longer ladder"),)))


def test_its_in_a_caption_is_it_is_where_no_thing_of_its_own_follows() -> None:
    made = update_markdown(
        facts(found=(fact("the slab is poured and its level"), fact("the crock and its lid", "yard")))
    )
    assert "it's level" in made and "its lid" in made


def test_work_seen_done_is_not_told_again_as_the_step_it_was() -> None:
    seen, listed = (
        fact("the porch floor is primed, two coats", "porch"),
        step("prime the floor and keep the dog off"),
    )
    other = step("paint the ceiling")
    letter = update_letter(facts(found=(seen,), done=(listed, other)))
    assert "We primed the floor" not in letter.markdown and "We painted the ceiling." in letter.markdown
    assert [(one.words, one.why) for one in letter.left_out] == [(listed.text, SEEN_DONE)]


def test_an_order_noted_as_seen_is_told_as_work_to_come_and_named() -> None:
    note = fact("need to hang the gate after the post is in", "yard")
    letter = update_letter(facts(found=(note, fact("dry"))))
    assert "We will hang the gate after the post is in." in under(letter.markdown, NEXT)
    assert under(letter.markdown, DONE) == "" and "gate" not in under(letter.markdown, FOUND)
    assert [(one.why, one.kept) for one in letter.left_out] == [(NOT_ON_LIST, True)]
