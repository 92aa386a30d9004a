"""The punch list on screen: every key and its undo, rows that stay where they are, adding."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from textual.pilot import Pilot

from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchState
from journal_tui.journal import changes, punch
from journal_tui.journal.change_answers import send_order
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.review import drafts, keep_rest
from journal_tui.journal.typed import recall
from journal_tui.screens.course import Course
from journal_tui.screens.line_list import LineList
from journal_tui.screens.punch import PunchScreen
from journal_tui.screens.review import ReviewScreen
from journal_tui.store import queries
from tests.screens.seeing import lines_of, seen_on, typed
from tests.screens.showing import NASTY, front, shown, text_of
from tests.screens.walks import walked_job


@pytest.fixture
def job(journal: Journal) -> Job:
    """A job whose walk of thirty drafts was kept: eighteen items are open."""
    job, visit = walked_job(journal)
    keep_rest(journal, visit.id)
    return job


def _row_of_cursor(pilot: Pilot[Any]) -> tuple[str, int]:
    lines = pilot.app.screen.query_one(LineList)
    assert lines.selected is not None
    at = next(y for y, line in enumerate(lines_of(pilot.app)) if line.startswith("▸"))  # type: ignore[arg-type]
    return lines.selected.key, at


async def test_phases_in_order_and_what_waits_set_apart(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id), (80, 60)) as (pilot, _screen):
        text = seen_on(pilot)
        heads = [line.split("  ")[0].strip() for line in text.split("\n") if " open ─" in line]
        assert heads == [
            "demo",
            "rough plumbing",
            "subfloor",
            "backer",
            "trim",
            "other",
            "waiting on others",
        ]
        waiting = text.split("waiting on others")[-1]
        for party in ("client", "inspector", "supplier"):
            assert party in waiting
        assert waiting.count("since 11 Mar") == 4
        assert "11 Mar 0:21" in text
        assert "18 open, 4 with others" in text_of(pilot)
        assert "private · Lockbox by the side gate" in text


async def test_all_of_an_item_is_told_below(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, _screen):
        await pilot.press("end")
        text = text_of(pilot)
        assert "Order the floor tile, one lot, 12 percent over." in text
        assert "waits on the supplier since yesterday" in text
        assert "said Wed 11 Mar at 3:30" in text
        await pilot.press("home", "down", "down")
        assert "hazard: structure" in text_of(pilot)


@pytest.mark.parametrize(
    ("key", "state", "word"),
    [("d", PunchState.DONE, "done 12 Mar"), ("x", PunchState.DROPPED, "dropped 12 Mar")],
)
async def test_a_closed_row_stays_where_it_is_and_undo_opens_it(
    journal: Journal, job: Job, key: str, state: PunchState, word: str
) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("down", "down")
        before = _row_of_cursor(pilot)
        item = screen.here
        assert item is not None
        await pilot.press(key)
        assert _row_of_cursor(pilot) == before
        assert punch.get_item(journal, item.id).state is state
        assert punch.get_item(journal, item.id).closed == dt.date(2026, 3, 12)
        assert word in lines_of(pilot.app)[before[1]]  # type: ignore[arg-type]
        assert "17 open" in text_of(pilot)
        await pilot.press("z")
        assert punch.get_item(journal, item.id) == item
        assert _row_of_cursor(pilot) == before
        assert "18 open" in text_of(pilot)


async def test_a_closed_item_reopens_with_its_age(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        item = screen.here
        assert item is not None
        await pilot.press("d", "d")
        assert "It is done already" in text_of(pilot)
        await pilot.press("o")
        again = punch.get_item(journal, item.id)
        assert (again.state, again.since, again.closed) == (PunchState.OPEN, item.since, None)


async def test_handing_on_keeps_the_row_and_changes_entry_and_draft(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("down")
        before = _row_of_cursor(pilot)
        item = screen.here
        assert item is not None
        await pilot.press("w", "w")
        assert _row_of_cursor(pilot) == before
        assert punch.get_item(journal, item.id).who is Party.INSPECTOR
        entry = queries.entry(journal.store, item.entry_id or "")
        assert entry is not None
        assert entry.who is Party.INSPECTOR
        draft = next(d for d in drafts(journal, entry.visit_id) if d.entry_id == entry.id)
        assert draft.draft.who is Party.INSPECTOR
        assert "now: inspector" in text_of(pilot)
        await pilot.press("z", "z")
        assert punch.get_item(journal, item.id) == item
        assert queries.entry(journal.store, item.entry_id or "") == entry.__class__(
            **{f: getattr(entry, f) for f in entry.__dataclass_fields__ if f != "who"}, who=Party.CREW
        )


async def test_entered_again_the_list_is_laid_out_anew(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, _screen):
        await pilot.press("d", "down", "w", "escape")
        pilot.app.push_screen(PunchScreen(job.id))
        await pilot.pause()
        text = text_of(pilot)
        assert "done 12 Mar" not in text
        assert "17 open, 5 with others" in text


async def test_the_row_stays_when_another_copy_adds_above_it(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("down", "down", "down")
        here = screen.here
        other = journal.another()
        punch.add(other, job.id, "haul the rubble", phase="demo")
        other.close()
        await pilot.press("d")
        assert screen.here is not None
        assert here is not None
        assert screen.here.id == here.id
        assert "haul the rubble" in text_of(pilot)


async def test_done_and_dropped_have_a_list_of_their_own(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("d", "down", "x", "c")
        text = text_of(pilot)
        assert "done and dropped" in text
        assert "done 12 Mar" in text
        assert "dropped 12 Mar" in text
        assert len([r for r in screen.lines.rows if r.selectable]) == 2
        await pilot.press("o")
        assert "open again" in text_of(pilot)
        await pilot.press("c")
        assert "17 open" in text_of(pilot)


async def test_walking_the_course_shows_one_phase(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("right", "right", "right")
        assert screen.query_one(Course).chosen == "subfloor"
        rows = [row for row in screen.lines.rows if row.selectable]
        assert len(rows) == 3
        assert "subfloor 3 open" in text_of(pilot)
        await pilot.press("left", "left", "left")
        assert len([row for row in screen.lines.rows if row.selectable]) == 18


async def test_words_narrow_the_list(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("slash")
        await typed(pilot, "tub wall fur")
        assert len(screen.lines.rows) == 1
        await pilot.press("enter", "d")
        done = [i for i in punch.closed_items(journal, job) if i.state is PunchState.DONE]
        assert [i.text for i in done] == ["Fur out the tub wall before the board goes up."]
        await pilot.press("escape")
        assert len([row for row in screen.lines.rows if row.selectable]) == 18


async def test_enter_goes_to_the_words_it_came_from(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        item = screen.here
        assert item is not None
        await pilot.press("enter")
        review = front(pilot, ReviewScreen)
        assert review.here is not None
        assert review.here.entry_id == item.entry_id
        await pilot.press("escape")
        front(pilot, PunchScreen)


async def test_a_typed_item_says_that_nothing_was_said(journal: Journal) -> None:
    job = add_job(journal, "Elm Row 3")
    punch.add(journal, job.id, "strap the new supply")
    async with shown(journal, PunchScreen(job.id)) as (pilot, _screen):
        await pilot.press("enter")
        assert "nothing was said of this" in text_of(pilot)
        assert "typed 12 Mar" in text_of(pilot)


async def test_adding_shows_what_it_becomes_and_goes_on(journal: Journal) -> None:
    job = add_job(journal, "Elm Row 3")
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        assert "Nothing is open" in text_of(pilot)
        assert "+ types something onto the list" in text_of(pilot)
        await pilot.press("plus")
        await typed(pilot, "strap supply")
        read = punch.preview(journal, job, "strap supply")
        assert read is not None
        assert f"{read.phase}, {read.area} · for the crew" in text_of(pilot)
        await pilot.press("enter")
        await typed(pilot, "cut door")
        await pilot.press("enter", "escape")
        items = [i for g in punch.open_list(journal, job).phases for i in g.items]
        assert {i.text for i in items} == {"strap supply", "cut door"}
        assert {(i.phase, i.area) for i in items if i.text == read.text} == {(read.phase, read.area)}
        assert screen.here is not None
        assert screen.here.text == "cut door"
        await pilot.press("z")
        assert punch.open_list(journal, job).count == 1
        await pilot.press("z")
        assert "Nothing is open" in text_of(pilot)


async def test_what_is_half_typed_is_there_next_time(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("plus")
        await typed(pilot, "strap su")
        await pilot.press("escape")
        assert "What you typed is kept in the line" in text_of(pilot)
        assert screen.japp.autosave.flush()
        assert recall(journal, f"punch/{job.id}") == "strap su"
        await pilot.press("escape")
        pilot.app.push_screen(PunchScreen(job.id))
        await pilot.pause()
        await pilot.press("plus", "p", "enter")
        assert any(i.text == "strap sup" for g in punch.open_list(journal, job).phases for i in g.items)


async def test_an_empty_line_is_refused_in_words(journal: Journal, job: Job) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, _screen):
        await pilot.press("plus", "enter")
        assert "an empty punch item" in text_of(pilot)


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_what_matters_is_on_the_screen_at_every_size(
    journal: Journal, job: Job, size: tuple[int, int]
) -> None:
    async with shown(journal, PunchScreen(job.id), size) as (pilot, _screen):
        lines = lines_of(pilot.app)  # type: ignore[arg-type]
        text = text_of(pilot)
        assert all(len(line) == size[0] for line in lines)
        assert len(lines) == size[1]
        assert "Hang plastic at the door" in text
        assert "demo 1 open" in text
        assert "F1 help" in text
        await pilot.press("plus")
        await typed(pilot, "wax ring")
        assert "wax ring" in lines_of(pilot.app)[-3]  # type: ignore[arg-type]


async def test_text_from_people_is_shown_literally(journal: Journal) -> None:
    job = add_job(journal, "[/b] lane [red]")
    for nasty in NASTY:
        punch.add(journal, job.id, nasty, area=nasty, phase="tile")
    async with shown(journal, PunchScreen(job.id), (120, 40)) as (pilot, _screen):
        text = seen_on(pilot)
        assert "\x1b" not in text
        assert "\u202e" not in text
        for nasty in NASTY:
            if nasty.isascii() and nasty.isprintable():
                assert nasty in text
        await pilot.press("d", "down", "x", "down", "w", "c", "c", "plus")
        for character in "[/] [@click=x]y[/]":
            await typed(pilot, character)
        await pilot.press("enter")
        assert "[/] [@click=x]y[/]" in seen_on(pilot)


async def test_a_thousand_items_draw_only_what_is_seen(journal: Journal) -> None:
    job = add_job(journal, "Long Lane 1")
    with journal.store.write("many", job.id) as w:
        w.insert_all(
            "punch_items",
            (
                {
                    "job_id": job.id,
                    "entry_id": None,
                    "kind": "next_step",
                    "phase": job.phases[n % 6],
                    "area": f"area {n % 9}",
                    "text": f"item {n}",
                    "who": "crew",
                    "hazards": "[]",
                    "audience": "client",
                    "state": "open",
                    "since": "2026-03-01",
                    "closed": None,
                }
                for n in range(1000)
            ),
        )
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("d", "pagedown", "d", "end", "d")
        assert "997 open" in text_of(pilot)
        assert len(screen.query("*")) < 20


@pytest.mark.parametrize("begins", ["plus", "slash"])
async def test_letters_right_behind_the_key_that_opens_a_line_close_nothing(
    journal: Journal, job: Job, begins: str
) -> None:
    from textual import events

    async with shown(journal, PunchScreen(job.id)) as (pilot, _screen):
        for key in (begins, "d", "x", "w"):
            pilot.app.post_message(events.Key(key, {"plus": "+", "slash": "/"}.get(key, key)))
        await pilot.pause(0.3)
        assert punch.closed_items(journal, job) == []
        assert len(punch.open_list(journal, job).waiting) == 4
        await pilot.press("escape")
        if begins == "plus":
            await pilot.press("escape")


async def test_a_journal_that_cannot_be_written_is_told_and_the_line_is_kept(
    journal: Journal, job: Job
) -> None:
    async with shown(journal, PunchScreen(job.id)) as (pilot, screen):
        await pilot.press("plus")
        await typed(pilot, "wax ring")
        journal.store.conn.execute("PRAGMA query_only = ON")
        await pilot.press("enter")
        assert "cannot write to" in text_of(pilot)
        assert "wax ring" in text_of(pilot)
        await pilot.press("escape", "d")
        assert "cannot write to" in text_of(pilot)
        journal.store.conn.execute("PRAGMA query_only = OFF")
        await pilot.press("plus", "enter")
        assert screen.here is not None
        assert screen.here.text == "wax ring"


@pytest.mark.parametrize("width", [80, 44])
async def test_work_on_hold_for_a_change_order_says_so(journal: Journal, width: int) -> None:
    job = add_job(journal, "Elm Row 3")
    item = punch.add(journal, job.id, "strap the supply")
    order = changes.draft_order(journal, job.id, "New supply")
    changes.change_words(journal, order.id, offer="new pipe", days=1)
    changes.hold(journal, order.id, item.id)
    send_order(journal, order.id)
    async with shown(journal, PunchScreen(job.id), (width, 30)) as (pilot, _screen):
        text = text_of(pilot)
        assert "hold: change 1" in text
        assert width < 60 or "1 on hold" in text
        assert "on hold for the client's answer to change order 1" in text
