"""What is being typed is kept at every key: through leaving, quitting and kill -9."""

from __future__ import annotations

import os
import pty
import select
import signal
import sys
import threading
import time
from pathlib import Path

import pytest
from textual import events

from journal_tui.domain.errors import JournalError, JournalFileError
from journal_tui.journal.jobs import add_job, get_job, list_jobs
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.typed import recall, remember
from journal_tui.screens.autosave import Autosave
from journal_tui.screens.note import NoteScreen
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import app_on, seen, top, typed, until


async def test_esc_keeps_what_is_typed_and_it_is_there_again(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.press("t")
        await typed(pilot, "strap the su")
        await pilot.press("escape")
        await pilot.pause()
        assert type(app.screen).__name__ == "TimelineScreen"
        assert "What you typed is kept" in seen(app)
        assert app.autosave.flush()
        assert recall(journal, f"note/{job.id}") == "strap the su"
        await pilot.press("t")
        assert top(app).query_one(TypingLine).value == "strap the su"
        await typed(pilot, "pply")
        assert app.autosave.recall(f"note/{job.id}") == "strap the supply"
        await pilot.press("enter")
        await until(pilot, lambda: "Saved." in seen(app))
        app.autosave.flush()
        assert recall(journal, f"note/{job.id}") == ""


async def test_ctrl_q_says_what_is_kept_first_and_leaves_at_the_second_time(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.press("t")
        await typed(pilot, "half a th")
        await pilot.press("ctrl+q")
        assert "kept for next time" in seen(app)
        # Typing on means staying: the next ctrl+q says it again.
        await typed(pilot, "o")
        await pilot.press("ctrl+q")
        assert app.is_running and "kept for next time" in seen(app)
        await pilot.press("ctrl+q")
    assert recall(journal, f"note/{job.id}") == "half a tho"


async def test_ctrl_q_leaves_at_once_when_nothing_is_half_typed(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.press("ctrl+q")
        await pilot.pause()
    assert app.return_code == 0


async def test_a_form_keeps_every_line_until_it_is_saved(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.press("n")
        await typed(pilot, "Hall bath")
        await pilot.press("enter")
        await typed(pilot, "V. Lund")
        await pilot.press("escape")
        assert type(app.screen).__name__ == "JobsScreen"
        await pilot.press("n")
        assert [line.value for line in top(app).query(TypingLine)][:2] == ["Hall bath", "V. Lund"]
        await pilot.press("f2")
        await pilot.pause()
        assert "Hall bath" in seen(app)
        await pilot.press("n")
        assert [line.value for line in top(app).query(TypingLine)][:2] == ["", ""]


@pytest.mark.parametrize("on", ["down", "tab"])
async def test_words_in_a_burst_go_into_the_lines_they_were_typed_for(journal: Journal, on: str) -> None:
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.press("n")
        await typed(pilot, "Hall bath", on, "V. Lund", on, "14 Alder Lane", "f2")
        await until(pilot, lambda: type(app.screen).__name__ == "JobsScreen")
        await pilot.press("n")
        assert [line.value for line in top(app).query(TypingLine)][:3] == ["", "", ""]
    (entry,) = list_jobs(journal)
    job = entry.job
    assert (job.name, job.client, job.address) == ("Hall bath", "V. Lund", "14 Alder Lane")


async def test_back_a_line_in_a_burst_too(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.press("n")
        await typed(pilot, "Hall", "down", "V. Lund", "up", " bath", "shift+tab")
        await until(pilot, lambda: top(app).query(TypingLine).first().value == "Hall bath")
        assert [line.value for line in top(app).query(TypingLine)][:2] == ["Hall bath", "V. Lund"]


def test_autosave_keeps_the_newest_of_each_place_in_order(journal: Journal) -> None:
    faults: list[JournalError] = []
    saving = Autosave(journal, faults.append)
    for at in range(200):
        saving.keep("note/a", "x" * at)
        saving.keep("note/b", "y" * at)
    saving.keep("note/b", "")
    assert saving.recall("note/a") == "x" * 199
    saving.close()
    assert recall(journal, "note/a") == "x" * 199
    assert recall(journal, "note/b") == ""
    assert faults == []


def test_autosave_says_when_it_cannot_save_and_goes_on(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    faults: list[JournalError] = []
    full = threading.Event()
    full.set()

    def disk(on: Journal, place: str, text: str) -> None:
        if full.is_set():
            raise JournalFileError("the disk is full", "Free some space.")
        remember(on, place, text)

    monkeypatch.setattr("journal_tui.screens.autosave.remember", disk)
    saving = Autosave(journal, faults.append)
    saving.keep("note/a", "one")
    assert saving.flush()
    assert [fault.title for fault in faults] == ["the disk is full"]
    full.clear()
    saving.keep("note/a", "one two")
    saving.close()
    assert recall(journal, "note/a") == "one two"


async def test_a_full_disk_is_told_in_words_and_the_line_stays(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = add_job(journal, "Alder Lane 14")

    def disk(_on: Journal, _place: str, _text: str) -> None:
        raise JournalFileError("the disk is full", "Free some space.")

    monkeypatch.setattr("journal_tui.screens.autosave.remember", disk)
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.press("t")
        await typed(pilot, "abc")
        await until(pilot, lambda: "! the disk is full" in seen(app))
        assert isinstance(app.screen, NoteScreen)
        assert app.screen.query_one(TypingLine).value == "abc"


_PROGRAM = """
import datetime as dt, sys
from pathlib import Path
from journal_tui.journal.opening import open_journal
from journal_tui.screens.app import run_app
run_app(open_journal(Path(sys.argv[1]), lambda: dt.date(2026, 3, 12)), sys.argv[2])
"""


def test_typed_text_survives_kill_9(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    words = b"the joist under the tub is notched"
    pid, terminal = pty.fork()
    if pid == 0:
        environ = {**os.environ, "TERM": "xterm-256color", "COLUMNS": "80", "LINES": "24"}
        os.execve(sys.executable, [sys.executable, "-c", _PROGRAM, str(journal.path), job.id], environ)
    try:
        _wait_for(terminal, b"No visit yet")
        os.write(terminal, b"t")
        _wait_for(terminal, b"chose or owe")
        os.write(terminal, words)
        deadline = time.monotonic() + 20
        while recall(journal, f"note/{job.id}") != words.decode():
            assert time.monotonic() < deadline, recall(journal, f"note/{job.id}")
            _drain(terminal, 0.05)
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)
    again = open_journal(journal.path)
    assert recall(again, f"note/{job.id}") == words.decode()
    assert get_job(again, job.id) == job
    again.close()


def _drain(terminal: int, seconds: float) -> bytes:
    if select.select([terminal], [], [], seconds)[0]:
        return os.read(terminal, 1 << 16)
    return b""


def _wait_for(terminal: int, text: bytes, seconds: float = 20.0) -> None:
    seen_so_far, deadline = b"", time.monotonic() + seconds
    while text not in seen_so_far:
        assert time.monotonic() < deadline, seen_so_far[-2000:]
        seen_so_far += _drain(terminal, 0.2)


def test_a_journal_folder_that_goes_away_does_not_break_the_saving_thread(tmp_path: Path) -> None:
    faults: list[JournalError] = []
    folder = tmp_path / "gone"
    journal = open_journal(folder / "journal.db")
    saving = Autosave(journal, faults.append)
    for file in folder.iterdir():
        file.unlink()
    folder.rmdir()
    folder.write_text("a file where the folder was")
    saving.keep("note/a", "text")
    assert not saving.flush()
    assert [fault.title for fault in faults] == [f"cannot open {folder / 'journal.db'}"]
    assert saving.recall("note/a") == "text"
    journal.close()


async def test_a_line_too_long_to_type_is_refused_in_words(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.press("t")
        line = top(app).query_one(TypingLine)
        line.post_message(events.Paste("x" * 10_000_000))
        await pilot.pause()
        assert line.value == ""
        assert "A line holds at most 20,000 characters" in seen(app)
        line.post_message(events.Paste("[/] pasted\nsecond line"))
        await pilot.pause()
        assert line.value == "[/] pasted"
