"""Forms that lay out: a room, tile, sheets and strips."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from journal_tui.journal.measure_checks import as_data
from journal_tui.journal.measure_forms import (
    ROOM_ASKS,
    Answer,
    Ask,
    Form,
    Values,
    choice,
    floor_in,
    fraction,
    length,
    needed,
    number,
    room_in,
    said,
    several,
    share,
    sizes,
    wall_in,
)
from journal_tui.measures.fields import wall_field
from journal_tui.measures.fractions import display, inches, mixed, tape
from journal_tui.measures.lengths import parse_length, parse_signed
from journal_tui.measures.quantities import grout_per_square_foot, grout_usual_form
from journal_tui.measures.rooms import Room, drawing
from journal_tui.measures.sheets import Rules, Sheet, cut_list, lay_sheets
from journal_tui.measures.strips import StripPlan, strip_plan
from journal_tui.measures.tile_drawing import LEGEND, as_svg, in_characters
from journal_tui.measures.tile_layout import boxes, boxes_by_area, lay_out, start_lines, usual_starts
from journal_tui.measures.tile_rules import (
    check_movement_joints,
    check_offset,
    contact,
    flatness,
    least_joint,
    lippage,
    shower_fall,
)
from journal_tui.measures.tiles import Laying, Layout, Pattern, Tile

_PATTERNS = tuple(pattern.value for pattern in Pattern)


#: Common practice, no source.
CROWN = "Tile to the ceiling: the crown comes off first and is refitted over it."


def tile_in(values: Values, ask: str = "tile") -> Tile:
    """Return the tile a form describes."""
    width, height = sizes(needed(values, ask, "12x24, measured"), ask, (2,))
    joint = parse_signed(said(values, "joint"), "joint", bare="in")
    turns = choice(values, "grain", ("no", "yes")) == "no"
    return Tile(width, height, joint, length(values, "thickness", "3/8"), turns)


def laying_in(values: Values) -> Laying:
    """Return the pattern a form describes."""
    return Laying(Pattern(choice(values, "pattern", _PATTERNS)), fraction(values, "offset"))


def tile(values: Values) -> Answer:
    """Work out the tile form."""
    one, laying = tile_in(values), laying_in(values)
    crown: list[str] = []
    if said(values, "wall"):
        field, to_ceiling = wall_in(values, room_in(values), int(number(values, "wall", 1, 999)))
        crown = [CROWN] if to_ceiling else []
    else:
        field = floor_in(values)
    layout = lay_out(field, one, laying)
    usual = usual_starts(field, one, laying)
    box = field.box
    exposed = choice(values, "exposed", ("no", "yes")) == "yes"
    checks = [check_movement_joints(box.width, box.height, exposed=exposed)]
    if laying.pattern is Pattern.BOND:
        checks.insert(0, check_offset(one, laying.offset))
    per_box = int(number(values, "per-box", 1, 10_000))
    bought = boxes(layout.laid, per_box, Fraction(share(values, "overage")).limit_denominator(10_000))
    lines = start_lines(field, one, layout)
    text = [
        f"tile layout: {layout.laid} places, {layout.full} full, {layout.cut} cut",
        f"narrowest piece: {display(layout.least) if layout.least else 'nothing is cut'}",
        f"with offcuts used again: {layout.bought} tiles",
        f"{bought} boxes of {per_box} from one lot, overage in",
    ]
    if laying.pattern in (Pattern.STACK, Pattern.BOND):
        text.append(
            f"start lines: {display(lines.from_left)} from the left edge, "
            f"{display(lines.from_bottom)} from the bottom"
        )
    text += [*crown, *_rule_lines(one, values, field.area, per_box)]
    text += [f"usual start, {name}: {_short(other)}" for name, other in usual.items()]
    text += [f"cut {c.count}: {tape(c.width)} x {tape(c.height)}  {' '.join(c.sides)}" for c in layout.cuts]
    data = {**as_data(checks), **_layout_data(layout), "boxes": bought}
    data["usual_starts"] = {name: _layout_data(other) for name, other in usual.items()}

    def draws(width: int) -> str:
        return f"{in_characters(field, one, layout, width)}\n{LEGEND}"

    return Answer(tuple(checks), tuple(text), data, draws, as_svg(field, one, layout))


def _rule_lines(one: Tile, values: Values, area: Fraction, per_box: int) -> list[str]:
    """Return what the tile asks of its base, its joints and its boxes."""
    far, near, rule = flatness(one)
    over = Fraction(share(values, "overage")).limit_denominator(10_000)
    box = per_box * one.width * one.height / 144
    out = [
        f"by area alone it would be {boxes_by_area(area / 144, box, over)} boxes: the grid counts",
        f"base flat to {inches(far)} in 10 ft and {inches(near)} on the short straightedge ({rule.source})",
        f"lip between tiles {mixed(lippage(one.joint))} in and the tile's own warpage (ANSI A108.02 4.3.7)",
        f"mortar on {contact(wet=False):.0%} of the back, {contact(wet=True):.0%} where wet (ANSI A108.5)",
        f"joints hold {grout_per_square_foot(one):.3f} cu in a square foot; "
        f"the usual chart formula says {grout_usual_form(one):.3f}",
    ]
    if said(values, "variation"):
        wanted = least_joint(parse_length(said(values, "variation"), "variation", bare="in"))
        enough = "enough" if one.joint >= wanted else "too narrow"
        out.append(f"joint at least {inches(wanted)} for tile that varies so: {enough} (ANSI A108.02 4.3.8)")
    if said(values, "shower-run"):
        run = parse_length(said(values, "shower-run"), "shower-run", bare="in")
        least, most = shower_fall(run), shower_fall(run, Fraction(1, 2))
        out.append(f"fall to the drain {inches(least)} to {inches(most)} over {display(run)} (IRC P2709.1)")
    return out


def _short(layout: Layout) -> str:
    least = display(layout.least) if layout.least else "nothing cut"
    return f"{layout.laid} places, {layout.cut} cut, narrowest {least}"


def _layout_data(layout: Layout) -> dict[str, Any]:
    return {
        "pattern": layout.laying.pattern.value,
        "start_in": [float(layout.start[0]), float(layout.start[1])],
        "laid": layout.laid,
        "full": layout.full,
        "cut": layout.cut,
        "tiles_with_offcuts_reused": layout.bought,
        "least_cut_in": None if layout.least is None else float(layout.least),
        "cuts": [
            {"width_in": float(c.width), "height_in": float(c.height), "count": c.count, "cut": list(c.sides)}
            for c in layout.cuts
        ],
    }


TILE_ASKS = (
    Ask("tile", "measured size, across x up: 11 13/16 x 11 13/16"),
    Ask("joint", "joint width", "1/8"),
    Ask("thickness", "tile thickness", "3/8"),
    Ask("pattern", "how it is laid", "stack", choices=_PATTERNS),
    Ask("offset", "of a running bond, as a share", "1/3"),
    Ask("grain", "vein or print with a direction", "no", choices=("no", "yes")),
    Ask("per-box", "tiles in a box", "10"),
    Ask("overage", "for breakage and attic stock, percent; cuts are counted already", "10"),
)

TILE = Form(
    "tile",
    "Lay out tile: start lines, cuts, counts and boxes, drawn; beside the four usual starts.",
    (
        *ROOM_ASKS,
        Ask("wall", "tile this wall, by number, instead of the floor"),
        Ask("up-to", "how high that wall is tiled; the ceiling unless you say"),
        Ask("gap", "gap at the walls of a floor", "1/4"),
        Ask("exposed", "in sun, wet, outside, or over air", "no", choices=("no", "yes")),
        Ask("variation", "how much the tiles differ in size, to judge the joint"),
        Ask("shower-run", "from the wall to a shower's drain, to give the fall"),
        *TILE_ASKS,
    ),
    tile,
)


def sheets(values: Values) -> Answer:
    """Work out the sheets form: a floor or the walls of a room, or a strip round it."""
    room = room_in(values)
    if said(values, "strip"):
        return _strips(room, length(values, "strip", "12"), values)
    sheet = _sheet(values)
    rules = Rules(
        spacing=length(values, "spacing", "16"),
        first=length(values, "first", "16"),
        stagger=parse_signed(said(values, "stagger"), "stagger", bare="in"),
        old_ends=tuple(parse_length(t, "old-end", bare="in") for t in several(values, "old-end")),
        old_rows=tuple(parse_length(t, "old-row", bare="in") for t in several(values, "old-row")),
    )
    if choice(values, "where", ("floor", "walls")) == "floor":
        floor = floor_in(values)
        up = choice(values, "framing", ("up", "across")) == "up"
        surfaces = {"floor": floor if up else floor.turned()}
    else:
        surfaces = {f"wall {wall.number}": wall_field(room, wall.number) for wall in room.walls}
    plan = lay_sheets(surfaces, sheet, rules)
    proof = "no layout takes fewer" if plan.proved else f"{plan.bound} is the least any layout could take"
    text = [f"sheets: {plan.sheets} ({proof})", *cut_list(plan)]
    data = {
        "sheets": plan.sheets,
        "least_possible": plan.bound,
        "proved": plan.proved,
        "pieces": [
            {
                "surface": p.surface,
                "row": p.row,
                "from_in": float(p.start),
                "bottom_in": float(p.bottom),
                "length_in": float(p.length),
                "width_in": float(p.width),
                "sheet": p.sheet,
            }
            for p in plan.pieces
        ],
    }
    return Answer(lines=tuple(text), data=data)


def _sheet(values: Values) -> Sheet:
    wide, long = sorted(sizes(needed(values, "sheet", "48x96"), "sheet", (2,)))
    kerf, gap = (parse_signed(said(values, name), name, bare="in") for name in ("kerf", "gap-between"))
    return Sheet("sheet", long, wide, kerf, gap)


def _strips(room: Room, high: Fraction, values: Values) -> Answer:
    wide, long = sorted(sizes(needed(values, "sheet", "48x96"), "sheet", (2,)))
    plan = strip_plan(room, high, (long, wide))
    return Answer(lines=tuple(_strip_lines(plan)), data=_strip_data(plan))


def _strip_lines(plan: StripPlan) -> list[str]:
    out = [
        f"strips {display(plan.height)} high: {plan.strips} as long as a sheet, {plan.per_sheet} from each",
        f"sheets: {plan.sheets}",
    ]
    return [*out, *(f"cut {count}: {display(size)}" for size, count in plan.pieces)]


def _strip_data(plan: StripPlan) -> dict[str, Any]:
    return {
        "sheets": plan.sheets,
        "strips": plan.strips,
        "strips_per_sheet": plan.per_sheet,
        "pieces": [{"length_in": float(size), "count": count} for size, count in plan.pieces],
    }


SHEETS = Form(
    "sheets",
    "Lay out panels or boards from the fewest sheets, with a cut list; or strips all round a room.",
    (
        *ROOM_ASKS,
        Ask(
            "where",
            "what is covered, the long side across joists or studs",
            "floor",
            choices=("floor", "walls"),
        ),
        Ask("sheet", "its size", "48x96"),
        Ask(
            "framing",
            "which way joists run on the plan; rows are laid across them",
            "up",
            choices=("up", "across"),
        ),
        Ask("spacing", "joists or studs on centre", "16"),
        Ask("first", "first one from the left edge", "16"),
        Ask("stagger", "end joints of neighbouring rows apart", "16"),
        Ask("kerf", "lost to a cut; 0 for scored board", "1/8"),
        Ask("gap-between", "gap between sheets", "1/8"),
        Ask("gap", "gap at the walls", "0"),
        Ask("old-end", "old end seam to stay 8 in clear of, from the left", many=True),
        Ask("old-row", "old row seam to stay 8 in clear of, from the bottom", many=True),
        Ask("strip", "instead, a strip this high cut out all round: 12"),
    ),
    sheets,
)


def room(values: Values) -> Answer:
    """Work out the room form: drawn, with its areas."""
    found = room_in(values)
    areas = {
        "floor_sq_ft": float(found.floor_area) / 144,
        "perimeter_in": float(found.perimeter),
        "walls_sq_ft": float(found.wall_area()) / 144,
    }
    said = (
        f"floor {areas['floor_sq_ft']:.1f} sq ft, walls {areas['walls_sq_ft']:.1f} sq ft less openings, "
        f"{display(found.perimeter)} round"
    )
    return Answer(lines=(said,), data=dict(areas), draws=lambda width: drawing(found, width))


ROOM = Form(
    "room",
    "Draw a room from its measures and say how big it is; a room that does not close is refused.",
    ROOM_ASKS[:4],
    room,
)


FORMS = (ROOM, TILE, SHEETS)
