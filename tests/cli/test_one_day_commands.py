"""Several visits on one day: each can be reached, and the others are named. Untimed talk has no times."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Cli

_TIMED = """WEBVTT

00:00:0{n}.000 --> 00:00:0{m}.000
We need to order the {thing} tomorrow.
"""


@pytest.fixture
def day(cli: Cli, elm: str, tmp_path: Path) -> str:
    """A job with three visits today: two recorded with times, then one without."""
    for n, thing in ((1, "threshold"), (3, "grout")):
        file = tmp_path / f"{thing}.vtt"
        file.write_text(_TIMED.format(n=n, m=n + 1, thing=thing))
        assert cli("log", elm, str(file)).code == 0
    (tmp_path / "plain.txt").write_text("We need to order the mirror tomorrow.\n")
    assert cli("log", elm, str(tmp_path / "plain.txt")).code == 0
    return elm


def test_review_reaches_each_visit_of_a_day_by_number_and_by_name(cli: Cli, day: str) -> None:
    for name, thing in (("1", "mirror"), ("2", "grout"), ("3", "threshold"), ("GROUT.vtt", "grout")):
        ran = cli("review", day, "--day", "today", "--visit", name)
        assert (ran.code, thing in ran.out, ran.err) == (0, True, "")
    ran = cli("review", day)
    assert "mirror" in ran.out
    said = " ".join(ran.err.split())
    assert "3 visits on Thu 12 Mar: 1 plain.txt (this one); 2 grout.vtt; 3 threshold.vtt." in said
    assert "--day 2026-03-12 --visit N" in said
    cli("review", day, "--keep-rest")
    assert "grout" in cli("review", day).out  # the newest with drafts that wait


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        ("4", "there is no visit 4: There are 3 visits; 1 is the newest."),
        ("0", "there is no visit 0"),
        ("porch", 'no visit fits "porch": There are 1 plain.txt of Thu 12 Mar, 2 grout.vtt'),
        (".vtt", 'several visits fit ".vtt"'),
        ("", "no visit fits"),
    ],
)
def test_a_visit_that_is_not_there_is_refused_with_those_there_are(
    cli: Cli, day: str, name: str, fault: str
) -> None:
    for command in (["review"], ["visit", "show"], ["visit", "change", "--people", "Rui"], ["chapters"]):
        ran = cli(*command, day, "--visit", name)
        assert ran.code == 2
        assert fault in ran.err


def test_visit_show_and_change_reach_each(cli: Cli, day: str) -> None:
    assert "threshold" in cli("visit", "show", day, "--visit", "threshold").out
    assert "2 grout.vtt" in cli("visit", "show", day).err
    assert "grout.vtt" in cli("visit", "change", day, "--visit", "2", "--people", "Rui").out
    assert [visit["people"] for visit in cli("timeline", day, "--json").data] == ["", "Rui", ""]


def test_chapters_are_of_the_newest_with_something_to_show(cli: Cli, day: str) -> None:
    for _visit in range(3):
        cli("review", day, "--keep-rest")
    assert "grout" in cli("chapters", day, "--day", "2026-03-12").out
    assert "threshold" in cli("chapters", day, "--visit", "3").out
    assert cli("chapters", day, "--visit", "plain").code == 1


def test_a_visit_without_drafts_is_said_to_have_none(cli: Cli, elm: str) -> None:
    cli("note", elm, "need to caulk the tub")
    ran = cli("review", elm, "--visit", "1")
    assert ran.code == 1
    assert "no visit typed has drafts" in ran.err


def test_untimed_talk_shows_no_times(cli: Cli, elm: str, tmp_path: Path) -> None:
    file = tmp_path / "plain.txt"
    file.write_text("We need to order the mirror tomorrow.\nThe flange is cracked.\n")
    assert cli("draft", str(file), "--json").data[0]["start"] == 0.0
    shown = cli("draft", str(file)).out + cli("log", elm, str(file)).out
    for argv in (
        ["review", elm],
        ["review", elm, "--said", "1"],
        ["review", elm, "--keep-rest"],
        ["timeline", elm],
        ["visit", "show", elm],
        ["search", "mirror"],
        ["punch", elm],
        ["update", elm],
    ):
        ran = cli(*argv)
        assert ran.code == 0 and ran.out
        shown += ran.out
    assert "0:00" not in shown
    assert {hit["start"] for hit in cli("search", "mirror", "--json").data} == {None}


@pytest.mark.parametrize("words", ["", "  "])
def test_searching_for_nothing_is_bad_input(cli: Cli, elm: str, words: str) -> None:
    ran = cli("search", words)
    assert ran.code == 2
    assert "no word to search for" in ran.err
