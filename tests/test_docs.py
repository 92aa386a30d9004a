"""The README names every command and option, and its commands run."""

from __future__ import annotations

import tomllib
from pathlib import Path

from tests.readme import README, ROOT, commands_part, part, run_tour, tour_commands

TEXT = README.read_text("utf-8")


def test_every_command_and_option_is_in_the_readme() -> None:
    assert part(TEXT, "commands") == commands_part()


def test_the_commands_of_the_tour_run(tmp_path: Path) -> None:
    commands = tour_commands(TEXT)
    assert len(commands) >= 8
    for command, (code, output) in zip(commands, run_tour(commands, tmp_path), strict=True):
        assert code == 0, f"{command}\n{output}"
        assert output.strip(), command


def test_the_two_commands_are_those_that_ci_runs() -> None:
    ci = (ROOT / ".ci" / "run").read_text("utf-8")
    assert "pip install . && journal-tui tour" in TEXT
    assert 'pip install ".[test]" && pytest' in TEXT
    for line in ("pip install --quiet .\n", "journal-tui tour", 'pip install --quiet ".[test]"', "pytest"):
        assert line in ci


def test_the_guide_names_every_room() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    for room in (ROOT / "journal_tui").iterdir():
        if (room / "__init__.py").is_file():
            assert f"{room.name}/" in guide, room.name


def test_the_layers_under_contract_are_all_the_rooms() -> None:
    contract = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"][
        "contracts"
    ][0]
    named = {name.strip() for layer in contract["layers"] for name in layer.split("|")}
    rooms = {
        f"journal_tui.{room.name}"
        for room in (ROOT / "journal_tui").iterdir()
        if (room / "__init__.py").is_file()
    }
    assert named == rooms
