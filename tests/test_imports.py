"""Layers hold, and what should load late does: presence in ``sys.modules`` is the gate, not time."""

from __future__ import annotations

import subprocess
import sys

import pytest

#: Modules that loading the command line must not bring in.
LATE = {
    "textual",
    "rich",
    "sqlite_utils",
    "click",
    "markdown_it",
    "rapidfuzz",
    "dateutil",
    "platformdirs",
    "holidays",
    "journal_tui.screens",
    "journal_tui.walkthrough.drafting",
    "journal_tui.documents",
    "journal_tui.planning",
    "journal_tui.measures",
}


def _loaded(code: str) -> set[str]:
    told = subprocess.run(
        [sys.executable, "-c", f"{code}\nimport sys\nprint('\\n'.join(sys.modules))"],
        capture_output=True,
        text=True,
        check=True,
    )
    return set(told.stdout.split())


@pytest.mark.parametrize("module", ["journal_tui.cli", "journal_tui.journal.opening"])
def test_loading_the_command_line_loads_nothing_heavy(module: str) -> None:
    assert _loaded(f"import {module}") & LATE == set()


def test_opening_a_journal_that_is_there_loads_no_schema_tools(tmp_path: object) -> None:
    path = f"{tmp_path}/j.db"
    make = (
        "from pathlib import Path; from journal_tui.journal.opening import open_journal; "
        f"open_journal(Path({path!r}))"
    )
    assert "sqlite_utils" in _loaded(make)
    assert "sqlite_utils" not in _loaded(make)


def test_the_domain_knows_no_file_database_or_screen() -> None:
    code = (
        "import pkgutil, importlib, journal_tui.domain as d\n"
        "[importlib.import_module(m.name) for m in pkgutil.iter_modules(d.__path__, 'journal_tui.domain.')]"
    )
    loaded = _loaded(code)
    assert loaded & {"sqlite3", "textual", "sqlite_utils"} == set()
    assert not [m for m in loaded if m.startswith("journal_tui.") and not m.startswith("journal_tui.domain")]


def test_writing_does_not_wait_for_number_libraries_that_happen_to_be_installed(tmp_path: object) -> None:
    code = (
        "from pathlib import Path; from journal_tui.journal.opening import open_journal\n"
        "from journal_tui.journal.jobs import add_job\n"
        f"add_job(open_journal(Path({f'{tmp_path}/j.db'!r})), 'Hall bath')"
    )
    assert _loaded(code) & {"pandas", "numpy"} == set()
