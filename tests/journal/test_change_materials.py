"""Material lines out of the measured materials list: counted, traced, priced, and kept when it changes."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest

from journal_tui.domain.change_order import ChangeLine, LineKind, TaxBase
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.made_from import FromMeasure
from journal_tui.journal import changes, contracts, jobs
from journal_tui.journal.change_answers import send_order
from journal_tui.journal.change_lists import amount_words, order_lines, order_object
from journal_tui.journal.change_materials import (
    changes_since,
    offered,
    price_book,
    take_material,
    trace_words,
)
from journal_tui.journal.change_pages import page_markdown
from journal_tui.journal.job_measures import drop_measure, keep_measure, materials_of
from journal_tui.journal.opening import Journal
from journal_tui.journal.undoing import undo

ROOM = {"size": "8-0x5-0", "height": "8-0"}


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Powder room", client="Ada Lindqvist")
    contracts.set_contract(
        journal, job.id, cents=2_000_000, markup=1_500, tax=800, tax_base=TaxBase.MATERIALS
    )
    keep_measure(journal, job.id, "take-off", "bath floor", {**ROOM, "subfloor": "plywood 3/4"}, by="Rui")
    return job


@pytest.fixture
def order(journal: Journal, job: Job) -> str:
    made = changes.draft_order(journal, job.id, "New subfloor")
    changes.change_words(journal, made.id, offer="New boards", days=1)
    return made.id


def test_the_list_is_offered_with_its_trace(journal: Journal, job: Job, order: str) -> None:
    choices = offered(journal, order)
    assert [c.material for c in choices] == list(materials_of(journal, job.id))
    plywood, fasteners = choices
    # 8-0 x 5-0 is 40 sq ft; a 4 x 8 sheet is 32: two sheets, counted by the layout, no waste on top.
    assert (plywood.made.packages, plywood.made.amount, plywood.made.waste) == (2, 2, 0.0)
    assert plywood.made.sold_by == "sheet"
    assert trace_words(plywood.made).startswith("2 sheets, from the take-off “bath floor” (96 in x 48 in")
    assert "and 10% waste, from the take-off “bath floor”" in trace_words(fasteners.made)
    (measure,) = plywood.made.parts
    assert measure == FromMeasure(measure.measure_id, "bath floor", 2)
    assert {c.each for c in choices} == {c.line for c in choices} == {None}


def test_two_measures_of_one_material_are_told_apart(journal: Journal, job: Job, order: str) -> None:
    keep_measure(journal, job.id, "take-off", "closet", {"size": "4-0x8-0", "subfloor": "plywood 3/4"})
    plywood = offered(journal, order)[0].made
    assert sum(part.amount for part in plywood.parts) == plywood.amount == 3
    assert "from the take-off “bath floor” 2 sheets; “closet” 1 sheets" in trace_words(plywood)


def test_a_line_is_priced_by_whole_packages_in_cents(journal: Journal, job: Job, order: str) -> None:
    made = take_material(journal, order, "plywood 3/4", each=5_435)
    (line,) = made.lines
    assert (line.kind, line.text, line.unit) == (LineKind.MATERIAL, "plywood 3/4", "sheet")
    assert (line.quantity, line.each, line.cents) == (200, 5_435, 10_870)
    # By hand: 2 x 54.35 = 108.70; 15 percent is 16.305, so 16.31; 8 percent on 125.01 is 10.0008, so 10.00.
    cent = Decimal("0.01")
    cost = 2 * Decimal("54.35")
    markup = (cost * Decimal("0.15")).quantize(cent, ROUND_HALF_UP)
    tax = ((cost + markup) * Decimal("0.08")).quantize(cent, ROUND_HALF_UP)
    price = made.price
    assert [Decimal(c) / 100 for c in (price.lines, price.markup, price.tax)] == [cost, markup, tax]
    assert price.total == 13_501
    page = page_markdown(journal, made)
    assert "Material: plywood 3/4, 2 sheets: $125.01" in page
    assert "bath floor" not in page and "54.35" not in page


def test_another_quantity_may_be_taken_and_it_is_said(journal: Journal, order: str) -> None:
    made = take_material(journal, order, "plywood 3/4", each=5_000, quantity=300)
    assert made.lines[0].cents == 15_000
    assert changes_since(journal, made) == {1: "the list said 2 sheets, you took another quantity"}


def test_a_price_typed_once_is_the_jobs_own(journal: Journal, job: Job, order: str) -> None:
    with pytest.raises(BadInput, match="plywood 3/4 has no price in this job yet"):
        take_material(journal, order, "plywood 3/4")
    take_material(journal, order, "plywood 3/4", each=5_435)
    second = changes.draft_order(journal, job.id, "More of it")
    assert offered(journal, second.id)[0].each == 5_435
    assert take_material(journal, second.id, "plywood 3/4").lines[0].each == 5_435
    # The one typed last counts, also where it was typed over an older line.
    take_material(journal, second.id, "plywood 3/4", each=6_000)
    assert set(price_book(journal, job.id).values()) == {6_000}
    other = jobs.add_job(journal, "Other house")
    assert price_book(journal, other.id) == {}


def test_taken_again_a_line_is_set_right_in_place(journal: Journal, order: str) -> None:
    take_material(journal, order, "plywood 3/4", each=5_000)
    take_material(journal, order, "nails", each=900)
    before = changes.get_order(journal, order).lines[0]
    changed = ChangeLine(before.kind, "three-quarter ply", 200, "sheet", 5_000, False, before.made_from)
    changes.change_line(journal, order, 1, changed)
    made = take_material(journal, order, "plywood 3/4", each=5_500)
    assert [line.each for line in made.lines] == [5_500, 900]
    assert (made.lines[0].text, made.lines[0].marked_up) == ("three-quarter ply", False)
    assert [choice.line for choice in offered(journal, order)] == [1, 2]


def test_what_a_line_was_made_from_stays_when_the_measures_change(
    journal: Journal, job: Job, order: str
) -> None:
    take_material(journal, order, "plywood 3/4", each=5_000)
    send_order(journal, order)
    kept = changes.get_order(journal, order)
    assert changes_since(journal, kept) == {}
    keep_measure(
        journal, job.id, "take-off", "bath floor", {**ROOM, "size": "12-0x8-0", "subfloor": "plywood 3/4"}
    )
    after = changes.get_order(journal, order)
    assert after == kept and after.price == kept.price
    assert changes_since(journal, after) == {1: "the list has changed since Thu 12 Mar: it says 3 sheets now"}
    assert any("! the list has changed" in line for line in order_lines(after, changes_since(journal, after)))
    # Fewer square feet, still two sheets; then nothing of it any more.
    keep_measure(
        journal, job.id, "take-off", "bath floor", {**ROOM, "size": "7-6x5-0", "subfloor": "plywood 3/4"}
    )
    assert changes_since(journal, after) == {}
    (measure,) = (part.measure_id for part in after.lines[0].made_from.parts)  # type: ignore[union-attr]
    drop_measure(journal, measure)
    assert "this is on it no more" in changes_since(journal, after)[1]


def test_a_change_that_leaves_the_count_is_said_too(journal: Journal, job: Job, order: str) -> None:
    take_material(journal, order, "nails", each=900)
    keep_measure(
        journal, job.id, "take-off", "bath floor", {**ROOM, "size": "7-9x5-0", "subfloor": "plywood 3/4"}
    )
    told = changes_since(journal, changes.get_order(journal, order))[1]
    assert told.startswith("the measures have changed since Thu 12 Mar; it is still 1 box of ")


def test_undo_takes_a_line_back_with_what_it_was_made_from(journal: Journal, job: Job, order: str) -> None:
    taken = take_material(journal, order, "plywood 3/4", each=5_000)
    changes.drop_line(journal, order, 1)
    assert changes.get_order(journal, order).lines == ()
    undo(journal, job.id)
    assert changes.get_order(journal, order).lines == taken.lines
    undo(journal, job.id)
    assert changes.get_order(journal, order).lines == ()


def test_what_is_not_on_the_list_or_sent_is_refused(journal: Journal, job: Job, order: str) -> None:
    with pytest.raises(NothingFound, match="no material is called"):
        take_material(journal, order, "gold leaf", each=1)
    for quantity in (0, -100):
        with pytest.raises(BadInput, match="the quantity of a line"):
            take_material(journal, order, "plywood 3/4", each=100, quantity=quantity)
    take_material(journal, order, "plywood 3/4", each=100)
    send_order(journal, order)
    with pytest.raises(BadInput, match="was sent"):
        take_material(journal, order, "plywood 3/4", each=200)


def test_an_order_for_other_programs_says_what_its_lines_are_made_from(journal: Journal, order: str) -> None:
    (line,) = order_object(take_material(journal, order, "plywood 3/4", each=5_000))["lines"]
    assert (line["quantity"], line["each"], line["cost"]) == (2.0, 5_000, 10_000)
    assert line["made_from"]["measures"] == ["bath floor"]


@pytest.mark.parametrize(
    ("quantity", "unit", "words"),
    [
        (200, "bag of 50 lb", "2 bags of 50 lb"),
        (100, "bag of 50 lb", "1 bag of 50 lb"),
        (1_600, "box of 80 tiles", "16 boxes of 80 tiles"),
        (250, "hour", "2.5 hours"),
        (200, "sq ft", "2 sq ft"),
        (200, "gal", "2 gal"),
        (300, "lb", "3 lb"),
        (300, "box", "3 boxes"),
        (100, "", ""),
        (300, "", "3"),
    ],
)
def test_quantities_read_as_they_are_said(quantity: int, unit: str, words: str) -> None:
    assert amount_words(quantity, unit) == words
