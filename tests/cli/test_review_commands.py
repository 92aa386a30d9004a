"""Review without the screen: by number, all understood before anything is done."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.conftest import Cli
from tests.journal.talk import TALK


def _entries(cli: Cli, job: str) -> list[dict[str, Any]]:
    entries: list[dict[str, Any]] = cli("timeline", job, "--json").data[0]["entries"]
    return entries


def _texts(cli: Cli) -> list[str]:
    """What the walk-through is drafted to, in the order said."""
    return [draft["text"] for draft in cli("draft", "-", "--json", stdin=TALK).data]


def test_the_list_is_numbered_and_says_how_many_wait(cli: Cli, logged: str) -> None:
    texts = _texts(cli)
    ran = cli("review", logged)
    assert ran.code == 0
    assert f"{len(texts)} of {len(texts)} drafts wait for review." in ran.out
    flowing = " ".join(ran.out.split())
    for number, text in enumerate(texts, 1):
        assert f" {number} 0:" in flowing
        assert text.split()[0] in flowing


def test_drafts_are_kept_dropped_and_the_rest_kept(cli: Cli, logged: str) -> None:
    texts = _texts(cli)
    ran = cli("review", logged, "--drop", "1", "--keep", "2")
    assert "1 dropped, 1 kept." in ran.out
    assert f"{len(texts) - 2} of {len(texts)} drafts wait" in ran.out
    assert [entry["text"] for entry in _entries(cli, logged)] == texts[1:2]
    listed = cli("review", logged).out
    assert "dropped" in listed and "kept" in listed
    assert "0 of" in cli("review", logged, "--keep-rest").out
    assert [entry["text"] for entry in _entries(cli, logged)] == texts[1:]
    cli("review", logged, "--keep", f"1-{len(texts)}")
    assert [entry["text"] for entry in _entries(cli, logged)] == texts
    assert "Nothing was left to do." in cli("review", logged, "--keep-rest").out


def test_every_field_can_be_set(cli: Cli, logged: str) -> None:
    sets = {
        "kind": "chose",
        "phase": "sub",
        "area": "window side",
        "text": "said = otherwise, [/] literally",
        "who": "inspector",
        "audience": "crew",
    }
    argv = [word for field, value in sets.items() for word in ("--set", "1", f"{field}={value}")]
    assert "6 changed, 1 kept." in cli("review", logged, *argv, "--keep", "1").out
    entry = _entries(cli, logged)[0]
    assert entry["kind"] == "decision"
    assert entry["phase"] == "subfloor"
    assert (entry["area"], entry["text"]) == (sets["area"], sets["text"])
    assert (entry["who"], entry["audience"], entry["open"]) == ("inspector", "crew", False)
    cli("review", logged, "--set", "1", "who=nobody", "--set", "1", "kind=saw", "--set", "1", "open=yes")
    entry = _entries(cli, logged)[0]
    assert (entry["kind"], entry["who"], entry["open"]) == ("observation", None, True)


def test_a_draft_is_joined_to_the_one_before_it(cli: Cli, logged: str) -> None:
    texts = _texts(cli)
    cli("review", logged, "--join", "2", "--join", "3", "--keep-rest")
    entries = _entries(cli, logged)
    assert len(entries) == len(texts) - 2
    assert entries[0]["text"] == ". ".join(text.rstrip(".") for text in texts[:3])
    first = cli("review", logged, "--join", "1")
    assert first.code == 2 and "no draft before the first" in first.err


def test_what_was_said_stands_beside_why(cli: Cli, logged: str) -> None:
    ran = cli("review", logged, "--said", "1")
    assert ran.code == 0
    assert any(line.startswith(">") and "flange is cracked" in line for line in ran.out.splitlines())
    assert any(line.startswith(" ") and "powder room" in line for line in ran.out.splitlines())
    assert "Why: " in ran.out


@pytest.mark.parametrize(
    ("argv", "says"),
    [
        (["--keep", "99"], 'there is no draft "99": They are numbered 1 to'),
        (["--keep", "0"], 'there is no draft "0"'),
        (["--keep", "x"], 'there is no draft "x"'),
        (["--keep", "1,,2"], 'there is no draft ""'),
        (["--keep", "-1"], 'there is no draft ""'),
        (["--keep", "3-2"], '"3-2" runs backwards'),
        (["--keep", "1", "--drop", "1"], "draft 1 is named twice"),
        (["--keep", "2", "--join", "2"], "draft 2 is named twice"),
        (["--set", "1", "color=red"], "the fields are kind, phase"),
        (["--set", "1", "kind"], '"kind" changes nothing'),
        (["--set", "1", "kind=guess"], 'kind cannot be "guess": It is one of saw'),
        (["--set", "1", "who=neighbor"], 'who cannot be "neighbor"'),
        (["--set", "1", "open=maybe"], "It is one of yes, no."),
        (["--set", "1", "phase=roof"], '"roof" is no phase of this job: It has: demo'),
        (["--set", "1", "phase=t"], '"t" is no phase of this job'),
        (["--set", "1", "text= "], "an empty text"),
        (["--said", "42"], 'there is no draft "42"'),
        (["--day", "2026-02-02"], "no visit of 2026-02-02 has drafts"),
    ],
)
def test_what_cannot_be_done_changes_nothing(cli: Cli, logged: str, argv: list[str], says: str) -> None:
    before = cli("review", logged).out
    ran = cli("review", logged, "--drop", "2", *argv) if "--day" not in argv else cli("review", logged, *argv)
    assert ran.code in (1, 2) and ran.out == ""
    assert says in ran.err
    assert cli("review", logged).out == before


def test_the_newest_visit_with_waiting_drafts_comes_first(cli: Cli, logged: str) -> None:
    cli("log", logged, "-", "--day", "3/2", stdin="[0:01] we need to order the tub\n[0:05] the drain leaks\n")
    assert "Wed 11 Mar 2026" in cli("review", logged).out
    assert "Mon 2 Mar 2026" in cli("review", logged, "--day", "3/2").out
    cli("review", logged, "--keep-rest")
    assert "Mon 2 Mar 2026" in cli("review", logged).out


def test_without_drafts_there_is_nothing_to_review(cli: Cli, elm: str) -> None:
    ran = cli("review", elm)
    assert ran.code == 1 and "no visit has drafts" in ran.err


def test_corrections_are_learned_listed_and_forgotten(cli: Cli, logged: str) -> None:
    assert cli("words", logged).code == 1
    cli("review", logged, "--set", "1", "area=north corner")
    learned = cli("words", logged)
    assert learned.code == 0 and "north corner" in learned.out
    phrase = learned.out.split(":")[0]
    assert cli("words", logged, "--forget", "no such words").code == 2
    assert cli("words", logged, "--forget", phrase).out == f"Forgotten: {phrase}.\n"
    assert cli("words", logged).code == 1


def test_hazards_are_named_and_taken_away(cli: Cli, logged: str) -> None:
    ran = cli("review", logged, "--set", "1", "hazard=asbestos, Lead,asbestos", "--keep", "1")
    assert "1 changed, 1 kept." in ran.out
    assert _entries(cli, logged)[0]["hazards"] == ["asbestos", "lead"]
    assert cli("review", logged, "--set", "1", "hazard=none").code == 0
    assert _entries(cli, logged)[0]["hazards"] == []
    refused = cli("review", logged, "--set", "1", "hazard=yes")
    assert refused.code == 2 and 'hazard cannot be "yes"' in refused.err and "asbestos" in refused.err


def test_a_hired_trade_is_the_crews_move_and_is_said_to_be(cli: Cli, logged: str) -> None:
    ran = cli("review", logged, "--set", "1", "who=Plumber", "--keep-rest")
    assert ran.code == 0
    assert "Plumber: hired trades count as the crew, so it is the crew's move" in ran.err
    assert _entries(cli, logged)[0]["who"] == "crew"
    handed = cli("hand", logged, "repair", "ring", "tomorrow", "--to", "tile guy")
    assert (handed.code, "tile guy: hired trades" in handed.err) == (0, True)
    for word in ("we", "banana", "plumber banana"):
        assert cli("review", logged, "--set", "1", f"who={word}").code == 2


def test_what_a_field_can_be_is_listed_once(cli: Cli, logged: str) -> None:
    kind = cli("review", logged, "--set", "1", "kind=banana").err
    assert kind.endswith("It is one of saw, chose, owed.\n")
    who = cli("review", logged, "--set", "1", "who=banana").err
    assert who.endswith("It is one of crew, client, inspector, supplier, nobody.\n")
    assert "nobody" not in cli("hand", logged, "ring", "--to", "banana").err
