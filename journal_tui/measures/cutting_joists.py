"""Notches and holes in joists and studs, before the plumber's saw.

Limits of IRC R502.8.1 and R602.6, from memory: joist notch d/6 deep and d/3 long, none in the middle
third, end notch d/4, hole d/3 at most and 2 in from the edges; stud notch 25 % (bearing) or 40 %, hole
40 % or 60 %, 5/8 in from the edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Check, Rule, Standing, Verdict
from journal_tui.measures.fractions import inches
from journal_tui.measures.lengths import parse_lumber

_JOIST_RULE = Rule("notches and holes in joists", "IRC R502.8.1", "2015 on", Standing.MEMORY)
_STUD_RULE = Rule("notches and holes in studs", "IRC R602.6", "2015 on", Standing.MEMORY)


@dataclass(frozen=True, slots=True)
class JoistCut:
    """A cut in a joist: ``kind`` is "notch", "end notch" or "hole"; sizes in inches.

    ``at`` is the distance from the support along ``span``; ``edge`` what is left above or below a hole.
    """

    kind: str
    depth: Fraction
    at: Fraction | None = None
    span: Fraction | None = None
    length: Fraction | None = None
    edge: Fraction | None = None


def joist_limits(nominal: str) -> dict[str, Fraction]:
    """Return the deepest notch, end notch and widest hole of a joist in inches."""
    depth = parse_lumber(nominal, "joist").depth
    return {"notch": depth / 6, "end notch": depth / 4, "hole": depth / 3}


def stud_limits(nominal: str, *, bearing: bool) -> dict[str, Fraction]:
    """Return the deepest notch and widest hole of a stud in inches."""
    depth = parse_lumber(nominal, "stud").depth
    notch, hole = (Fraction(1, 4), Fraction(2, 5)) if bearing else (Fraction(2, 5), Fraction(3, 5))
    return {"notch": depth * notch, "hole": depth * hole}


def check_joist_cut(nominal: str, cut: JoistCut) -> Check:
    """Return whether a cut stays inside the rule; past it, an engineer's repair."""
    limits = joist_limits(nominal)
    if cut.kind not in limits:
        raise BadInput(f"cut: {cut.kind}", f"Accepted: {', '.join(limits)}.")
    if cut.depth <= 0:
        raise BadInput(f"cut: {inches(cut.depth)}", "A cut is deeper than zero.")
    problems = _problems(nominal, cut, limits)
    return Check(
        name=f"{cut.kind} in a {nominal} joist",
        verdict=Verdict.SHORT if problems else Verdict.PASSES,
        sentence=" ".join(problems)
        or f"{inches(cut.depth)} is inside the limit of {inches(limits[cut.kind])}.",
        rule=_JOIST_RULE,
        margin=inches(limits[cut.kind] - cut.depth),
        inputs={"cut": f"{inches(cut.depth)} {cut.kind}"},
        notes=("Never cut the flange of an I-joist or any part of a truss.",),
        who_can="a licensed engineer" if problems else "",
    )


def _problems(nominal: str, cut: JoistCut, limits: dict[str, Fraction]) -> list[str]:
    out = []
    most = limits[cut.kind]
    if cut.depth > most:
        out.append(f"{inches(cut.depth)} is {inches(cut.depth - most)} more than the {inches(most)} allowed.")
    depth = parse_lumber(nominal).depth
    if cut.kind == "notch" and cut.length is not None and cut.length > depth / 3:
        out.append(f"The notch is {inches(cut.length)} long; {inches(depth / 3)} is the most.")
    if cut.kind == "notch" and cut.at is not None and cut.span and cut.span / 3 < cut.at < cut.span * 2 / 3:
        out.append("No notch in the middle third of the span.")
    if cut.kind == "hole" and cut.edge is not None and cut.edge < 2:
        out.append(f"Only {inches(cut.edge)} is left at the edge; 2 in is the least.")
    return out


def check_stud_cut(nominal: str, kind: str, depth: Fraction, *, bearing: bool) -> Check:
    """Return whether a notch or hole in a stud stays inside the rule."""
    limits = stud_limits(nominal, bearing=bearing)
    if kind not in limits or depth <= 0:
        raise BadInput(f"cut: {kind} {inches(depth)}", "A notch or a hole, deeper than zero.")
    fits = depth <= limits[kind]
    return Check(
        name=f"{kind} in a {nominal} stud",
        verdict=Verdict.PASSES if fits else Verdict.SHORT,
        sentence=f"{inches(depth)} against {inches(limits[kind])} allowed.",
        rule=_STUD_RULE,
        margin=inches(limits[kind] - depth),
        inputs={"cut": f"{inches(depth)} {kind}", "stud": "bearing" if bearing else "not bearing"},
        who_can="" if fits else "a licensed engineer, or a stud shoe approved by the inspector",
    )
