"""Checks and take-offs as text and as JSON, without a job."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Cli

FLOOR = ("check", "floor", "--joist", "2x8", "--species", "SPF", "--grade", "2", "--spacing", "16")
ROOM = ("--size", "8-0x5-0")


def test_floor_as_json_has_the_promised_keys(cli: Cli, path: Path) -> None:
    data = cli(*FLOOR, "--span", "12-3", "--live", "40", "--dead", "10", "--json").data
    # Worked by hand: 0.405 in, L/363, against 0.408 allowed.
    assert data["deflection_in"] == pytest.approx(0.405, abs=0.0006)
    assert data["ratio"] == pytest.approx(363, abs=0.5)
    assert data["max_span_in"] == pytest.approx(147.38, abs=0.01)
    assert data["governs"] == "stiffness"
    assert data["passes"] is True
    assert data["rule"]["edition"]
    assert not path.exists()


def test_without_a_span_only_the_longest(cli: Cli) -> None:
    data = cli(*FLOOR, "--json").data
    assert (data["deflection_in"], data["ratio"], data["passes"]) == (None, None, None)
    assert data["max_span_in"] == pytest.approx(147.38, abs=0.01)


def test_floor_as_text_says_margin_rule_and_fixes(cli: Cli) -> None:
    ran = cli(*FLOOR, "--span", "12-6", "--panel", "19/32 plywood", "--panel", "5/8 particleboard")
    flowing = " ".join(ran.out.split())
    assert ran.code == 0
    assert flowing.startswith("floor for tile: short It bends 0.439 in under live load, L/341")
    assert "sister each joist full length, same size: L/683" in flowing
    assert "panel between joists: short" in flowing
    assert "take it up" in flowing
    assert max(map(len, ran.out.splitlines())) <= 80


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("check", "floor"), "joist is missing"),
        ((*FLOOR[:4], "--species", "balsa", "--grade", "2"), "species: balsa"),
        ((*FLOOR, "--span", "12"), "span: 12: This could be 12 in or 12 ft"),
        ((*FLOOR, "--span", "40-0"), "No joist table goes past 26 ft"),
        ((*FLOOR, "--span", "-3 in"), "span: -3 in"),
        ((*FLOOR, "--live", "lots"), "live: lots: A number from 1 to 250"),
        ((*FLOOR, "--panel", "plywood"), "panel: plywood: Write a thickness and a material"),
        ((*FLOOR, "--member", "wish"), "invalid choice"),
        (("check", "tile", "--size", "8x5", "--tile", "12x12"), "This could be 8 in or 8 ft"),
        (("check", "tile", "--size", "6 in x 8 in", "--tile", "12x12"), "The tile is bigger than the field"),
        (("check", "tile", *ROOM, "--tile", "12"), "tile: 12: Write sizes parted by x"),
        (("check", "tile", *ROOM, "--tile", "12x12", "--joint", "5 ft 3 mm"), "Feet or inches and metric"),
        (("check", "tile", *ROOM, "--tile", "12x12", "--offset", "1/0"), "offset: 1/0"),
        (("check", "room", "--room", "E 8-0, N 5-0, W 8-0, S 4-0"), "does not close"),
        (("check", "room"), "the room is missing"),
        (("check", "room", *ROOM, "--opening", "hole"), "opening: hole"),
        (("check", "way-in", "--piece", "60x30x20"), "step is missing"),
        (("check", "way-in", "--piece", "60x30", "--step", "door 30"), "piece: 60x30"),
        (("check", "way-in", "--piece", "60x30x0", "--step", "door 30"), "A size is more than zero"),
        (("check", "way-in", "--piece", "6x3x2", "--step", "tunnel 9"), "step 1: tunnel 9"),
        (("check", "way-in", "--piece", "6x3x2", "--step", "stairs 36 rails"), "step 1"),
        (("check", "build-up"), "no layers"),
        (("check", "build-up", "--of", "wall", "--new", "1/2 board"), "valve-range is missing"),
        (("check", "supply", "--pressure", "50"), "run is missing"),
        (("check", "supply", "--pressure", "x", "--run", "main, 9 ft: shower"), "pressure: x"),
        (("check", "supply", "--pressure", "50", "--run", "main"), "run: main"),
        (("check", "supply", "--pressure", "50", "--run", "main, 9 ft: fountain"), "fixture: fountain"),
        (
            ("check", "supply", "--pressure", "50", "--run", "main, 9 ft: shower", "--leg", "far"),
            "leg 1: far",
        ),
        (("check", "take-off", *ROOM), "nothing to count"),
        (("check", "sheets", *ROOM, "--strip", "60"), "strip: 60 in high"),
        (("check", "cautions", "--year", "19"), "year: 19"),
    ],
)
def test_bad_input_is_one_line_naming_the_field(cli: Cli, words: tuple[str, ...], says: str) -> None:
    ran = cli(*words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert ran.err.count("\n") == 1


def test_build_up_brings_the_flange_along(cli: Cli) -> None:
    """5/8 particleboard out; 3/4 plywood, thin-set and tile in: 19/32 up, worked by hand."""
    layers = ("--stays", "19/32 plywood", "--out", "5/8 particleboard")
    new = ("--new", "3/4 plywood", "--new", "3/32 thin-set", "--new", "3/8 tile")
    data = cli("check", "build-up", *layers, *new, "--door-gap", "1/2", "--next-floor", "3/4", "--json").data
    assert data["change_in"] == data["flange_low_in"] == 19 / 32
    assert [also["check"] for also in data["also"]] == ["door undercut", "threshold"]
    assert data["passes"] is False


def test_wall_build_up_and_the_valve(cli: Cli) -> None:
    wall = (
        "check",
        "build-up",
        "--of",
        "wall",
        "--new",
        "1/2 backer",
        "--new",
        "1/8 thin-set",
        "--new",
        "3/8 tile",
    )
    data = cli(*wall, "--valve", "-2", "--valve-range", "2 to 3", "--json").data
    assert (data["valve_depth_in"], data["passes"]) == (3, True)
    # 12 in from the finished wall: 12 + board + thin-set + tile from the studs.
    assert (
        "12 in from the finished wall is 13 in from bare studs"
        in cli(*wall, "--valve", "-2", "--valve-range", "2x3").out
    )


def test_a_tub_that_fails_whole_and_passes_in_halves(cli: Cli) -> None:
    way = ("--step", "door 30x80", "--step", "hall 36", "--step", "corner 36x36")
    stairs = ("--step", "stairs 36 headroom 76 riser 8.25 tread 9")
    words = ("check", "way-in", "--piece", "60x32x22", *way, *stairs, "--halves", "yes")
    data = cli(*words, "--json").data
    assert data["passes"] is False
    assert data["governs"] == "corner 3"
    assert data["also"][0]["passes"] is True
    assert "half of the piece: passes" in cli(*words).out


def test_supply_with_its_route(cli: Cli) -> None:
    # 4 gpm, 40 ft of 1/2 in PEX: 8.26 psi and 4.33 for 10 ft of rise, worked from the formula.
    run = ("--run", "riser, 40 ft, rise 10 ft, size 1/2: bathtub")
    words = ("check", "supply", "--pressure", "50", "--fittings", "0", *run, "--leg", "8-4 up wall 2 holes")
    data = cli(*words, "--json").data
    assert data["pressure_at_last_psi"] == pytest.approx(37.41, abs=0.01)
    assert data["runs"][0]["size"] == "1/2"
    assert data["take_off"]["nail_plates"] == 2
    assert "route take-off" in cli(*words).out


def test_tile_counts_by_the_grid_and_draws(cli: Cli, tmp_path: Path) -> None:
    drawing = tmp_path / "layout.svg"
    words = ("check", "tile", *ROOM, "--gap", "0", "--tile", "12x24", "--joint", "1/8", "--per-box", "8")
    data = cli(*words, "--svg", str(drawing), "--json").data
    assert (data["laid"], data["boxes"]) == (24, 4)  # 26.4 tiles with a tenth over, 8 a box
    assert len(data["usual_starts"]) == 4
    assert drawing.read_text().startswith("<svg ")
    again = cli(*words, "--svg", str(drawing))
    assert (again.code, again.out) == (2, "")
    assert "is there already" in again.err
    text = cli(*words).out
    assert "narrowest piece" in text
    assert "|_" in text


def test_a_wall_to_the_ceiling_takes_the_crown_off(cli: Cli) -> None:
    window = ("--opening", "window 24x30 wall 2 at 12 sill 40")
    words = ("check", "tile", *ROOM, "--wall", "2", "--tile", "12x4", *window)
    assert "the crown comes off first" in " ".join(cli(*words).out.split())
    low = cli(*words, "--up-to", "72")
    assert "crown" not in low.out
    assert cli("check", "tile", *ROOM, "--wall", "9", "--tile", "12x4").code == 2


def test_a_drain_through_a_joist(cli: Cli) -> None:
    # A 3 in drain is 3 1/2 across; a 2x10 takes 3.08 (IRC R502.8.1, from memory).
    assert cli("check", "cut", "--size", "2x10", "--depth", "3 1/2", "--json").data["passes"] is False
    assert cli("check", "cut", "--size", "2x12", "--depth", "3 1/2", "--json").data["passes"] is True
    stud = ("check", "cut", "--of", "stud", "--size", "2x4", "--depth", "2", "--json")
    assert cli(*stud).data["passes"] is False
    assert cli(*stud, "--bearing", "no").data["passes"] is True


def test_take_off_of_tiled_walls(cli: Cli) -> None:
    words = ("check", "take-off", *ROOM, "--wall-tile", "12x4", "--on-walls", "2, 3", "--up-to", "80")
    listed = {m["name"]: m for m in cli(*words, "--coating", "55", "--json").data["materials"]}
    # (60 + 96) x 80 in is 86.7 sq ft: two coats at 55 a gallon, a tenth over, 3.47 gallons.
    assert listed["waterproof coating"]["packages"] == 4
    assert listed["tile 12 in x 4 in, walls"]["amount"] >= 86.7 * 144 / (12.125 * 4.125)
    assert "on-walls is missing" in cli(*words[:-4]).err
    boards = cli(*words, "--wall-backer", "backer 1/2", "--wallboard", "wallboard 1/2", "--json").data[
        "materials"
    ]
    counts = {m["name"]: m["packages"] for m in boards}
    assert counts["wallboard 1/2"] >= 4  # walls 1 and 4 only: 13 ft by 8
    assert counts["backer 1/2"] >= 6  # 86.7 sq ft of 15 a sheet


def test_sheets_and_strips(cli: Cli) -> None:
    data = cli("check", "sheets", *ROOM, "--json").data
    assert (data["sheets"], data["proved"]) == (2, True)
    door = ("--opening", "door 30x80 wall 4 at 0")
    strips = cli("check", "sheets", *ROOM, *door, "--strip", "12", "--json").data
    assert (strips["sheets"], strips["strips"]) == (1, 3)
    walls = cli(
        "check", "sheets", *ROOM, *door, "--where", "walls", "--kerf", "0", "--gap-between", "0", "--json"
    )
    assert walls.data["sheets"] >= walls.data["least_possible"] == 6


def test_sheets_lie_across_the_joists_whichever_way_they_run(cli: Cli) -> None:
    up = cli("check", "sheets", *ROOM, "--json").data["pieces"]
    across = cli("check", "sheets", *ROOM, "--framing", "across", "--json").data["pieces"]
    assert max(p["length_in"] for p in up) == 96
    assert max(p["length_in"] for p in across) == 60  # along the short way, joists run the long way


def test_the_hot_side_has_its_own_units_and_limit(cli: Cli) -> None:
    words = (
        "check",
        "supply",
        "--pressure",
        "60",
        "--run",
        "line, 20 ft: 2 bath group, kitchen sink",
        "--json",
    )
    cold, hot = cli(*words).data["runs"][0], cli(*words, "--side", "hot").data["runs"][0]
    # IPC E103.3: 8.6 units cold and hot together, 4.0 on the hot side.
    assert (cold["gpm"], hot["gpm"]) == (pytest.approx(13.34), 8)


def test_room_is_drawn(cli: Cli) -> None:
    ran = cli("check", "room", "--room", "E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0")
    assert "a  8' 0\"" in ran.out
    assert "floor 37.0 sq ft" in ran.out


def test_take_off_is_a_list_by_phase(cli: Cli) -> None:
    words = ("check", "take-off", *ROOM, "--tile", "12x12", "--panel", "plywood 3/4", "--paint", "yes")
    listed = {m["name"]: m for m in cli(*words, "--json").data["materials"]}
    assert listed["plywood 3/4"]["packages"] == 2
    assert listed["paint"]["phase"] == "trim"
    assert "  2 sheets  plywood 3/4  (to buy)" in cli(*words).out.splitlines()


def test_cautions_name_the_rule_and_defer(cli: Cli) -> None:
    words = ("check", "cautions", "--year", "1962", "--task", "demo", "--material", "moon rock")
    ran = cli(*words)
    flowing = " ".join(ran.out.split())
    assert "40 CFR 745" in flowing
    assert "licensed people decide" in flowing
    assert "not known here: moon rock" in flowing
    assert "safe" not in ran.out.lower()
    assert cli(*words, "--json").data["cautions"][0]["id"] == "lead paint"
    unknown = cli("check", "cautions", "--year", "2020", "--material", "moon rock")
    assert unknown.out.startswith("not known here: moon rock; that is no clearance")
    assert "No caution" not in unknown.out
    assert "40 CFR 745" in cli("check", "cautions", "--year", "1948").out
    assert "no clearance" in cli("check", "cautions", "--year", "2020", "--material", "vinyl").out


def test_amounts_met_are_held_against_their_rules(cli: Cli) -> None:
    words = (
        "check",
        "cautions",
        "--year",
        "1962",
        "--painted",
        "30x80",
        "--mold",
        "6",
        "--tool",
        "handheld grinder",
    )
    more = ("--hours", "6", "--tub-gallons", "60", "--asbestos-sq-ft", "160")
    flowing = " ".join(cli(*words, *more).out.split())
    assert "past EPA's minor repair limit" in flowing  # a 30x80 door is 16.7 sq ft, 6 the limit
    assert "mold: a small area" in flowing
    assert "a respirator of factor 10" in flowing  # indoors, over 4 h
    assert "at or past the NESHAP's 160 sq ft" in flowing
    assert "weighs 800 lb" in flowing  # 300 and 60 gallons of 8.34
    indoors = cli("check", "cautions", "--tool", "fiber-cement saw").out
    assert "not in Table 1" in " ".join(indoors.split())


def test_tile_says_what_its_base_and_joints_need(cli: Cli) -> None:
    words = ("check", "tile", *ROOM, "--tile", "12x24", "--variation", "1/16", "--shower-run", "48")
    flowing = " ".join(cli(*words).out.split())
    assert "base flat to 1/8 in in 10 ft" in flowing  # an edge of 15 in or more, A108.02 4.2.2
    assert "lip between tiles 1/32 in" in flowing
    assert "joint at least 3/16 in for tile that varies so: too narrow" in flowing
    assert "fall to the drain 1 in to 2 in over 4' 0\"" in flowing
    assert "mortar on 80% of the back, 95% where wet" in flowing


def test_pipe_that_replaces_galvanized_has_less_bore(cli: Cli) -> None:
    run = ("--run", "tub, 9 ft, size 1/2: bathtub", "--replaces", "galvanized 1/2")
    assert "0.58 of the clean bore's area" in " ".join(
        cli("check", "supply", "--pressure", "50", *run).out.split()
    )
    assert cli("check", "supply", "--pressure", "50", *run[:-1], "lead 9").code == 2


def test_a_floor_from_the_joists_up(cli: Cli) -> None:
    words = (
        "check",
        "take-off",
        *ROOM,
        "--subfloor",
        "plywood 3/4",
        "--leveler",
        "1/2",
        "--membrane-roll",
        "39 x 98-0",
    )
    lines = [line.strip() for line in cli(*words).out.splitlines()]
    assert "2 sheets  plywood 3/4  (to buy)" in lines
    assert any("6d ring or screw shank nails for plywood 3/4" in line for line in lines)
    # 40 sq ft less the gap at 1/2 in is 1.65 cu ft, a tenth over: 3.6 bags of half a cubic foot.
    assert "4 bags of 50 lb  self-leveling mix  (to buy)" in lines
    assert "1 roll  sheet membrane 39 in wide  (to buy)" in lines


def test_nothing_typed_acts_on_the_terminal(cli: Cli) -> None:
    nasty = "\x1b[31m[/red] tub"
    ran = cli("check", "way-in", "--piece", "60x30x16", "--name", nasty, "--step", "hall 36")
    assert ran.code == 0
    assert "\x1b" not in ran.out
    assert "[/red] tub" in ran.out
