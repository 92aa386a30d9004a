"""The way from the truck to the room, or out again: doors, halls, corners and stairs against one piece.

Each place answers with its slack in inches for one way of holding the piece. One hold serves a whole
stretch: it changes only in a room big enough to turn the piece over. That, and judging a tipped piece
by the box around it, errs on the strict side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Check, Fix, Rule, Standing, Verdict
from journal_tui.measures.corner import corner_slack, fits_opening, tipped
from journal_tui.measures.fractions import inches

#: A handrail takes this much off the width below it: 36 in, 31 1/2 with one, 27 with two (IRC R311.7.1).
RAIL = Fraction(9, 2)
DOOR_THICKNESS = Fraction(11, 8)
STOP = Fraction(5, 8)

_RULE = Rule(
    "a rigid box, corners exact in plan (rod and plate in an L); tipped pieces by the box around them",
    "geometry; Stewart, Calculus, 4.7, exercise 70, for the rod",
    "",
    Standing.CALCULATED,
)
HAND_ROOM = Fraction(1)


@dataclass(frozen=True, slots=True)
class Piece:
    """What must pass: three outside sizes in inches, in any order."""

    name: str
    length: Fraction
    width: Fraction
    height: Fraction

    def sides(self) -> tuple[float, float, float]:
        """The sizes, longest first, in inches."""
        big, mid, small = sorted((self.length, self.width, self.height), reverse=True)
        return float(big), float(mid), float(small)

    def grown(self, each_face: Fraction) -> Piece:
        """The piece with hands and wrap: ``each_face`` inches more on every face."""
        more = 2 * each_face
        return replace(self, length=self.length + more, width=self.width + more, height=self.height + more)

    def halves(self) -> Piece:
        """One half of the piece, cut across its longest side."""
        big = max(self.length, self.width, self.height)
        if self.length == big:
            return replace(self, name=f"half of the {self.name}", length=big / 2)
        if self.width == big:
            return replace(self, name=f"half of the {self.name}", width=big / 2)
        return replace(self, name=f"half of the {self.name}", height=big / 2)


@dataclass(frozen=True, slots=True)
class Hold:
    """One way of carrying: sizes along, across and up, in inches."""

    name: str
    along: float
    across: float
    up: float


def holds(piece: Piece, ceiling: float | None = None) -> tuple[Hold, ...]:
    """Return the ways to carry ``piece``: flat, on edge, on end and, under ``ceiling`` inches, tipped up."""
    big, mid, small = piece.sides()
    ways = [Hold("flat", big, mid, small), Hold("on edge", big, small, mid), Hold("on end", mid, small, big)]
    if ceiling is not None:
        for way in tuple(ways[:2]):
            plan = tipped(way.along, way.up, ceiling)
            if plan is not None and plan > way.up:
                ways.append(
                    Hold(f"tipped up, {way.name}", max(plan, way.across), min(plan, way.across), ceiling)
                )
    return tuple(ways)


@dataclass(frozen=True, slots=True)
class Door:
    """A doorway: nominal ``width`` of the door and ``height``, inches; ``hung`` while the door is on."""

    name: str
    width: Fraction
    height: Fraction = Fraction(80)
    hung: bool = True

    @property
    def clear(self) -> Fraction:
        """Clear width: less stop and, open at a right angle, the door's own thickness (about 2 in less)."""
        return self.width - STOP - (DOOR_THICKNESS if self.hung else 0)

    def slack(self, hold: Hold) -> float:
        """Inches to spare; a piece held askew in the opening counts as just fitting."""
        wide, high = float(self.clear), float(self.height)
        square = min(wide - hold.across, high - hold.up)
        return 0.0 if square < 0 and fits_opening(hold.across, hold.up, wide, high) else square


@dataclass(frozen=True, slots=True)
class Hall:
    """A straight hall, inches."""

    name: str
    width: Fraction
    height: Fraction = Fraction(96)

    def slack(self, hold: Hold) -> float:
        """Inches to spare across and overhead."""
        return min(float(self.width) - hold.across, float(self.height) - hold.up)


@dataclass(frozen=True, slots=True)
class Corner:
    """A square corner between halls ``a`` and ``b`` wide, or a hall and the clear width of a door off it."""

    name: str
    a: Fraction
    b: Fraction
    height: Fraction = Fraction(96)

    def slack(self, hold: Hold) -> float:
        """Inches to spare in length round the corner, and overhead."""
        return min(
            corner_slack(hold.along, hold.across, float(self.a), float(self.b)), float(self.height) - hold.up
        )


@dataclass(frozen=True, slots=True)
class Stairs:
    """A straight flight, inches: wall-to-wall ``width``, ``headroom`` plumb over the nosings."""

    name: str
    width: Fraction
    headroom: Fraction = Fraction(80)
    riser: Fraction = Fraction(31, 4)
    tread: Fraction = Fraction(10)
    rails: int = 0

    @property
    def clear(self) -> Fraction:
        """Width between handrails."""
        return self.width - RAIL * self.rails

    @property
    def square_headroom(self) -> float:
        """Headroom square to the slope: plumb headroom times the cosine of the pitch."""
        return float(self.headroom) * math.cos(math.atan2(self.riser, self.tread))

    def slack(self, hold: Hold) -> float:
        """Inches to spare across and square to the slope."""
        return min(float(self.clear) - hold.across, self.square_headroom - hold.up)


@dataclass(frozen=True, slots=True)
class Room:
    """A place to set the piece down and turn it over, inches: outdoors counts as a big one."""

    name: str
    length: Fraction
    width: Fraction
    height: Fraction = Fraction(96)

    def turns_over(self, piece: Piece) -> bool:
        """Whether any side of ``piece`` can be brought up here: its longest face must swing clear."""
        big, mid, _small = piece.sides()
        swing = math.hypot(big, mid)
        return float(self.height) >= swing and float(max(self.length, self.width)) >= swing

    def slack(self, hold: Hold) -> float:
        """Inches to spare standing in the room."""
        long, short = max(self.length, self.width), min(self.length, self.width)
        return min(float(long) - hold.along, float(short) - hold.across, float(self.height) - hold.up)


Place = Door | Hall | Corner | Stairs | Room


@dataclass(frozen=True, slots=True)
class Passage:
    """How one stretch went: the hold chosen, and the slack at each place under it."""

    hold: Hold
    slacks: tuple[tuple[Place, float], ...]

    @property
    def tightest(self) -> tuple[Place, float]:
        """The place with the least slack, and the slack in inches."""
        return min(self.slacks, key=lambda pair: pair[1])


def passages(piece: Piece, way: tuple[Place, ...]) -> tuple[Passage, ...]:
    """Return the best hold for every stretch of ``way`` between rooms where the piece can be turned over."""
    return tuple(_best(piece, stretch) for stretch in _stretches(piece, way))


def _stretches(piece: Piece, way: tuple[Place, ...]) -> list[list[Place]]:
    out: list[list[Place]] = [[]]
    for place in way:
        if isinstance(place, Room) and place.turns_over(piece) and out[-1]:
            out.append([])
        elif not (isinstance(place, Room) and place.turns_over(piece)):
            out[-1].append(place)
    return [stretch for stretch in out if stretch]


def _best(piece: Piece, stretch: list[Place]) -> Passage:
    ceiling = min((_ceiling(place) for place in stretch), default=None)
    options = [
        Passage(hold, tuple((place, place.slack(hold)) for place in stretch))
        for hold in holds(piece, ceiling)
    ]
    return max(options, key=lambda passage: passage.tightest[1])


def _ceiling(place: Place) -> float:
    return place.square_headroom if isinstance(place, Stairs) else float(place.height)


def check_way_in(piece: Piece, way: tuple[Place, ...], *, fixes: bool = True) -> Check:
    """Return whether ``piece`` gets along ``way``: the tightest place, by how much, what would free it."""
    _sound(piece, way)
    runs = passages(piece, way)
    if not runs:
        raise BadInput("way in", "Every place on it is a room; add a door, hall, corner or stairs.")
    run = min(runs, key=lambda r: r.tightest[1])
    place, slack = run.tightest
    fits = slack >= 0
    verb = "to spare" if fits else "too tight"
    amount = inches(_floor16(abs(slack)) if fits else _ceil16(abs(slack)))
    return Check(
        name=f"way in: {piece.name}",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=f"Tightest at {place.name}, {run.hold.name}: {amount} {verb}.",
        rule=_RULE,
        governs=place.name,
        margin=f"{amount} {verb}",
        inputs={"piece": " x ".join(inches(side) for side in (piece.length, piece.width, piece.height))},
        figures={"slack_in": round(slack, 3)},
        notes=_notes(piece, way, runs, fits),
        fixes=() if fits or not fixes else _fixes(piece, way, place),
    )


def _sound(piece: Piece, way: tuple[Place, ...]) -> None:
    for side in (piece.length, piece.width, piece.height):
        if side <= 0:
            raise BadInput(f"{piece.name}: {inches(side)}", "Each of the three sizes is more than zero.")
    for place in way:
        sizes = (place.a, place.b) if isinstance(place, Corner) else (place.width,)
        tall = place.headroom if isinstance(place, Stairs) else place.height
        if min(*sizes, tall) <= 0:
            raise BadInput(f"{place.name}", "Widths and heights on the way are more than zero.")
        if isinstance(place, Stairs) and (place.riser <= 0 or place.tread <= 0 or not 0 <= place.rails <= 2):
            raise BadInput(f"{place.name}", "Riser and tread are more than zero; rails are 0, 1 or 2.")


def _floor16(value: float) -> Fraction:
    return Fraction(math.floor(value * 16 + 1e-9), 16)


def _ceil16(value: float) -> Fraction:
    return Fraction(math.ceil(value * 16 - 1e-9), 16)


def _notes(piece: Piece, way: tuple[Place, ...], runs: tuple[Passage, ...], fits: bool) -> tuple[str, ...]:
    out = [
        f"{place.name}: {run.hold.name}, {inches(_floor16(slack))} to spare"
        if slack >= 0
        else f"{place.name}: {run.hold.name}, {inches(_ceil16(-slack))} too tight"
        for run in runs
        for place, slack in run.slacks
    ]
    if fits and check_way_in_slack(piece.grown(HAND_ROOM), way) < 0:
        out.append("With 1 in for hands and wrap on every face it does not pass: treat it as tight.")
    out.append("Strict where unsure: one hold per stretch, a tipped piece by the box around it.")
    if any(isinstance(place, Stairs) for place in way):
        out.append(
            "Where the piece tips at the head and foot of the stairs is not worked out: try it with a frame "
            "of strips cut to its sizes."
        )
    return tuple(out)


def check_way_in_slack(piece: Piece, way: tuple[Place, ...]) -> float:
    """Return the least slack along ``way`` in inches, over the best hold of each stretch."""
    return min((run.tightest[1] for run in passages(piece, way)), default=math.inf)


def _fixes(piece: Piece, way: tuple[Place, ...], tight: Place) -> tuple[Fix, ...]:
    out = []
    if isinstance(tight, Door) and tight.hung:
        off = tuple(replace(p, hung=False) if p is tight and isinstance(p, Door) else p for p in way)
        out.append(_tried(f"take the door off its hinges at {tight.name}", piece, off))
    if isinstance(tight, Door):
        bare = tuple(replace(p, hung=False, width=p.width + STOP) if p is tight else p for p in way)
        out.append(_tried(f"its stop pried off too at {tight.name}", piece, bare))
    out.append(
        _tried(
            "cut it in half across its length, if it is to be scrapped or comes in halves",
            piece.halves(),
            way,
        )
    )
    if isinstance(tight, Corner):
        wider = _wide_enough(piece, way, tight)
        if wider is not None:
            out.append(
                Fix(
                    f"both halls at {tight.name} {inches(wider)} wider (board off the inside corner)",
                    "just passes",
                    Verdict.PASSES,
                )
            )
    return tuple(out)


def _tried(what: str, piece: Piece, way: tuple[Place, ...]) -> Fix:
    slack = check_way_in_slack(piece, way)
    if slack >= 0:
        return Fix(what, f"{inches(_floor16(slack))} to spare", Verdict.PASSES)
    return Fix(what, f"still {inches(_ceil16(-slack))} too tight", Verdict.SHORT)


def _wide_enough(piece: Piece, way: tuple[Place, ...], tight: Corner) -> Fraction | None:
    """Return the least sixteenths by which both halls at a corner must grow, up to a foot."""
    for step in range(1, 12 * 16 + 1):
        more = Fraction(step, 16)
        wider = tuple(replace(p, a=tight.a + more, b=tight.b + more) if p is tight else p for p in way)
        if check_way_in_slack(piece, wider) >= 0:
            return more
    return None
