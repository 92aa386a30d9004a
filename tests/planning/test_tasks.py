"""The data file of common tasks, and how an item's words find theirs."""

from __future__ import annotations

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES, Party
from journal_tui.planning.items import HoldKind, Stated
from journal_tui.planning.network import topological_order
from journal_tui.planning.precedence import order_items
from journal_tui.planning.tasks import built_in, built_in_text, read_tasks
from tests.planning.making import item


def test_the_data_file_is_whole() -> None:
    tasks = built_in().tasks
    assert len(tasks) >= 30
    for task in tasks.values():
        assert task.phase in (*STANDARD_PHASES, "")
        assert 0 < task.hours <= 40
        assert task.wait_source in ("label", "standard", "practice")
        assert task.wait_note or not task.wait_hours
        assert task.hold is None or HoldKind(task.hold)
        assert all(before in tasks for before in task.after)
        assert all(task.words)
        said = " ".join((*task.cautions, task.wait_note, *task.photos)).lower()
        assert "safe" not in said


def test_every_task_of_the_trade_list_is_there() -> None:
    """The order of a gut bathroom as a carpenter tells it: common practice, no source."""
    order = built_in().before
    for before, after in (
        ("protect and shut off", "demo surfaces"),
        ("demo surfaces", "carry debris"),
        ("repair framing", "rough drain and vent"),
        ("rough supply", "rough inspection"),
        ("drain water test", "rough inspection"),
        ("subfloor repair", "set tub or pan"),
        ("insulate", "hang board"),
        ("hang board", "waterproof"),
        ("waterproof", "flood test"),
        ("tile walls", "grout"),
        ("grout", "caulk soft joints"),
        ("measure glass", "fit glass"),
        ("set toilet", "final inspection"),
    ):
        assert before in order[after], (before, after)


def test_all_tasks_in_one_phase_and_area_never_contradict_each_other() -> None:
    """Whatever phase the drafter gives them: the default order alone has no loop."""
    for phase in STANDARD_PHASES:
        items = [
            item(name, phase, who=who, id=f"{name} {who}", stated=Stated(task=name))
            for name in built_in().tasks
            for who in (Party.CREW, Party.INSPECTOR)
        ]
        order = order_items(items, (), STANDARD_PHASES)
        nodes = [i.id for i in items] + list(order.gates)
        assert len(topological_order(nodes, order.precedences())) == len(nodes)


@pytest.mark.parametrize(
    ("text", "phase", "task"),
    [
        ("Grout the shower walls", "tile", "grout"),
        ("grouting the niche", "tile", "grout"),
        ("which grout colour", "tile", None),
        ("set the tub on mortar", "subfloor", "set tub or pan"),
        ("order the tub", "subfloor", "order material"),
        ("Pull the vanity", "demo", "demo fixtures"),
        ("call the inspector for the rough inspection", "rough plumbing", "book somebody"),
        ("hang backer around the tub", "backer", "hang board"),
        ("two soft planks out, block between joists", "subfloor", "subfloor repair"),
        ("1/2 plywood down, across the planks", "subfloor", "plywood down"),
        ("need to move the vanity drain 3 in left", "rough plumbing", "rough drain and vent"),
        ("water test before any board goes up", "rough plumbing", "drain water test"),
        ("flood test the pan", "backer", "flood test"),
        ("insulate the outside wall", "backer", "insulate"),
        ("get a key cut", "other", None),
        ("nobody sands anything until the lab calls", "demo", None),
        ("we decided to replace the galvanized", "rough plumbing", "rough supply"),
        ("still need to order the floor tile", "tile", "order material"),
        ("she has to tell me which grout", "tile", "ask and settle"),
        ("", "tile", None),
    ],
)
def test_words_find_their_task(text: str, phase: str, task: str | None) -> None:
    found = built_in().match(text, phase)
    assert (found.name if found else None) == task


def test_every_default_is_shown_as_such_and_what_is_stated_wins() -> None:
    plain = item("grout everything", "tile")
    assert plain.stated == frozenset()
    assert "common practice" in plain.taken_as
    assert plain.wait.source == "label"
    told = item(
        "grout everything", "tile", stated=Stated(crew_hours=3, people=1, wait_hours=72, wait_note="the bag")
    )
    assert (told.crew_hours, told.people, told.wait.hours) == (3, 1, 72)
    assert told.stated == {"crew_hours", "people", "wait"}
    assert (told.wait.source, told.wait.note) == ("stated", "the bag")
    assert told.materials == plain.materials
    assert "guess" in item("get a key cut", "other").taken_as


def test_answers_are_holds_and_not_work() -> None:
    kinds = {
        Party.CLIENT: HoldKind.DECISION,
        Party.SUPPLIER: HoldKind.DELIVERY,
        Party.INSPECTOR: HoldKind.INSPECTION,
    }
    for who, kind in kinds.items():
        asked = item("tile floor", "tile", who=who)
        assert asked.hold is not None
        assert asked.hold.kind is kind
        assert not asked.closes


@pytest.mark.parametrize(
    "stated",
    [
        Stated(crew_hours=0),
        Stated(crew_hours=-1),
        Stated(crew_hours=1e9),
        Stated(crew_hours=float("nan")),
        Stated(crew_hours=float("inf")),
        Stated(people=0),
        Stated(people=100),
        Stated(wait_hours=-1),
        Stated(wait_hours=1e9),
        Stated(wait_hours=float("nan")),
    ],
)
def test_absurd_numbers_are_refused(stated: Stated) -> None:
    with pytest.raises(BadInput):
        item("grout everything", "tile", stated=stated)


# The user's own file -----------------------------------------------------------------------------


def test_own_tasks_replace_and_add() -> None:
    own = """
[[task]]
name = "grout"
phase = "tile"
words = ["grout"]
hours = 9

[[task]]
name = "hang wallpaper"
phase = "trim"
words = ["wallpaper"]
after = ["prime and paint"]
hours = 6
"""
    book = read_tasks(own, "tasks.toml", built_in())
    assert book.tasks["grout"].hours == 9
    assert built_in().tasks["grout"].hours == 5
    found = book.match("wallpaper the vanity wall", "trim")
    assert found is not None and found.name == "hang wallpaper"
    assert "prime and paint" in book.before["hang wallpaper"]
    assert len(book.tasks) == len(built_in().tasks) + 1


def test_the_file_handed_out_to_be_edited_is_the_one_in_use() -> None:
    assert read_tasks(built_in_text(), "copy").tasks == built_in().tasks


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[[task]\nname=", "line 1"),
        ("task = 3", "[[task]]"),
        ('[[task]]\nname = "x"\nwords = ["x"]', "no hours"),
        ('[[task]]\nname = "x"\nwords = "x"\nhours = 1', "list of texts"),
        ('[[task]]\nname = "x"\nwords = [""]\nhours = 1', "a word each"),
        ('[[task]]\nname = "x"\nwords = ["x"]\nhours = 0', "hours above 0"),
        ('[[task]]\nname = "x"\nwords = ["x"]\nhours = 1\nhold = "maybe"', "inspection"),
        ('[[task]]\nname = "x"\nwords = ["x"]\nhours = 1\nafter = ["boat"]', "boat"),
        ('[[task]]\nname = "x"\nwords = ["x"]\nhours = 1\nafter = ["x"]', "circle"),
        ('[[task]]\nname = "insulate"\nwords = ["x"]\nhours = 1\nafter = ["hang board"]', "circle"),
    ],
)
def test_a_fault_in_it_is_named(text: str, words: str) -> None:
    with pytest.raises(BadInput) as caught:
        read_tasks(text, "tasks.toml", built_in())
    assert "tasks.toml" in caught.value.title
    assert words in caught.value.body
