"""Search finds entries and what was said, and nothing typed acts as syntax."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal_tui.journal import jobs, review, typed, visits
from journal_tui.journal.opening import Journal
from journal_tui.journal.searching import search
from tests.journal.talk import write_talk


def test_entries_and_words_said_are_found_by_word_beginnings(journal: Journal, tmp_path: Path) -> None:
    job = jobs.add_job(journal, "Powder room")
    other = jobs.add_job(journal, "Laundry")
    visit = visits.log_recording(journal, job.id, visits.read_and_draft(write_talk(tmp_path)))
    review.keep_rest(journal, visit.id)
    visits.note(journal, other.id, "washer box flange is loose")
    found = search(journal, "flang")
    assert {hit.job_name for hit in found} == {"Powder room", "Laundry"}
    assert [hit for hit in found if hit.kind is None and hit.start is not None]
    assert {hit.job_id for hit in search(journal, "flange", job_id=other.id)} == {other.id}
    assert search(journal, "flange giraffe") == []


def test_search_follows_changes_and_undo(journal: Journal) -> None:
    job = jobs.add_job(journal, "Powder room")
    (entry,) = visits.note(journal, job.id, "the closet flange is cracked")
    with journal.store.write("change") as w:
        w.change("entries", entry.id, text="the wax ring is gone")
    assert search(journal, "cracked") == []
    assert len(search(journal, "wax")) == 1


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(st.characters(exclude_categories=())))
def test_any_text_may_be_searched_for(journal: Journal, text: str) -> None:
    assert search(journal, text) == []


@pytest.mark.parametrize("text", ['"', "a OR b*", "NEAR(x y)", "-flange", "text:x", "(", "'"])
def test_query_syntax_is_only_words(journal: Journal, text: str) -> None:
    assert search(journal, text) == []


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.text(), st.text(min_size=1))
def test_unfinished_text_comes_back(journal: Journal, place: str, text: str) -> None:
    typed.remember(journal, place, text)
    assert typed.recall(journal, place) == text.replace("\x00", "\ufffd")
    typed.remember(journal, place, "")
    assert typed.recall(journal, place) == ""
