"""Logging, notes, drafting and the timeline as text."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest

from journal_tui.domain.kinds import OTHER_PHASE, STANDARD_PHASES
from journal_tui.domain.times import clock
from tests.cli.conftest import Cli
from tests.journal.talk import TALK, write_talk

_KEYS = {"start", "end", "kind", "phase", "area", "text", "open", "who", "hazard", "why"}


@pytest.mark.parametrize("stdin", [False, True])
def test_draft_needs_no_journal_and_gives_exactly_these_keys(
    cli: Cli, path: Path, tmp_path: Path, stdin: bool
) -> None:
    file = write_talk(tmp_path)
    ran = cli("draft", "-", "--json", stdin=TALK) if stdin else cli("draft", str(file), "--json")
    assert (ran.code, ran.err) == (0, "")
    assert len(ran.data) >= 3
    for draft in ran.data:
        assert set(draft) == _KEYS
        assert 0 <= draft["start"] <= draft["end"] <= 31
        assert draft["kind"] in ("observation", "decision", "next_step")
        assert draft["phase"] in (*STANDARD_PHASES, OTHER_PHASE)
        assert draft["who"] in (None, "crew", "client", "inspector", "supplier")
        assert isinstance(draft["open"], bool) and isinstance(draft["hazard"], bool)
        assert draft["text"] and draft["why"]
    assert not path.parent.exists()


def test_draft_as_a_table_shows_each_draft_within_80_columns(cli: Cli, tmp_path: Path) -> None:
    file = write_talk(tmp_path)
    drafts = cli("draft", str(file), "--json").data
    table = cli("draft", str(file)).out
    assert [line.split()[0] for line in table.splitlines() if line[:3].strip()] == [
        str(n) for n in range(1, len(drafts) + 1)
    ]
    assert max(len(line) for line in table.splitlines()) <= 80
    said = {"observation": "saw", "decision": "chose", "next_step": "owed"}
    flowing = " ".join(table.split())
    for draft in drafts:
        assert f"{clock(draft['start'])} {said[draft['kind']]} {draft['phase']}" in flowing
        assert draft["text"].split()[0] in flowing


def test_faults_in_a_file_are_told_apart_from_the_drafts(cli: Cli, tmp_path: Path) -> None:
    bad = "".join(f"\n00:{n}0:00.000 --> 00:{n}0:00.000 x\nlost words {n}\n" for n in range(1, 6)) * 4
    file = write_talk(tmp_path, extra=bad)
    ran = cli("draft", str(file), "--json")
    assert ran.code == 0 and ran.data
    lines = ran.err.splitlines()
    assert all(line.startswith("journal-tui: walk.vtt") for line in lines)
    assert "walk.vtt, line 18: " in lines[0]
    assert len(lines) == 11 and "more remarks like these" in lines[-1]


def test_talk_with_nothing_in_it_is_nothing_found(cli: Cli, tmp_path: Path) -> None:
    file = tmp_path / "talk.txt"
    file.write_text("[0:01] Good morning everybody, how are you doing\n", encoding="utf-8")
    assert (cli("draft", str(file), "--json").code, cli("draft", str(file), "--json").data) == (1, [])
    table = cli("draft", str(file))
    assert (table.code, table.out) == (1, "")
    assert "nothing found, chosen or owed was heard in it" in table.err


def test_logging_says_how_many_drafts_wait(cli: Cli, elm: str, tmp_path: Path) -> None:
    file = write_talk(tmp_path)
    count = len(cli("draft", str(file), "--json").data)
    ran = cli("log", elm, str(file), "--day", "3/10", "--people", "Rui, Dana", "--summary", "first look")
    assert ran.code == 0
    assert "Logged the visit of Tue 10 Mar 2026" in ran.out
    assert f"{count} drafts wait for review" in ran.out
    visit = cli("timeline", elm, "--json").data[0]
    assert (visit["day"], visit["people"], visit["summary"]) == ("2026-03-10", "Rui, Dana", "first look")
    assert (visit["recording"], visit["waiting_drafts"], visit["entries"]) == ("walk.vtt", count, [])
    shown = cli("timeline", elm).out
    assert "Tue 10 Mar 2026; first look; Rui, Dana; walk.vtt 0:31" in shown
    assert f"{count} drafts wait for review." in shown


def test_logging_on_a_day_to_come_says_so(cli: Cli, elm: str, tmp_path: Path) -> None:
    file = write_talk(tmp_path)
    ran = cli("log", elm, str(file), "--day", "2026-12-03")
    assert ran.code == 0 and "that day is still to come" in ran.err
    assert cli("visit", "change", elm, "--move-to", "today").code == 0
    assert "still to come" not in cli("log", elm, str(file), "--day", "today", "--again").err


def test_keep_logs_without_review(cli: Cli, elm: str, tmp_path: Path) -> None:
    assert "drafts kept" in cli("log", elm, str(write_talk(tmp_path)), "--keep").out
    visit = cli("timeline", elm, "--json").data[0]
    assert visit["waiting_drafts"] == 0 and len(visit["entries"]) >= 3
    assert cli("timeline", elm).out.count("\n") > 5


def test_the_same_recording_twice_is_refused_until_told(cli: Cli, logged: str, tmp_path: Path) -> None:
    again = cli("log", logged, "-", stdin=TALK)
    assert again.code == 2
    assert "already logged" in again.err and "Then say --again" in again.err
    assert len(cli("timeline", logged, "--json").data) == 1
    assert cli("log", logged, str(tmp_path / "walk.vtt"), "--again").code == 0
    assert len(cli("timeline", logged, "--json").data) == 2


@pytest.mark.parametrize(
    ("answer", "visits", "code"), [(b"y\n", 2, 0), (b"\n", 1, 1), (b"no\n", 1, 1), (b"\x04", 1, 1)]
)
def test_on_a_terminal_it_is_asked(
    cli: Cli, logged: str, path: Path, tmp_path: Path, answer: bytes, visits: int, code: int
) -> None:
    ours, theirs = pty.openpty()
    argv = [sys.executable, "-m", "journal_tui", "log", logged, str(tmp_path / "walk.vtt")]
    with subprocess.Popen(argv, stdin=theirs, stdout=theirs, stderr=theirs, close_fds=True) as run:
        os.close(theirs)
        said = b""
        while b"[y/N]" not in said:
            said += os.read(ours, 1024)
        os.write(ours, answer)
        assert run.wait(timeout=30) == code
    os.close(ours)
    assert b"is already logged" in said
    assert len(cli("timeline", logged, "--json").data) == visits


def test_notes_are_saved_a_line_each(cli: Cli, elm: str) -> None:
    ran = cli("note", elm, "need", "to", "move", "the", "vanity", "drain", "3 in left")
    assert ran.code == 0 and "owed" in ran.out and "rough plumbing" in ran.out
    lines = "the flange is cracked\n\n  client picks the mirror  \r\nlast line"
    saved = cli("note", elm, "-", "--day", "2026-03-12", "--json", stdin=lines).data
    assert [entry["text"] for entry in saved] == [
        "the flange is cracked",
        "client picks the mirror",
        "last line",
    ]
    visits = cli("timeline", elm, "--json").data
    assert len(visits) == 1 and len(visits[0]["entries"]) == 4
    assert visits[0]["entries"][0]["start"] is None
    for text in ("", "  ", "-"):
        empty = cli("note", elm, text, stdin="\n \n")
        assert empty.code == 2 and "an empty note" in empty.err


def test_the_timeline_is_newest_first_and_limited(cli: Cli, elm: str) -> None:
    assert cli("timeline", elm).code == 1
    for day in ("2026-03-02", "2026-03-11", "2026-03-05"):
        cli("note", elm, f"seen on {day}", "--day", day)
    days = [visit["day"] for visit in cli("timeline", elm, "--json").data]
    assert days == ["2026-03-11", "2026-03-05", "2026-03-02"]
    assert [v["day"] for v in cli("timeline", elm, "--json", "--limit", "1").data] == days[:1]
    assert cli("timeline", elm).out.index("11 Mar") < cli("timeline", elm).out.index("2 Mar 2026")


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("today", "2026-03-12"),
        ("Yesterday", "2026-03-11"),
        ("2026-03-01", "2026-03-01"),
        ("3/9", "2026-03-09"),
        ("11/20", "2025-11-20"),
        ("Nov 20", "2025-11-20"),
        ("5 March 2026", "2026-03-05"),
        ("thursday", "2026-03-05"),
        ("last Wed", "2026-03-11"),
        ("3 days ago", "2026-03-09"),
        ("2 weeks ago", "2026-02-26"),
        ("2/29", "2024-02-29"),
    ],
)
def test_days_are_typed_as_people_say_them(cli: Cli, elm: str, typed: str, day: str) -> None:
    """The day is Thursday 12 March 2026; a day without its year is the last such day."""
    assert cli("note", elm, "seen", "--day", typed).code == 0
    assert cli("timeline", elm, "--json").data[0]["day"] == day


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "soon",
        "2/30",
        "13/13",
        "20",
        "2026",
        "10:30",
        "2026-02-30",
        "tuesda y",
        "9" * 50,
        "th",
        "\x1b[2J",
    ],
)
def test_what_is_no_day_is_refused_in_words(cli: Cli, elm: str, typed: str) -> None:
    ran = cli("note", elm, "seen", "--day", typed)
    assert ran.code == 2
    assert "is no date: Write it like today" in ran.err
    assert "\x1b" not in ran.err


@pytest.mark.parametrize("day", ["1899-05-01", "5/1/2099"])
@pytest.mark.parametrize("command", ["note", "log", "add", "done"])
def test_a_visit_in_another_century_is_refused(
    cli: Cli, elm: str, tmp_path: Path, command: str, day: str
) -> None:
    cli("add", elm, "sweep up")
    words = {"log": str(write_talk(tmp_path)), "done": "sweep"}.get(command, "seen")
    before = cli("timeline", elm, "--json").out, cli("punch", elm, "--format", "json").out
    ran = cli(command, elm, words, "--day", day)
    assert ran.code == 2
    assert "check the year" in ran.err and ran.err.count("\n") == 1
    assert (cli("timeline", elm, "--json").out, cli("punch", elm, "--format", "json").out) == before


@pytest.mark.parametrize("name", ["pipe", "pipe.vtt", "pipe.mp4"])
def test_a_named_pipe_is_refused_and_not_waited_for(cli: Cli, tmp_path: Path, name: str) -> None:
    os.mkfifo(tmp_path / name)
    ran = cli("draft", str(tmp_path / name))
    assert ran.code == 2
    assert "is not a file" in ran.err


def test_a_device_is_refused(cli: Cli) -> None:
    assert "is not a file" in cli("draft", "/dev/zero").err
    assert "is not a file" in cli("draft", "/dev/tty").err


def test_a_file_without_a_name_is_said_to_have_none(cli: Cli) -> None:
    ran = cli("draft", "")
    assert ran.code == 2
    assert "no file is named" in ran.err


def test_ten_megabytes_of_talk_are_refused_at_once_with_the_limit(cli: Cli, tmp_path: Path) -> None:
    (tmp_path / "long.txt").write_text("need to move the valve left " * 400_000)
    ran = cli("draft", str(tmp_path / "long.txt"))
    assert ran.code == 2
    assert "long.txt has 2,400,000 words (one recording may have 200,000)" in ran.err
