"""Which command runs, what help says, and how each way of failing looks."""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from journal_tui import __version__
from journal_tui.cli.command import PROGRAM, Command, options_of, parser_of
from journal_tui.cli.registry import COMMANDS, GROUPS, overview
from tests.cli.conftest import Cli

#: Too heavy for a command that may not need them, and slow to load.
DEFERRED = (
    "textual",
    "rich",
    "sqlite_utils",
    "sqlite3",
    "markdown_it",
    "rapidfuzz",
    "dateutil",
    "platformdirs",
    "asyncio",
    "journal_tui.journal",
    "journal_tui.documents",
    "journal_tui.walkthrough",
    "journal_tui.planning",
    "journal_tui.screens",
)


def loaded_after(code: str) -> set[str]:
    """Return the modules a fresh interpreter has loaded after running ``code``."""
    run = subprocess.run(
        [sys.executable, "-c", f"import sys; {code}; print(*sys.modules)"],
        capture_output=True,
        text=True,
        check=True,
    )
    return set(run.stdout.split())


def test_importing_the_command_line_loads_nothing_heavy() -> None:
    loaded = loaded_after("import journal_tui.cli, journal_tui.cli.registry, journal_tui.cli.program")
    assert "journal_tui.cli.registry" in loaded
    assert not loaded & set(DEFERRED)


def test_a_listing_loads_neither_screens_nor_what_only_writing_needs(tmp_path: Path) -> None:
    path = tmp_path / "j.db"
    loaded_after(f"from journal_tui.cli.program import run; run(['job', 'add', 'Elm', '--journal={path}'])")
    loaded = loaded_after(f"from journal_tui.cli.program import run; run(['jobs', '--journal={path}'])")
    assert "journal_tui.journal.jobs" in loaded
    assert not loaded & {"textual", "rich", "sqlite_utils", "markdown_it", "rapidfuzz", "dateutil", "asyncio"}


def test_without_arguments_and_without_a_terminal_help_is_printed(cli: Cli, path: Path) -> None:
    ran = cli()
    assert (ran.code, ran.err) == (0, "")
    assert ran.out == overview() + "\n"
    assert not path.exists()


@pytest.mark.parametrize("argv", [["--help"], ["-h"], ["help"]])
def test_help_lists_every_command_within_80_columns(cli: Cli, argv: list[str]) -> None:
    ran = cli(*argv)
    assert ran.code == 0
    for _title, group in GROUPS:
        for command in group:
            assert re.search(rf"^  {re.escape(command.name)} +\S", ran.out, re.MULTILINE), command.name
    assert max(len(line) for line in ran.out.splitlines()) <= 80


@pytest.mark.parametrize("command", COMMANDS, ids=lambda c: c.name)
def test_each_command_explains_itself_with_an_example_that_parses(cli: Cli, command: Command) -> None:
    ran = cli(*command.name.split(), "--help")
    assert (ran.code, ran.err) == (0, "")
    assert command.summary in ran.out
    assert "--journal PATH" in ran.out
    assert cli("help", *command.name.split()).out == ran.out
    for line in command.example.splitlines():
        assert f"  {PROGRAM} {line}" in ran.out
        words = shlex.split(re.split(r" [|<>] |   \(", line)[0])
        assert words[: len(command.name.split())] == command.name.split()
        parser_of(command).parse_args(words[len(command.name.split()) :])
    for action in parser_of(command)._actions:
        assert action.help, (command.name, action.dest)


def test_the_options_of_a_command_are_those_its_help_lists(cli: Cli) -> None:
    for command in COMMANDS:
        listed = set(re.findall(r"(?<![\w-])--[a-z][a-z-]*", cli(*command.name.split(), "--help").out))
        assert set(options_of(command)) <= listed, command.name
    assert options_of(next(c for c in COMMANDS if c.name == "jobs")) == ["--json"]


def test_names_are_unique_and_of_one_word_or_two() -> None:
    names = [command.name for command in COMMANDS]
    assert len(set(names)) == len(names)
    assert all(len(name.split()) in (1, 2) for name in names)


@pytest.mark.parametrize("argv", [["version"], ["--version"]])
def test_version(cli: Cli, argv: list[str]) -> None:
    assert cli(*argv).out == f"{PROGRAM} {__version__}\n"


@pytest.mark.parametrize(
    ("argv", "says"),
    [
        (["pnch"], "Did you mean punch?"),
        (["qqqqq"], 'there is no command "qqqqq"'),
        (["job"], "There are: job add, job change, job show."),
        (["job", "ad"], 'there is no command "job ad"'),
        (["punch"], "arguments are required: JOB"),
        (["punch", "elm", "--form", "md"], "unrecognized arguments: --form md"),
        (["punch", "elm", "--format", "pdf"], "invalid choice: 'pdf'"),
        (["timeline", "elm", "--limit", "0"], "0 is not a number from 1 to 10000"),
        (["timeline", "elm", "--limit", "9" * 30], "is not a number from 1 to 10000"),
        (["timeline", "elm", "--limit", "many"], "many is not a number"),
        (["--journal"], "--journal names no file"),
        (["--journal=", "jobs"], "--journal names no file"),
        (["jobs", "--journal"], "expected one argument"),
        (["--bogus"], 'there is no command "--bogus"'),
        (["x\x1b[31m" * 50], "there is no command"),
    ],
)
def test_a_wrong_call_is_one_line_and_exit_code_2(cli: Cli, argv: list[str], says: str) -> None:
    ran = cli(*argv)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"{PROGRAM}: ")
    assert ran.err.count("\n") == 1
    assert says in ran.err
    assert "\x1b" not in ran.err


def test_the_journal_is_named_before_or_after_the_command(cli: Cli, tmp_path: Path, path: Path) -> None:
    other = tmp_path / "other.db"
    assert cli("--journal", str(other), "job", "add", "One").code == 0
    assert cli("job", "add", "Two", "--journal", str(other)).code == 0
    assert cli(f"--journal={other}", "job", "add", "Three").code == 0
    assert [job["name"] for job in cli("jobs", "--json", "--journal", str(other)).data] == [
        "Three",
        "Two",
        "One",
    ]
    assert not path.exists()


def test_reading_a_journal_that_is_not_there_makes_none(cli: Cli, path: Path) -> None:
    for argv in (["jobs"], ["punch", "elm"], ["search", "x"], ["note", "elm", "words"], ["backup", "b.db"]):
        ran = cli(*argv)
        assert ran.code == 1
        assert f"there is no journal at {path} yet" in ran.err
    assert not path.exists()


def test_words_after_two_dashes_are_taken_as_they_stand(cli: Cli, elm: str) -> None:
    for text in ("--help", "--", "-x", "--journal"):
        assert cli("add", elm, "--area", "hall", "--", text).code == 0
    items = cli("punch", elm, "--format", "json").data["items"]
    assert sorted(item["text"] for item in items) == ["--", "--help", "--journal", "-x"]


def test_a_fault_of_the_program_is_written_down_and_not_shown(
    cli: Cli, elm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    from journal_tui.journal import faults, jobs

    def broken(*_args: object) -> None:
        raise ZeroDivisionError("the secret of the fault")

    monkeypatch.setattr(jobs, "list_jobs", broken)
    ran = cli("jobs")
    assert ran.code == 2
    assert f"a fault in this program: ZeroDivisionError. The details are in {faults.log_path()}." in ran.err
    assert "secret" not in ran.err
    log = faults.log_path().read_text(encoding="utf-8")
    assert "the secret of the fault" in log and "Traceback" in log


def test_a_fault_that_cannot_be_written_down_is_said_too(
    cli: Cli, elm: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    from journal_tui.journal import faults, jobs

    def broken(*_args: object) -> None:
        raise ZeroDivisionError

    (tmp_path / "file").write_text("in the way")
    monkeypatch.setattr(faults, "log_path", lambda: tmp_path / "file" / "faults.log")
    monkeypatch.setattr(jobs, "list_jobs", broken)
    assert "could not be written down" in cli("jobs").err


def test_stopping_with_ctrl_c_is_exit_code_130(cli: Cli, elm: str, monkeypatch: pytest.MonkeyPatch) -> None:
    from journal_tui.journal import jobs

    def stopped(*_args: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(jobs, "list_jobs", stopped)
    ran = cli("jobs")
    assert (ran.code, ran.err) == (130, f"{PROGRAM}: stopped: Nothing was half-saved.\n")


def test_where_says_what_decides_the_place(cli: Cli, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = cli("where").out
    assert str(path) in first and "not there yet; by JOURNAL_TUI_PATH" in first
    cli("job", "add", "Elm")
    assert " KB; by JOURNAL_TUI_PATH" in cli("where").out
    assert "by --journal" in cli("where", "--journal", "x.db").out
    monkeypatch.delenv("JOURNAL_TUI_PATH")
    usual = cli("where").out
    assert "the usual place" in usual and "JOURNAL_TUI_PATH not set" in usual
    assert "faults.log" in usual


def test_an_empty_file_is_said_to_be_empty_and_stays_so(cli: Cli, path: Path) -> None:
    path.parent.mkdir()
    path.touch()
    ran = cli("jobs")
    assert (ran.code, path.stat().st_size) == (1, 0)
    assert "is an empty file" in ran.err and "job add" in ran.err
    assert cli("job", "add", "Hall bath").code == 0
    assert "Hall bath" in cli("jobs").out
