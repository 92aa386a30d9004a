"""Where the app opens, and what a person is told when it cannot go on."""

from __future__ import annotations

import subprocess
import sys

import pytest

from journal_tui.domain.errors import JournalFileError
from journal_tui.journal.faults import log_path
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.jobs import JobsScreen
from journal_tui.screens.timeline import TimelineScreen
from tests.screens.seeing import app_on, lines_of, seen


async def test_one_job_opens_on_its_timeline_with_the_list_behind_it(journal: Journal) -> None:
    add_job(journal, "Alder Lane")
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert isinstance(app.screen, TimelineScreen) and "Alder Lane" in lines_of(app)[0]
        await pilot.press("escape")
        assert isinstance(app.screen, JobsScreen)
        await pilot.press("escape")
        assert "ctrl+q leaves the journal" in seen(app)


async def test_several_jobs_open_on_the_list_unless_one_is_named(journal: Journal) -> None:
    add_job(journal, "Alder Lane")
    birch = add_job(journal, "Birch Street")
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert isinstance(app.screen, JobsScreen)
    app = app_on(journal, birch.id)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "Birch Street" in lines_of(app)[0]


async def test_a_fault_of_the_program_ends_it_with_words_and_a_log(
    journal: Journal, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(_screen: JobsScreen) -> None:
        lockbox = "4471"
        raise ZeroDivisionError(f"with {lockbox}")

    monkeypatch.setattr(JobsScreen, "reload", broken)
    app = app_on(journal)
    with pytest.raises(ZeroDivisionError):
        async with app.run_test() as pilot:
            await pilot.pause()
    told = capsys.readouterr().err
    assert "met a fault of its own" in told
    assert "Traceback" not in told and "4471" not in told
    assert "ZeroDivisionError" in log_path().read_text(encoding="utf-8")


async def test_a_journal_that_cannot_be_read_is_said_in_words(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    def damaged(_screen: JobsScreen) -> None:
        raise JournalFileError("journal.db is damaged", "Restore your newest backup and open that.")

    monkeypatch.setattr(JobsScreen, "reload", damaged)
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "! journal.db is damaged" in seen(app) and "Restore your newest backup" in seen(app)
        await pilot.press("n", "escape", "f1", "escape")
        assert isinstance(app.screen, JobsScreen)


def test_opening_the_app_loads_nothing_it_does_not_paint() -> None:
    # Presence is the gate; how long it takes, tests/bench_start.py tells.
    code = (
        "import sys; from journal_tui.screens.app import JournalApp;"
        " from journal_tui.screens.jobs import JobsScreen; print(*sys.modules)"
    )
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    rooms = (f"journal_tui.{room}" for room in ("walkthrough", "planning", "documents", "measures"))
    late = ("sqlite_utils", "rapidfuzz", "markdown_it", "dateutil", "numpy", *rooms)
    assert [name for name in loaded.split() if name.startswith(late)] == []
