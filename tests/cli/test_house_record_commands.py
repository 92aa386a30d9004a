"""The record of a house and photos, on the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from tests.cli.conftest import Cli


@pytest.fixture
def elm(cli: Cli) -> str:
    """A job, called by the word returned."""
    cli("job", "add", "Powder room, 9 Elm Court", "--client", "Ada Lindqvist")
    return "elm"


def test_the_record_from_the_first_pipe_to_the_acceptance(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli("note", elm, "the blocking is in behind the long wall")
    Image.new("RGB", (40, 30), "red").save(tmp_path / "p.png")
    assert "1 40 by 30 points" in cli("photo", elm, "blocking", str(tmp_path / "p.png")).out
    added = cli("record", "add", elm, "long wall", "blocking", "--size", "2x8", "--entry", "blocking",
                "--from", "the door jamb", "34 1/2 in", "--from", "the floor", "33 in")  # fmt: skip
    assert added.code == 0, added.err
    assert (
        cli("record", "test", elm, "1", "water test", "passed", "no drop in an hour", "--by", "Rui").code == 0
    )
    assert cli("record", "cover", elm, "blocking").code == 0
    cli("record", "finish", elm, "floor", "hex", "tile", "--lot", "C12", "--warranty", "2036-03-12")
    assert cli("record", "sign", elm, "--by", "Ada Lindqvist", "--how", "signed").code == 0
    text = cli("record", elm, "--closing", "--format", "text").out
    for words in (
        "Behind the long wall",
        "Blocking, 2x8.",
        "Water test: passed, no drop in an hour",
        "Lot: C12.",
    ):
        assert words in text
    assert "You find it 2' 10 1/2\" from the door jamb and 2' 9\" from the floor." in text
    assert cli("record", elm, "--out", str(tmp_path / "out"), "--freeze").code == 0
    assert sorted(p.suffix for p in (tmp_path / "out").iterdir()) == [
        "",
        ".eml",
        ".html",
        ".md",
        ".pdf",
        ".txt",
    ]
    assert len(list((tmp_path / "out" / "stills").iterdir())) == 1
    assert cli("record", "drop", elm, "1").code == 0
    assert "Nothing is on record yet." in cli("record", elm).out


def test_what_cannot_be_put_on_record_is_said_in_a_line(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli("note", elm, "the flange is cracked")
    (tmp_path / "p.jpg").write_text("no picture", encoding="utf-8")
    for argv, words in (
        (("record", "add", elm, "wall", "pipe", "--from", "jamb", "soon"), "the distance"),
        (("record", "cover", elm, "pipe"), "nothing on record fits"),
        (("record", elm, "--freeze"), "there is nothing on record yet"),
        (("record", elm, "--format", "pdf"), "not for a terminal"),
        (("record", "finish", elm, "floor", "tile", "--warranty", "soon"), "is no date"),
        (("photo", elm, "flange", str(tmp_path / "p.jpg")), "is no picture that can be kept"),
        (("photo", elm, "flange", str(tmp_path / "none.jpg")), "cannot be read"),
        (("photo", elm, "flange", "--drop", "1"), "there is no photo 1"),
    ):
        ran = cli(*argv)
        assert ran.code in (1, 2) and words in ran.err, argv
        assert ran.out == ""


def test_what_is_on_record_is_set_right_uncovered_and_taken_off(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli(
        "record",
        "add",
        elm,
        "long wall",
        "supply",
        "--from",
        "the jamb",
        "14 in",
        "--from",
        "the floor",
        "2 ft",
    )
    cli("record", "test", elm, "supply", "water test", "failed", "a drip at the elbow", "--by", "Rui")
    cli("record", "test", elm, "supply", "water test", "passed", "no drop in an hour", "--by", "Rui")
    for width, of in ((40, ()), (50, ("--test", "2"))):
        Image.new("RGB", (width, 30), "red").save(tmp_path / "p.png")
        ran = cli("record", "photo", elm, "supply", str(tmp_path / "p.png"), *of)
        assert ran.out.startswith(f"1 {width} by 30 points"), ran.err
    assert cli("record", "change", elm, "supply", "--size", "1/2 in", "--from", "the jamb", "15 in").code == 0
    assert cli("record", "cover", elm, "supply").code == 0
    text = cli("record", elm, "--format", "text").out
    for words in (
        "Supply, 1/2 in. You find it 15 in from the jamb. We saw it and covered it on ",
        "Water test: did not pass, a drip at the elbow",
        "Water test: passed, no drop in an hour",
    ):
        assert words in " ".join(text.split()), text
    assert cli("record", elm).out.count("](stills/") == 2
    assert cli("record", "cover", elm, "supply", "--take-back").out == "Not covered: supply\n"
    assert cli("record", "cover", elm, "supply", "--take-back").code == 2
    assert "covered it" not in cli("record", elm).out
    assert cli("record", "photo", elm, "supply", "--test", "2", "--drop", "1").code == 0
    assert cli("record", "drop", elm, "supply", "--test", "1").out == "Off the record: water test\n"
    assert "drip" not in cli("record", elm).out
    cli("record", "finish", elm, "floor", "hex", "tile")
    assert cli("record", "drop", elm, "hex", "--finish").out == "Off the record: hex tile\n"
    assert "Hex tile" not in cli("record", elm, "--closing").out
    for argv, words in (
        (("record", "drop", elm, "hex", "--finish"), "no finish on record fits"),
        (("record", "drop", elm, "supply", "--test", "2"), "there is no test 2"),
        (("record", "change", elm, "supply"), "nothing to change"),
        (("record", "change", elm, "supply", "--entry", "no such words"), "no entry fits"),
        (("record", "photo", elm, "supply", "--drop", "2"), "there is no photo 2"),
    ):
        ran = cli(*argv)
        assert ran.code in (1, 2) and words in ran.err, (argv, ran.err)
