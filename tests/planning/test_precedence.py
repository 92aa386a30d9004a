"""What comes before what, what is ready, and what a failed look asks for."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.kinds import STANDARD_PHASES, WHOLE_ROOM, Party
from journal_tui.domain.punch import PunchState
from journal_tui.planning.items import Hold, HoldKind, HoldResult, Link, PlanItem, Stated
from journal_tui.planning.network import LoopFound, topological_order
from journal_tui.planning.precedence import after_failure, check_order, order_items, units
from journal_tui.planning.readiness import readiness
from journal_tui.planning.visit import plan_visit
from tests.planning.making import CALENDAR, NOW, hall_bath, item, moment

PASS = HoldResult(dt.date(2026, 3, 11), "inspector", True, evidence="card signed")
FAIL = HoldResult(
    dt.date(2026, 3, 11), "inspector", False, ("nail plate missing at stud 3", "no strap at the valve")
)


def before(items: list[PlanItem], links: list[Link] | None = None) -> set[tuple[str, str]]:
    """Return all pairs (first, later), near and far, that the arrows order; plain reachability."""
    order = order_items(items, links or [], STANDARD_PHASES)
    nodes = [i.id for i in items] + list(order.gates)
    reach: dict[str, set[str]] = {n: set() for n in nodes}
    for n in reversed(topological_order(nodes, order.precedences())):
        for a in order.arrows:
            if a.before == n:
                reach[n] |= {a.after} | reach[a.after]
    real = {i.id for i in items}
    return {(a, b) for a in real for b in reach[a] & real}


@st.composite
def plain_items(draw: st.DrawFn) -> list[PlanItem]:
    count = draw(st.integers(1, 12))
    areas = st.sampled_from(["tub wall", "floor", "vanity", WHOLE_ROOM, "Floor"])
    phases = st.sampled_from([*STANDARD_PHASES, "other"])
    return [item(f"thing {n}", draw(phases), draw(areas), id=str(n)) for n in range(count)]


@given(plain_items())
@settings(max_examples=100, deadline=None)
def test_phases_order_touching_areas_and_nothing_else(items: list[PlanItem]) -> None:
    """The rule itself, pair by pair, closed under "comes before"."""

    def rank(i: PlanItem) -> int | None:
        return STANDARD_PHASES.index(i.phase) if i.phase in STANDARD_PHASES else None

    def direct(a: PlanItem, b: PlanItem) -> bool:
        ra, rb = rank(a), rank(b)
        touch = a.area.lower() == b.area.lower() or WHOLE_ROOM in (a.area, b.area)
        return ra is not None and rb is not None and ra < rb and touch

    expected = {(a.id, b.id) for a in items for b in items if direct(a, b)}
    for k in items:  # closure
        expected |= {(a, c) for a, b in expected for b2, c in expected if b == b2 == k.id}
    assert before(items) == expected


def test_the_usual_order_inside_a_phase() -> None:
    pairs = before(hall_bath())
    assert ("insulate the outside wall", "hang backer around the tub") in pairs
    assert ("hang backer around the tub", "waterproof the surround") in pairs
    assert ("tile the tub surround", "grout everything") in pairs
    assert ("hang the mirror cabinet", "set the toilet") not in pairs
    # an answer holds what it is about, not the whole phase
    assert ("which tile pattern, straight or offset", "tile the tub surround") in pairs
    assert ("mirror cabinet recessed or not", "hang the mirror cabinet") in pairs
    assert ("mirror cabinet recessed or not", "set the toilet") not in pairs
    # and waits for nobody
    assert not any(b == "which tile pattern, straight or offset" for _, b in pairs)


def test_links_go_on_top_and_contradictions_name_the_loop() -> None:
    items = hall_bath()
    assert ("set the toilet", "hang the mirror cabinet") in before(
        items, [Link("set the toilet", "hang the mirror cabinet")]
    )
    with pytest.raises(LoopFound) as caught:
        check_order(items, [Link("grout everything", "hang backer around the tub")], STANDARD_PHASES)
    assert "grout everything" in caught.value.body
    assert "hang backer around the tub" in caught.value.body
    with pytest.raises(LoopFound) as caught:
        check_order(items, [Link("set the toilet", "set the toilet")], STANDARD_PHASES)
    assert "cannot wait for itself" in caught.value.body


def test_a_link_from_a_dropped_item_is_said() -> None:
    gone = item("move the window", "demo", state=PunchState.DROPPED)
    other = item("insulate the outside wall", "backer")
    order = order_items([gone, other], [Link(gone.id, other.id)], STANDARD_PHASES)
    assert order.notices == (
        "“insulate the outside wall” was to follow “move the window”; “move the window” was dropped",
    )
    assert readiness([gone, other], [Link(gone.id, other.id)], STANDARD_PHASES, NOW)[other.id].ready


def test_waits_hold_after_the_work_is_done() -> None:
    tiled = item("tile the tub surround", "tile", state=PunchState.DONE, done_at=moment("2026-03-11T15:00"))
    grout = item("grout everything", "tile", WHOLE_ROOM)
    standing = readiness([tiled, grout], (), STANDARD_PHASES, NOW)[grout.id]
    assert not standing.ready
    assert standing.causes == ()
    assert standing.waits_until == moment("2026-03-12T15:00")
    assert readiness([tiled, grout], (), STANDARD_PHASES, moment("2026-03-12T15:00"))[grout.id].ready


def inspection(*results: HoldResult, **more: object) -> PlanItem:
    hold = Hold(HoldKind.INSPECTION, "inspector", dt.date(2026, 3, 10), results)
    made = item("rough inspection", "rough plumbing", WHOLE_ROOM, Party.INSPECTOR, hold=hold)
    return replace(made, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("look", "ready"),
    [
        (inspection(), False),  # booked for yesterday, which proves nothing
        (inspection(state=PunchState.DONE), False),  # ticked off without a result
        (inspection(FAIL), False),
        (inspection(FAIL, state=PunchState.DONE), False),
        (inspection(PASS), True),
        (inspection(FAIL, PASS), True),
        (inspection(PASS, FAIL), False),
        (inspection(state=PunchState.DROPPED), True),
    ],
)
def test_only_a_recorded_pass_releases(look: PlanItem, ready: bool) -> None:
    board = item("hang backer around the tub", "backer")
    assert readiness([look, board], (), STANDARD_PHASES, NOW)[board.id].ready is ready


def test_an_answer_or_a_delivery_is_released_by_being_done() -> None:
    for who in (Party.CLIENT, Party.SUPPLIER):
        asked = item("tile", "tile", who=who, state=PunchState.DONE)
        work = item("tile the tub surround", "tile")
        assert readiness([asked, work], (), STANDARD_PHASES, NOW)[work.id].ready


def test_a_failure_asks_for_corrections_and_another_look() -> None:
    found = after_failure(inspection(FAIL))
    assert [c.text for c in found.corrections] == [
        "correct: nail plate missing at stud 3",
        "correct: no strap at the valve",
    ]
    assert all(c.who is Party.CREW and c.phase == "rough plumbing" for c in found.corrections)
    assert found.again.text == "again: rough inspection"
    assert found.again.who is Party.INSPECTOR
    assert found.again.hold is HoldKind.INSPECTION
    assert found.again.task == "rough inspection"
    unsaid = after_failure(inspection(replace(FAIL, found=())))
    assert len(unsaid.corrections) == 1
    assert "rough inspection" in unsaid.corrections[0].text


def test_the_second_look_holds_what_the_first_one_held() -> None:
    first = inspection(FAIL, state=PunchState.DONE)
    assert first.hold is not None
    first = replace(first, hold=replace(first.hold, again="again"))
    again = item("again: rough inspection", "rough plumbing", WHOLE_ROOM, Party.INSPECTOR, id="again")
    board = item("hang backer around the tub", "backer")
    late = item("get a key cut", "other")
    links = [Link(first.id, late.id)]
    standing = readiness([first, again, board, late], links, STANDARD_PHASES, NOW)
    assert not standing[board.id].ready
    assert standing[late.id].causes == ("again",)
    assert again.hold is not None
    passed = replace(again, hold=replace(again.hold, results=(PASS,)), state=PunchState.DONE)
    standing = readiness([first, passed, board, late], links, STANDARD_PHASES, NOW)
    assert standing[board.id].ready
    assert standing[late.id].ready


CLOSING = ["hang drywall", "insulate the wall", "1/2 plywood down", "tile board up", "waterproof", "close up"]
HOLDING = ["rough inspection", "water test", "frame inspection", "flood test", "somebody looks at it"]
OTHER = ["strap the pipe", "grout", "paint", "thing", "order tile"]


@st.composite
def closing_jobs(draw: st.DrawFn) -> tuple[list[PlanItem], list[Link]]:
    areas = st.sampled_from(["tub wall", "floor", WHOLE_ROOM])
    phases = st.sampled_from([*STANDARD_PHASES, "other"])
    items: list[PlanItem] = []
    for n in range(draw(st.integers(2, 10))):
        text = draw(st.sampled_from(CLOSING + HOLDING + OTHER))
        who = Party.INSPECTOR if text in HOLDING and "test" not in text else Party.CREW
        stated = Stated(
            free=draw(st.sampled_from([None, True])),
            closes=True if text in CLOSING and draw(st.booleans()) else None,
        )
        results = tuple(draw(st.lists(st.sampled_from([PASS, FAIL]), max_size=2)))
        made = item(text, draw(phases), draw(areas), who, id=str(n), stated=stated)
        if made.hold is not None:
            made = replace(made, hold=replace(made.hold, results=results))
        state = draw(st.sampled_from([PunchState.OPEN, PunchState.OPEN, PunchState.DONE, PunchState.DROPPED]))
        items.append(replace(made, state=state, done_at=NOW - 99_999 if state is PunchState.DONE else None))
    ids = st.integers(0, len(items) - 1)
    pairs = draw(st.lists(st.tuples(ids, ids), max_size=4))
    return items, [Link(str(a), str(b)) for a, b in pairs if a != b]


@given(closing_jobs())
@settings(max_examples=300, deadline=None)
def test_nothing_is_closed_in_while_a_look_it_needs_is_open(case: tuple[list[PlanItem], list[Link]]) -> None:
    """Whatever links, freedoms and states there are.

    The rule is read off the items afresh: an inspection or test of an earlier phase whose area
    touches, not dropped and without a pass as its last result.
    """
    items, links = case
    try:
        standing = readiness(items, links, STANDARD_PHASES, NOW)
        visit = plan_visit(items, links, STANDARD_PHASES, CALENDAR, dt.date(2026, 3, 12), 8, 2)
    except LoopFound:
        return
    planned = {v.item.id for v in visit.items}
    for closer in items:
        if not closer.closes or closer.state is not PunchState.OPEN or closer.phase == "other":
            continue
        for look in items:
            if look.hold is None or look.hold.kind not in (HoldKind.INSPECTION, HoldKind.TEST):
                continue
            if look.phase == "other" or look.state is PunchState.DROPPED:
                continue
            passed = bool(look.hold.results) and look.hold.results[-1].passed
            earlier = STANDARD_PHASES.index(look.phase) < STANDARD_PHASES.index(closer.phase)
            touch = look.area == closer.area or WHOLE_ROOM in (look.area, closer.area)
            if earlier and touch and not passed:
                assert not standing[closer.id].ready, (closer, look)
                assert closer.id not in planned, (closer, look)


def test_quarter_hours_are_rounded_up() -> None:
    assert [units(h) for h in (0, 0.25, 0.1, 24, 2.01)] == [0, 1, 1, 96, 9]
