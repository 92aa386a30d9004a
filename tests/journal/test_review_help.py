"""What a review is helped by: its sum, areas to pick from, why a thing is private, who has the move."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from journal_tui.domain.errors import NothingFound
from journal_tui.domain.kinds import Audience, Party
from journal_tui.journal import punch, review
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.review import Change
from journal_tui.journal.undoing import undo
from journal_tui.store import queries
from tests.screens.walks import walked_job


@pytest.fixture
def journal(tmp_path: Path) -> Journal:
    """An empty journal."""
    return open_journal(tmp_path / "journal.db", lambda: dt.date(2026, 3, 12))


def test_the_sum_counts_what_became_of_each_draft(journal: Journal) -> None:
    job, visit = walked_job(journal)
    found = review.drafts(journal, visit.id)
    review.drop(journal, found[4].id)
    review.join_previous(journal, found[9].id)
    review.keep_rest(journal, visit.id)
    summed = review.summary(journal, visit.id)
    assert (summed.kept, summed.dropped, summed.joined, summed.waiting) == (28, 1, 1, 0)
    assert summed.not_for_client == 1
    assert sum(count for _party, count in summed.open_by_party) == punch.open_list(journal, job).count


def test_areas_are_offered_once_the_most_used_first(journal: Journal) -> None:
    _job, visit = walked_job(journal)
    found = review.drafts(journal, visit.id)
    review.keep(journal, [d.id for d in found if d.draft.area == "vanity"])
    review.change(journal, found[0].id, Change(area="Tub  Wall"))
    offered = review.area_choices(journal, visit.id)
    assert offered[0] == "vanity"
    folded = [area.casefold() for area in offered]
    assert len(folded) == len(set(folded))
    assert "whole room" in folded
    assert folded.count("tub wall") == 1


def test_a_private_draft_has_a_reason(journal: Journal) -> None:
    _job, visit = walked_job(journal)
    found = review.drafts(journal, visit.id)
    assert review.reader_reason(found[28].draft) == "holds a code or a password"
    assert review.reader_reason(found[0].draft) == ""
    changed = review.change(journal, found[0].id, Change(audience=Audience.CREW))
    assert review.reader_reason(changed.draft) == "you said so"


def test_handing_an_item_on_is_said_everywhere_and_undone_at_once(journal: Journal) -> None:
    job, visit = walked_job(journal)
    review.keep_rest(journal, visit.id)
    item = punch.open_list(journal, job).phases[0].items[0]
    assert punch.hand_to(journal, item.id, Party.CREW) == item, "it is the crew's already"
    moved = punch.hand_to(journal, item.id, Party.INSPECTOR)
    assert moved.waits_elsewhere
    assert moved in punch.open_list(journal, job).waiting
    entry = queries.entry(journal.store, item.entry_id or "")
    assert entry is not None
    assert entry.who is Party.INSPECTOR
    draft = review.draft_of_entry(journal, entry.id)
    assert draft is not None
    assert draft.draft.who is Party.INSPECTOR
    assert undo(journal, job.id) == "hand a punch item to the inspector"
    assert punch.get_item(journal, item.id) == item


def test_a_typed_item_is_previewed_as_it_would_be_added(journal: Journal) -> None:
    job, _visit = walked_job(journal)
    assert punch.preview(journal, job, "  ") is None
    shown = punch.preview(journal, job, "undercut the door once the tile is down")
    assert shown is not None
    before = punch.open_list(journal, job).count
    item = punch.add(journal, job.id, "undercut the door once the tile is down")
    assert (item.phase, item.area, item.text, item.who) == (shown.phase, shown.area, shown.text, shown.who)
    assert punch.open_list(journal, job).count == before + 1
    assert review.draft_of_entry(journal, "no such entry") is None


def test_undo_can_leave_the_visit_alone(journal: Journal) -> None:
    job, visit = walked_job(journal)
    review.keep(journal, [review.drafts(journal, visit.id)[0].id])
    assert undo(journal, job.id, keep_ground=True) == "keep a draft"
    with pytest.raises(NothingFound, match="nothing more to undo here"):
        undo(journal, job.id, keep_ground=True)
    assert len(review.drafts(journal, visit.id)) == 30
    assert undo(journal, job.id).startswith("log the visit")
