"""Logging a visit: the day, the folder list, the path line, long work, and typed entries."""

from __future__ import annotations

import datetime as dt
import os
import threading
from pathlib import Path
from typing import Any

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.journal import recordings
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import Told, last_people, note, timeline
from journal_tui.screens.line_list import LineList
from journal_tui.screens.logging import LogScreen, PathLine
from journal_tui.screens.note import NoteScreen
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import app_on, lines_of, seen, top, typed, until, worked

_TALK = """WEBVTT

00:05.000 --> 00:12.000
The supply pipe is galvanized and every joint is rusty.

00:12.000 --> 00:20.000
We need to cut out the two soft planks under the window.

00:20.000 --> bad
not a time
"""


@pytest.fixture
def downloads(own_home: None) -> Path:
    """Return the folder captions are looked for in, with two files and a folder in it."""
    folder = Path.home() / "Downloads"
    (folder / "older").mkdir(parents=True)
    (folder / "first-walk.vtt").write_text(_TALK)
    (folder / "second walk.srt").write_text("1\n00:00:01,000 --> 00:00:05,000\nNeed to order the tile.\n")
    (folder / "picture.png").write_bytes(b"\x89PNG\r\n")
    (folder / "older" / "old.txt").write_text("[0:01] The joist is notched and needs a sister.\n")
    for name, minute in (("first-walk.vtt", 30), ("second walk.srt", 10)):
        moment = dt.datetime(2026, 3, 11, 16, minute).timestamp()
        os.utime(folder / name, (moment, moment))
    return folder


async def test_the_newest_captions_are_selected_and_enter_logs_them(
    journal: Journal, downloads: Path
) -> None:
    job = add_job(journal, "Alder Lane")
    note(journal, job.id, "planks are soft", day=dt.date(2026, 3, 2), people="Rui, Dana")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        lines = lines_of(app)
        assert "2 recordings and captions in ~/Downloads, newest first" in seen(app)
        assert "▸first-walk.vtt" in seen(app) and "picture.png" not in seen(app)
        assert any("Thu 12 Mar 2026" in line for line in lines[:3])
        # The crew of the last visit stands there already.
        assert "Rui, Dana" in lines[2]
        await pilot.press("d")
        await pilot.press("ctrl+u", *"yesterday", "enter")
        assert "Wed 11 Mar 2026" in lines_of(app)[1]
        await pilot.press("enter")
        await worked(pilot)
        assert type(app.screen).__name__ == "ReviewScreen"
        assert "line 9" in seen(app)  # the cue that could not be used is named
    newest = timeline(journal, job.id)[0]
    assert (newest.visit.day, newest.visit.people) == (dt.date(2026, 3, 11), "Rui, Dana")
    assert newest.waiting_drafts == 2
    assert recordings.first_folder(journal) == downloads


async def test_the_path_line_narrows_finishes_and_opens(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        await pilot.press("slash", *"seco")
        assert [row.key for row in top(app).query_one(LineList).rows] == [str(downloads / "second walk.srt")]
        await pilot.press("ctrl+u", *"ol", "tab")
        line = top(app).query_one(PathLine)
        assert line.value == "older/"
        await pilot.press("tab")
        assert line.value == "older/old.txt"
        await pilot.press("enter")
        await worked(pilot)
        await worked(pilot)
        assert type(app.screen).__name__ == "ReviewScreen"
    assert timeline(journal, job.id)[0].visit.recording_name == "old.txt"


async def test_a_path_in_a_burst_is_typed_and_no_letter_of_it_acts(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        await typed(pilot, "/bath.vtt")
        await until(pilot, lambda: top(app).query_one(PathLine).value == "bath.vtt")
        assert isinstance(app.screen, LogScreen)
        await pilot.press("escape")
        await until(pilot, lambda: isinstance(app.screen.focused, LineList))


async def test_bad_files_are_named_and_nothing_is_saved(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Alder Lane")
    (downloads / "empty.vtt").write_text("")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        screen = app.screen
        assert isinstance(screen, LogScreen)
        for name, said in (
            ("empty.vtt", "empty.vtt is empty"),
            ("picture.png", "picture.png is"),
            ("missing.vtt", "no such file"),
            ("[/b].vtt", "[/b].vtt: no such file"),
        ):
            screen.take(downloads / name, is_folder=False)
            await worked(pilot)
            assert said in " ".join(seen(app).split())
            assert app.screen is screen
        top(app).query_one("#log-day", TypingLine).value = "2026-12-03"
        await pilot.pause()
        assert "Thu 3 Dec 2026, still to come" in seen(app)
        top(app).query_one("#log-day", TypingLine).value = "32 March"
        await pilot.pause()
        assert '"32 March" is no date' in seen(app)
        screen.take(downloads / "first-walk.vtt", is_folder=False)
        await worked(pilot)
        assert '! "32 March" is no date' in seen(app)
        top(app).query_one("#log-day", TypingLine).value = "2099-01-01"
        await pilot.pause()
        screen.take(downloads / "first-walk.vtt", is_folder=False)
        await worked(pilot)
        assert "more than a year ahead" in seen(app)
    assert timeline(journal, job.id) == []


async def test_the_same_recording_twice_is_asked_about(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Alder Lane")
    recordings.log_file(journal, job.id, downloads / "first-walk.vtt", day=dt.date(2026, 3, 10))
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        await pilot.press("enter")
        await worked(pilot)
        assert "! first-walk.vtt is already logged" in seen(app) and "g logs it again" in " ".join(
            seen(app).split()
        )
        assert len(timeline(journal, job.id)) == 1
        await pilot.press("g")
        await worked(pilot)
        assert type(app.screen).__name__ == "ReviewScreen"
    assert len(timeline(journal, job.id)) == 2


async def test_long_work_says_how_far_and_esc_stops_it(
    journal: Journal, downloads: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = add_job(journal, "Alder Lane")
    go_on = threading.Event()

    def slow(on: Journal, job_id: str, path: Path, *, told: Told, **options: Any) -> recordings.Logged:
        told("drafting from 3 captions", 0.4)
        go_on.wait(10)
        return recordings.log_file(on, job_id, path, told=told, **options)

    monkeypatch.setattr("journal_tui.screens.logging.log_file", slow)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await until(pilot, lambda: "first-walk" in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: "drafting from 3 captions" in seen(app))
        status = next(line for line in lines_of(app) if "drafting from" in line)
        assert "▓▓▓▓░░░░░░ 40 %" in status and "esc stops" in status
        # The list is not covered and still moves.
        await pilot.press("down")
        assert "▸second walk.srt" in seen(app)
        await pilot.press("escape")
        go_on.set()
        await worked(pilot)
        assert "Stopped. Nothing was saved." in seen(app)
        assert isinstance(app.screen, LogScreen)
    assert timeline(journal, job.id) == []


async def test_a_fault_inside_is_told_in_words_and_written_to_the_log(
    journal: Journal, downloads: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = add_job(journal, "Alder Lane")

    def broken(*_given: Any, **_options: Any) -> recordings.Logged:
        raise ZeroDivisionError("secret value 4471")

    monkeypatch.setattr("journal_tui.screens.logging.log_file", broken)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await worked(pilot)
        await pilot.press("enter")
        await worked(pilot)
        assert "! this went wrong inside the program" in seen(app)
        assert "Traceback" not in seen(app) and "4471" not in seen(app)


async def test_lines_are_drafted_as_they_are_typed_and_saved_one_by_one(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("t")
        assert "Type what you saw, chose or owe" in seen(app)
        await typed(pilot, "client has to choose the mirror")
        await until(pilot, lambda: "├── owed" in seen(app))
        preview = next(line for line in lines_of(app) if "├── owed" in line)
        assert preview.rstrip().endswith("client")
        assert timeline(journal, job.id) == []
        await pilot.press("enter")
        await until(pilot, lambda: "Saved." in seen(app))
        assert [e.text for e in timeline(journal, job.id)[0].entries] == ["client has to choose the mirror"]
        assert top(app).query_one(TypingLine).value == ""
        await pilot.press("enter")
        assert "! an empty note" in seen(app)
        # Taken back without leaving the line.
        await pilot.press("ctrl+z")
        await pilot.pause()
        assert "Undone: type a note." in seen(app)
        assert timeline(journal, job.id) == []


async def test_a_typed_visit_has_the_day_and_people_filled_in(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l", "w", *"Ana", "enter", "d", "ctrl+u", *"3/5", "enter", "t")
        await pilot.pause()
        assert isinstance(app.screen, NoteScreen)
        assert "typed, Thu 5 Mar" in lines_of(app)[0]
        await typed(pilot, "soft plank")
        await pilot.press("enter")
        await until(pilot, lambda: "Saved." in seen(app))
    visit = timeline(journal, job.id)[0].visit
    assert (visit.day, visit.people) == (dt.date(2026, 3, 5), "Ana")
    assert last_people(journal, job.id) == "Ana"


def test_paths_are_finished_only_as_far_as_there_is_one_way(tmp_path: Path) -> None:
    tmp_path = tmp_path / "talks"
    tmp_path.mkdir()
    for name in ("walk-1.vtt", "walk-2.vtt", "wall.png", "web", ".hidden.vtt"):
        (tmp_path / name).mkdir() if name == "web" else (tmp_path / name).write_text("x")
    finished = recordings.finished_path
    assert finished("wa", tmp_path) == "walk-"
    assert finished("walk-1", tmp_path) == "walk-1.vtt"
    assert finished("we", tmp_path) == "web/"
    assert finished("nothing", tmp_path) == "nothing"
    assert finished("no/such/fol", tmp_path) == "no/such/fol"
    assert finished("", tmp_path) == "w"
    assert finished("\x00", tmp_path) == "\x00"
    assert finished(f"{tmp_path}/walk-2", Path("/")) == f"{tmp_path}/walk-2.vtt"


def test_a_folder_is_listed_newest_first_and_bounded(tmp_path: Path) -> None:
    for number in range(recordings.MOST_FILES + 3):
        path = tmp_path / f"{number:04d}.vtt"
        path.write_text("x")
        os.utime(path, (1_700_000_000 + number, 1_700_000_000 + number))
    (tmp_path / "sub").mkdir()
    folder = recordings.look_in(tmp_path)
    assert folder.entries[0].name == f"{recordings.MOST_FILES + 2:04d}.vtt"
    assert folder.entries[-1].is_folder
    assert folder.more == 3
    with pytest.raises(BadInput) as caught:
        recordings.look_in(tmp_path / "0001.vtt")
    assert "cannot look into" in caught.value.title
