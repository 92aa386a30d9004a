"""The update while it is typed, set aside, left unsettled, frozen into a folder."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.journal import formats, updates
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.punch import add
from journal_tui.journal.review import Change, change, drafts, keep_rest
from journal_tui.journal.typed import remember
from tests.screens.walks import walked_job


@pytest.fixture
def journal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Journal:
    """An empty journal and a home of the test's own."""
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "home"))
    return open_journal(tmp_path / "journal.db", lambda: dt.date(2026, 3, 12))


@pytest.fixture
def job(journal: Journal) -> Job:
    """A job with something to tell."""
    job = add_job(journal, "Elm Row 3")
    add(journal, job.id, "strap the new supply")
    return job


def test_what_is_typed_counts_as_the_writers_version(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    typed = f"Good evening.\n\n{draft.markdown}"
    remember(journal, updates.typing_place(job.id), updates.typing_text(draft.made, typed))
    assert updates.client_update(journal, job.id).markdown == typed
    add(journal, job.id, "undercut the door")
    later = updates.client_update(journal, job.id).markdown
    assert later.startswith("Good evening.")
    assert "ndercut the door" in later
    updates.send(journal, job.id, later)
    assert not updates.client_update(journal, job.id).edited


def test_saving_an_edit_ends_the_typing(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    for text in ("one\n", "two\n", "two\n"):
        remember(journal, updates.typing_place(job.id), updates.typing_text(draft.made, "half"))
        updates.save_edit(journal, job.id, draft.made, text)
        assert updates.client_update(journal, job.id).markdown == text


def test_a_discarded_edit_stays_in_the_history(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    remember(journal, updates.typing_place(job.id), updates.typing_text(draft.made, "my own words\n"))
    updates.discard_edit(journal, job.id)
    assert updates.client_update(journal, job.id).markdown == draft.made
    kept = journal.store.rows(
        "SELECT before FROM history WHERE table_name = 'working_documents' AND op = 'delete'"
    )
    assert any("my own words" in row["before"] for row in kept)


def test_a_text_with_two_wordings_is_counted_and_not_sent(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    both = f"{draft.made}\n[[ your wording ]]\n\na\n\n[[ what the journal says now ]]\n\nb\n"
    updates.save_edit(journal, job.id, draft.made, both)
    assert updates.client_update(journal, job.id).conflicts == 1
    with pytest.raises(BadInput, match="two wordings"):
        updates.send(journal, job.id, both)
    assert updates.sent_updates(journal, job.id) == []


def test_what_the_client_may_not_read_is_counted_once(journal: Journal) -> None:
    job, visit = walked_job(journal)
    keep_rest(journal, visit.id)
    assert updates.client_update(journal, job.id).left_out == 1
    change(journal, drafts(journal, visit.id)[0].id, Change(audience=Audience.CREW))
    add(journal, job.id, "garage code is 5512")
    draft = updates.client_update(journal, job.id)
    assert draft.left_out == 3
    assert "5512" not in draft.markdown
    assert "4471" not in draft.markdown


def test_a_sent_update_goes_to_a_folder_that_is_remembered(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    folder = tmp_path / "letters"
    sent, files = formats.send_to_folder(journal, updates.client_update(journal, job.id), folder)
    assert {".md", ".html", ".txt"} <= {file.suffix for file in files}
    written = next(file for file in files if file.suffix == ".md")
    assert written.read_text(encoding="utf-8") == sent.markdown
    assert formats.usual_folder(journal) == folder
    assert formats.write_sent(journal, sent, folder) == files, "the same text again is the same file"


def test_a_folder_that_cannot_be_used_freezes_nothing(journal: Journal, job: Job, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("x")
    with pytest.raises(BadInput, match="not a folder"):
        formats.send_to_folder(journal, updates.client_update(journal, job.id), tmp_path / "taken")
    with pytest.raises(BadInput, match="cannot be a folder"):
        formats.send_to_folder(journal, updates.client_update(journal, job.id), Path("a\0b"))
    assert updates.sent_updates(journal, job.id) == []
