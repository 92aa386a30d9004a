"""The tour: the invented jobs through the real readers and drafter."""

from __future__ import annotations

import re
import shutil
import sys
from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import in_punch_order
from journal_tui.journal import touring
from journal_tui.journal.jobs import list_jobs
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.punch import closed_items, open_list
from journal_tui.journal.review import DraftState, drafts
from journal_tui.journal.visits import timeline
from tests.cli.conftest import Cli
from tests.conftest import TODAY


@pytest.fixture
def toured(journal: Journal) -> Journal:
    """A journal after the tour."""
    touring.take_tour(journal)
    return journal


def test_the_jobs_come_in_by_the_readers_and_the_drafter(toured: Journal) -> None:
    lines = list_jobs(toured)
    assert len(lines) == 2
    forms = set()
    for line in lines:
        visits = timeline(toured, line.job.id)
        assert len(visits) >= 3
        assert line.waiting_drafts == 0 and line.open_items > 5
        for visit in visits:
            forms.add(Path(visit.visit.recording_name).suffix)
            found = drafts(toured, visit.visit.id)
            assert len(found) == len(visit.entries) >= 5
            assert {draft.state for draft in found} == {DraftState.KEPT}
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
    assert len(jobs) == 2
    assert text.count("Client update:") == 2
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
    from journal_tui.journal.updates import client_update

    for line in list_jobs(toured):
        markdown = client_update(toured, line.job.id).markdown
        codes = re.findall(r"\d{3,}", line.job.private_note.replace(",", ""))
        assert not [code for code in codes if code in markdown.replace(",", "")]


def test_a_named_journal_is_kept_and_then_not_mixed_with(cli: Cli, tmp_path: Path) -> None:
    named = tmp_path / "tour.db"
    cli("tour", "--journal", str(named))
    assert len(cli("jobs", "--json", "--journal", str(named)).data) == 2
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
    assert seen == [2, 0]
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
    assert len(touring.take_tour(journal)) == 2
    journal.close()
