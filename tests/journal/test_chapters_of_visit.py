"""Chapters follow what became of an entry after the visit."""

from __future__ import annotations

from pathlib import Path

from journal_tui.journal import jobs, punch, review, visits
from journal_tui.journal.chapters import visit_chapters
from journal_tui.journal.opening import Journal
from tests.journal.talk import drafted_by_hand


def test_what_was_decided_against_since_is_not_next(journal: Journal, tmp_path: Path) -> None:
    job = jobs.add_job(journal, "Powder room")
    visit = visits.log_recording(journal, job.id, drafted_by_hand(tmp_path))
    review.keep_rest(journal, visit.id)
    before = visit_chapters(journal, job)
    assert "Order the repair ring" in before.description
    item = next(i for g in punch.open_list(journal, job).phases for i in g.items if "Order" in i.text)
    punch.drop(journal, item.id)
    after = visit_chapters(journal, job)
    assert "Order the repair ring" not in after.description + after.webvtt
    assert "flange is cracked" in after.description
    assert after.left_out == before.left_out == 0
