"""Measures of a job in the service: kept, found, refused, and what a visit loads."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.journal import punch
from journal_tui.journal.job_measures import (
    drop_measure,
    find_material,
    find_measure,
    get_measure,
    keep_measure,
    load_on,
    materials_of,
    measures_of,
    rooms_of,
    set_material,
    worked,
)
from journal_tui.journal.jobs import add_job
from journal_tui.journal.measure_forms import Form
from journal_tui.journal.measures import FORMS, work_out
from journal_tui.journal.next_visit import next_visit, sheet_markdown
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.measures.materials import Standing

TODAY = dt.date(2026, 3, 12)


@pytest.fixture
def journal(tmp_path: Path) -> Iterator[Journal]:
    opened = open_journal(tmp_path / "j.db", lambda: TODAY)
    yield opened
    opened.close()


def test_measures_are_found_by_words_and_replaced_by_name(journal: Journal) -> None:
    job = add_job(journal, "Elm")
    first = keep_measure(journal, job.id, "floor", "bath floor", {"joist": "2x8", "span": " "}, by="Rui")
    assert (first.values, first.measured_by, first.measured_on) == ({"joist": "2x8"}, "Rui", TODAY)
    again = keep_measure(journal, job.id, "floor", "Bath  floor", {"joist": "2x10"})
    assert again.id == first.id
    keep_measure(journal, job.id, "room", "bath", {"size": "8-0x5-0"})
    assert find_measure(journal, job.id, "bath floor").id == first.id
    assert find_measure(journal, job.id, "room").form == "room"
    with pytest.raises(NothingFound):
        find_measure(journal, job.id, "attic")
    with pytest.raises(BadInput, match="already"):
        keep_measure(journal, job.id, "floor", "bath floor", {}, measure_id="another")
    drop_measure(journal, first.id)
    assert [m.form for m in measures_of(journal, job.id)] == ["room"]
    with pytest.raises(NothingFound):
        get_measure(journal, first.id)


def test_who_measured_and_when_stay_until_a_number_changes(journal: Journal) -> None:
    job = add_job(journal, "Elm")
    day = dt.date(2026, 3, 2)
    first = keep_measure(journal, job.id, "floor", "bath", {"joist": "2x8"}, by="Rui", day=day)
    renamed = keep_measure(journal, job.id, "floor", "hall bath", {"joist": "2x8"}, measure_id=first.id)
    assert (renamed.id, renamed.measured_by, renamed.measured_on) == (first.id, "Rui", day)
    again = keep_measure(journal, job.id, "floor", "hall bath", {"joist": "2x10"}, by="Dana")
    assert (again.measured_by, again.measured_on) == ("Dana", TODAY)


def test_two_that_fit_are_asked_about(journal: Journal) -> None:
    job = add_job(journal, "Elm")
    for name in ("bath floor", "hall floor"):
        keep_measure(journal, job.id, "floor", name, {})
    with pytest.raises(BadInput, match="fits 2 measures"):
        find_measure(journal, job.id, "floor")


def test_what_a_visit_loads_and_what_holds_it(journal: Journal) -> None:
    job = add_job(journal, "Elm")
    values = {"size": "8-0x5-0", "tile": "12x12", "panel": "plywood 3/4"}
    keep_measure(journal, job.id, "take-off", "bath", values)
    keep_measure(journal, job.id, "take-off", "hall", {**values, "tile": "oops"})  # adds nothing yet
    assert worked(find_measure(journal, job.id, "hall")).error is not None
    mortar = find_material(journal, job.id, "thin-set")
    set_material(journal, job.id, mortar, Standing.ORDERED, dt.date(2026, 3, 16))
    set_material(journal, job.id, find_material(journal, job.id, "plywood 3/4"), Standing.ON_SITE)
    load = load_on(journal, job.id, ("subfloor", "tile"), dt.date(2026, 3, 13))
    assert [m.need.name for m in load.held] == ["thin-set mortar"]
    assert "plywood 3/4" in [m.need.name for m in load.there]
    assert "grout" in [m.need.name for m in load.bring]
    assert len(materials_of(journal, job.id)) == len({m.need.name for m in materials_of(journal, job.id)})


def test_the_next_visit_loads_what_its_phases_take(journal: Journal) -> None:
    job = add_job(journal, "Elm", year_built=1990)
    punch.add(journal, job.id, "lay the new plywood", phase="subfloor", area="floor")
    values = {"size": "8-0x5-0", "tile": "12x12", "panel": "plywood 3/4"}
    keep_measure(journal, job.id, "take-off", "bath", values)
    screws = find_material(journal, job.id, "fasteners")
    set_material(journal, job.id, screws, Standing.ORDERED, dt.date(2026, 3, 20))
    visit, inputs = next_visit(journal, job, TODAY)
    assert "2 sheets plywood 3/4 (to buy)" in visit.load
    assert not any("grout" in line for line in visit.load)  # no tile work on this visit
    assert any("fasteners for plywood 3/4 (ordered, due 2026-03-20)" in notice for notice in visit.notices)
    assert "2 sheets plywood 3/4 (to buy)" in sheet_markdown(journal, visit, inputs)
    set_material(journal, job.id, find_material(journal, job.id, "plywood 3/4"), Standing.ON_SITE)
    again, _inputs = next_visit(journal, job, TODAY)
    assert not any("plywood 3/4 (" in line for line in again.load)


def test_a_room_is_measured_once_and_called_by_name(journal: Journal) -> None:
    job = add_job(journal, "Elm")
    keep_measure(
        journal, job.id, "room", "Hall bath", {"size": "8-0x5-0", "opening": "door 30x80 wall 4 at 0"}
    )
    tile = keep_measure(journal, job.id, "tile", "floor", {"room": "hall bath", "tile": "12x12", "gap": "0"})
    strips = keep_measure(journal, job.id, "sheets", "base", {"room": "hall bath", "strip": "12"})
    keep_measure(journal, job.id, "take-off", "bath", {"room": "hall bath", "panel": "plywood 3/4"})
    rooms = rooms_of(journal, job.id)
    answer = worked(tile, rooms).answer
    assert answer is not None
    assert answer.data["laid"] == 40
    base = worked(strips, rooms).answer
    assert base is not None
    assert base.data["strips"] == 3  # the door of the room comes along
    assert materials_of(journal, job.id)[0].need.name == "plywood 3/4"
    keep_measure(journal, job.id, "room", "hall bath", {"size": "9-0x5-0"})
    again = worked(tile, rooms_of(journal, job.id)).answer
    assert again is not None
    assert again.data["laid"] == 45


#: A sound set of fields for every form; each field of it is then spoiled.
SOUND: dict[str, dict[str, str]] = {
    "floor": {"joist": "2x10", "species": "SPF", "grade": "2", "span": "12-3", "panel": "19/32 plywood"},
    "cut": {"size": "2x10", "depth": "3", "at": "20", "span": "12-3", "edge": "2"},
    "build-up": {
        "stays": "19/32 plywood",
        "out": "3/4 board",
        "new": "3/4 plywood",
        "flange": "1",
        "tub": "20",
    },
    "way-in": {"piece": "60x30x20", "step": "door 30x80; corner 36x36; stairs 36 rails 1; room 9-0x9-0"},
    "supply": {
        "pressure": "50",
        "run": "main, 60 ft, rise 2 ft: 2 bath group",
        "leg": "12 ft along ceiling 1 tee",
    },
    "room": {"room": "E 8-0, N 5-0, W 8-0, S 5-0", "opening": "door 30x80 wall 4 at 6"},
    "tile": {"size": "5-0x4-0", "tile": "12x12", "hole": "10x10 at 5, 5"},
    "sheets": {"size": "8-0x5-0", "old-end": "48", "old-row": "20"},
    "take-off": {
        "size": "8-0x5-0",
        "tile": "12x12",
        "panel": "plywood",
        "wallboard": "board",
        "paint": "yes",
    },
    "cautions": {"year": "1962", "task": "demo", "material": "vinyl"},
}
SPOILED = (
    "",
    "x",
    "0",
    "-1",
    "1e999",
    "12-",
    "[/]",
    "\x00\x1b[31m",
    "9" * 400,
    "1/0",
    "½",
    "x x x",
    "٣",
    "nan",
    "5 mm",
)


@pytest.mark.parametrize("form", FORMS, ids=lambda form: form.name)
def test_a_sound_form_answers_and_a_spoiled_field_is_named_or_taken(form: Form) -> None:
    sound = SOUND[form.name]
    answer = work_out(form.name, sound)
    assert answer.text()
    json.dumps(answer.data, allow_nan=False)
    for ask in form.asks:
        for text in SPOILED:
            try:
                work_out(form.name, {**sound, ask.name: text})
            except BadInput as error:
                assert error.title
                assert "\x1b" not in error.title + error.body


def test_a_strange_form_is_refused() -> None:
    with pytest.raises(BadInput, match="There are: floor"):
        work_out("ceiling", {})
