"""Work held by a change order not answered yet: the punch list says so exactly where the plan does."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal_tui.domain.change_order import Answer, ChangeLine, Channel, LineKind
from journal_tui.domain.job import Job
from journal_tui.domain.punch import OnHold, PunchItem
from journal_tui.journal import changes, jobs, punch
from journal_tui.journal.change_answers import answer_order, send_order, withdraw_order
from journal_tui.journal.formats import PunchFormat, punch_in_format
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.plan import job_plan
from journal_tui.journal.plan_items import link, unlink
from tests.conftest import TODAY
from tests.journal.open_items import owed

YES = Answer("Ada Lindqvist", Channel.SIGNED, TODAY)


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room", client="Ada Lindqvist")


def ordered(journal: Journal, job: Job, *held: PunchItem, by: dt.date | None = None) -> str:
    order = changes.draft_order(journal, job.id, "New subfloor")
    changes.change_words(journal, order.id, offer="new boards", days=1, answer_by=by)
    changes.add_line(journal, order.id, ChangeLine(LineKind.LABOR, "carpentry", 100, "", 5_000))
    for item in held:
        changes.hold(journal, order.id, item.id)
    return order.id


def open_items(journal: Journal, job: Job) -> dict[str, PunchItem]:
    found = punch.open_list(journal, job)
    return {i.id: i for i in (*(i for group in found.phases for i in group.items), *found.waiting)}


def test_an_item_is_marked_from_the_sending_to_the_answer(journal: Journal, job: Job) -> None:
    work, other = owed(journal, job, "screw down the plywood"), owed(journal, job, "hang the door")
    order = ordered(journal, job, work, by=dt.date(2026, 3, 18))
    assert punch.open_list(journal, job).on_hold == 0
    send_order(journal, order)
    items = open_items(journal, job)
    assert items[work.id].on_hold == (OnHold(1, TODAY, dt.date(2026, 3, 18)),)
    assert items[other.id].on_hold == ()
    assert punch.open_list(journal, job).on_hold == 1
    answer_order(journal, order, False, YES)
    assert open_items(journal, job)[work.id].on_hold == ()


def test_two_orders_may_hold_one_item_and_withdrawing_lets_it_go(journal: Journal, job: Job) -> None:
    work = owed(journal, job, "screw down the plywood")
    first, second = ordered(journal, job, work), ordered(journal, job, work)
    send_order(journal, first)
    send_order(journal, second)
    assert [hold.number for hold in open_items(journal, job)[work.id].on_hold] == [1, 2]
    withdraw_order(journal, first)
    assert [hold.number for hold in open_items(journal, job)[work.id].on_hold] == [2]


def test_what_is_unlinked_in_the_plan_is_on_hold_no_more(journal: Journal, job: Job) -> None:
    work, later = owed(journal, job, "screw down the plywood"), owed(journal, job, "hang the door")
    sent = send_order(journal, ordered(journal, job, work))
    unlink(journal, sent.item_id or "", work.id)
    link(journal, sent.item_id or "", later.id)
    items = open_items(journal, job)
    assert (items[work.id].on_hold, len(items[later.id].on_hold)) == ((), 1)
    assert changes.waiting_for(journal, job.id) == {later.id: 1}


@settings(max_examples=8, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(st.sets(st.integers(0, 3)), st.sampled_from("draft sent yes no back".split())),
                max_size=4))  # fmt: skip
def test_the_list_and_the_plan_say_the_same_of_every_item(
    tmp_path_factory: pytest.TempPathFactory, orders: list[tuple[set[int], str]]
) -> None:
    journal = open_journal(tmp_path_factory.mktemp("held") / "j.db", today=lambda: TODAY)
    job = jobs.add_job(journal, "Powder room")
    items = [owed(journal, job, f"hang door {n}") for n in range(4)]
    for held, state in orders:
        order = ordered(journal, job, *(items[n] for n in sorted(held)))
        if state != "draft":
            send_order(journal, order)
        if state in ("yes", "no"):
            answer_order(journal, order, state == "yes", YES)
        elif state == "back":
            withdraw_order(journal, order)
    plan, listed = job_plan(journal, job).plan, open_items(journal, job)
    for item in items:
        row = plan.row(item.id)
        assert row is not None and row.ready.ready == (not listed[item.id].on_hold)
    journal.close()


def test_every_form_says_which_order_since_when_and_what_it_waits_for(journal: Journal, job: Job) -> None:
    work = owed(journal, job, "screw down the plywood", "subfloor")
    send_order(journal, ordered(journal, job, work, by=dt.date(2026, 3, 18)))
    found, later = punch.open_list(journal, job), TODAY + dt.timedelta(6)
    said = (
        "on hold for the client's answer to change order 1, sent Thu 12 Mar (6 days), asked for by Wed 18 Mar"
    )
    text = punch_in_format(job, found, PunchFormat.TEXT, later)
    assert said in " ".join(text.split()) and "2 open, 1 of them waiting on others, 1 on hold" in text
    markdown = punch_in_format(job, found, PunchFormat.MARKDOWN, later)
    assert f"screw down the plywood\n  ({said}" in markdown.replace("\\", "")
    (row,) = [r for r in csv.DictReader(io.StringIO(punch_in_format(job, found, PunchFormat.CSV, later),
              newline="")) if r["on_hold"]]  # fmt: skip
    assert (row["text"], row["on_hold"], row["on_hold_since"]) == (
        "screw down the plywood",
        "change order 1",
        "2026-03-12",
    )
    data = json.loads(punch_in_format(job, found, PunchFormat.JSON, later))
    assert data["on_hold"] == 1
    (held,) = [i["on_hold"] for i in data["items"] if i["id"] == work.id]
    assert held == [
        {
            "change_order": 1,
            "waits_for": "the client's answer",
            "since": "2026-03-12",
            "days": 6,
            "asked_by": "2026-03-18",
        }
    ]
