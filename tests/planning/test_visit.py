"""The next visit: what fits, in what order, what to load, and why the rest is not on it."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES, WHOLE_ROOM, Party
from journal_tui.domain.punch import PunchState
from journal_tui.planning.items import HoldResult, Link, Means, PlanItem, Stated
from journal_tui.planning.visit import VisitList, Wish, by_reason, plan_visit
from tests.planning.making import CALENDAR, hall_bath, item, moment

THURSDAY = dt.date(2026, 3, 12)
PASS = HoldResult(dt.date(2026, 3, 11), "inspector", True)


def visit(
    items: list[PlanItem],
    hours: float = 8,
    people: int = 2,
    day: dt.date = THURSDAY,
    links: list[Link] | None = None,
    year: int | None = 1974,
    wish: Wish | None = None,
) -> VisitList:
    return plan_visit(items, links or [], STANDARD_PHASES, CALENDAR, day, hours, people, Means(), year, wish)


def names(found: VisitList) -> list[str]:
    return [v.item.text for v in found.items]


def passed(items: list[PlanItem]) -> list[PlanItem]:
    """Return the items with every hold of rough plumbing passed and its work done."""
    result = []
    for i in items:
        if i.phase == "rough plumbing":
            i = replace(i, state=PunchState.DONE, done_at=moment("2026-03-11T12:00"))
            if i.hold is not None:
                i = replace(i, hold=replace(i.hold, results=(PASS,)))
        result.append(i)
    return result


def test_before_the_inspection_only_rough_work() -> None:
    found = visit(hall_bath())
    assert names(found) == [
        "strap the new supply, nail plates at four studs",
        "water test before any board goes up",
    ]
    whys = {n.item.text: n for n in found.not_yet}
    board = whys["hang backer around the tub"]
    assert "result of “water test" in board.why
    assert board.since == dt.date(2026, 3, 6)
    assert whys["which tile pattern, straight or offset"].whose is Party.CLIENT
    assert "electrician" in whys["wire the vanity light"].why
    assert [q.text for q in found.questions] == [
        "mirror cabinet recessed or not",
        "which tile pattern, straight or offset",
    ]
    assert "nail plates" in found.needs.load
    assert any("finished wall" in c for c in found.needs.cautions)
    assert any("tub wall" in p for p in found.needs.photos)


def test_after_it_the_visit_runs_through_phases_in_order() -> None:
    found = visit(passed(hall_bath()))
    assert names(found) == [
        "two soft planks out",
        "1/2 plywood down across the planks",
        "insulate the outside wall",
        "hang backer around the tub",
    ]
    by = {v.item.text: v for v in found.items}
    planks, plywood = by["two soft planks out"], by["1/2 plywood down across the planks"]
    assert planks.finish <= plywood.start  # precedence inside the visit
    assert by["insulate the outside wall"].finish <= by["hang backer around the tub"].start
    # two at the floor until 12:30, one at the insulation until 14:30: the board is begun, not done
    assert by["hang backer around the tub"].left_hours == 3
    (proof,) = [n for n in found.not_yet if n.item.text == "waterproof the surround"]
    assert proof.why == "waits for the rest of “hang backer around the tub”"
    assert found.used <= found.offered == 16
    assert any("Lead: built 1974" in c for c in found.needs.cautions)


def test_a_wait_that_ends_during_the_visit_lets_the_next_item_in() -> None:
    tiled = item("tile the tub surround", "tile", state=PunchState.DONE, done_at=moment("2026-03-11T12:00"))
    grout = item("grout everything", "tile", WHOLE_ROOM)
    found = visit([tiled, grout])
    assert names(found) == ["grout everything"]
    assert found.items[0].start == moment("2026-03-12T12:00")
    short = visit([tiled, grout], hours=4)
    assert names(short) == []
    assert "until Thu 12 Mar 12:00" in short.not_yet[0].why


def test_a_wait_of_the_visits_own_work_holds_what_follows() -> None:
    work = [
        item("tile the tub surround", "tile", stated=Stated(crew_hours=2)),
        item("grout everything", "tile"),
    ]
    found = visit(work)
    assert names(found) == ["tile the tub surround"]
    assert "until Fri 13 Mar 09:00" in found.not_yet[0].why


def test_a_long_item_is_begun_but_not_one_that_must_go_in_one_go() -> None:
    long = item("tile the tub surround", "tile", stated=Stated(crew_hours=40))
    found = visit([long])
    assert found.items[0].left_hours == 24
    assert found.used == 16
    grout = item("grout everything", "tile", stated=Stated(crew_hours=40))
    assert names(visit([grout])) == []
    alone = item("set the toilet", "trim", stated=Stated(people=2))
    assert "needs 2 people, there are 1" in visit([alone], people=1).not_yet[0].why


def test_what_the_remodeler_moves() -> None:
    two = [item("towel bar up", "trim"), item("set the toilet", "trim")]
    assert names(visit(two)) == ["set the toilet", "towel bar up"]  # by age and id
    assert names(visit(two, wish=Wish(first=("towel bar up",)))) == ["towel bar up", "set the toilet"]
    left = visit(two, wish=Wish(leave_out=frozenset({"set the toilet"})))
    assert names(left) == ["towel bar up"]
    assert left.not_yet[0].why == "left out of this visit"


def test_the_rest_is_told_once_for_each_reason() -> None:
    groups = by_reason(visit(hall_bath()).not_yet)
    assert sum(len(items) for _, items in groups) == len(visit(hall_bath()).not_yet)
    assert len(groups) < len(visit(hall_bath()).not_yet)


def test_the_year_of_the_house() -> None:
    """Target housing: built before 1978 (73 FR 21692); flooring up to 1980 (29 CFR 1926.1101)."""
    rip = [item("tear out the wall", "demo")]
    said = {year: " ".join(visit(rip, year=year).needs.cautions) for year in (1977, 1978, 1980, 1981, None)}
    assert "Lead:" in said[1977]
    assert "Lead:" not in said[1978]
    assert "Asbestos: built 1978" in said[1978]
    assert "Asbestos: built 1980" in said[1980]
    assert "built 1981" not in said[1981]
    assert "Year built unknown" in said[None]
    assert "Lead:" not in " ".join(visit([item("set the toilet", "trim")], year=1930).needs.cautions)
    assert not any("safe" in text.lower() for text in said.values())


def test_a_day_off_is_said_and_bad_numbers_are_refused() -> None:
    assert any("Sunday" in n for n in visit(hall_bath(), day=dt.date(2026, 3, 15)).notices)
    for hours, people in ((0, 2), (-1, 2), (25, 2), (float("nan"), 2), (8, 0), (8, 99)):
        with pytest.raises(BadInput):
            visit(hall_bath(), hours=hours, people=people)


@given(
    st.lists(st.sampled_from(hall_bath()), unique_by=lambda i: i.id), st.integers(1, 40), st.integers(1, 3)
)
@settings(max_examples=80, deadline=None)
def test_every_visit_keeps_to_hours_people_and_room(
    items: list[PlanItem], quarters: int, people: int
) -> None:
    found = visit(items, quarters / 4, people)
    for at in range(found.begins, found.ends, 15):
        busy = [v for v in found.items if v.start <= at < v.finish]
        assert sum(v.item.people for v in busy) <= people
        assert sum(v.item.people for v in busy if not v.item.office) <= 3
    assert all(found.begins <= v.start < v.finish <= found.ends for v in found.items)
    listed = [v.item.id for v in found.items] + [n.item.id for n in found.not_yet]
    assert sorted(listed) == sorted(i.id for i in items)
    ranks = [STANDARD_PHASES.index(v.item.phase) for v in found.items]
    assert ranks == sorted(ranks)


def test_covering_with_no_inspection_on_the_list_is_asked_about() -> None:
    board = item("hang backer", "backer")
    assert any("no rough inspection is on the list" in n for n in visit([board]).notices)
    done = passed([item("rough inspection", "rough plumbing", WHOLE_ROOM, Party.INSPECTOR), board])
    assert names(visit(done)) == ["hang backer"]
    assert visit(done).notices == ()
