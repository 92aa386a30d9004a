"""Jobs, begun, listed, changed and shown as text."""

from __future__ import annotations

from pathlib import Path

from journal_tui.journal.opening import open_journal
from tests.cli.conftest import Cli


def test_a_job_is_begun_listed_and_shown(cli: Cli) -> None:
    begun = cli(
        "job", "add", "Hall bath", "--client", "Ines Quill", "--address", "12 Elm", "--built", "1957",
        "--private-note", "lockbox 4471",
    )  # fmt: skip
    assert begun.code == 0 and begun.out.startswith("Begun: Hall bath")
    listed = cli("jobs")
    assert "Hall bath" in listed.out and "12 Elm" in listed.out and "no visit yet" in listed.out
    assert "4471" not in listed.out
    shown = cli("job", "show", "quill")
    assert [line.split(None, 1)[0] for line in shown.out.splitlines()] == [
        "name", "client", "address", "built", "phases", "private", "id",
    ]  # fmt: skip
    assert "lockbox 4471" in shown.out and "1957" in shown.out
    record = cli("job", "show", "hall", "--json").data
    assert (record["name"], record["year_built"], record["private_note"]) == (
        "Hall bath",
        1957,
        "lockbox 4471",
    )


def test_no_jobs_is_nothing_found(cli: Cli, path: Path) -> None:
    open_journal(path).close()
    empty = cli("jobs")
    assert (empty.code, empty.out) == (1, "")
    assert "there are no jobs yet" in empty.err
    assert (cli("jobs", "--json").code, cli("jobs", "--json").data) == (1, [])


def test_only_what_is_given_changes(cli: Cli, elm: str) -> None:
    assert cli("job", "change", elm, "--phases", "demo, rough plumbing, rough electrical, tile").code == 0
    assert cli("job", "change", elm, "--name", "Elm half bath", "--built", "1931").code == 0
    record = cli("job", "show", elm, "--json").data
    assert record["name"] == "Elm half bath"
    assert record["client"] == "Odile Marsh"
    assert record["phases"] == ["demo", "rough plumbing", "rough electrical", "tile"]
    assert cli("job", "change", elm, "--built", "").code == 0
    assert cli("job", "show", elm, "--json").data["year_built"] is None


def test_what_cannot_be_is_refused(cli: Cli, elm: str) -> None:
    for argv, says in (
        (["job", "add", "  "], "a job needs a name"),
        (["job", "add", "powder ROOM, 9 elm court"], "there is already a job called"),
        (["job", "add", "New", "--built", "1066"], "year built 1066"),
        (["job", "add", "New", "--built", "old"], '"old" is no year'),
        (["job", "add", "New", "--phases", "demo,demo"], "Name each phase once"),
        (["job", "change", elm], "nothing to change"),
    ):
        ran = cli(*argv)
        assert ran.code == 2, argv
        assert says in ran.err
    assert len(cli("jobs", "--json").data) == 1


def test_a_job_named_unclearly_is_asked_back(cli: Cli, elm: str) -> None:
    cli("job", "add", "Attic, 9 Elm Court")
    several = cli("job", "show", "elm court")
    assert several.code == 2 and "fits 2 jobs" in several.err
    none = cli("job", "show", "birch")
    assert none.code == 1 and "There are:" in none.err
