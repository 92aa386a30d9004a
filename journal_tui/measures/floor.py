"""Does the floor carry tile: joists by stiffness and strength, and what would change the answer."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction

from journal_tui.domain.errors import BadInput
from journal_tui.measures.checks import Check, Fix, Rule, Verdict
from journal_tui.measures.fractions import dash, feet_inches, inches
from journal_tui.measures.joists import (
    DEFAULT_EDITION,
    JoistValues,
    LongestSpan,
    deflection,
    joist_values,
    line_load,
    longest_span,
    table_inches,
)
from journal_tui.measures.lengths import Lumber, parse_lumber

#: No model-code joist table goes further (IRC R502.3.1, from memory: 25-7 is its longest entry).
LONGEST_IN_TABLES = Fraction(26 * 12)
FLOOR_LIVE = 40.0
TABLE_DEAD = 20.0


class Finish(StrEnum):
    """What goes on the floor; natural stone wants twice the stiffness."""

    CERAMIC = "ceramic"
    STONE = "stone"


class Member(StrEnum):
    """What holds the floor up."""

    SAWN = "sawn"
    I_JOIST = "i-joist"
    TRUSS = "truss"
    ENGINEERED = "engineered"


_MAKERS = "the maker's span tables, or an engineer with the member's own sheet"
_LIMITS = {
    (Member.SAWN, Finish.CERAMIC): (
        360,
        Rule(
            "L/360 live load, joists and panel alike", "TCNA Deflection FAQ; NTCA Reference Manual", "2024/25"
        ),
    ),
    (Member.I_JOIST, Finish.CERAMIC): (
        480,
        Rule("L/480 live load for I-joists under ceramic", "NTCA Reference Manual", "2024/25"),
    ),
}
_STONE = (
    720,
    Rule(
        "L/720 live load under natural stone",
        "NTCA Reference Manual, quoting the Natural Stone Institute",
        "2024/25",
    ),
)


@dataclass(frozen=True, slots=True)
class FloorFrame:
    """The joists of a floor. Loads in psf; ``spacing`` on centre and clear ``span`` in inches.

    ``span`` is face to face of supports; None asks only for the longest. ``plies`` counts joists
    sistered full length; ``cut`` says that a joist is notched or bored beyond the rule.
    """

    joist: str
    species: str
    grade: str
    spacing: Fraction
    span: Fraction | None = None
    live: float = FLOOR_LIVE
    dead: float = 10.0
    finish: Finish = Finish.CERAMIC
    edition: str = DEFAULT_EDITION
    member: Member = Member.SAWN
    plies: int = 1
    cut: bool = False


def limit_for(member: Member, finish: Finish) -> tuple[int, Rule]:
    """Return x of L/x for live load and the rule it comes from."""
    if finish is Finish.STONE:
        return _STONE
    return _LIMITS.get((member, finish), _LIMITS[Member.SAWN, Finish.CERAMIC])


def check_floor(frame: FloorFrame) -> Check:
    """Return whether the joists carry the finish; figures ``max_span_in``, ``deflection_in`` and ``ratio``.

    Raises `BadInput` for sizes, loads and names that no table knows.
    """
    _sound(frame)
    limit, rule = limit_for(frame.member, frame.finish)
    if frame.member is not Member.SAWN:
        return _not_ours(frame, limit, rule)
    lumber = parse_lumber(frame.joist, "joist")
    values = joist_values(lumber, frame.species, frame.grade, frame.edition)
    longest = longest_span(lumber, values, frame.spacing, frame.live, frame.dead, limit, frame.plies)
    return _answer(frame, lumber, values, longest, limit, rule)


def _sound(frame: FloorFrame) -> None:
    if frame.spacing <= 0 or frame.spacing > 24:
        raise BadInput(
            f"spacing: {inches(frame.spacing)}", "Joist spacing is more than 0 and up to 24 in on centre."
        )
    if frame.span is not None and frame.span <= 0:
        raise BadInput(f"span: {inches(frame.span)}", "The span is more than zero, face to face of supports.")
    if frame.span is not None and frame.span > LONGEST_IN_TABLES:
        raise BadInput(
            f"span: {feet_inches(frame.span)}",
            "No joist table goes past 26 ft. An engineer sizes a floor that long.",
        )
    if not 1 <= frame.live <= 250:
        raise BadInput(
            f"live load: {frame.live:g} psf", "Live load is 1 to 250 psf; house floors 40, bedrooms 30."
        )
    if not 0 <= frame.dead <= 250:
        raise BadInput(
            f"dead load: {frame.dead:g} psf", "Dead load is 0 to 250 psf; light floors 10, tiled 20."
        )
    if not 1 <= frame.plies <= 3:
        raise BadInput(f"plies: {frame.plies}", "One, two or three joists side by side.")


def _inputs(frame: FloorFrame) -> dict[str, str]:
    shown = {
        "joist": f"{frame.joist} {frame.member.value}"
        + (f", {frame.plies} side by side" * (frame.plies > 1)),
        "species and grade": f"{frame.species} {frame.grade}".strip(),
        "spacing": inches(frame.spacing),
        "load": f"{frame.live:g} psf live, {frame.dead:g} psf dead",
        "finish": frame.finish.value,
        "span": feet_inches(frame.span) if frame.span is not None else "",
    }
    return {name: value for name, value in shown.items() if value}


def _not_ours(frame: FloorFrame, limit: int, rule: Rule) -> Check:
    what = {Member.I_JOIST: "An I-joist", Member.TRUSS: "A floor truss"}.get(
        frame.member, "An engineered beam"
    )
    return Check(
        name="floor for tile",
        verdict=Verdict.CANNOT_TELL,
        sentence=f"{what} is sized by its maker's tables, not lumber values. Ask for L/{limit}, live load.",
        rule=rule,
        governs="the maker's tables",
        inputs=_inputs(frame),
        figures={"max_span_in": None, "deflection_in": None, "ratio": None, "limit": limit},
        notes=("Never cut a flange of an I-joist or any part of a truss.",),
        who_can=_MAKERS,
    )


def _answer(
    frame: FloorFrame, lumber: Lumber, values: JoistValues, longest: LongestSpan, limit: int, rule: Rule
) -> Check:
    bend = _bend(frame, lumber, values, frame.live)
    ratio = float(frame.span) / bend if frame.span is not None and bend else None
    verdict, sentence, margin = _verdict(frame, longest, bend, ratio, limit)
    rounded = dash(Fraction(table_inches(longest.inches)))
    return Check(
        name="floor for tile",
        verdict=verdict,
        sentence=sentence,
        rule=rule,
        governs=longest.governs,
        margin=margin,
        inputs={
            **_inputs(frame),
            "design values": f"{values.edition_says}; {values.standing}",
            "load case": "deflection under live load alone, strength under live and dead",
        },
        figures={
            "max_span_in": round(longest.inches, 2),
            "deflection_in": None if bend is None else round(bend, 4),
            "ratio": None if ratio is None else round(ratio, 1),
            "limit": limit,
            "total_load_ratio": _total_ratio(frame, lumber, values),
        },
        notes=(f"Longest span {rounded}, to the nearest inch as the tables print it.", *_notes(frame)),
        fixes=_fixes(frame, lumber, values, limit) if verdict is Verdict.SHORT else (),
        who_can=_who_can(frame, verdict),
    )


def _who_can(frame: FloorFrame, verdict: Verdict) -> str:
    if verdict is not Verdict.CANNOT_TELL:
        return ""
    return "a licensed engineer" if frame.cut else "measure the span, face to face of supports"


def _bend(frame: FloorFrame, lumber: Lumber, values: JoistValues, psf: float) -> float | None:
    if frame.span is None:
        return None
    load = line_load(psf, frame.spacing)
    return deflection(load, float(frame.span), values.stiffness, lumber.inertia * frame.plies)


def _total_ratio(frame: FloorFrame, lumber: Lumber, values: JoistValues) -> float | None:
    bend = _bend(frame, lumber, values, frame.live + frame.dead)
    return None if not bend or frame.span is None else round(float(frame.span) / bend, 1)


def _verdict(
    frame: FloorFrame, longest: LongestSpan, bend: float | None, ratio: float | None, limit: int
) -> tuple[Verdict, str, str]:
    most = feet_inches(Fraction(int(longest.inches * 16), 16))
    if frame.cut:
        return (
            Verdict.CANNOT_TELL,
            f"A joist cut past the rule is not the joist in the table. Uncut, it would span {most}.",
            "",
        )
    if frame.span is None or bend is None or ratio is None:
        return Verdict.CANNOT_TELL, f"The longest span is {most}; {longest.governs} sets it.", ""
    spare = longest.inches - float(frame.span)
    how_far = feet_inches(Fraction(round(abs(spare) * 16), 16))
    bends = f"It bends {bend:.3f} in under live load, L/{ratio:.0f}"
    if spare >= 0:
        return (
            Verdict.PASSES,
            f"{bends}; L/{limit} allowed. {how_far} to spare.",
            f"{how_far} of span to spare",
        )
    if longest.governs == "strength" and ratio >= limit:
        return (
            Verdict.SHORT,
            f"{bends}, which is stiff enough; strength stops at {most}, {how_far} short.",
            f"{how_far} of span too long for strength",
        )
    over = bend - float(span_limit(frame.span, limit))
    return (
        Verdict.SHORT,
        f"{bends}; L/{limit} is needed. {over:.3f} in too much, or {how_far} of span.",
        f"{over:.3f} in at mid-span",
    )


def _notes(frame: FloorFrame) -> tuple[str, ...]:
    notes = ["Extra plywood is not counted for the joists: it stiffens the panel between them."]
    if frame.live < FLOOR_LIVE:
        notes.append("30 psf is for sleeping rooms; a bathroom takes 40 (IRC R301.5, from memory).")
    if frame.dead > TABLE_DEAD:
        notes.append("More than 20 psf dead load is past the tables: a designer confirms the frame.")
    elif frame.dead < 15:
        notes.append("Tile in thin-set adds dead load; in a thick mortar bed use 20 psf or ask a designer.")
    if frame.finish is Finish.STONE:
        notes.append("One architects' guide allows L/480 for stone to 14 ft; L/720 is used here.")
    if frame.cut:
        notes.append("Joists cut too deep are repaired by an engineer's detail before the floor goes on.")
    notes.append("The locally adopted code and its officials decide.")
    return tuple(notes)


def _fixes(frame: FloorFrame, lumber: Lumber, values: JoistValues, limit: int) -> tuple[Fix, ...]:
    assert frame.span is not None
    fixes = []
    if frame.plies < 3:
        fixes.append(
            _tried(frame, lumber, values, limit, "sister each joist full length, same size", frame.plies + 1)
        )
    half = replace(frame, span=frame.span / 2)
    fixes.append(
        _tried(
            half, lumber, values, limit, "a beam or wall at mid-span (the beam and its posts by a designer)"
        )
    )
    most = longest_span(lumber, values, frame.spacing, frame.live, frame.dead, limit, frame.plies).inches
    shorter = Fraction(int(most * 16), 16)
    fixes.append(
        _tried(
            replace(frame, span=shorter),
            lumber,
            values,
            limit,
            f"a support that leaves no span over {feet_inches(shorter)}",
        )
    )
    fixes.append(
        Fix(
            "a second layer of plywood",
            "joists unchanged; it helps only the panel between them",
            Verdict.SHORT,
        )
    )
    return tuple(fixes)


def _tried(
    frame: FloorFrame, lumber: Lumber, values: JoistValues, limit: int, what: str, plies: int | None = None
) -> Fix:
    tried = replace(frame, plies=plies or frame.plies)
    assert tried.span is not None
    longest = longest_span(lumber, values, tried.spacing, tried.live, tried.dead, limit, tried.plies).inches
    bend = _bend(tried, lumber, values, tried.live) or 0.0
    verdict = Verdict.PASSES if float(tried.span) <= longest else Verdict.SHORT
    return Fix(what, f"L/{float(tried.span) / bend:.0f} at {feet_inches(tried.span)}", verdict)


def span_limit(span: Fraction, limit: int) -> Fraction:
    """Return the deflection in inches that L / ``limit`` allows over ``span`` inches."""
    return span / limit
