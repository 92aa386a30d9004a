"""Layers out and layers in: what the finished floor and wall move, and what moves with them.

All heights are above the joist tops, all depths out from the stud faces, exact inches.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Check, Fix, Rule, Standing, Verdict
from journal_tui.measures.fractions import inches
from journal_tui.measures.layers import Layer, thickness

QUARTER = Fraction(1, 4)
#: How far the top of a toilet flange stands above the finished floor when its ring sits on it.
FLANGE_TOP = (Fraction(1, 4), Fraction(3, 8))

_FLANGE_RULE = Rule(
    "flange ring on the finished floor, its top 1/4 to 3/8 in above; no model code gives a height, "
    "the fixture maker's sheet does (one inspector's handbook wants it flush)",
    "a plumber's column",
    "",
    Standing.PRACTICE,
)
_DOOR_RULE = Rule("a door clears the floor by 1/4 in or more (change it to suit)", "", "", Standing.PRACTICE)
_STEP_RULE = Rule(
    "up to 1/4 in may be square, up to 1/2 in beveled; more wants a reducer or ramp",
    "ADA Standards 303 (not required inside houses; used as the yardstick)",
    "2010",
    Standing.MEMORY,
)
_VALVE_RULE = Rule(
    "the valve sits at the depth behind the finished wall that its maker's sheet gives",
    "the valve's own sheet",
    "",
    Standing.PRACTICE,
)


@dataclass(frozen=True, slots=True)
class BuildUp:
    """A floor or wall before and after: layers that stay, come out, go in. Inches."""

    stays: tuple[Layer, ...]
    out: tuple[Layer, ...]
    new: tuple[Layer, ...]

    @property
    def before(self) -> Fraction:
        """Old finished height above joists (or out from studs)."""
        return thickness(self.stays) + thickness(self.out)

    @property
    def after(self) -> Fraction:
        """New finished height."""
        return thickness(self.stays) + thickness(self.new)

    @property
    def change(self) -> Fraction:
        """How far the finished face moves: up or out is positive."""
        return self.after - self.before


def check_flange(build: BuildUp, underside: Fraction | None = None, *, ring: Fraction = QUARTER) -> Check:
    """Return whether the toilet flange sits right on the new floor, and how many spacers bring it up.

    ``underside`` is the height of the ring's underside above the joists, by default the old finished
    floor; ``ring`` the ring's thickness. Spacers come in quarter inches.
    """
    at = build.before if underside is None else underside
    low = build.after - at
    top = at + ring - build.after
    fits = FLANGE_TOP[0] <= top <= FLANGE_TOP[1]
    return Check(
        name="toilet flange",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=_flange_sentence(low, top, fits),
        rule=_FLANGE_RULE,
        governs="height of the finished floor",
        margin=inches(abs(low)),
        inputs={
            "finished floor": f"{inches(build.after)} above the joists, {inches(build.change)} up",
            "flange": f"underside {inches(at)}, ring {inches(ring)}",
        },
        figures={
            "finished_floor_in": float(build.after),
            "change_in": float(build.change),
            "flange_low_in": float(low),
            "flange_top_wanted_in": float(build.after + ring),
        },
        notes=("Fasten the flange to structure with screws that do not corrode.",),
        fixes=() if fits else _flange_fixes(low, build.after, ring),
    )


def _flange_sentence(low: Fraction, top: Fraction, fits: bool) -> str:
    if fits:
        return f"The flange stands {inches(top)} above the finished floor."
    if low > 0:
        return f"The ring is {inches(low)} below the finished floor."
    most = inches(FLANGE_TOP[1])
    return f"The top stands {inches(top)} above the finished floor; more than {most} may rock the bowl."


def _flange_fixes(low: Fraction, after: Fraction, ring: Fraction) -> tuple[Fix, ...]:
    moved = Fix(
        f"reset the flange with its underside {inches(after)} above the joists",
        f"top {inches(after + ring)} above the joists, {inches(ring)} above the finished floor",
        Verdict.PASSES if FLANGE_TOP[0] <= ring <= FLANGE_TOP[1] else Verdict.SHORT,
    )
    if low <= 0:
        return (moved,)
    return (
        moved,
        *(
            _spaced(count, low, ring)
            for count in sorted({int(low / QUARTER), math.ceil(low / QUARTER)} - {0})
        ),
    )


def _spaced(count: int, low: Fraction, ring: Fraction) -> Fix:
    left = low - count * QUARTER
    top = ring - left
    where = f"{inches(left)} low" if left > 0 else f"{inches(-left)} high" if left < 0 else "on the floor"
    verdict = Verdict.PASSES if FLANGE_TOP[0] <= top <= FLANGE_TOP[1] else Verdict.SHORT
    return Fix(f"{count} spacers of 1/4 in ({inches(count * QUARTER)})", f"ring {where}", verdict)


def check_door(build: BuildUp, gap: Fraction, *, least: Fraction = QUARTER) -> Check:
    """Return whether a door still clears: ``gap`` is what is under it over the old floor, in inches."""
    left = gap - build.change
    cut = least - left
    fits = cut <= 0
    return Check(
        name="door undercut",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=f"{inches(left)} is left under the door; {inches(least)} is wanted.",
        rule=_DOOR_RULE,
        margin=inches(-cut),
        inputs={"gap now": inches(gap), "floor moves": inches(build.change)},
        figures={"gap_after_in": float(left)},
        fixes=()
        if fits
        else (Fix(f"cut {inches(cut)} off the door", f"{inches(least)} left", Verdict.PASSES),),
    )


def check_threshold(build: BuildUp, neighbour: Fraction) -> Check:
    """Return the step to the floor next door; ``neighbour`` is its height above the same joists."""
    step = build.after - neighbour
    fits = abs(step) <= Fraction(1, 2)
    way = "up" if step > 0 else "down"
    part = "flush" if not step else f"a reducer or threshold {inches(abs(step))} high, {way} into the room"
    return Check(
        name="threshold",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=f"The step is {inches(abs(step))} {way}." if step else "The floors meet flush.",
        rule=_STEP_RULE,
        margin=inches(Fraction(1, 2) - abs(step)),
        inputs={"this floor": inches(build.after), "next floor": inches(neighbour)},
        figures={"step_in": float(step)},
        fixes=() if fits else (Fix(part, "the step becomes a slope", Verdict.PASSES),),
    )


def rim_height(build: BuildUp, tub_height: Fraction, base: Fraction) -> Fraction:
    """Return the tub rim above the new finished floor; ``base`` is what the tub stands on, above joists."""
    return base + tub_height - build.after


def check_tub_rim(build: BuildUp, tub_height: Fraction, base: Fraction) -> Check:
    """Return how high a tub's rim ends above the new floor and how much of its apron the floor covers."""
    rim, covered = rim_height(build, tub_height, base), build.after - base
    return Check(
        name="tub rim",
        verdict=Verdict.PASSES if covered >= 0 else Verdict.SHORT,
        sentence=(
            f"The rim ends {inches(rim)} above the floor, which covers {inches(covered)} of the apron."
            if covered >= 0
            else f"The apron hangs {inches(-covered)} above the finished floor."
        ),
        rule=Rule(
            "the floor finish meets the apron, a soft joint between them",
            "",
            "",
            Standing.PRACTICE,
        ),
        margin=inches(covered),
        inputs={"tub": f"{inches(tub_height)} high, standing {inches(base)} above the joists"},
        figures={"rim_above_floor_in": float(rim), "apron_covered_in": float(covered)},
        fixes=()
        if covered >= 0
        else (Fix(f"set the tub {inches(-covered)} lower, or build up the floor", "flush", Verdict.PASSES),),
    )


def check_valve(wall: BuildUp, face: Fraction, window: tuple[Fraction, Fraction]) -> Check:
    """Return whether a valve ends at the right depth behind the finished wall.

    ``face`` is the valve's reference face out from the studs (negative: behind their faces); ``window``
    the least and greatest depth behind the finished wall on the maker's sheet. Inches.
    """
    least, most = window
    if least > most:
        raise BadInput("valve depth", "Give the least depth first, then the greatest.")
    depth = wall.after - face
    move = depth - most if depth > most else depth - least if depth < least else Fraction(0)
    way = "out" if move > 0 else "back"
    window_text = f"{inches(least)} to {inches(most)}"
    return Check(
        name="valve depth",
        verdict=Verdict.SHORT if move else Verdict.PASSES,
        sentence=f"The valve ends {inches(depth)} behind the finished wall; {window_text} fits.",
        rule=_VALVE_RULE,
        margin=inches(min(depth - least, most - depth)),
        inputs={"finished wall": f"{inches(wall.after)} out from the studs", "valve face": inches(face)},
        figures={"valve_depth_in": float(depth)},
        fixes=(Fix(f"move the valve {inches(abs(move))} {way}", "at the edge of the range", Verdict.PASSES),)
        if move
        else (),
    )


def rough_in(finished: Fraction, wall: tuple[Layer, ...]) -> Fraction:
    """Return the distance from bare studs that gives ``finished`` inches from the finished wall."""
    return finished + thickness(wall)
