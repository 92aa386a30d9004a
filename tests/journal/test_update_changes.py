"""An update looked over: what is not told, words to think of, single differences settled and put back."""

from __future__ import annotations

import re

import pytest

from journal_tui.documents.headings import told_once
from journal_tui.domain.document import Length
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.journal import jobs, punch, review, update_changes, updates, visits
from journal_tui.journal.opening import Journal
from journal_tui.journal.update_changes import Side
from tests.screens.walks import walked_job


@pytest.fixture
def job(journal: Journal) -> Job:
    """A job with one thing found."""
    job = jobs.add_job(journal, "Elm Row 3", client="Ada Lindqvist")
    visits.note(journal, job.id, "floor: two planks are soft")
    return job


def test_what_the_client_is_not_told_is_named(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "tub: the plate is crooked; some idiot hung it")
    found = update_changes.check(updates.client_update(journal, job.id))
    assert [(one.area, one.words) for one in found.untold] == [("tub", "some idiot hung it")]
    assert not found.remarks and not found.summed_up
    assert [title for title, _some in update_changes.parts(found)] == [
        "Left out, though the client may read it"
    ]


def test_what_is_private_is_not_among_what_is_left_out(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "lockbox code is 4471, some idiot wrote it on the door")
    draft = updates.client_update(journal, job.id)
    assert draft.left_out == 1 and not draft.unsaid


def test_of_a_long_walk_the_standard_update_is_read_in_three_minutes(journal: Journal) -> None:
    job, visit = walked_job(journal, 500)
    review.keep_rest(journal, visit.id)
    draft = updates.client_update(journal, job.id)
    read = updates.reading(draft.markdown)
    assert 200 <= read.words <= 700 and read.plain
    found = update_changes.check(draft)
    full = updates.client_update(journal, job.id, length=Length.FULL)
    assert updates.reading(full.markdown).words > 700
    assert found.summed_up and not update_changes.check(full).summed_up
    # All that waits for the client is asked for at both lengths.
    asked = [re.findall(r"^\d+\. \*\*", text, re.MULTILINE) for text in (full.markdown, draft.markdown)]
    assert asked[0] == asked[1] and len(asked[0]) == len(told_once(draft.facts.needed)) > 0


def test_a_difference_is_settled_and_put_back(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    mine = draft.markdown.replace("planks", "boards")
    updates.save_edit(journal, job.id, draft.made, mine)
    punch.add(journal, job.id, "strap the supply")
    draft = updates.client_update(journal, job.id)
    found = update_changes.changes(journal, job.id, draft, Length.STANDARD)
    assert [change.what for change in found] == ["you changed this", "the journal added this"]
    before = update_changes.settle(journal, job.id, 1, Side.JOURNAL, seen=found[0])
    assert "wo planks are soft" in updates.client_update(journal, job.id).markdown
    update_changes.put_back(journal, job.id, before)
    assert updates.client_update(journal, job.id).markdown == draft.markdown
    update_changes.settle(journal, job.id, 2, Side.YOURS)
    text = updates.client_update(journal, job.id).markdown
    assert "supply" not in text and "wo boards are soft" in text


def test_no_such_difference_and_another_one_are_refused(journal: Journal, job: Job) -> None:
    with pytest.raises(NothingFound):
        update_changes.settle(journal, job.id, 1, Side.JOURNAL)
    draft = updates.client_update(journal, job.id)
    updates.save_edit(journal, job.id, draft.made, draft.markdown.replace("planks", "boards"))
    (seen,) = update_changes.changes(journal, job.id, draft, Length.STANDARD)
    updates.save_edit(journal, job.id, draft.made, draft.markdown.replace("planks", "slats"))
    with pytest.raises(BadInput, match="meanwhile"):
        update_changes.settle(journal, job.id, 1, Side.JOURNAL, seen=seen)
    assert "slats" in updates.client_update(journal, job.id).markdown


def test_a_text_far_too_long_is_shown_in_part(journal: Journal, job: Job) -> None:
    text = "# A\n\n" + "\n\n".join(f"Paragraph {n}." for n in range(60_000))
    assert len(text) > 3 * updates.MOST_SHOWN
    part = updates.shown_part(text)
    assert text.startswith(part) and len(part) <= updates.MOST_SHOWN and part.endswith(".")
    *_, last = updates.page(text)
    assert "The page is cut here" in last.runs[0].text
    assert updates.shown_part("x" * 500_000) == "x" * updates.MOST_SHOWN
    assert 0 < updates.reading(text).words < 60_000
