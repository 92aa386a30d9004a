"""Change orders in a journal: written, priced, sent, answered; the work they hold and the contract."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.domain.change_order import (
    Answer,
    ChangeLine,
    ChangeState,
    Channel,
    LineKind,
    Pricing,
    TaxBase,
)
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.punch import PunchState
from journal_tui.journal import changes, contracts, jobs, punch, updates, visits
from journal_tui.journal.change_answers import answer_order, send_order, withdraw_order
from journal_tui.journal.change_pages import order_page, page_markdown, sent_pages
from journal_tui.journal.change_plan import days_by_plan, lines_of_held_work
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import job_plan
from journal_tui.journal.undoing import undo
from tests.conftest import TODAY

YES = Answer("Ada Lindqvist", Channel.SIGNED, TODAY)


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Powder room", client="Ada Lindqvist", address="12 Elm Row")
    contracts.set_contract(
        journal,
        job.id,
        cents=2_000_000,
        finish=dt.date(2026, 4, 3),
        markup=1_500,
        tax=800,
        tax_base=TaxBase.MATERIALS,
    )
    return job


def drafted(
    journal: Journal, job: Job, title: str = "New subfloor", cents: int = 100_000, days: int = 2
) -> str:
    """Write a draft with one line of labor; return its id."""
    order = changes.draft_order(journal, job.id, title)
    changes.change_words(journal, order.id, offer="Replace the soft boards", days=days)
    changes.add_line(journal, order.id, ChangeLine(LineKind.LABOR, "carpentry", 100, "", cents))
    return order.id


def test_the_whole_way_from_a_finding_to_a_changed_contract(journal: Journal, job: Job) -> None:
    (found,) = visits.note(journal, job.id, "the floor is soft by the toilet")
    order = changes.draft_order(journal, job.id, "New subfloor", entry_id=found.id)
    assert order.found == "the floor is soft by the toilet"
    assert order.pricing == Pricing(1_500, 800, TaxBase.MATERIALS)
    changes.change_words(
        journal, order.id, offer="Replace 40 sq ft of boards", left="", days=2, answer_by=dt.date(2026, 3, 18)
    )
    changes.add_line(journal, order.id, ChangeLine(LineKind.LABOR, "carpentry", 1_200, "hour", 6_500))
    changes.add_line(journal, order.id, ChangeLine(LineKind.MATERIAL, "plywood", 300, "sheet", 5_400))
    held = punch.add(journal, job.id, "screw down the new plywood", phase="subfloor")
    changes.hold(journal, order.id, held.id)
    sent = send_order(journal, order.id)
    # 780.00 and 162.00 at cost; 15 percent of both is 141.30; 8 percent on 162.00 and its 24.30 is 14.90.
    assert (sent.price.lines, sent.price.markup, sent.price.tax) == (94_200, 14_130, 1_490)
    assert (sent.number, sent.state, sent.price.total) == (1, ChangeState.SENT, 109_820)
    (page,) = sent_pages(journal, job)
    assert page.markdown == page_markdown(journal, sent)
    assert changes.waiting_for(journal, job.id) == {held.id: 1}
    told = updates.client_update(journal, job.id)
    assert "This waits for your answer to change order 1." in told.markdown
    assert (
        "Please answer change order 1, New subfloor.\n   Please answer by Wednesday, March 18."
        in told.markdown
    )
    assert "it waits for your answer.\nIt adds $1,098.20 to the price." in told.markdown
    done = answer_order(journal, order.id, True, YES)
    assert done.state is ChangeState.ACCEPTED and done.answer == YES
    view = contracts.contract_view(journal, job.id)
    assert view.standing.cents == 2_109_820
    # Two working days after Friday, April 3 is Tuesday, April 7.
    assert view.finish == dt.date(2026, 4, 7)
    assert changes.waiting_for(journal, job.id) == {}
    told = updates.client_update(journal, job.id)
    assert "the contract now stands at $21,098.20." in told.markdown
    assert "waits for your answer" not in told.markdown


def test_work_held_is_on_hold_in_the_plan_until_it_is_answered(journal: Journal, job: Job) -> None:
    work = punch.add(journal, job.id, "frame the niche", phase="rough plumbing")
    order = drafted(journal, job)
    changes.hold(journal, order, work.id)
    free = job_plan(journal, job).plan.row(work.id)
    assert free is not None and free.ready.ready
    sent = send_order(journal, order)
    row = job_plan(journal, job).plan.row(work.id)
    assert row is not None and not row.ready.ready
    item = punch.get_item(journal, sent.item_id or "")
    for deed in (punch.finish, punch.drop):
        with pytest.raises(BadInput, match="waits for the client's answer"):
            deed(journal, item.id)
    answer_order(journal, order, False, YES)
    assert punch.get_item(journal, item.id).state is PunchState.DONE
    row = job_plan(journal, job).plan.row(work.id)
    assert row is not None and row.ready.ready


def test_numbers_have_no_gaps_whatever_is_withdrawn(journal: Journal, job: Job) -> None:
    first, second, third = (drafted(journal, job, f"Change {n}") for n in range(3))
    withdraw_order(journal, second)
    assert send_order(journal, first).number == 1
    assert send_order(journal, third).number == 2
    taken = withdraw_order(journal, third)
    assert (taken.number, taken.state) == (2, ChangeState.WITHDRAWN)
    assert punch.get_item(journal, taken.item_id or "").state is PunchState.DROPPED
    assert send_order(journal, drafted(journal, job, "Change 4")).number == 3
    assert contracts.contract_view(journal, job.id).standing.cents == 2_000_000


def test_what_was_sent_or_answered_cannot_be_undone_or_changed(journal: Journal, job: Job) -> None:
    order = drafted(journal, job)
    send_order(journal, order)
    answer_order(journal, order, True, YES)
    with pytest.raises(BadInput):
        changes.change_words(journal, order, title="Other")
    with pytest.raises(BadInput):
        changes.add_line(journal, order, ChangeLine(LineKind.LABOR, "x", 100, "", 1))
    with pytest.raises(BadInput):
        changes.drop_line(journal, order, 1)
    undo(journal, job.id)
    assert changes.get_order(journal, order).state is ChangeState.ACCEPTED


def test_bad_deeds_are_refused_by_name(journal: Journal, job: Job) -> None:
    order = drafted(journal, job)
    with pytest.raises(BadInput, match="not sent yet"):
        answer_order(journal, order, True, YES)
    send_order(journal, order)
    with pytest.raises(BadInput, match="still to come"):
        answer_order(journal, order, True, Answer("Ada", Channel.PHONE, TODAY + dt.timedelta(1)))
    answer_order(journal, order, False, YES)
    with pytest.raises(BadInput, match="was declined already"):
        answer_order(journal, order, True, YES)
    with pytest.raises(BadInput, match="neither the price nor the days"):
        send_order(journal, drafted(journal, job, "Nothing", 0, 0))
    with pytest.raises(BadInput, match="needs a title"):
        changes.draft_order(journal, job.id, " ")
    with pytest.raises(BadInput, match="below zero"):
        contracts.set_contract(journal, job.id, cents=-1)
    (private,) = visits.note(journal, job.id, "lockbox code 4471")
    assert private.audience is Audience.PRIVATE
    with pytest.raises(BadInput, match="not for the client"):
        changes.draft_order(journal, job.id, "x", entry_id=private.id)


def test_a_credit_lowers_the_contract(journal: Journal, job: Job) -> None:
    order = drafted(journal, job, "No niche", -40_000, -1)
    sent = send_order(journal, order)
    assert sent.price.total == -46_000
    assert "In all it takes $460.00 off the price." in page_markdown(journal, sent)
    answer_order(journal, order, True, YES)
    view = contracts.contract_view(journal, job.id)
    assert (view.standing.cents, view.finish) == (1_954_000, dt.date(2026, 4, 2))


def test_orders_are_found_by_number_handle_or_title(journal: Journal, job: Job) -> None:
    floor, niche = drafted(journal, job), drafted(journal, job, "A niche in the wall")
    send_order(journal, floor)
    for words, order_id in (("1", floor), ("niche wall", niche), (niche[-5:], niche)):
        assert changes.find_order(journal, job, words).id == order_id
    with pytest.raises(NothingFound):
        changes.find_order(journal, job, "roof")
    drafted(journal, job, "New subfloor again")
    with pytest.raises(BadInput, match="fits 2"):
        changes.find_order(journal, job, "subfloor")


def test_the_days_of_a_change_are_the_plans_own_difference(journal: Journal, job: Job) -> None:
    punch.add(journal, job.id, "set the toilet", phase="trim")
    extra = punch.add(journal, job.id, "sister the two cut joists", phase="demo")
    order = drafted(journal, job)
    with pytest.raises(BadInput, match="holds no work"):
        days_by_plan(journal, order)
    changes.hold(journal, order, extra.id)
    from journal_tui.journal.plan_items import state
    from journal_tui.planning.items import Stated

    state(journal, extra.id, Stated(crew_hours=32.0, people=2))
    # 32 crew-hours of two people are two full days of eight hours.
    assert days_by_plan(journal, order) == 2
    labor, *materials = lines_of_held_work(journal, order, 6_500)
    assert (labor.quantity, labor.cents) == (3_200, 208_000)
    assert all(line.kind is LineKind.MATERIAL for line in materials)


def test_the_page_shows_no_markup_and_adds_up(journal: Journal, job: Job) -> None:
    order = drafted(journal, job)
    page = order_page(journal, changes.get_order(journal, order))
    assert sum(line.cents for line in page.lines) + page.tax == page.total == 115_000
    text = page_markdown(journal, changes.get_order(journal, order))
    assert "15%" not in text and "$1,000.00" not in text and "$150" not in text
    assert "The contract if you say yes: $21,150.00" in text
