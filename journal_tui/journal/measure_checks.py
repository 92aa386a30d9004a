"""Forms that judge: floor, build-up, way in, supply."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.journal.measure_forms import (
    Answer,
    Ask,
    Form,
    Values,
    choice,
    layers,
    length,
    needed,
    number,
    said,
    several,
    share,
    sizes,
)
from journal_tui.measures.buildup import (
    BuildUp,
    check_door,
    check_flange,
    check_threshold,
    check_tub_rim,
    check_valve,
    rough_in,
)
from journal_tui.measures.checks import Check
from journal_tui.measures.cutting_joists import JoistCut, check_joist_cut, check_stud_cut
from journal_tui.measures.floor import Finish, FloorFrame, Member, check_floor
from journal_tui.measures.fractions import inches
from journal_tui.measures.joists import DEFAULT_EDITION
from journal_tui.measures.lengths import parse_length, parse_signed
from journal_tui.measures.panels import check_panel
from journal_tui.measures.pipe_route import Leg, RouteTakeOff, take_off
from journal_tui.measures.supply import Run, Supply, bore_change, check_supply, pipe, size_line
from journal_tui.measures.way_in import (
    Corner,
    Door,
    Hall,
    Piece,
    Place,
    Room,
    Stairs,
    check_way_in,
)


def as_data(checks: list[Check]) -> dict[str, Any]:
    """Return checks as plain data: the first at the top, the others under ``also``."""
    first, *rest = checks
    return {**first.as_dict(), "also": [check.as_dict() for check in rest]}


def floor(values: Values) -> Answer:
    """Work out the floor form."""
    member = Member(choice(values, "member", tuple(m.value for m in Member)))
    sawn = member is Member.SAWN
    frame = FloorFrame(
        joist=needed(values, "joist", "2x10"),
        species=needed(values, "species", "SPF, DF-L, HF or SP") if sawn else said(values, "species"),
        grade=needed(values, "grade", "2, or SS") if sawn else said(values, "grade"),
        spacing=length(values, "spacing", "16"),
        span=parse_length(said(values, "span"), "span") if said(values, "span") else None,
        live=number(values, "live", 1, 250),
        dead=number(values, "dead", 0, 250),
        finish=Finish(choice(values, "finish", tuple(f.value for f in Finish))),
        edition=said(values, "edition"),
        member=member,
        plies=int(number(values, "plies", 1, 3)),
        cut=choice(values, "cut", ("no", "yes")) == "yes",
    )
    checks = [check_floor(frame)]
    panel = layers(values, "panel")
    if panel:
        checks.append(check_panel(panel, frame.spacing, stone=frame.finish is Finish.STONE))
    return Answer(tuple(checks), data=as_data(checks))


FLOOR = Form(
    "floor",
    "Say whether a floor is stiff and strong enough for tile, and what would make it so.",
    (
        Ask("joist", "nominal size, such as 2x10"),
        Ask("species", "SPF, DF-L, HF or SP (Southern pine)"),
        Ask("grade", "SS, 1, 2 or 3"),
        Ask("spacing", "inches on centre", "16"),
        Ask("span", "clear, face to face of supports: 12-3; left out, only the longest span is given"),
        Ask("live", "live load, psf; 40 but for bedrooms", "40"),
        Ask("dead", "dead load, psf; 20 under a thick bed", "10"),
        Ask("finish", "what goes on it", "ceramic", choices=("ceramic", "stone")),
        Ask("member", "what holds it up", "sawn", choices=tuple(m.value for m in Member)),
        Ask("edition", "design values: 2013 or pre-2013", DEFAULT_EDITION),
        Ask("plies", "joists side by side", "1"),
        Ask("cut", "joists notched or bored past the rule", "no", choices=("no", "yes")),
        Ask("panel", "layers between joists and tile: 19/32 plywood", many=True),
    ),
    floor,
)


def build_up(values: Values) -> Answer:
    """Work out the build-up form."""
    build = BuildUp(layers(values, "stays"), layers(values, "out"), layers(values, "new"))
    if not build.new and not build.out and not build.stays:
        raise BadInput("no layers", "Give layers that stay, come out or go in: 19/32 plywood.")
    if choice(values, "of", ("floor", "wall")) == "wall":
        checks = [_valve(values, build)]
        return Answer(tuple(checks), (_from_studs(values, build),), _heights_data(checks, build))
    checks = _floor_heights(values, build)
    return Answer(tuple(checks), data=_heights_data(checks, build))


def _heights_data(checks: list[Check], build: BuildUp) -> dict[str, Any]:
    return {"change_in": float(build.change), **as_data(checks)}


def _from_studs(values: Values, build: BuildUp) -> str:
    finished = length(values, "rough-in", "12")
    studs = rough_in(finished, (*build.stays, *build.new))
    return f"{inches(finished)} from the finished wall is {inches(studs)} from bare studs"


def _valve(values: Values, build: BuildUp) -> Check:
    window = sizes(needed(values, "valve-range", "2 x 3").replace(" to ", "x"), "valve-range", (2,))
    face = parse_signed(needed(values, "valve", "-2"), "valve", bare="in")
    return check_valve(build, face, (window[0], window[1]))


def _floor_heights(values: Values, build: BuildUp) -> list[Check]:
    def given(name: str) -> Fraction | None:
        return parse_signed(said(values, name), name, bare="in") if said(values, name) else None

    flange, gap, next_floor, tub, base = map(given, ("flange", "door-gap", "next-floor", "tub", "tub-base"))
    checks = [check_flange(build, flange)]
    if gap is not None:
        checks.append(check_door(build, gap))
    if next_floor is not None:
        checks.append(check_threshold(build, next_floor))
    if tub is not None:
        checks.append(check_tub_rim(build, tub, base if base is not None else Fraction(0)))
    return checks


BUILD_UP = Form(
    "build-up",
    "Add up layers out and in: what the flange, door, threshold, tub rim or valve must do.",
    (
        Ask("of", "floor or wall", "floor", choices=("floor", "wall")),
        Ask("stays", "layers that stay: 19/32 plywood", many=True),
        Ask("out", "layers that come out: 5/8 particleboard", many=True),
        Ask("new", "layers that go in: 3/4 plywood", many=True),
        Ask("flange", "underside of the toilet flange above the joists (the old floor, unless you say)"),
        Ask("door-gap", "gap under the door now"),
        Ask("next-floor", "height of the floor next door above the same joists"),
        Ask("tub", "height of the tub"),
        Ask("tub-base", "what the tub stands on, above the joists", "0"),
        Ask("valve", "valve face out from the studs; behind them is negative"),
        Ask("rough-in", "toilet's rough-in from the finished wall", "12"),
        Ask("valve-range", "depth behind the finished wall its sheet gives: 2 x 3"),
    ),
    build_up,
)

_STEP_WORDS = {"headroom", "riser", "tread", "rails"}


def way_in(values: Values) -> Answer:
    """Work out the way-in form."""
    big, wide, high = sizes(needed(values, "piece", "60x30x20"), "piece", (3,))
    piece = Piece(said(values, "name") or "piece", big, wide, high)
    steps = several(values, "step")
    if not steps:
        raise BadInput("step is missing", 'Such as --step "door 30x80" --step "corner 36x36".')
    place = tuple(_place(text, number) for number, text in enumerate(steps, 1))
    checks = [check_way_in(piece, place)]
    if choice(values, "halves", ("no", "yes")) == "yes":
        checks.append(check_way_in(piece.halves(), place))
    return Answer(tuple(checks), data=as_data(checks))


def _place(text: str, number: int) -> Place:
    """Return a place written like ``door 30x80 off``, ``corner 36x36``, ``stairs 36 headroom 76 rails 1``."""
    words = re.sub(r"\s*x\s*", "x", text.lower()).split()
    like = "Write it like: door 30x80, hall 36, corner 36x36, stairs 36 headroom 80 rails 1, room 10-0x12-0"
    if len(words) < 2 or words[0] not in ("door", "hall", "corner", "stairs", "room"):
        raise BadInput(f"step {number}: {one_line(text)}", like)
    kind, size, *more = words
    name, ask = f"{kind} {number}", f"step {number}"
    off = kind == "door" and more == ["off"]
    if more and not off and (len(more) % 2 or kind != "stairs" or not set(more[::2]) <= _STEP_WORDS):
        raise BadInput(f"step {number}: {one_line(text)}", like)
    if kind == "stairs":
        return _stairs(name, ask, sizes(size, ask, (1, 2)), dict(zip(more[::2], more[1::2], strict=True)))
    counts = {"door": (1, 2), "hall": (1, 2), "corner": (2, 3), "room": (2, 3)}[kind]
    given = sizes(size, ask, counts)
    if kind == "door":
        door = Door(name, given[0], hung=not off)
        return replace(door, height=given[1]) if len(given) > 1 else door
    made: dict[str, type[Hall] | type[Corner] | type[Room]] = {"hall": Hall, "corner": Corner, "room": Room}
    return made[kind](name, *given)


def _stairs(name: str, ask: str, size: list[Fraction], more: dict[str, str]) -> Stairs:
    usual = Stairs(name, size[0])
    given = {
        word: parse_length(more[word], f"{ask}, {word}", bare="in")
        for word in ("headroom", "riser", "tread")
        if word in more
    }
    return Stairs(
        name,
        size[0],
        given.get("headroom", size[1] if len(size) > 1 else usual.headroom),
        given.get("riser", usual.riser),
        given.get("tread", usual.tread),
        int(number(more, "rails", 0, 2)) if "rails" in more else 0,
    )


WAY_IN = Form(
    "way-in",
    "Say whether a tub, slab or vanity gets through doors, corners and stairs, and where it sticks.",
    (
        Ask("piece", "its three outside sizes: 60x30x20"),
        Ask("name", "what it is", "piece"),
        Ask(
            "step",
            "each place in order: door 30x80, hall 36, corner 36x36, stairs 36 headroom 80, room 10-0x12-0",
            many=True,
        ),
        Ask("halves", "also one half, cut across its length", "no", choices=("no", "yes")),
    ),
    way_in,
)


def supply(values: Values) -> Answer:
    """Work out the supply form: the line's check and, where a route is given, its take-off."""
    side = "hot" if choice(values, "side", ("cold", "hot")) == "hot" else "total"
    runs = tuple(replace(_run(text), side=side) for text in several(values, "run"))
    if not runs:
        raise BadInput(
            "run is missing", 'Such as --run "main, 60 ft, rise 2 ft: 2 bath group, kitchen sink".'
        )
    line = Supply(
        runs,
        number(values, "pressure", 1, 200),
        said(values, "pipe"),
        said(values, "code"),
        side == "hot",
        share(values, "fittings"),
    )
    check = check_supply(line)
    data = as_data([check])
    data["runs"] = [
        {
            "name": s.run.name,
            "size": s.size,
            "gpm": round(s.gpm, 2),
            "ft_s": round(s.speed, 2),
            "psi_left": round(s.left, 2),
        }
        for s in size_line(line)
    ]
    lines = [_replaced(values, line)] if said(values, "replaces") else []
    legs = tuple(_leg(text, n) for n, text in enumerate(several(values, "leg"), 1))
    if not legs:
        return Answer((check,), tuple(lines), data)
    parts = take_off(legs, line.material)
    data["take_off"] = _parts_data(parts)
    return Answer((check,), (*lines, *_parts_lines(parts)), data)


def _replaced(values: Values, line: Supply) -> str:
    """Say what a pipe's bore is against the one it replaces, named like ``galvanized 1/2``."""
    material, _, size = said(values, "replaces").partition(" ")
    known = pipe(material.lower())["bore"]
    if size.strip() not in known:
        raise BadInput(f"replaces: {one_line(said(values, 'replaces'))}", f"Sizes: {', '.join(known)}.")
    new = size_line(line)[-1].size
    ratio = bore_change((material.lower(), size.strip()), (line.material, new))
    return (
        f"{line.material} {new} in place of {material} {size.strip()}: {ratio:.2f} of the clean bore's area"
    )


def _run(text: str) -> Run:
    found = re.fullmatch(
        r"\s*([^,:]+),\s*([^,:]+?)(?:,\s*rise\s+([^,:]+?))?(?:,\s*size\s+([^,:]+?))?\s*:\s*(.+)",
        text,
        re.IGNORECASE,
    )
    if not found:
        raise BadInput(
            f"run: {one_line(text)}", "Write it like: main, 60 ft, rise 2 ft: 2 bath group, kitchen sink"
        )
    fixtures = tuple(_fixture(part) for part in found[5].split(",") if part.strip())
    rise = parse_signed(found[3], "rise", bare="ft") if found[3] else Fraction(0)
    feet = parse_length(found[2], "run length", bare="ft") / 12
    return Run(found[1].strip(), float(feet), fixtures, float(rise / 12), (found[4] or "").strip())


def _fixture(text: str) -> tuple[str, int]:
    found = re.fullmatch(r"\s*(?:(\d{1,3})\s+)?(.+?)\s*", text)
    assert found
    return found[2], int(found[1] or 1)


def _leg(text: str, at: int) -> Leg:
    found = re.fullmatch(
        r"\s*(.+?)\s+(along|up)(?:\s+(open|wall|ceiling))?(?:\s+(\d{1,2})\s+tees?)?(?:\s+(\d{1,2})\s+holes?)?\s*",
        text,
        re.IGNORECASE,
    )
    if not found:
        raise BadInput(
            f"leg {at}: {one_line(text)}", "Write it like: 12 ft along ceiling 1 tee, or 8-4 up wall 2 holes"
        )
    size = parse_length(found[1], f"leg {at}", bare="in")
    return Leg(size, found[2].lower(), (found[3] or "open").lower(), int(found[4] or 0), int(found[5] or 0))


def _parts_data(parts: RouteTakeOff) -> dict[str, Any]:
    return {
        "pipe_ft": parts.pipe_ft,
        "elbows": parts.elbows,
        "tees": parts.tees,
        "couplings": parts.couplings,
        "clamps": parts.clamps,
        "hangers": parts.hangers,
        "nail_plates": parts.nail_plates,
        "patches": len(parts.patches),
        "patch_sq_ft": round(parts.patch_sq_ft, 1),
    }


def _parts_lines(parts: RouteTakeOff) -> list[str]:
    shown = [f"  {name.replace('_', ' ')}: {value}" for name, value in _parts_data(parts).items()]
    return ["route take-off", *shown]


SUPPLY = Form(
    "supply",
    "Size water pipe along a line: demand, speed, pressure at the last fixture, parts of its route.",
    (
        Ask("run", "each run in order: main, 60 ft, rise 2 ft: 2 bath group, kitchen sink", many=True),
        Ask("pressure", "static pressure at the source, psi"),
        Ask("pipe", "pex, copper or galvanized", "pex"),
        Ask("code", "whose fixture units and curve: ipc, irc or nspc", "ipc"),
        Ask("side", "whose speed limit and fixture units", "cold", choices=("cold", "hot")),
        Ask("fittings", "friction of fittings, percent of the pipe's own", "50"),
        Ask("replaces", "the pipe it replaces: galvanized 1/2"),
        Ask("leg", "the route, for parts: 12 ft along ceiling 1 tee", many=True),
    ),
    supply,
)


def cut(values: Values) -> Answer:
    """Work out the cut form: a notch or hole in a joist or stud."""
    size, kind = needed(values, "size", "2x10"), choice(values, "kind", ("notch", "end notch", "hole"))
    depth = length(values, "depth", "3 1/2")
    if choice(values, "of", ("joist", "stud")) == "stud":
        check = check_stud_cut(size, kind, depth, bearing=choice(values, "bearing", ("yes", "no")) == "yes")
    else:
        at, span, long, edge = (
            parse_length(said(values, name), name, bare="in") if said(values, name) else None
            for name in ("at", "span", "length", "edge")
        )
        check = check_joist_cut(size, JoistCut(kind, depth, at, span, long, edge))
    return Answer((check,), data=as_data([check]))


CUT = Form(
    "cut",
    "Say whether a notch or hole in a joist or stud stays inside the rule.",
    (
        Ask("of", "what is cut", "joist", choices=("joist", "stud")),
        Ask("size", "nominal size, such as 2x10"),
        Ask("kind", "notch, end notch or hole", "hole", choices=("notch", "end notch", "hole")),
        Ask("depth", "depth of a notch, width of a hole"),
        Ask("at", "from the support"),
        Ask("span", "clear span: no notch in its middle third"),
        Ask("length", "length of a notch along the joist"),
        Ask("edge", "wood left above or below a hole"),
        Ask("bearing", "whether the stud carries load", "yes", choices=("yes", "no")),
    ),
    cut,
)

FORMS = (FLOOR, CUT, BUILD_UP, WAY_IN, SUPPLY)
