"""The crew sheet on the command line: printed, written in every form, frozen, and written again."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.conftest import Cli


@pytest.fixture
def owing(cli: Cli, elm: str) -> str:
    cli("add", elm, "strap the new supply", "--phase", "rough plumbing", "--area", "vanity wall")
    cli("add", elm, "hang the door", "--phase", "trim")
    return elm


def test_a_sheet_is_printed_and_written_in_every_form(cli: Cli, owing: str, tmp_path: Path) -> None:
    printed = cli("crew-sheet", owing, "--visit", "friday", "--people", "2")
    assert printed.code == 0
    assert "\\[ \\] **vanity wall:** strap the new supply" in printed.out
    assert "Friday, March 13, 2026, 8:00 to 16:00, 2 people." in printed.out
    assert "Marsh" not in printed.out
    assert "- [ ] vanity wall: strap" in cli("crew-sheet", owing, "--format", "text").out
    wrote = cli("crew-sheet", owing, "--visit", "friday", "--out", str(tmp_path / "out"))
    files = [Path(line) for line in wrote.out.splitlines()]
    assert [f.suffix for f in files] == [".md", ".html", ".txt", ".pdf", ".eml"]
    assert wrote.err == "" and len(PdfReader(files[3]).pages) == 1
    only = cli("crew-sheet", owing, "--format", "pdf", "--out", str(tmp_path / "two"))
    assert only.out.count("\n") == 1 and only.out.strip().endswith(".pdf")


def test_a_frozen_sheet_is_written_again(cli: Cli, owing: str, tmp_path: Path) -> None:
    frozen = cli("crew-sheet", owing, "--freeze")
    assert "frozen as the crew sheet of 2026-03-12" in frozen.err
    assert cli("sheets", owing, "--print", "1").out == frozen.out
    wrote = cli("sheets", owing, "--print", "1", "--format", "eml", "--out", str(tmp_path))
    assert wrote.out.strip().endswith("powder-room-9-elm-court-crew-sheet-2026-03-12.eml")


def test_what_cannot_be_done_is_said_in_a_line(cli: Cli, owing: str, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    for argv, said in (
        (("crew-sheet", owing, "--format", "pdf"), "not for a terminal"),
        (("crew-sheet", owing, "--hours", "0"), "0 h"),
        (("crew-sheet", owing, "--first", "roof"), "no open item fits"),
        (("crew-sheet", owing, "--out", str(tmp_path / "file"), "--freeze"), "is not a folder"),
        (("sheets", owing, "--format", "md"), "which sheet?"),
        (("sheets", owing, "--print", "9"), "there is no sheet 9"),
    ):
        ran = cli(*argv)
        assert ran.code in (1, 2) and said in ran.err and ran.out == "", argv
    # What could not be written was not frozen either.
    assert cli("sheets", owing).code == 1
