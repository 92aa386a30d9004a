"""A visit in full, and visits, entries and items set right."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Cli
from tests.journal.talk import TALK


def test_a_visit_is_shown_with_all_that_was_said(cli: Cli, logged: str) -> None:
    cli("review", logged, "--keep", "1")
    ran = cli("visit", "show", logged)
    assert ran.code == 0
    entries, said = ran.out.split("Said, word for word:")
    assert "flange is cracked" in entries and "drafts wait for review." in entries
    captions = [line for line in TALK.splitlines() if line and "-->" not in line and line != "WEBVTT"]
    flowing = " ".join(said.split())
    assert [flowing.index(caption) for caption in captions] == sorted(
        flowing.index(caption) for caption in captions
    )
    data = cli("visit", "show", logged, "--json").data
    assert [line["text"] for line in data["said"]] == captions
    assert data["said"][1] | {"text": "", "speaker": None} == {
        "start": 6.5,
        "end": 12.0,
        "speaker": None,
        "text": "",
    }
    assert (data["day"], data["people"], data["recording"]) == ("2026-03-11", "Rui", "walk.vtt")
    assert cli("visit", "show", logged, "--day", "2/2").code == 1


def test_a_visit_is_set_right(cli: Cli, logged: str) -> None:
    ran = cli("visit", "change", logged, "--people", "Dana", "--summary", "second look", "--move-to", "3/9")
    assert ran.out == "Changed: Mon 9 Mar 2026; second look; Dana; walk.vtt 0:31\n"
    assert cli("undo", logged).code == 0
    assert cli("timeline", logged, "--json").data[0]["people"] == "Rui"
    for argv in ([], ["--move-to", "5/1/2099"], ["--move-to", "whenever"]):
        assert cli("visit", "change", logged, *argv).code == 2
    assert cli("timeline", logged, "--json").data[0]["day"] == "2026-03-11"


@pytest.mark.parametrize("typed", [False, True])
def test_an_entry_is_set_right_and_its_item_follows(cli: Cli, logged: str, typed: bool) -> None:
    if typed:
        cli("note", logged, "the flange is cracked")
    else:
        cli("review", logged, "--keep", "1")
    ran = cli(
        "entry", "change", logged, "flange", "cracked",
        "--set", "area=north corner", "--set", "phase=tile", "--set", "kind=owed", "--set", "who=client",
    )  # fmt: skip
    assert ran.code == 0 and "owed" in ran.out and "north corner" in " ".join(ran.out.split())
    item = cli("punch", logged, "--format", "json").data["items"][0]
    assert (item["area"], item["phase"], item["who"]) == ("north corner", "tile", "client")
    cli("entry", "change", logged, "flange", "--set", "audience=private")
    assert "flange" not in cli("update", logged).out


@pytest.mark.parametrize(
    ("argv", "code", "says"),
    [
        (["flange"], 2, "arguments are required: --set"),
        (["unicorn", "--set", "kind=saw"], 1, 'no entry fits "unicorn"'),
        (["flange", "--set", "kind=saw"], 2, '"flange" fits 2 entries: Say more: Thu 12 Mar the flange'),
        (["flange", "low", "--set", "text="], 2, "an empty text"),
        (["flange", "low", "--set", "kind=odd"], 2, "kind cannot be"),
        (["flange", "low", "--set", "kind=saw", "--day", "3/2"], 1, "no entry fits"),
    ],
)
def test_an_entry_that_cannot_be_changed_is_not(
    cli: Cli, elm: str, argv: list[str], code: int, says: str
) -> None:
    cli("note", elm, "-", stdin="the flange is low\nthe flange is cracked\n")
    before = cli("history", elm).out
    ran = cli("entry", "change", elm, *argv)
    assert (ran.code, ran.out) == (code, "")
    assert says in ran.err
    assert cli("history", elm).out == before


def test_an_item_is_handed_to_whoever_must_move(cli: Cli, elm: str) -> None:
    cli("add", elm, "pick", "the", "mirror", "--area", "vanity")
    ran = cli("hand", elm, "mirror", "--to", "Client")
    assert ran.code == 0 and ran.out.startswith("Now the client's move (")
    assert cli("punch", elm, "--format", "json").data["items"][0]["who"] == "client"
    assert cli("hand", elm, "mirror", "--to", "neighbor").code == 2
    assert cli("hand", elm, "unicorn", "--to", "crew").code == 1


@pytest.mark.parametrize("typed", [True, False])
def test_an_entrys_hazards_are_set_right_and_its_item_follows(cli: Cli, logged: str, typed: bool) -> None:
    if typed:
        cli("note", logged, "the flange is cracked")
    else:
        cli("review", logged, "--keep", "1")
    change = ["entry", "change", logged, "flange", "cracked", "--set"]
    cli(*change, "kind=owed", "--set", "hazard=mold,gas")
    assert cli("punch", logged, "--format", "json").data["items"][0]["hazards"] == ["mold", "gas"]
    cli(*change, "hazard=none")
    assert cli("punch", logged, "--format", "json").data["items"][0]["hazards"] == []
