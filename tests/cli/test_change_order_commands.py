"""Change orders on the command line, from a draft to a changed contract."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from tests.cli.conftest import Cli


@pytest.fixture
def elm(cli: Cli) -> str:
    """A job with a contract, called by the word returned."""
    cli("job", "add", "Powder room, 9 Elm Court", "--client", "Ada Lindqvist")
    ran = cli(*"contract elm --sum 20,000 --finish 2026-04-03 --markup 15 --tax 8 --tax-on materials".split())
    assert ran.code == 0 and "contract $20,000.00, changes $0.00: $20,000.00" in ran.out
    return "elm"


def test_from_a_draft_to_a_changed_contract(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli("note", elm, "the floor is soft by the toilet")
    cli("add", elm, "screw down the new plywood")
    born = ("--entry", "floor is soft", "--offer", "New boards.", "--days", "2", "--by", "2026-03-18")
    made = cli("change-order", "add", elm, "New", "subfloor", *born)
    assert made.code == 0 and "price unchanged, +2 working days, drafted" in made.out
    cli("change-order", "line", elm, "subfloor", "labor", "carpentry", "--each", "65", "--quantity", "12",
        "--unit", "hour")  # fmt: skip
    ran = cli(
        "change-order", "line", elm, "subfloor", "material", "plywood", "--each", "54", "--quantity", "3"
    )
    assert "$942.00 at cost + $141.30 markup (15%) + $14.90 tax (8% on materials) = $1,098.20" in " ".join(
        ran.out.split()
    )
    assert "waits: screw down" in cli("change-order", "hold", elm, "subfloor", "plywood").out
    sent = cli("change-order", "send", elm, "subfloor", "--out", str(tmp_path / "out"))
    assert sent.code == 0 and "1 New subfloor: adds $1,098.20" in sent.out
    assert sorted(p.suffix for p in (tmp_path / "out").iterdir()) == [".eml", ".html", ".md", ".pdf", ".txt"]
    page = cli("change-order", "show", elm, "1", "--format", "text").out
    assert "In all it adds $1,098.20 to the price." in page and "Lindqvist" not in page
    done = cli("change-order", "answer", elm, "1", "yes", "--by", "Ada Lindqvist", "--how", "signed")
    assert "contract $20,000.00, changes $1,098.20: $21,098.20" in done.out
    assert "last day Fri 3 Apr 2026, +2 working days: Tue 7 Apr 2026" in " ".join(done.out.split())
    (order,) = json.loads(cli("change-orders", elm, "--json").out)
    assert (order["state"], order["total"], order["answered_by"]) == ("accepted", 109_820, "Ada Lindqvist")


def test_what_cannot_be_done_is_said_in_a_line(cli: Cli, elm: str) -> None:
    cli("change-order", "add", elm, "New subfloor", "--offer", "New boards.")
    answer = ("--by", "Ada", "--how", "phone")
    for argv, words in (
        (("answer", elm, "subfloor", "yes", *answer), "was not sent yet"),
        (("send", elm, "subfloor"), "changes neither the price nor the days"),
        (("line", elm, "subfloor", "labor", "x", "--each", "ten"), "is no sum of money"),
        (
            ("line", elm, "subfloor", "labor", "x", "--each", "5", "--quantity", "-1"),
            "the quantity of a line",
        ),
        (("line", elm, "subfloor"), "a line needs a kind"),
        (("line", elm, "subfloor", "--drop", "3"), "there is no line 3"),
        (("set", elm, "subfloor", "--days", "soon"), "is no number of working days"),
        (("set", elm, "subfloor", "--days", "plan"), "holds no work"),
        (("show", elm, "roof"), "no change order fits"),
        (("show", elm, "subfloor", "--format", "pdf"), "not for a terminal"),
    ):
        ran = cli("change-order", *argv)
        assert ran.code in (1, 2) and words in ran.err, argv
        assert ran.out == ""
    cli("change-order", "set", elm, "subfloor", "--days", "1")
    cli("change-order", "send", elm, "subfloor")
    assert cli("change-order", "answer", elm, "1", "no", *answer).code == 0
    twice = cli("change-order", "answer", elm, "1", "yes", *answer)
    assert twice.code == 2 and "was declined already" in twice.err
    assert cli("change-order", "withdraw", elm, "1").code == 2


def test_a_draft_withdrawn_takes_no_number(cli: Cli, elm: str) -> None:
    for title in ("First", "Second"):
        cli("change-order", "add", elm, title, "--offer", "x", "--days", "1")
    assert "withdrawn" in cli("change-order", "withdraw", elm, "First").out
    assert cli("change-order", "send", elm, "Second").out.startswith("1 Second")


def test_a_page_on_a_terminal_is_plain_text_unless_a_form_is_named(
    cli: Cli, elm: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    cli("change-order", "add", elm, "New", "subfloor", "--offer", "The lockbox code is 4471.")
    piped = cli("change-order", "show", elm, "subfloor").out
    assert "# " in piped and "\\[" in piped
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    shown = cli("change-order", "show", elm, "subfloor").out
    assert "[withheld]" in shown and "\\" not in shown and "# " not in shown
    assert cli("change-order", "show", elm, "subfloor", "--format", "md").out == piped


def test_materials_come_out_of_the_measures_at_a_price_of_his(cli: Cli, elm: str) -> None:
    cli("change-order", "add", elm, "New subfloor", "--offer", "New boards.", "--days", "1")
    empty = cli("change-order", "materials", elm, "subfloor")
    assert (empty.code, "no materials yet" in empty.err) == (1, True)
    cli("measure", "set", elm, "take-off", "size=8-0x5-0", "subfloor=plywood 3/4", "--name", "bath floor")
    listed = " ".join(cli("change-order", "materials", elm, "subfloor").out.split())
    assert "plywood 3/4: 2 sheets, no price yet 2 sheets, from the take-off “bath floor”" in listed
    assert "has no price in this job yet" in cli(
        "change-order", "materials", elm, "subfloor", "--take", "plywood 3/4"
    ).err  # fmt: skip
    taken = cli("change-order", "materials", elm, "subfloor", "--take", "plywood 3/4", "--each", "54.35")
    told = " ".join(taken.out.split())
    assert "1. material: plywood 3/4, 2 sheets at $54.35: $108.70 at cost, $125.01" in told
    assert "made from: 2 sheets, from the take-off “bath floor”" in told and "= $135.01" in told
    cli("measure", "set", elm, "take-off", "size=12-0x8-0", "subfloor=plywood 3/4", "--name", "bath floor")
    changed = cli("change-order", "line", elm, "subfloor", "--change", "1", "--quantity", "3")
    assert "the list has changed since Thu 12 Mar: it says 3 sheets now" in " ".join(changed.out.split())
    data = json.loads(cli("change-orders", elm, "--json").out)
    assert [(line["quantity"], line["made_from"]["packages"]) for line in data[0]["lines"]] == [(3.0, 2)]
    again = cli("change-order", "materials", elm, "subfloor", "--take", "plywood 3/4")
    assert "3 sheets at $54.35" in again.out and "!" not in again.out


def test_a_line_is_set_right_and_what_is_not_said_stays(cli: Cli, elm: str) -> None:
    cli("change-order", "add", elm, "New subfloor", "--offer", "New boards.")
    cli("change-order", "line", elm, "subfloor", "labor", "carpentry", "--each", "65", "--quantity", "12",
        "--unit", "hour")  # fmt: skip
    ran = cli("change-order", "line", elm, "subfloor", "--change", "1", "--each", "70")
    assert "1. labor: carpentry, 12 hours at $70.00: $840.00 at cost" in " ".join(ran.out.split())
    for argv, words in (
        (("--change", "2", "--each", "1"), "there is no line 2"),
        (("--change", "1", "--quantity", "0"), "the quantity of a line"),
    ):
        bad = cli("change-order", "line", elm, "subfloor", *argv)
        assert (bad.code, bad.out) == (2, "") and words in bad.err
    bad = cli("change-order", "materials", elm, "subfloor", "--each", "5")
    assert "a price of what?" in bad.err
