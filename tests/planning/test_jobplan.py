"""A job's plan: dates, reasons in words, what moved, bad input, and reading it as a carpenter would."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given, settings

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES, WHOLE_ROOM, Party
from journal_tui.domain.punch import PunchState
from journal_tui.planning.calendar import NoWorkingDay, WorkCalendar, from_minutes
from journal_tui.planning.chart import chart
from journal_tui.planning.compare import kept, what_moved
from journal_tui.planning.explain import driving_chain, why_not_sooner
from journal_tui.planning.ics import calendar_file
from journal_tui.planning.items import Hold, HoldKind, HoldResult, Link, Means, PlanItem, Stated, Sub
from journal_tui.planning.jobplan import JobPlan, plan_job
from journal_tui.planning.network import LoopFound
from journal_tui.planning.rows import plan_rows
from tests.planning.making import CALENDAR, NOW, hall_bath, item, moment
from tests.planning.test_precedence import closing_jobs


def plan(
    items: list[PlanItem], links: list[Link] | None = None, now: int = NOW, means: Means | None = None
) -> JobPlan:
    return plan_job(items, links or [], STANDARD_PHASES, means, CALENDAR, now)


def start(made: JobPlan, words: str) -> str:
    row = made.row(words)
    assert row is not None
    return from_minutes(row.row.start, CALENDAR.tz).strftime("%a %d %b %H:%M")


def with_hold(
    items: list[PlanItem], words: str, booked: dt.date | None, *results: HoldResult
) -> list[PlanItem]:
    return [
        replace(i, hold=Hold(i.hold.kind, i.hold.who, booked, results)) if i.text == words and i.hold else i
        for i in items
    ]


def test_the_plan_of_the_hall_bath() -> None:
    made = plan(hall_bath())
    assert len(made.rows) == len(hall_bath())
    assert start(made, "strap the new supply, nail plates at four studs") == "Thu 12 Mar 08:00"
    for first, later in (
        ("rough inspection", "hang backer around the tub"),
        ("waterproof the surround", "tile the tub surround"),
        ("tile the tub surround", "grout everything"),
    ):
        a, b = made.row(first), made.row(later)
        assert a is not None
        assert b is not None
        assert a.clear <= b.row.start
    assert made.end == max(r.clear for r in made.rows)
    assert any("electrician" in n for n in made.notices)
    assert any("rough inspection" in n and "assumed" in n for n in made.notices)


def test_a_booked_day_is_counted_on_until_it_is_over() -> None:
    booked = with_hold(hall_bath(), "rough inspection", dt.date(2026, 3, 18))
    made = plan(booked)
    row, after = made.row("rough inspection"), made.row("insulate the outside wall")
    assert row is not None
    assert after is not None
    assert after.row.early_start == moment("2026-03-19T08:00")
    assert after.row.start >= after.row.early_start
    assert not row.assumed
    late = plan(booked, now=moment("2026-03-19T17:00"))
    assert any("booked for Wed 18 Mar; no result is recorded" in n for n in late.notices)


def test_a_wait_that_still_runs_is_kept() -> None:
    """Tiled on Friday at 15:00: grout on Saturday's clock, so Monday morning; 72 h: Monday 15:00."""
    tiled = item("tile the tub surround", "tile", state=PunchState.DONE, done_at=moment("2026-03-06T15:00"))
    grout = item("grout everything", "tile", WHOLE_ROOM)
    assert start(plan([tiled, grout], now=moment("2026-03-06T16:00")), grout.id) == "Mon 09 Mar 08:00"
    slow = item(
        "tile the tub surround",
        "tile",
        state=PunchState.DONE,
        done_at=moment("2026-03-06T15:00"),
        stated=Stated(wait_hours=72),
    )
    # 72 h by the clock from Friday 15:00, over the change of clocks on the 8th: Monday 16:00
    assert start(plan([slow, grout], now=moment("2026-03-06T16:00")), grout.id) == "Tue 10 Mar 08:00"


def test_a_test_that_was_made_holds_until_its_result_is_written_down() -> None:
    made_test = item("water test before board", "rough plumbing", state=PunchState.DONE, done_at=NOW - 600)
    board = item("hang backer around the tub", "backer")
    made = plan([made_test, board])
    row = made.row(board.id)
    assert row is not None
    assert not row.ready.ready
    assert row.ready.causes == (made_test.id,)


def test_subs_and_their_days() -> None:
    means = Means(subs=(Sub("electrician", weekdays=frozenset({4})),))
    made = plan(hall_bath(), means=means)
    assert start(made, "wire the vanity light") == "Fri 13 Mar 08:00"
    assert not any("electrician" in n for n in made.notices)
    assert "next day of the electrician" in why_not_sooner(made, "wire the vanity light")


def test_why_not_sooner_is_one_sentence_that_names_the_chain() -> None:
    made = plan(hall_bath())
    for row in made.rows:
        said = why_not_sooner(made, row.item.id)
        assert said.endswith(".")
        assert "\n" not in said
        assert row.item.name in said
    said = why_not_sooner(made, "grout everything")
    assert "“tile the tub surround”" in said
    assert "24 h by the clock (label)" in said
    chain = driving_chain(made, "grout everything")
    assert chain[0] == "grout everything"
    assert chain[-1] in said
    finishes = [made.schedule.rows[i].finish for i in chain]
    assert finishes == sorted(finishes, reverse=True)
    assert "inspection, assumed" in why_not_sooner(made, "insulate the outside wall")
    assert "not open" in why_not_sooner(made, "nothing of the kind")


def test_people_who_are_busy_are_named() -> None:
    two = [item("paint the ceiling", "trim", "ceiling"), item("paint the wall", "trim", "wall")]
    made = plan(two)
    said = why_not_sooner(made, made.rows[1].item.id)
    assert "waits for people, who are busy until" in said
    assert made.rows[0].item.name in said


def test_a_full_room_and_a_busy_sub_are_named() -> None:
    two = [item("towel bar up", "trim", "wall"), item("set the toilet", "trim", "floor")]
    made = plan(two, means=Means(crew=2, room=1))
    later = made.rows[1].item
    assert "waits for space, for the room is full until" in why_not_sooner(made, later.id)
    two = [item("wire the light", "rough plumbing", a, id=a) for a in ("wall", "floor")]
    made = plan(two)
    assert "waits for the electrician, who is busy until" in why_not_sooner(made, made.rows[1].item.id)


def test_a_long_chain_is_told_by_its_beginning() -> None:
    for count, long in ((5, False), (6, True)):
        items = [item(f"thing {n}", "other", id=str(n)) for n in range(count)]
        links = [Link(str(n), str(n + 1)) for n in range(count - 1)]
        made = plan(items, links)
        said = why_not_sooner(made, str(count - 1))
        assert driving_chain(made, str(count - 1)) == [str(n) for n in reversed(range(count))]
        assert ("and so on, back to “thing 0”" in said) is long
        assert all(f"“thing {n}”" in said for n in range(count - 5, count))


def test_what_moved_since_the_last_plan() -> None:
    first = plan(hall_bath())
    before = kept(first)
    assert what_moved(before, first).moves == ()
    slipped = with_hold(hall_bath(), "rough inspection", dt.date(2026, 3, 20))
    fewer = [i for i in slipped if i.text != "set the toilet"]
    more = [*fewer, item("towel bar up", "trim", "vanity")]
    moved = what_moved(before, plan(more))
    assert {p.text for p in moved.gone} == {"set the toilet"}
    assert {p.text for p in moved.new} == {"towel bar up"}
    by = {m.text: m for m in moved.moves}
    board = by["hang backer around the tub"]
    # assumed for Monday 14:00, now Friday 16:00: insulation one hour, then board
    assert board.days > 3
    assert moved.end_days > 2
    assert moved.moves[0].days == max(m.days for m in moved.moves)
    back = what_moved(kept(plan(more)), plan(with_hold(more, "rough inspection", dt.date(2026, 3, 13))))
    assert back.end_days < 0


def test_bad_input_is_said_in_the_items_words() -> None:
    heavy = item("carry the cast-iron tub in", "subfloor", stated=Stated(people=4))
    with pytest.raises(BadInput) as caught:
        plan([heavy])
    assert "carry the cast-iron tub in" in caught.value.title
    with pytest.raises(LoopFound):
        plan(hall_bath(), [Link("grout everything", "hang backer around the tub")])
    with pytest.raises(NoWorkingDay):
        off = {dt.date(2026, 3, 1) + dt.timedelta(days=n): "" for n in range(900)}
        plan_job(hall_bath(), calendar=WorkCalendar(days_off=off), now=NOW)


def test_a_loop_of_fifty_links() -> None:
    items = [item(f"thing {n}", "other", id=str(n)) for n in range(50)]
    links = [Link(str(n), str((n + 1) % 50)) for n in range(50)]
    with pytest.raises(LoopFound) as caught:
        plan(items, links)
    assert len(caught.value.loop) == 50
    assert "42 more" in caught.value.body


def test_nothing_open_is_an_empty_plan() -> None:
    made = plan([])
    assert made.rows == ()
    assert made.end == NOW
    assert why_not_sooner(made, "x")


def test_only_asked_things() -> None:
    made = plan([item("which mirror", "trim", who=Party.CLIENT), item("tub", "trim", who=Party.SUPPLIER)])
    assert [r.item.hold.kind for r in made.rows if r.item.hold] == [HoldKind.DECISION, HoldKind.DELIVERY]
    assert all(r.is_hold and r.assumed for r in made.rows)


@given(closing_jobs())
@settings(max_examples=100, deadline=None)
def test_whatever_is_open_a_plan_or_a_reason_comes_out(
    case: tuple[list[PlanItem], list[Link]],
) -> None:
    items, links = case
    try:
        made = plan(items, links)
    except LoopFound as loop:
        assert len(loop.loop) >= 1
        return
    open_ids = {i.id for i in items if i.state is PunchState.OPEN}
    assert open_ids <= {r.item.id for r in made.rows}
    for row in made.rows:
        assert NOW <= row.row.start <= row.row.finish <= row.clear <= made.end
        assert row.item.id in made.schedule.rows
        assert why_not_sooner(made, row.item.id).startswith("“")
    chart(made, 80)
    assert calendar_file(made, "x", "j", dt.datetime(2026, 3, 11, tzinfo=dt.UTC)).endswith(
        "END:VCALENDAR\r\n"
    )
    assert len(plan_rows(made)) == len(made.rows)
    for first in made.rows:  # what is planned keeps to what is ready
        for i in first.ready.causes:
            assert i in {r.item.id for r in made.rows}
