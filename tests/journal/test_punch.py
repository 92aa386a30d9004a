"""Closing, dropping, reopening, adding and finding punch items."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.punch import PunchState
from journal_tui.journal import jobs, punch, undoing
from journal_tui.journal.opening import Journal
from journal_tui.store import queries
from tests.conftest import TODAY


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room")


def test_an_added_item_keeps_its_words_and_gets_the_rest_from_them(journal: Journal, job: Job) -> None:
    item = punch.add(journal, job.id, "strap the new supply at the tub")
    assert (item.text, item.kind, item.phase, item.who) == (
        "strap the new supply at the tub",
        Kind.NEXT_STEP,
        "rough plumbing",
        Party.CREW,
    )
    said = punch.add(journal, job.id, "mirror", phase="Trim", area="vanity", who=Party.CLIENT)
    assert (said.phase, said.area, said.who) == ("trim", "vanity", Party.CLIENT)


def test_a_reopened_item_keeps_since_when_and_its_whole_history(journal: Journal, job: Job) -> None:
    old = TODAY - dt.timedelta(days=9)
    item = punch.add(journal, job.id, "set the flange ring", day=old)
    punch.finish(journal, item.id, day=TODAY - dt.timedelta(days=2), note="ring on")
    reopened = punch.reopen(journal, item.id, note="it rocks")
    assert (reopened.state, reopened.since, reopened.closed) == (PunchState.OPEN, old, None)
    told = [(r["state"], r["note"]) for r in queries.item_changes(journal.store, item.id)]
    assert told == [("open", ""), ("done", "ring on"), ("open", "it rocks")]


def test_closing_twice_changes_nothing(journal: Journal, job: Job) -> None:
    item = punch.add(journal, job.id, "set the flange ring")
    first = punch.finish(journal, item.id, day=TODAY - dt.timedelta(days=1))
    assert punch.finish(journal, item.id) == first
    assert len(queries.item_changes(journal.store, item.id)) == 2


def test_items_are_found_by_handle_or_words(journal: Journal, job: Job) -> None:
    ring = punch.add(journal, job.id, "set the flange ring")
    light = punch.add(journal, job.id, "hang the vanity light")
    opened = (PunchState.OPEN,)
    assert punch.find_item(journal, job, punch.handle(ring), states=opened) == ring
    assert punch.find_item(journal, job, "VANITY light", states=opened) == light
    with pytest.raises(BadInput, match="fits 2 items"):
        punch.find_item(journal, job, "the", states=opened)
    with pytest.raises(NothingFound):
        punch.find_item(journal, job, "ring", states=(PunchState.DONE,))
    with pytest.raises(NothingFound):
        punch.find_item(journal, job, "", states=opened)


def test_done_and_dropped_are_told_apart_and_undone(journal: Journal, job: Job) -> None:
    ring, light = (punch.add(journal, job.id, text) for text in ("set the ring", "hang the light"))
    punch.finish(journal, ring.id)
    punch.drop(journal, light.id)
    assert {i.text: i.state for i in punch.closed_items(journal, job)} == {
        "set the ring": PunchState.DONE,
        "hang the light": PunchState.DROPPED,
    }
    assert undoing.undo(journal, job.id) == "drop a punch item"
    assert [i.text for g in punch.open_list(journal, job).phases for i in g.items] == ["hang the light"]


@pytest.mark.parametrize("text", ["", " "])
def test_an_empty_item_is_refused(journal: Journal, job: Job, text: str) -> None:
    with pytest.raises(BadInput, match="empty punch item"):
        punch.add(journal, job.id, text)
