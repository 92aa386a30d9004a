"""Rules of tile work that have a number: offset, flatness, lippage, joints, movement joints, falls."""

from __future__ import annotations

import math
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Check, Fix, Rule, Standing, Verdict
from journal_tui.measures.fractions import display, inches
from journal_tui.measures.tiles import Tile

_LONG_EDGE = Fraction(15)
_OFFSET_RULE = Rule(
    "a running bond of tile with an edge of 15 in or more is offset by a third at most, unless the maker "
    "says otherwise and a mock-up is approved (older text: 18 in)",
    "ANSI A108.02, 4.3.3",
    "15 in from memory, 18 in read in a guide quoting the older text",
    Standing.MEMORY,
)
_MOVEMENT_RULE = Rule(
    "movement joints every 20 to 25 ft each way inside; 8 to 12 ft in sun, wet or outside",
    "NTCA Reference Manual (EJ171)",
    "2024/25; 2018 said 25 at most",
)
_FLAT_RULE = Rule(
    "1/4 in in 10 ft; where any tile edge is 15 in or more, 1/8 in in 10 ft and 1/16 in 2 ft",
    "ANSI A108.02, 4.2.2",
    "as read in two trade columns; the width of the joint does not matter",
)


def check_offset(tile: Tile, offset: Fraction, *, long_edge: Fraction = _LONG_EDGE) -> Check:
    """Return whether a running-bond offset (a share of the tile) is inside the limit for the tile's size."""
    if not 0 < offset < 1:
        raise BadInput(f"offset: {offset}", "A share between 0 and 1, such as 1/3.")
    share = min(offset, 1 - offset)
    long = max(tile.width, tile.height) >= long_edge
    fits = not long or share <= Fraction(1, 3)
    return Check(
        name="running-bond offset",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=f"An offset of {float(share):.0%} "
        + ("is fine." if fits else "is more than a third on a long tile: ends and middles will lip."),
        rule=_OFFSET_RULE,
        margin=f"{float(Fraction(1, 3) - share):+.0%}",
        inputs={"longest edge": inches(max(tile.width, tile.height))},
        fixes=() if fits else (Fix("offset by a third", "33%", Verdict.PASSES),),
        who_can="" if fits else "the tile maker, in writing",
    )


def flatness(tile: Tile) -> tuple[Fraction, Fraction, Rule]:
    """Return how far out of flat the base may be, in inches: in 10 ft, and over the short straightedge
    (1 ft, or 2 ft for long tile), with the rule."""
    long = max(tile.width, tile.height) >= _LONG_EDGE
    return (Fraction(1, 8) if long else Fraction(1, 4)), Fraction(1, 16), _FLAT_RULE


def lippage(joint: Fraction, warpage: Fraction = Fraction(0), *, stone: bool = False) -> Fraction:
    """Return the lip allowed between neighbours in inches: 1/32 for joints under 1/4 in, else 1/16, plus
    the tile's own warpage (ANSI A108.02-2013 4.3.7); stone 1/32 (Marble Institute)."""
    if stone:
        return Fraction(1, 32)
    return (Fraction(1, 32) if joint < Fraction(1, 4) else Fraction(1, 16)) + warpage


def least_joint(variation: Fraction) -> Fraction:
    """Return the narrowest joint: three times the tile's facial variation, never under 1/16 in
    (ANSI A108.02 4.3.8, from memory)."""
    return max(3 * variation, Fraction(1, 16))


def contact(*, wet: bool) -> float:
    """Return the share of the back that mortar must touch: 80 % dry, 95 % wet (ANSI A108.5)."""
    return 0.95 if wet else 0.80


def shower_fall(run: Fraction, per_foot: Fraction = Fraction(1, 4)) -> Fraction:
    """Return the fall in inches over ``run`` inches; IRC P2709.1 wants 1/4 to 1/2 in a foot."""
    if not Fraction(1, 4) <= per_foot <= Fraction(1, 2):
        raise BadInput(f"slope: {inches(per_foot)} a foot", "A shower floor falls 1/4 to 1/2 in a foot.")
    return run / 12 * per_foot


def check_movement_joints(width: Fraction, length: Fraction, *, exposed: bool = False) -> Check:
    """Return whether a field needs joints inside it, and how many equal parts they make each way.

    ``exposed`` is sun, moisture, outside, or a slab above ground. Every perimeter, change of plane and
    joint in the base is a soft joint besides (ANSI A108.02 4.4.1).
    """
    if width <= 0 or length <= 0:
        raise BadInput("field", "Width and length are more than zero.")
    warn, most = (Fraction(96), Fraction(144)) if exposed else (Fraction(240), Fraction(300))
    longest = max(width, length)
    parts = [math.ceil(size / warn) for size in (width, length)]
    verdict = Verdict.PASSES if longest <= most else Verdict.SHORT
    sentence = f"The longest way is {display(longest)}; {display(most)} is the most without a joint."
    if warn < longest <= most:
        sentence += f" Past {display(warn)}, put one in."
    fixes: tuple[Fix, ...] = ()
    if longest > warn:
        fixes = (
            Fix(
                f"joints into {parts[0]} by {parts[1]} parts",
                f"{display(width / parts[0])} by {display(length / parts[1])}",
                Verdict.PASSES,
            ),
        )
    return Check(
        name="movement joints",
        verdict=verdict,
        sentence=sentence,
        rule=_MOVEMENT_RULE,
        margin=display(most - longest) if longest <= most else f"{display(longest - most)} too far",
        inputs={"field": f"{display(width)} by {display(length)}", "exposed": "yes" if exposed else "no"},
        figures={"parts_across": parts[0], "parts_along": parts[1]},
        notes=(
            "Soft joints, not grout: at every wall, tub, change of plane, and over every joint in the base.",
            "Perimeter gap 1/4 in, clear of mortar and grout; the base covers it (from memory).",
        ),
        fixes=fixes,
    )
