"""What a printed plan tells of private items: nothing in a calendar, nothing in another item's reason."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import icalendar
import pytest

from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.journal import jobs, next_visit, plan, plan_items, work_days
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan_text import PlanFormat, plan_in_format, visit_json, visit_text
from journal_tui.journal.private_rows import unquoted
from journal_tui.journal.work_days import WeekChange
from journal_tui.planning.items import Stated
from tests.conftest import TODAY
from tests.journal.open_items import owed

SECRETS = ("Benny", "9921", "pump house", "Sallow", "2260")


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Powder room 4471", client="Ann Ferris", year_built=1974)
    work_days.set_week(journal, job.id, WeekChange(zone="America/Chicago"))
    pay = owed(
        journal,
        job,
        "Need to pay Benny 450, alarm code is 9921 #",
        area="pump house",
        audience=Audience.PRIVATE,
    )
    plan_items.state(journal, pay.id, Stated(crew_hours=8, people=2, wait_hours=3, wait_note="ask Sallow"))
    sink = owed(journal, job, "set the sink for Ferris, keypad 2260")
    plan_items.link(journal, pay.id, sink.id)
    asked = owed(journal, job, "ask about Sallow", who=Party.CLIENT, audience=Audience.PRIVATE)
    plan_items.link(journal, asked.id, owed(journal, job, "caulk the sink").id)
    owed(journal, job, "Sallow leans on the wall", audience=Audience.PRIVATE, kind=Kind.OBSERVATION)
    return job


def _form(journal: Journal, job: Job, form: PlanFormat) -> str:
    return plan_in_format(plan.job_plan(journal, job), form)


def test_a_calendar_that_is_given_away_holds_no_word_of_a_private_item(journal: Journal, job: Job) -> None:
    text = _form(journal, job, PlanFormat.ICS)
    whole = text.replace("\r\n ", "")
    assert not [secret for secret in SECRETS if secret in whole]
    events: list[Any] = list(icalendar.Calendar.from_ical(text).walk("VEVENT"))
    busy = [event for event in events if str(event["SUMMARY"]) == "Busy"]
    assert len(busy) == 2
    assert all("DESCRIPTION" not in event and str(event["CLASS"]) == "PRIVATE" for event in busy)
    sink = next(e for e in events if "set the sink" in str(e["SUMMARY"]))
    assert str(sink["SUMMARY"]) == "set the sink for the client, keypad [withheld]"
    assert "follows “Busy”" in str(sink["DESCRIPTION"])


def _check_rows(rows: list[dict[str, Any]], yes: object) -> None:
    assert len(rows) == 4
    for row in rows:
        private = row["private"] == yes
        assert private == ("Benny" in row["item"] or "Sallow" in row["item"])
        if not private:
            assert not [s for s in SECRETS[:4] if s in row["why_not_sooner"]]
    told = next(row for row in rows if row["item"].startswith("set the sink"))["why_not_sooner"]
    assert "follows “private work”" in told


def test_rows_say_which_are_private_and_no_other_quotes_them(journal: Journal, job: Job) -> None:
    _check_rows(list(csv.DictReader(io.StringIO(_form(journal, job, PlanFormat.CSV), newline=""))), "True")
    data = json.loads(_form(journal, job, PlanFormat.JSON))
    _check_rows(data["items"], True)
    assert not [n for n in data["notices"] if any(secret in n for secret in SECRETS)]


def test_the_chart_marks_private_rows(journal: Journal, job: Job) -> None:
    drawn = _form(journal, job, PlanFormat.TEXT)
    assert drawn.count("private · ") == 2


def test_why_quotes_no_private_item(journal: Journal, job: Job) -> None:
    view = plan.job_plan(journal, job)
    for row in view.plan.rows:
        said = plan.why(view, row.item.id)
        assert row.item.private or not [s for s in SECRETS[:4] if s in said]
    own = next(row.item.id for row in view.plan.rows if "Benny" in row.item.text)
    assert "Benny" in plan.why(view, own)


def test_the_next_visit_marks_what_is_private(journal: Journal, job: Job) -> None:
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    text = " ".join(visit_text(visit, inputs).split())
    for private in ("Need to pay", "ask about Sallow", "Sallow leans"):
        assert f"private · {private}" in text
    assert "private · set" not in text
    assert "waits for “private work”" in text
    data = json.loads(visit_json(visit, inputs))
    assert {i["private"] for i in data["not_yet"] if "sink" in i["item"]} == {False}
    assert not [i["why"] for i in data["not_yet"] if "sink" in i["item"] and "Sallow" in i["why"]]


def test_a_longer_name_is_taken_out_before_one_inside_it() -> None:
    assert unquoted("“pay” and “pay Ann”", ["pay", "pay Ann"]) == "“private work” and “private work”"
