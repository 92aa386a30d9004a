"""Search and backups as text."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Cli


def test_search_finds_entries_and_what_was_said(cli: Cli, logged: str) -> None:
    cli("note", logged, "the flange sits too high")
    ran = cli("search", "flange")
    assert ran.code == 0
    flowing = " ".join(ran.out.split())
    assert "saw the flange sits too high" in flowing
    assert "said The closet flange is cracked at three o'clock." in flowing
    assert "Powder room, 9 Elm Court, Wed 11 Mar 2026, 0:06" in flowing
    hits = cli("search", "fla", "--json").data
    assert {hit["kind"] for hit in hits} >= {"observation", None}
    assert hits[-1]["start"] == 6.5
    assert len(cli("search", "flange", "--limit", "1", "--json").data) == 2


def test_search_stays_in_the_job_named(cli: Cli, logged: str) -> None:
    cli("job", "add", "Attic")
    cli("note", "attic", "the flange of the duct")
    assert {hit["job"] for hit in cli("search", "flange", "--json").data} == {
        "Attic",
        "Powder room, 9 Elm Court",
    }
    assert {hit["job"] for hit in cli("search", "flange", "--json", "--job", "attic").data} == {"Attic"}
    assert cli("search", "flange", "--job", "cellar").code == 1


@pytest.mark.parametrize("words", ["unicorn", '"', "*", "-", "'", "AND", 'NEAR("', "flange unicorn", "()"])
def test_nothing_typed_is_read_as_syntax(cli: Cli, logged: str, words: str) -> None:
    ran = cli("search", words)
    assert (ran.code, ran.out) == (1, "")
    assert "nothing holds" in ran.err
    assert cli("search", "--json", "--", words).data == []


def test_a_backup_is_a_journal_of_its_own(cli: Cli, logged: str, tmp_path: Path) -> None:
    copy = tmp_path / "stick" / "copy.db"
    ran = cli("backup", str(copy))
    assert ran.code == 0 and "Copied to" in ran.out
    before = cli("timeline", logged, "--json").out
    assert cli("timeline", logged, "--json", "--journal", str(copy)).out == before
    into = cli("backup", str(tmp_path / "stick"))
    assert into.code == 0
    assert (tmp_path / "stick" / "journal-2026-03-12.db").is_file()


def test_a_backup_never_replaces_a_file(cli: Cli, logged: str, path: Path, tmp_path: Path) -> None:
    taken = tmp_path / "letter.txt"
    taken.write_text("dear all")
    for target in (taken, path):
        ran = cli("backup", str(target))
        assert ran.code == 2 and f"{target} is there already: Name a new file" in ran.err
    assert taken.read_text() == "dear all"
    assert cli("timeline", logged).code == 0
    blocked = cli("backup", str(taken / "copy.db"))
    assert blocked.code == 2 and "cannot write the backup" in blocked.err
    assert "--journal" not in blocked.err
