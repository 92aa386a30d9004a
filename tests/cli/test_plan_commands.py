"""The plan on the command line: schedule in four forms, next visit, items, links, holds, week."""

from __future__ import annotations

import csv
import io
import sys
from pathlib import Path

import icalendar
import pytest

from journal_tui.domain.kinds import Party
from journal_tui.journal import jobs
from journal_tui.journal.opening import open_journal
from tests.cli.conftest import Cli
from tests.conftest import TODAY
from tests.journal.open_items import owed
from tests.planning.test_psplib import SMALL


@pytest.fixture
def elm(cli: Cli, path: Path) -> Cli:
    """A job "Elm" with a few open items, worked in Chicago."""
    journal = open_journal(path, today=lambda: TODAY)
    job = jobs.add_job(journal, "Elm hall bath", year_built=1974)
    for text, phase, area, who in (
        ("strap the new supply", "rough plumbing", "tub wall", Party.CREW),
        ("rough inspection", "rough plumbing", "whole room", Party.INSPECTOR),
        ("hang backer", "backer", "tub wall", Party.CREW),
        ("grout [/] the =floor\x1b[31m", "tile", "whole room", Party.CREW),
        ("which mirror", "trim", "vanity", Party.CLIENT),
        ("set the toilet", "trim", "floor", Party.CREW),
    ):
        owed(journal, job, text, phase, area, who)
    journal.close()
    assert cli("week", "elm", "--zone", "America/Chicago").code == 0
    return cli


def test_the_schedule_in_four_forms(elm: Cli) -> None:
    drawn = elm("schedule", "elm")
    assert drawn.code == 0
    assert "forecast end" in drawn.out
    assert "█" in drawn.out
    assert "\x1b" not in drawn.out
    assert all(len(line) <= 80 for line in drawn.out.splitlines())
    data = elm("schedule", "elm", "--format", "json").data
    assert len(data["items"]) == 6
    strap = next(i for i in data["items"] if i["item"].startswith("strap"))
    assert strap["start"] == "2026-03-12T08:00-05:00"
    assert strap["taken_as"] == "rough supply"
    rows = list(csv.DictReader(io.StringIO(elm("schedule", "elm", "--format", "csv").out)))
    assert [r["id"] for r in rows] == [i["id"] for i in data["items"]]
    text = elm("schedule", "elm", "--format", "ics").out
    assert len(icalendar.Calendar.from_ical(text).walk("VEVENT")) == 7


def test_why_not_sooner(elm: Cli) -> None:
    said = elm("schedule", "elm", "--why", "backer").out
    assert "“hang backer” cannot start before" in " ".join(said.split())
    assert "inspection, assumed" in " ".join(said.split())


def test_an_empty_job_has_no_schedule(cli: Cli) -> None:
    cli("job", "add", "Bare")
    bare = cli("schedule", "bare")
    assert (bare.code, "Nothing is open." in bare.out) == (1, True)
    assert cli("punch", "bare", "--visit", "friday").code == 1


def test_the_next_visit_in_its_forms(elm: Cli) -> None:
    shown = elm("punch", "elm", "--visit", "next thu", "--hours", "8", "--people", "2")
    assert shown.code == 0
    text = " ".join(shown.out.split())
    assert "Thu 19 Mar, 2 people, 8:00 to 16:00" in text
    assert "strap the new supply" in text
    assert "waits for “rough inspection”, no date booked" in text
    assert "which mirror (since Fri 6 Mar)" in text
    data = elm("punch", "elm", "--visit", "3/13", "--hours", "4", "--format", "json").data
    assert data["offered_hours"] == 8
    assert data["day"] == "2026-03-13"
    sheet = elm("punch", "elm", "--visit", "3/13", "--freeze")
    assert sheet.out.startswith("# Elm hall bath")
    assert "frozen as the crew sheet" in sheet.err
    out = elm("punch", "elm", "--visit", "3/13", "--without", "strap")
    assert "left out of this visit" in " ".join(out.out.split())


@pytest.mark.parametrize(
    "argv",
    [
        ("punch", "elm", "--visit", "someday"),
        ("punch", "elm", "--visit", "friday", "--hours", "0"),
        ("punch", "elm", "--visit", "friday", "--hours", "nan"),
        ("punch", "elm", "--visit", "friday", "--people", "0"),
        ("punch", "elm", "--visit", "friday", "--format", "csv"),
        ("punch", "elm", "--hours", "8"),
        ("plan", "item", "elm", "grout", "--hours", "0"),
        ("plan", "item", "elm", "grout", "--hours", "-3"),
        ("plan", "item", "elm", "grout", "--hours", "1e9"),
        ("plan", "item", "elm", "grout", "--task", "boat"),
        ("link", "elm", "backer", "--after", "grout"),
        ("link", "elm", "backer", "--after", "backer"),
        ("hold", "book", "elm", "toilet", "--on", "friday"),
        ("hold", "result", "elm", "rough inspection", "--by", "city"),
        ("hold", "result", "elm", "rough inspection", "--by", "city", "--passed"),
        ("week", "elm", "--days", "t"),
        ("day", "elm", "someday"),
        ("sub", "elm", "electrician", "--on", "someday"),
        ("solve-psplib", "/nowhere/at/all.sm"),
    ],
)
def test_bad_input_is_one_line_and_changes_nothing(elm: Cli, argv: tuple[str, ...]) -> None:
    before = elm("schedule", "elm", "--format", "json").out
    ran = elm(*argv)
    assert ran.code == 2
    assert len(ran.err.strip().splitlines()) == 1
    assert "Traceback" not in ran.err
    assert elm("schedule", "elm", "--format", "json").out == before


def test_items_are_shown_and_stated(elm: Cli) -> None:
    assert "5 crew-hours (common practice)" in elm("plan", "item", "elm", "grout").out
    told = elm("plan", "item", "elm", "grout", "--hours", "6", "--wait", "48", "--note", "the bag").out
    assert "6 crew-hours (stated)" in told
    assert "48 h by the clock (stated: the bag)" in told
    kept = elm("plan", "item", "elm", "grout", "--people", "1", "--load", "grout, grey").out
    assert "6 crew-hours (stated)" in kept
    assert "grout, grey (stated)" in kept
    assert "5 crew-hours (common practice)" in elm("plan", "item", "elm", "grout", "--usual").out


def test_links_are_made_listed_and_taken_away(elm: Cli) -> None:
    made = elm("link", "elm", "toilet", "--after", "grout", "--lag", "24")
    assert "waits for" in made.out and "24 h by the clock" in made.out
    assert elm("links", "elm").code == 0
    assert elm("unlink", "elm", "toilet", "--after", "grout").code == 0
    assert elm("links", "elm").code == 1
    refused = elm("link", "elm", "backer", "--after", "toilet")
    assert "hang backer" in refused.err and "set the toilet" in refused.err


def test_a_hold_is_booked_fails_and_passes(elm: Cli) -> None:
    assert "forecast, not a pass" in " ".join(
        elm("hold", "book", "elm", "rough", "--on", "next thu").out.split()
    )
    failed = elm("hold", "result", "elm", "rough inspection", "--failed", "no strap", "--by", "city")
    assert "correct: no strap" in failed.out and "again: rough inspection" in failed.out
    assert elm("done", "elm", "correct").code == 0
    passed = elm(
        "hold",
        "result",
        "elm",
        "again",
        "--passed",
        "--by",
        "city",
        "--shown",
        "card, photo 3",
        "--day",
        "today",
    )
    assert passed.out.startswith("Passed")
    data = elm("schedule", "elm", "--format", "json").data
    assert next(i for i in data["items"] if i["item"] == "hang backer")["who"] == "crew"


def test_the_week_days_off_and_subs(elm: Cli) -> None:
    shown = elm("week", "elm", "--days", "mon-thu", "--hours", "10", "--crew", "3", "--holidays", "none").out
    assert "10 h a day" in shown and "crew of 3" in shown
    assert "Fri 20 Mar 2026: off" in elm("day", "elm", "3/20", "--why", "another job").out
    assert "another job" in elm("week", "elm").out
    assert "as the week says" in elm("day", "elm", "3/20", "--usual").out
    assert "electrician: Tuesday, Thursday" in elm("sub", "elm", "electrician", "--days", "tue,thu").out


def test_public_problem_files(elm: Cli, tmp_path: Path) -> None:
    file = tmp_path / "own.sm"
    file.write_text(SMALL)
    answer = elm("solve-psplib", str(file), "--json").data
    assert answer["makespan"] == 10
    assert len(answer["starts"]) == 6
    assert elm("solve-psplib", str(file)).out.startswith("makespan 10\n")
    file.write_text("no such thing")
    bad = elm("solve-psplib", str(file), "--json")
    assert bad.code == 2
    assert 'no line begins with "JOBS"' in bad.err and "line 0" not in bad.err
    assert elm("solve-psplib", "-", stdin=SMALL).out.startswith("makespan 10\n")
    for odd in ("/dev/zero", str(tmp_path)):
        assert "is not a file" in elm("solve-psplib", odd).err
    assert "solve-psplib" not in elm("--help").out
    assert "FILE.sm" in elm("solve-psplib", "--help").out


def test_common_tasks_are_listed_and_a_file_of_ones_own_wins(elm: Cli, path: Path) -> None:
    assert "hang board" in elm("tasks").out
    path.with_name("tasks.toml").write_text(elm("tasks", "--file").out, encoding="utf-8")
    assert "5 crew-hours (common practice)" in elm("plan", "item", "elm", "grout").out
    own = '[[task]]\nname = "grout"\nphase = "tile"\nwords = ["grout"]\nhours = 9\n'
    path.with_name("tasks.toml").write_text(own, encoding="utf-8")
    assert "9 crew-hours (common practice)" in elm("plan", "item", "elm", "grout").out
    path.with_name("tasks.toml").write_text("[[task", encoding="utf-8")
    bad = elm("schedule", "elm")
    assert (bad.code, "tasks.toml is not TOML" in bad.err) == (2, True)


def test_crew_sheets_are_listed_and_printed(elm: Cli) -> None:
    assert elm("sheets", "elm").code == 1
    frozen = elm("punch", "elm", "--visit", "3/13", "--freeze").out
    assert "frozen 2026-03-12" in elm("sheets", "elm").out
    assert elm("sheets", "elm", "--print", "1").out == frozen
    assert elm("sheets", "elm", "--print", "2").code == 2


def test_a_crew_sheet_on_a_terminal_is_plain_text(elm: Cli, monkeypatch: pytest.MonkeyPatch) -> None:
    as_kept = elm("punch", "elm", "--visit", "3/13", "--freeze").out
    assert "\\[ \\]" in as_kept
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    for shown in (
        elm("sheets", "elm", "--print", "1").out,
        elm("punch", "elm", "--visit", "3/13", "--freeze").out,
    ):
        assert "- [ ] " in shown and "\\" not in shown and "**" not in shown
        assert shown.startswith("Elm hall bath")


def test_a_look_ticked_off_says_that_its_result_is_missing(elm: Cli) -> None:
    ticked = elm("done", "elm", "rough inspection")
    assert (ticked.code, "hold result" in ticked.err) == (0, True)
    assert elm("done", "elm", "toilet").err == ""
    assert (
        elm("hold", "result", "elm", "rough inspection", "--by", "city", "--passed", "--shown", "card").code
        == 0
    )


@pytest.mark.parametrize(
    ("argv", "said"),
    [
        (("week", "elm", "--crew", "nan"), 'argument --crew: "nan" is not a whole number'),
        (("week", "elm", "--hours", "nan"), 'argument --hours: "nan" is not a number'),
        (
            ("punch", "elm", "--visit", "tomorrow", "--hours", "many"),
            'argument --hours: "many" is not a number',
        ),
        (("schedule", "elm", "--start", "yesterday"), '"yesterday" is past'),
        (("schedule", "elm", "--start", "last friday"), '"last friday" is past'),
    ],
)
def test_what_is_no_number_or_no_day_to_come_is_said_plainly(
    elm: Cli, argv: tuple[str, ...], said: str
) -> None:
    ran = elm(*argv)
    assert ran.code == 2
    assert said in ran.err and "invalid" not in ran.err


def test_a_job_without_crew_sheets_says_so(elm: Cli) -> None:
    ran = elm("sheets", "elm")
    assert (ran.code, ran.out) == (1, "")
    assert "no crew sheet was frozen" in ran.err
