"""Commands run in this process, on a journal of the test's own, on a fixed day."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from journal_tui.cli import main
from journal_tui.journal import opening
from tests.conftest import TODAY
from tests.journal.talk import write_talk


@dataclass(frozen=True, slots=True)
class Ran:
    """What a run of the program left: exit code, standard output, standard error."""

    code: int
    out: str
    err: str

    @property
    def data(self) -> Any:
        """Standard output read as JSON."""
        return json.loads(self.out)


Cli = Callable[..., Ran]


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the test's journal is, named by the environment variable; not made yet."""
    where = tmp_path / "site" / "journal.db"
    monkeypatch.setenv(opening.PATH_VARIABLE, str(where))
    return where


@pytest.fixture
def cli(path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Cli:
    """Run a command: ``cli("punch", "elm", stdin="")``."""
    monkeypatch.setenv("COLUMNS", "80")
    for function in (opening.open_journal, opening.open_existing):
        monkeypatch.setattr(function, "__defaults__", (None, lambda: TODAY))

    def run(*argv: str, stdin: str | bytes = "") -> Ran:
        data = stdin.encode("utf-8", "surrogateescape") if isinstance(stdin, str) else stdin
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data), encoding="utf-8"))
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main(list(argv))
        said = capsys.readouterr()
        assert isinstance(left.value.code, int)
        assert "Traceback" not in said.err
        return Ran(left.value.code, said.out, said.err)

    return run


@pytest.fixture
def elm(cli: Cli) -> str:
    """A job in the journal, by the word it is called by."""
    assert cli("job", "add", "Powder room, 9 Elm Court", "--client", "Odile Marsh").code == 0
    return "elm"


@pytest.fixture
def logged(cli: Cli, elm: str, tmp_path: Path) -> str:
    """The job with one walk-through logged, its drafts waiting."""
    assert cli("log", elm, str(write_talk(tmp_path)), "--day", "yesterday", "--people", "Rui").code == 0
    return elm
