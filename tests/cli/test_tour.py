"""The tour: the invented jobs through the real readers and drafter."""

from __future__ import annotations

import re
import shutil
import sys
import tomllib
from pathlib import Path

import pytest

from journal_tui.domain.change_order import ChangeState, LineKind
from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import in_punch_order
from journal_tui.journal import touring
from journal_tui.journal.changes import change_orders, held_items, waiting_for
from journal_tui.journal.contracts import contract_view
from journal_tui.journal.entries import get_entry
from journal_tui.journal.house_record import house_record, record_markdown
from journal_tui.journal.jobs import list_jobs
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.punch import closed_items, open_list
from journal_tui.journal.review import DraftState, drafts
from journal_tui.journal.stills import pictures_for_client
from journal_tui.journal.updates import client_update, sent_updates
from journal_tui.journal.visits import timeline
from journal_tui.store.record_queries import hidden_works, photos_of_job
from tests.cli.conftest import Cli
from tests.conftest import TODAY


@pytest.fixture
def toured(journal: Journal) -> Journal:
    """A journal after the tour."""
    touring.take_tour(journal)
    return journal


def test_the_jobs_come_in_by_the_readers_and_the_drafter(toured: Journal) -> None:
    lines = list_jobs(toured)
    assert len(lines) == 3
    forms = set()
    for line in lines:
        visits = timeline(toured, line.job.id)
        assert len(visits) >= 3
        assert line.waiting_drafts == 0 and line.open_items > 5
        for visit in visits:
            if visit.visit.recording_id is None:
                assert visit.entries, "a visit of typed notes alone"
                continue
            forms.add(Path(visit.visit.recording_name).suffix)
            found = drafts(toured, visit.visit.id)
            kept = [draft for draft in found if draft.state is DraftState.KEPT]
            assert len(kept) == len(visit.entries) >= 5
            assert {draft.state for draft in found} <= {DraftState.KEPT, DraftState.DROPPED}
        assert closed_items(toured, line.job)
        for group in open_list(toured, line.job).phases:
            assert list(group.items) == in_punch_order(group.items, line.job.phases)
    assert forms == {".vtt", ".srt", ".txt"}


def test_the_newest_visit_is_within_the_week_whatever_the_day(toured: Journal) -> None:
    days = [v.visit.day for line in list_jobs(toured) for v in timeline(toured, line.job.id)]
    assert 0 <= (TODAY - max(days)).days < 7


def _without_handles(text: str) -> str:
    return re.sub(r"^  \[(.)\] [0-9a-f]{5}", r"  [\1]", text, flags=re.MULTILINE)


def test_without_a_terminal_the_same_run_is_printed(cli: Cli, path: Path) -> None:
    ran = cli("tour")
    assert (ran.code, ran.err) == (0, "")
    text = ran.out
    jobs = [line for line in text.splitlines() if line.startswith("Punch list: ")]
    assert len(jobs) == 3
    assert text.count("\nClient update:") == text.count("\nChange orders:") == 3
    assert text.count("\nOn record: ") == 3
    assert "dropped in review: " in text
    assert re.search(r"^  and \d+ more$", text, re.MULTILINE)
    assert len(text.splitlines()) < 1_500, "short enough to be read"
    counts = [int(n) for n in re.findall(r"^  (\d+) drafted:$", text, re.MULTILINE)]
    assert len(counts) >= 6 and min(counts) >= 5
    first, second = text.split("Punch list: ")[:2]
    assert first.index(" drafted:") < len(first)
    headings = [line for line in second.splitlines() if line in ("demo", "rough plumbing", "tile", "trim")]
    assert headings == sorted(headings, key=["demo", "rough plumbing", "tile", "trim"].index)
    assert max(len(line) for line in first.splitlines()) <= 80
    assert not path.exists()
    assert _without_handles(cli("tour").out) == _without_handles(text)


def test_what_is_private_stays_out_of_the_update(toured: Journal) -> None:
    for line in list_jobs(toured):
        markdown = client_update(toured, line.job.id).markdown
        codes = re.findall(r"\d{3,}", line.job.private_note.replace(",", ""))
        assert not [code for code in codes if code in markdown.replace(",", "")]


def test_what_the_list_of_jobs_says_was_done_was_done(toured: Journal) -> None:
    listed = tomllib.loads((touring.demo_folder() / "jobs.toml").read_text("utf-8"))["job"]
    jobs = {line.job.name: line.job for line in list_jobs(toured)}
    assert set(jobs) == {facts["name"] for facts in listed}
    right, given = 0, 0
    for facts in listed:
        job = jobs[facts["name"]]
        orders = change_orders(toured, job.id)
        assert [order.title for order in orders] == [order["title"] for order in facts["order"]]
        assert all(order.entry_id for order in orders), "each is born from a finding"
        held = [len(held_items(toured, order.id)) for order in orders]
        assert held == [len(order.get("hold", ())) for order in facts["order"]]
        assert {work["what"] for work in hidden_works(toured.store, job.id)} == {
            work["what"] for work in facts["hidden"]
        }
        reviewed = [d for v in timeline(toured, job.id) for d in drafts(toured, v.visit.id)]
        dropped = [draft for draft in reviewed if draft.state is DraftState.DROPPED]
        texts = {draft.draft.text for draft in reviewed}
        fixes = [fix["text"] for visit in facts["visit"] for fix in visit.get("fix", ()) if "text" in fix]
        right += len(dropped) + sum(text in texts for text in fixes)
        given += sum(len(visit.get("drop", ())) for visit in facts["visit"]) + len(fixes)
    # Drafting gets better, and then there is less to set right; but the list is not to be a dead letter.
    assert given > 15 and right > given / 2


_SILENT = """
[[job]]
name = "Silent"

[[job.visit]]
day = 2026-11-03
file = "talk.txt"
drop = ["nowhere"]
fix = [{ draft = "nowhere" }]

[[job.order]]
day = 2026-11-04
title = "Floor"
entry = "nowhere"
found = "The floor under the sink is soft."
offer = "We put in new boards."
hold = ["cut it out"]
line = [{ kind = "labor", text = "work", each = "100" }]

[[job.photo]]
day = 2026-11-04
entry = "nowhere"
file = "no.png"
"""


_REVIEWED = """
[[job]]
name = "Reviewed"

[[job.visit]]
day = 2026-11-03
file = "talk.txt"
notes = ["the porch lamp hums", "order a lamp for the porch"]
fix = [
    { draft = "gutter is bent", area = "eaves", text = "The gutter is bent at the corner" },
    { draft = "lamp hums", kind = "next_step", who = "crew", area = "porch", text = "Swap the porch lamp" },
]
"""


def test_of_two_drafts_of_one_thing_the_first_is_set_right_and_what_is_typed_is_set_right_too(
    journal: Journal, tmp_path: Path
) -> None:
    talk = "The gutter is bent. We go round. The valley gutter is bent by the chimney.\n"
    (tmp_path / "talk.txt").write_text(talk, "utf-8")
    (tmp_path / "jobs.toml").write_text(_REVIEWED, "utf-8")
    (toured,) = touring.take_tour(journal, tmp_path)
    entries = [entry for visit in timeline(journal, toured.job.id) for entry in visit.entries]
    bent = [entry for entry in entries if "gutter" in entry.text]
    assert [(entry.area, entry.text) for entry in bent] == [("eaves", "The gutter is bent at the corner")]
    (visit,) = toured.visits
    assert all("gutter" in text for text in visit.dropped) and len(visit.dropped) == len(visit.drafts) - 1
    assert [e.kind.value for e in entries if e.text == "Swap the porch lamp"] == ["next_step"]
    owed = [item.text for group in open_list(journal, toured.job).phases for item in group.items]
    assert "Swap the porch lamp" in owed


def test_what_drafting_made_nothing_of_is_typed(journal: Journal, tmp_path: Path) -> None:
    """A job whose recording says nothing of what its change order and its photo rest on."""
    (tmp_path / "talk.txt").write_text("The lab called.\n", "utf-8")
    (tmp_path / "jobs.toml").write_text(_SILENT, "utf-8")
    (toured,) = touring.take_tour(journal, tmp_path)
    (made,) = change_orders(journal, toured.job.id)
    assert made.entry_id and made.state is ChangeState.SENT
    assert get_entry(journal, made.entry_id).text.casefold().startswith("the floor under the sink is soft")
    assert [item.text for item in held_items(journal, made.id)] == ["cut it out"]
    assert photos_of_job(journal.store, toured.job.id, client_only=True) == {}


def test_change_orders_stand_in_every_state_and_the_contract_adds_up(toured: Journal) -> None:
    states = []
    for line in list_jobs(toured):
        orders = change_orders(toured, line.job.id)
        states += [order.state for order in orders]
        assert [order.number for order in orders] == [*range(1, len(orders) + 1)]
        yes = [order for order in orders if order.state is ChangeState.ACCEPTED]
        view = contract_view(toured, line.job.id)
        assert view.standing.cents and view.standing.first.cents
        assert view.standing.cents - view.standing.first.cents == sum(order.price.total for order in yes) > 0
        assert {kind for order in orders for kind in (part.kind for part in order.lines)} >= {
            LineKind.LABOR,
            LineKind.MATERIAL,
        }
        kept = {"sub" if part.kind is LineKind.SUB else "" for order in orders for part in order.lines}
        assert "sub" in kept or line.job.name == "Benedek kitchen"
    assert {ChangeState.ACCEPTED, ChangeState.DECLINED, ChangeState.SENT} == set(states)


def test_what_waits_for_an_answer_is_held_and_asked_for(toured: Journal) -> None:
    job = next(line.job for line in list_jobs(toured) if line.job.name == "Benedek kitchen")
    (number,) = waiting_for(toured, job.id).values()
    markdown = client_update(toured, job.id).markdown
    assert f"answer change order {number}" in markdown
    asked = [item.text for item in open_list(toured, job).waiting]
    assert sum(text.startswith(f"answer change order {number}") for text in asked) == 1


def test_updates_were_sent_and_the_next_begins_where_the_last_ended(toured: Journal) -> None:
    sent = {line.job.name: sent_updates(toured, line.job.id) for line in list_jobs(toured)}
    assert sorted(len(documents) for documents in sent.values()) == [1, 1, 3]
    for line in list_jobs(toured):
        newest = max(document.sent_on for document in sent[line.job.name])
        told = client_update(toured, line.job.id)
        assert told.facts.since == newest
        assert min(told.facts.visits) >= newest


def test_the_record_says_where_how_tested_and_shows_it(toured: Journal) -> None:
    for line in list_jobs(toured):
        record = house_record(toured, line.job, closing=True)
        assert len(record.works) >= 3
        assert any(work.place for work in record.works) and any(work.covered for work in record.works)
        assert all(
            test.passed or "did not pass" in (test.result or "")
            for work in record.works
            for test in work.tests
        )
        assert any(work.tests for work in record.works)
        markdown = record_markdown(toured, line.job)
        shown = pictures_for_client(toured, line.job.id, markdown)
        assert line.job.name != "Pell hall bath" or len(shown) == 1


def test_a_named_journal_is_kept_and_then_not_mixed_with(cli: Cli, tmp_path: Path) -> None:
    named = tmp_path / "tour.db"
    cli("tour", "--journal", str(named))
    assert len(cli("jobs", "--json", "--journal", str(named)).data) == 3
    again = cli("tour", "--journal", str(named))
    assert again.code == 2 and "holds jobs already" in again.err
    real = cli("job", "add", "Elm", "--journal", str(tmp_path / "real.db"))
    assert real.code == 0
    mixed = cli("--journal", str(tmp_path / "real.db"), "tour")
    assert mixed.code == 2 and "The tour's jobs are invented" in mixed.err


def test_the_scratch_journal_is_gone_afterwards(
    cli: Cli, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    scratch = tmp_path / "scratch"
    scratch.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(scratch))
    cli("tour")
    assert list(scratch.iterdir()) == []


def test_on_a_terminal_the_app_opens_on_it(cli: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    from journal_tui.screens import app

    seen = []
    monkeypatch.setattr(app, "run_app", lambda journal: seen.append(len(list_jobs(journal))))
    monkeypatch.setattr("journal_tui.cli.tour.on_terminal", lambda: True)
    monkeypatch.setattr("journal_tui.cli.program.on_terminal", lambda: True)
    assert cli("tour").out == ""
    assert "Punch list: " in cli("tour", "--text").out
    assert cli().out == ""
    assert seen == [3, 0]
    assert "textual" in sys.modules


def test_the_invented_jobs_are_found_in_a_wheel_and_in_a_checkout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert (touring.demo_folder() / "jobs.toml").is_file()
    package = tmp_path / "site-packages" / "journal_tui"
    (package / "journal").mkdir(parents=True)
    monkeypatch.setattr(touring, "__file__", str(package / "journal" / "touring.py"))
    with pytest.raises(BadInput, match="the invented jobs are missing"):
        touring.demo_folder()
    shutil.copytree(Path(__file__).parents[2] / "demo_data", package / "demo_data")
    assert touring.demo_folder() == package / "demo_data"
    journal = open_journal(tmp_path / "j.db")
    assert len(touring.take_tour(journal)) == 3
    journal.close()
