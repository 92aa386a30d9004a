"""Review: keep, drop, change, join and undo, with the punch list following."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.journal import jobs, punch, review, undoing, visits
from journal_tui.journal.opening import Journal
from journal_tui.journal.review import Change, DraftState, ReviewDraft
from tests.journal.talk import drafted_by_hand


@pytest.fixture
def visit(journal: Journal, tmp_path: Path) -> str:
    job = jobs.add_job(journal, "Powder room")
    return visits.log_recording(journal, job.id, drafted_by_hand(tmp_path)).id


def _job_id(journal: Journal) -> str:
    return jobs.list_jobs(journal)[0].job.id


def _of_kind(journal: Journal, visit: str, kind: Kind) -> ReviewDraft:
    return next(d for d in review.drafts(journal, visit) if d.draft.kind is kind)


def _state(journal: Journal) -> list[tuple[object, ...]]:
    names = ("entries", "punch_items", "punch_changes", "drafts", "own_words")
    return [tuple(row) for name in names for row in journal.store.rows(f"SELECT * FROM {name} ORDER BY id")]


def test_keeping_all_makes_entries_and_a_punch_list(journal: Journal, visit: str) -> None:
    found = review.drafts(journal, visit)
    assert review.keep_rest(journal, visit) == len(found)
    assert review.keep_rest(journal, visit) == 0
    (line,) = visits.timeline(journal, _job_id(journal))
    assert [e.text for e in line.entries] == [d.draft.text for d in found]
    owed = [d for d in found if d.draft.open and d.draft.kind is not Kind.DECISION]
    assert punch.open_list(journal, jobs.list_jobs(journal)[0].job).count == len(owed) >= 2


def test_a_dropped_draft_leaves_the_journal_and_can_come_back(journal: Journal, visit: str) -> None:
    step = _of_kind(journal, visit, Kind.NEXT_STEP)
    review.keep(journal, [step.id])
    review.drop(journal, step.id)
    job = jobs.list_jobs(journal)[0].job
    assert visits.timeline(journal, job.id)[0].entries == ()
    assert punch.open_list(journal, job).count == 0
    review.keep(journal, [step.id])
    assert punch.open_list(journal, job).count == 1


def test_changing_a_kept_draft_changes_its_entry_and_item(journal: Journal, visit: str) -> None:
    step = _of_kind(journal, visit, Kind.NEXT_STEP)
    review.keep(journal, [step.id])
    review.change(
        journal,
        step.id,
        Change(
            text="Order two rings",
            phase="Trim",
            area="powder  room",
            who=Party.SUPPLIER,
            audience=Audience.CREW,
        ),
    )
    job = jobs.list_jobs(journal)[0].job
    (item,) = punch.open_list(journal, job).waiting
    assert (item.text, item.phase, item.area) == ("Order two rings", "trim", "powder room")
    (entry,) = visits.timeline(journal, job.id)[0].entries
    assert (entry.text, entry.audience, entry.who) == ("Order two rings", Audience.CREW, Party.SUPPLIER)


def test_a_next_step_turned_decision_leaves_the_list(journal: Journal, visit: str) -> None:
    step = _of_kind(journal, visit, Kind.NEXT_STEP)
    review.keep(journal, [step.id])
    job = jobs.list_jobs(journal)[0].job
    review.change(journal, step.id, Change(kind=Kind.DECISION))
    assert punch.open_list(journal, job).count == 0
    review.change(journal, step.id, Change(kind=Kind.NEXT_STEP))
    assert punch.open_list(journal, job).count == 1


def test_joining_keeps_every_word_and_the_narrower_reader(journal: Journal, visit: str) -> None:
    first, second, *_rest = review.drafts(journal, visit)
    review.change(journal, second.id, Change(audience=Audience.PRIVATE))
    joined = review.join_previous(journal, second.id)
    assert joined.id == first.id
    assert first.draft.text.rstrip(".") in joined.draft.text
    assert second.draft.text in joined.draft.text
    assert joined.draft.audience is Audience.PRIVATE
    assert joined.draft.end == max(first.draft.end, second.draft.end)
    assert second.id not in [d.id for d in review.drafts(journal, visit)]
    with pytest.raises(BadInput, match="before this one"):
        review.join_previous(journal, first.id)


def test_an_empty_text_is_refused(journal: Journal, visit: str) -> None:
    draft = review.drafts(journal, visit)[0]
    with pytest.raises(BadInput, match="empty text"):
        review.change(journal, draft.id, Change(text="  "))


def test_every_step_of_review_can_be_undone_back_to_the_start(journal: Journal, visit: str) -> None:
    start = _state(journal)
    first, second, third, *_rest = review.drafts(journal, visit)
    states = [start]
    for step in (
        lambda: review.keep(journal, [first.id]),
        lambda: review.change(journal, first.id, Change(area="hall", text="Changed")),
        lambda: review.keep(journal, [second.id]),
        lambda: review.join_previous(journal, second.id),
        lambda: review.drop(journal, third.id),
        lambda: review.keep_rest(journal, visit),
        lambda: review.drop(journal, first.id),
    ):
        step()
        states.append(_state(journal))
    for before in reversed(states[:-1]):
        undoing.undo(journal, _job_id(journal))
        assert _state(journal) == before


def test_undo_goes_back_to_before_the_visit_and_then_says_so(journal: Journal, visit: str) -> None:
    job_id = _job_id(journal)
    assert undoing.undo(journal, job_id).startswith("log the visit")
    assert visits.timeline(journal, job_id) == []
    with pytest.raises(NothingFound, match="nothing to undo"):
        undoing.undo(journal, job_id)


def test_what_was_said_stands_beside_the_draft(journal: Journal, visit: str) -> None:
    draft = next(d for d in review.drafts(journal, visit) if "flange" in d.draft.text.lower())
    said = review.said_around(journal, draft)
    marked = [line for line in said if line.marked]
    assert marked
    assert any("flange" in line.text for line in marked)
    assert all(line.start < draft.draft.end and line.end > draft.draft.start for line in marked)
    assert len(review.said_around(journal, draft, seconds=0.0)) < len(review.said_around(journal, draft))


def test_a_corrected_area_is_learned_used_and_can_be_forgotten(
    journal: Journal, visit: str, tmp_path: Path
) -> None:
    job_id = _job_id(journal)
    draft = next(d for d in review.drafts(journal, visit) if "flange" in d.draft.heard.lower())
    review.change(journal, draft.id, Change(area="north powder room"))
    ((word_id, word),) = review.own_words(journal, job_id)
    assert word.area == "north powder room"
    (entry, *_more) = visits.note(journal, job_id, f"the {word.phrase} is leaking")
    assert entry.area == "north powder room"
    review.forget_word(journal, job_id, word_id)
    assert review.own_words(journal, job_id) == []
    (entry, *_more) = visits.note(journal, job_id, f"the {word.phrase} is leaking again")
    assert entry.area != "north powder room"


def test_states_are_told(journal: Journal, visit: str) -> None:
    first, second, *_rest = review.drafts(journal, visit)
    review.keep(journal, [first.id])
    review.drop(journal, second.id)
    states = [d.state for d in review.drafts(journal, visit)]
    assert states[:3] == [DraftState.KEPT, DraftState.DROPPED, DraftState.WAITING]
