"""Cautions by year, task and material, with the numbers of their rules."""

from __future__ import annotations

from fractions import Fraction as F
from importlib.resources import files
from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.measures.cautions import (
    DEFER,
    cautions_for,
    cautions_of_age,
    dust_control,
    filled_tub_pounds,
    is_minor_repair,
    mold_size,
    neshap_applies,
    not_known,
    words,
)


# 73 FR 21692 (1978); workplace note on 29 CFR 1926.1101 ("no later than 1980"); inspection guides
# (1978 to 1995).
@pytest.mark.parametrize(
    ("year", "tasks", "materials", "ids"),
    [
        (1977, ["scraping"], [], {"lead paint", "asbestos flooring, insulation and texture"}),
        (1978, ["scraping"], [], {"asbestos flooring, insulation and texture"}),
        (1980, [], ["vinyl"], {"asbestos flooring, insulation and texture"}),
        (1981, [], ["vinyl"], set()),
        (1985, [], ["grey pipe"], {"flexible grey supply pipe"}),
        (1977, [], ["grey pipe"], set()),
        (1996, [], ["grey pipe"], set()),
        (2010, ["cutting tile"], [], {"silica dust"}),
        (2010, [], ["cast iron tub"], {"heavy lifts"}),
        (2010, ["removing a wall"], [], {"cut or rotten framing"}),
        (1986, [], ["solder"], {"lead in water pipe"}),
        (2010, ["pressure test"], [], {"air test of plastic pipe"}),
        (2010, ["painting the sky"], ["moon rock"], set()),
    ],
)
def test_when_a_caution_bites(year: int, tasks: list[str], materials: list[str], ids: set[str]) -> None:
    assert {caution.id for caution in cautions_for(year, tasks, materials)} == ids


# 40 CFR 745 (housing before 1978) and 29 CFR 1926.1101 (flooring and mastic to 1980) where a year counts;
# the words themselves are common practice, no source.
@pytest.mark.parametrize(
    ("word", "hazard"),
    [
        ("lead paint", "lead"),
        ("Paint", "lead"),
        ("asbestos", "asbestos"),
        ("black mastic", "asbestos"),
        ("nine-inch tiles", "asbestos"),
        ("pipe wrap", "asbestos"),
        ("live wire", "electrical"),
        ("Live wires", "electrical"),
        ("gas line", "gas"),
        ("black mold", "mold"),
        ("bearing wall", "structure"),
        ("cement board", "silica"),
    ],
)
def test_what_people_call_a_danger_gives_its_caution(word: str, hazard: str) -> None:
    assert hazard in {c.hazard.value for c in cautions_for(1948, [], [word])}
    assert not_known([word]) == ()


def test_a_danger_named_bites_in_any_year() -> None:
    assert {c.hazard.value for c in cautions_for(2015, [], ["asbestos", "lead paint"])} == {
        "asbestos",
        "lead",
    }
    assert cautions_for(2015, [], ["paint", "black mastic"]) == ()


def test_a_year_alone_names_what_it_may_hold() -> None:
    """40 CFR 745 Subpart E: before 1978; 29 CFR 1926.1101: in place by 1980."""
    assert {"lead", "asbestos"} <= {c.hazard.value for c in cautions_of_age(1948)}
    assert {c.hazard.value for c in cautions_of_age(1979)} == {"asbestos", "lead"}  # lead: solder to 1986
    assert "lead paint" not in {c.id for c in cautions_of_age(1978)}
    assert cautions_of_age(2000) == cautions_of_age(None) == ()


def test_words_not_known_are_named_once() -> None:
    assert not_known(["moon rock", "vinyl", "moon rock"]) == ("moon rock",)


def test_a_year_not_known_counts_as_old_and_says_so() -> None:
    (lead,) = (c for c in cautions_for(None, ["demo"]) if c.id == "lead paint")
    assert "not known" in lead.why
    with pytest.raises(BadInput):
        cautions_for(19)


def test_a_bath_gut_of_an_old_house_trips_the_renovation_rule() -> None:
    assert "lead paint" in {c.id for c in cautions_for(1962, ["demo"])}


def test_every_caution_has_rule_edition_and_first_step_and_defers() -> None:
    for caution in cautions_for(None, words()):
        assert caution.rule
        assert caution.edition
        assert caution.first
        assert caution.standing
        assert caution.line().endswith(DEFER)
    assert len(cautions_for(None, words())) >= 15


def test_the_word_is_never_used() -> None:
    for path in Path(str(files("journal_tui.measures"))).rglob("*.*"):
        if path.suffix in (".py", ".toml"):
            assert "safe" not in path.read_text(encoding="utf-8").lower(), path.name


# EPA FAQ on 40 CFR 745.83: 6 sq ft a room inside, 20 outside; FAQ 23002-14294: an inch off a 36 in door.
def test_minor_repair_counts_what_is_disturbed() -> None:
    assert is_minor_repair([(F(1), F(36))])
    assert is_minor_repair([(F(24), F(36))])
    assert not is_minor_repair([(F(30), F(80))])  # the whole door taken as a component
    assert is_minor_repair([(F(30), F(80))], outside=True)
    assert not is_minor_repair([(F(24), F(36)), (F(1), F(36))])


# EPA 402-K-01-001 Table 2, as quoted in print.
@pytest.mark.parametrize(
    ("area", "size"), [(0, "small"), (9.9, "small"), (10, "medium"), (100, "medium"), (101, "large")]
)
def test_mold_sizes(area: float, size: str) -> None:
    assert mold_size(area) == size


def test_asbestos_amounts() -> None:
    # 40 CFR 61.145 and 60 FR 38725: 80 m (260 ft), 15 m2 (160 sq ft), 1 m3 (35 cu ft).
    assert neshap_applies(pipe_ft=260)
    assert neshap_applies(square_ft=160)
    assert neshap_applies(cubic_ft=35)
    assert not neshap_applies(259, 159, 34)


# 29 CFR 1926.1153 Table 1 as copied in Cal. Title 8 1532.3; the last five rows from memory.
@pytest.mark.parametrize(
    ("tool", "place", "hours", "factor"),
    [
        ("wet tile saw", "indoors", 8, 0),
        ("handheld power saw", "outdoors", 3, 0),
        ("handheld power saw", "outdoors", 5, 10),
        ("handheld power saw", "indoors", 1, 10),
        ("fiber-cement saw", "outdoors", 8, 0),
        ("handheld grinder", "indoors", 5, 10),
        ("mortar removal grinder", "indoors", 5, 25),
        ("chipping tool", "outdoors", 3, 0),
        ("chipping tool", "indoors", 3, 10),
        ("drill with shroud", "indoors", 8, 0),
    ],
)
def test_dust_controls(tool: str, place: str, hours: float, factor: int) -> None:
    control = dust_control(tool, place, hours)
    assert control is not None
    assert control.protection == factor


def test_sawing_fiber_cement_indoors_is_outside_the_table() -> None:
    assert dust_control("fiber-cement saw", "indoors", 1) is None
    with pytest.raises(BadInput):
        dust_control("butter knife", "indoors", 1)


@pytest.mark.parametrize(("gallons", "pounds"), [(40, 334), (80, 667)])
def test_water_in_a_tub(gallons: float, pounds: float) -> None:
    assert filled_tub_pounds(0, gallons) == pytest.approx(pounds, abs=0.5)
