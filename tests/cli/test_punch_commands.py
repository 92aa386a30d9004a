"""The punch list as text and tables, and its items changed by handle or words."""

from __future__ import annotations

import csv
import io
from typing import Any

import pytest

from tests.cli.conftest import Cli


@pytest.fixture
def items(cli: Cli, elm: str) -> dict[str, str]:
    """Four open items; their ids by a word of each."""
    for text, phase, who in (
        ("grout the floor", "tile", "crew"),
        ("strap the supply", "rough plumbing", "crew"),
        ("pick the mirror", "trim", "client"),
        ("haul the debris", "demo", "crew"),
    ):
        argv = ["add", elm, *text.split(), "--phase", phase, "--who", who, "--area", "hall", "--day", "3/2"]
        assert cli(*argv).code == 0
    return {item["text"].split()[-1]: item["id"] for item in _items(cli, elm)}


def _items(cli: Cli, job: str, *argv: str) -> list[dict[str, Any]]:
    items: list[dict[str, Any]] = cli("punch", job, "--format", "json", *argv).data["items"]
    return items


def test_the_list_goes_by_phase_and_sets_apart_what_waits(cli: Cli, elm: str, items: dict[str, str]) -> None:
    ran = cli("punch", elm)
    assert ran.code == 0
    order = [ran.out.index(word) for word in ("debris", "supply", "grout", "mirror")]
    assert order == sorted(order)
    assert "waiting on others: client" in ran.out
    assert "since Mon 2 Mar 2026 (10 days)" in ran.out
    for item_id in items.values():
        assert f"[ ] {item_id[-5:]}  hall" in ran.out
    assert max(len(line) for line in ran.out.splitlines()) <= 80


def test_the_four_forms_say_the_same(cli: Cli, elm: str, items: dict[str, str]) -> None:
    table = list(csv.DictReader(io.StringIO(cli("punch", elm, "--format", "csv").out, newline="")))
    data = _items(cli, elm)
    assert [row["id"] for row in table] == [item["id"] for item in data]
    markdown = cli("punch", elm, "--format", "md").out
    for item in data:
        assert item["text"] in markdown
    assert cli("punch", elm, "--format", "csv").out.endswith("\r\n")


def test_nothing_open_is_nothing_found_in_every_form(cli: Cli, elm: str) -> None:
    for form in ("text", "md", "csv", "json"):
        assert cli("punch", elm, "--format", form).code == 1
    assert "Nothing is open." in cli("punch", elm).out


def test_an_item_is_done_dropped_and_reopened(cli: Cli, elm: str, items: dict[str, str]) -> None:
    ran = cli("done", elm, items["supply"][-5:], "--day", "3/10", "--note", "two straps")
    assert (ran.code, ran.out) == (0, f"Done ({items['supply'][-5:]}): hall: strap the supply\n")
    assert cli("drop", elm, "debris").code == 0
    assert [item["text"] for item in _items(cli, elm)] == ["grout the floor", "pick the mirror"]
    closed = _items(cli, elm, "--all")[2:]
    assert [(item["text"], item["state"], item["closed"]) for item in closed] == [
        ("haul the debris", "dropped", "2026-03-12"),
        ("strap the supply", "done", "2026-03-10"),
    ]
    text = cli("punch", elm, "--all").out
    assert f"[x] {items['supply'][-5:]}" in text and f"[-] {items['debris'][-5:]}" in text
    assert "done and dropped" in text and "done Tue 10 Mar 2026" in text
    markdown = cli("punch", elm, "--all", "--format", "md").out
    assert "## Done and dropped" in markdown
    assert "haul the debris" not in cli("punch", elm, "--format", "md").out
    assert cli("reopen", elm, "strap").code == 0
    supply = next(item for item in _items(cli, elm) if item["id"] == items["supply"])
    assert (supply["state"], supply["since"]) == ("open", "2026-03-02")


@pytest.mark.parametrize(
    ("argv", "code", "says"),
    [
        (["done", "elm", "the"], 2, '"the" fits 4 items: Say which:'),
        (["done", "elm", "unicorn"], 1, 'no open item fits "unicorn"'),
        (["reopen", "elm", "grout"], 1, 'no done or dropped item fits "grout"'),
        (["done", "elm"], 2, "arguments are required: ITEM"),
        (["done", "oak", "grout"], 1, 'no job is called "oak"'),
        (["done", "elm", "grout", "--day", "soon"], 2, '"soon" is no date'),
        (["add", "elm", " "], 2, "an empty punch item"),
        (["add", "elm", "x", "--phase", "roof"], 2, '"roof" is no phase of this job'),
        (["add", "elm", "x", "--who", "neighbor"], 2, 'who cannot be "neighbor"'),
        (["punch", "oak"], 1, 'no job is called "oak"'),
    ],
)
def test_what_cannot_be_done_changes_nothing(
    cli: Cli, elm: str, items: dict[str, str], argv: list[str], code: int, says: str
) -> None:
    before = _items(cli, elm, "--all")
    ran = cli(*argv)
    assert (ran.code, ran.out) == (code, "")
    assert says in ran.err
    assert _items(cli, elm, "--all") == before


def test_what_is_not_said_is_read_from_the_words(cli: Cli, elm: str) -> None:
    assert "Added to rough plumbing" in cli("add", elm, "move the vanity drain").out
    assert _items(cli, elm)[0]["area"] == "vanity"
    cli("add", elm, "anything", "--phase", "rough", "--area", "")
    assert [item["area"] for item in _items(cli, elm)] == ["", "vanity"]


def test_undo_takes_back_one_step_at_a_time(cli: Cli, elm: str, items: dict[str, str]) -> None:
    cli("done", elm, "grout")
    assert cli("undo", elm).out == "Undone: finish a punch item.\n"
    assert len(_items(cli, elm)) == 4
    for _ in range(4):
        assert cli("undo", elm).out == "Undone: add a punch item.\n"
    assert cli("punch", elm).code == 1
    history = cli("history", elm)
    assert history.code == 0
    lines = [line[18:] for line in history.out.splitlines()]
    assert lines[0] == "undo: add a punch item"
    assert lines[5] == "finish a punch item (undone)"
    assert len(cli("history", elm, "--limit", "3").out.splitlines()) == 3


def test_private_items_are_marked_in_print(cli: Cli, elm: str) -> None:
    assert cli("add", elm, "spare", "key", "is", "in", "the", "shed").code == 0
    assert cli("add", elm, "haul", "the", "debris").code == 0
    for form in ("text", "md"):
        lines = cli("punch", elm, "--format", form).out.splitlines()
        key = next(n for n, line in enumerate(lines) if "spare key" in line)
        debris = next(n for n, line in enumerate(lines) if "debris" in line)
        assert "private" in lines[key + 1]
        assert "private" not in lines[debris] + lines[min(debris + 1, len(lines) - 1)]
