"""Measures kept with a job and the materials that follow from them, as text."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli

FLOOR = ("measure", "set", "elm", "floor", "joist=2x8", "species=SPF", "grade=2")


@pytest.fixture
def job(cli: Cli) -> str:
    assert cli("job", "add", "Hall bath, 12 Elm").code == 0
    return "elm"


def test_measures_are_kept_as_typed_and_worked_out_again(cli: Cli, job: str) -> None:
    ran = cli(*FLOOR, "span=12-3", "--name", "bath floor", "--by", "Rui", "--day", "2026-03-10")
    assert ran.out == "Kept bath floor (floor): passes\n"
    (one,) = cli("measures", job, "--json").data
    assert one["values"] == {"joist": "2x8", "species": "SPF", "grade": "2", "span": "12-3"}
    assert (one["measured_by"], one["measured_on"]) == ("Rui", "2026-03-10")
    assert one["answer"]["ratio"] == pytest.approx(363, abs=0.5)
    shown = cli("measure", "show", job, "bath", "floor").out
    assert "span: 12-3" in shown
    assert "floor for tile: passes" in shown


def test_a_field_changed_later_keeps_the_others(cli: Cli, job: str) -> None:
    cli(*FLOOR, "span=12-3")
    assert cli("measure", "set", job, "floor", "span=12-6").out == "Kept floor (floor): short\n"
    (one,) = cli("measures", job, "--json").data
    assert one["values"]["joist"] == "2x8"
    assert cli("undo", job).out == "Undone: measure floor.\n"
    assert cli("measures", job, "--json").data[0]["verdict"] == "passes"


def test_what_is_not_finished_is_kept_and_says_what_is_missing(cli: Cli, job: str) -> None:
    assert cli("measure", "set", job, "floor", "joist=2x8").out.startswith(
        "Kept floor (floor): not yet: species"
    )
    assert "not yet: species" in " ".join(cli("measures", job).out.split())


def test_a_measure_is_taken_out_and_undo_brings_it_back(cli: Cli, job: str) -> None:
    cli(*FLOOR)
    assert cli("measure", "drop", job, "floor").out == "Taken out: floor (floor).\n"
    gone = cli("measures", job)
    assert (gone.code, gone.out) == (1, "")
    cli("undo", job)
    assert len(cli("measures", job, "--json").data) == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("measure", "set", "elm", "ceiling", "joist=2x8"), 'there is no check "ceiling"'),
        (("measure", "set", "elm", "floor", "beams=2x8"), "floor has no beams"),
        (("measure", "set", "elm", "floor", "joist"), "NAME=VALUE"),
        (("measure", "show", "elm", "roof"), 'no measure is called "roof"'),
        (("material", "elm", "gold", "--is", "on site"), 'no material is called "gold"'),
    ],
)
def test_bad_input(cli: Cli, job: str, words: tuple[str, ...], says: str) -> None:
    ran = cli(*words)
    assert (ran.code, ran.out) == (2 if "no measure" not in says and "no material" not in says else 1, "")
    assert says in ran.err


def test_materials_follow_the_take_off_and_know_where_they_are(cli: Cli, job: str) -> None:
    assert cli("materials", job).code == 1
    cli("measure", "set", job, "take-off", "size=8-0x5-0", "tile=12x12", "panel=plywood 3/4", "per-box=15")
    listed = {m["name"]: m for m in cli("materials", job, "--json").data}
    assert listed["plywood 3/4"]["quantity"] == "2 sheets"
    assert listed["tile 12 in x 12 in, floor"]["quantity"] == "3 boxes of 15 tiles"
    assert {m["standing"] for m in listed.values()} == {"to buy"}
    said = cli("material", job, "tile 12 in", "--is", "ordered", "--due", "2026-03-16").out
    assert said.endswith("ordered, due 2026-03-16\n")
    assert cli("material", job, "grout", "--is", "ordered").code == 2
    cli("material", job, "plywood 3/4", "--is", "on site")
    text = cli("materials", job).out
    assert "  2 sheets  plywood 3/4  (on site)" in text
    assert "(ordered, due 2026-03-16)" in text
    cli("undo", job)
    assert "  2 sheets  plywood 3/4  (to buy)" in cli("materials", job).out
