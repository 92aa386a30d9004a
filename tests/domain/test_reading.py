"""Who may read what: what is private never becomes client or crew text."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import journal_tui
from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import (
    crew_heading,
    first_audience,
    for_client,
    for_crew,
    has_code,
    name_parts,
)


@given(st.text())
def test_private_text_becomes_nothing(text: str) -> None:
    assert for_client(text, Audience.PRIVATE, {}) is None
    assert for_client(text, Audience.CREW, {}) is None
    assert for_crew(text, Audience.PRIVATE, {}) is None


@pytest.mark.parametrize(
    "text",
    [
        "lockbox is 4471 on the hose bib",
        "the key pad by the garage, 8 8 2 1",
        "1234# opens the keypad",
        "gate code 12-34#",
        "alarm code is forty-four seventy-one",
        "lock box on the rail, four four seven one",
        "door code: 90210",
        "passcode 0000",
        "combination's 12 31 7",
    ],
)
def test_a_code_never_shows_even_when_marked_for_the_client(text: str) -> None:
    for shown in (for_client(text, Audience.CLIENT, {}), for_crew(text, Audience.CLIENT, {})):
        assert shown is not None
        assert "[withheld]" in shown
        assert not any(c.isdigit() for c in shown)
        assert "four" not in shown
    assert first_audience(text).audience is Audience.PRIVATE


@pytest.mark.parametrize(
    "text",
    [
        "per code 1500 square feet needs nothing more",
        "code wants twenty-one inches in front of the toilet",
        "move the vanity drain 3 in left",
        "pin the stool with 16 gauge nails",
        "combination waste and vent at 42 inches",
        "drywall 1/2 by 54 by 96 for the alarm closet",
    ],
)
def test_sizes_and_the_building_code_are_no_secret(text: str) -> None:
    assert not has_code(text)
    assert for_client(text, Audience.CLIENT, {}) == text


@pytest.mark.parametrize(
    ("text", "audience"),
    [
        ("valve body is 85 dollars at my cost", Audience.PRIVATE),
        ("that adds $1,200", Audience.PRIVATE),
        ("between you and me the last guy was a hack", Audience.PRIVATE),
        ("don't tell her about the tile yet", Audience.PRIVATE),
        ("I've got nine thousand four hundred of labor in this", Audience.PRIVATE),
        ("only six hundred and fifty in for electric", Audience.PRIVATE),
        ("bid it at 650", Audience.PRIVATE),
        ("three grand over", Audience.PRIVATE),
        ("flange is cracked", Audience.CLIENT),
        ("the tub weighs three hundred fifty pounds", Audience.CLIENT),
        ("three hundred feet of pipe in the walls", Audience.CLIENT),
        ("it cost us two days", Audience.CLIENT),
        ("charge it to 40 psi", Audience.CLIENT),
    ],
)
def test_money_and_confidences_start_private(text: str, audience: Audience) -> None:
    assert first_audience(text).audience is audience


def test_names_become_what_they_are_to_the_reader() -> None:
    roles = {"Rui Okafor": "the crew", "Rui": "the crew", "Will": "the crew", "Ada": "you"}
    assert for_client("Mrs. Ada wants it", Audience.CLIENT, {"Ada": "you"}) == "you wants it"
    shown = for_client("rui okafor and Will told Ada it will leak; rui's saw", Audience.CLIENT, roles)
    assert shown == "the crew and the crew told you it will leak; the crew's saw"


def test_the_parts_of_names() -> None:
    assert name_parts(["Ada  Lindqvist", "von der Au", ""]) == [
        "Ada Lindqvist",
        "Ada",
        "Lindqvist",
        "von der Au",
    ]


def test_client_and_crew_text_are_made_in_one_place() -> None:
    made_in = set()
    for path in Path(journal_tui.__file__).parent.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            called = node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""
            if called in ("ClientText", "CrewText"):
                made_in.add(path.name)
    assert made_in == {"reading.py"}


@pytest.mark.parametrize(
    ("name", "client", "title"),
    [
        ("Ferris kitchen", "Ann Ferris", "Kitchen"),
        ("Ferris's kitchen", "Ann Ferris", "Kitchen"),
        ("kitchen for Mrs. Ferris", "Ann Ferris", "Kitchen"),
        ("Ferris & Lund, hall bath", "Ann Ferris and Bo Lund", "Hall bath"),
        ("Old Ferris house (back)", "Ann Ferris", "Old house (back)"),
        ("Ferris", "Ann Ferris", "The job"),
        ("Elm hall bath", "", "Elm hall bath"),
        ("Ferris kitchen, lockbox 4471", "Ann Ferris", "Kitchen, lockbox [withheld]"),
    ],
)
def test_a_crew_sheet_is_headed_without_the_client_s_name(name: str, client: str, title: str) -> None:
    assert crew_heading(name, client) == title


def test_a_sentence_for_the_crew_begins_with_a_capital() -> None:
    roles = {"Ada": "the client"}
    assert for_crew("Ada wants the hooks lower", Audience.CREW, roles) == "The client wants the hooks lower"
    assert for_crew("ask Ada", Audience.CREW, roles) == "ask the client"


#: "Dan" and "Ruth" are names of a list; the journal knows Ada Lindqvist, the client, and Rui of the crew.
KNOWN = {
    "Dan": "someone",
    "Ruth": "someone",
    "Rui": "the crew",
    "Ada Lindqvist": "you",
    "Ada": "you",
    "Lindqvist": "you",
}


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("Dan Hruska's plumber capped it", "someone's plumber capped it"),
        ("ask Dan P. Hruska-Veld about it", "ask someone about it"),
        ("Mrs. Hruska saw it", "someone saw it"),
        ("Hruska next door says it floods", "The neighbor next door says it floods"),
        ("Ask Hruska next door", "Ask the neighbor next door"),
        ("talk to Dan Hruska across the street", "talk to the neighbor across the street"),
        ("the neighbor Hruska has a ladder", "the neighbor has a ladder"),
        ("we heard Hruska says no", "we heard someone says no"),
        ("I called Hruska about the pipe", "I called someone about the pipe"),
        # What stays: days, trades, places, marks of the trade, and the journal's own people.
        ("ask Dan Tuesday", "ask someone Tuesday"),
        ("told Dan GFCI in the bath", "told someone GFCI in the bath"),
        ("told Dan. Tile comes Friday", "told someone. Tile comes Friday"),
        ("Bath next door leaks", "Bath next door leaks"),
        ("I called Monday", "I called Monday"),
        ("the Inspector says no", "the Inspector says no"),
        ("and Lindqvist says no", "and you says no"),
        ("ask Rui next door", "ask the crew next door"),
        ("the vanity called Oslo", "the vanity called Oslo"),
        ("a guy called Hruska has it", "a guy called someone has it"),
    ],
)
def test_names_nobody_told_the_journal_of_stay_out_of_client_text(text: str, shown: str) -> None:
    assert for_client(text, Audience.CLIENT, KNOWN) == shown
