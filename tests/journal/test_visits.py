"""Logging visits: recordings kept verbatim, typed lines, the timeline."""

from __future__ import annotations

import datetime as dt
import hashlib
from pathlib import Path

import pytest

from journal_tui.domain.errors import AlreadyLogged, BadInput, CannotRead, JournalError, NothingFound
from journal_tui.domain.kinds import Kind, Party
from journal_tui.journal import jobs, punch, review, visits
from journal_tui.journal.opening import Journal
from tests.conftest import TODAY
from tests.journal.talk import write_talk


def _logged(journal: Journal, folder: Path) -> tuple[str, str]:
    job = jobs.add_job(journal, "Powder room")
    visit = visits.log_recording(journal, job.id, visits.read_and_draft(write_talk(folder)))
    return job.id, visit.id


def test_a_logged_recording_is_kept_verbatim_with_its_hash(journal: Journal, tmp_path: Path) -> None:
    _job, visit_id = _logged(journal, tmp_path)
    data = (tmp_path / "walk.vtt").read_bytes()
    kept = journal.store.rows("SELECT verbatim, sha256 FROM recordings")[0]
    assert kept["verbatim"].encode() == data
    assert kept["sha256"] == hashlib.sha256(data).hexdigest()
    assert journal.store.rows("SELECT count(*) AS n FROM cues")[0]["n"] == 5
    assert visits.get_visit(journal, visit_id).length == 31.0


def test_drafts_wait_and_nothing_is_an_entry_before_it_is_kept(journal: Journal, tmp_path: Path) -> None:
    job_id, visit_id = _logged(journal, tmp_path)
    line = visits.timeline(journal, job_id)[0]
    assert line.entries == ()
    assert line.waiting_drafts == len(review.drafts(journal, visit_id)) >= 3


def test_the_same_recording_is_noticed_and_asked_about(journal: Journal, tmp_path: Path) -> None:
    job_id, _visit = _logged(journal, tmp_path)
    again = visits.read_and_draft(write_talk(tmp_path, "renamed.vtt"))
    with pytest.raises(AlreadyLogged, match="Powder room"):
        visits.log_recording(journal, job_id, again)
    assert len(visits.timeline(journal, job_id)) == 1
    visits.log_recording(journal, job_id, again, again=True)
    assert len(visits.timeline(journal, job_id)) == 2


@pytest.mark.parametrize("day", [dt.date(1899, 5, 1), dt.date(2099, 5, 1)])
def test_a_visit_in_another_century_is_refused_and_nothing_saved(
    journal: Journal, tmp_path: Path, day: dt.date
) -> None:
    job = jobs.add_job(journal, "Powder room")
    with pytest.raises(BadInput, match=str(day.year)):
        visits.log_recording(journal, job.id, visits.read_and_draft(write_talk(tmp_path)), day=day)
    with pytest.raises(BadInput, match=str(day.year)):
        visits.note(journal, job.id, "flange is cracked", day=day)
    assert visits.timeline(journal, job.id) == []
    assert journal.store.rows("SELECT * FROM recordings") == []


def test_a_file_that_is_no_captions_saves_nothing(journal: Journal, tmp_path: Path) -> None:
    empty = tmp_path / "empty.vtt"
    empty.touch()
    with pytest.raises(CannotRead):
        visits.read_and_draft(empty)
    with pytest.raises(CannotRead):
        visits.read_and_draft(tmp_path / "missing.vtt")


def test_typed_lines_of_one_day_are_one_visit(journal: Journal) -> None:
    job = jobs.add_job(journal, "Powder room")
    visits.note(journal, job.id, "need to move the vanity drain 3 in left")
    visits.note(journal, job.id, "flange is cracked", day=TODAY)
    visits.note(journal, job.id, "flange ring is in", day=TODAY - dt.timedelta(days=1))
    lines = visits.timeline(journal, job.id)
    assert [line.visit.day for line in lines] == [TODAY, TODAY - dt.timedelta(days=1)]
    assert len(lines[0].entries) == 2


def test_a_typed_next_step_is_on_the_punch_list_without_a_form(journal: Journal) -> None:
    job = jobs.add_job(journal, "Powder room")
    (entry,) = visits.note(journal, job.id, "need to move the vanity drain 3 in left")
    assert (entry.kind, entry.phase, entry.open) == (Kind.NEXT_STEP, "rough plumbing", True)
    (group,) = punch.open_list(journal, job).phases
    (item,) = group.items
    assert (group.phase, item.who, item.since) == ("rough plumbing", Party.CREW, TODAY)


@pytest.mark.parametrize("text", ["", "   ", "\n\t"])
def test_an_empty_note_is_refused(journal: Journal, text: str) -> None:
    job = jobs.add_job(journal, "Powder room")
    with pytest.raises(BadInput, match="empty note"):
        visits.note(journal, job.id, text)


def test_the_timeline_is_paged_newest_first(journal: Journal) -> None:
    job = jobs.add_job(journal, "Powder room")
    days = [TODAY - dt.timedelta(days=n) for n in range(7)]
    for day in days:
        visits.note(journal, job.id, "flange is cracked", day=day)
    seen: list[dt.date] = []
    page = visits.timeline(journal, job.id, limit=3)
    while page:
        seen += [line.visit.day for line in page]
        page = visits.timeline(journal, job.id, limit=3, before=page[-1].visit)
    assert seen == days


def test_visits_are_found_by_day(journal: Journal) -> None:
    job = jobs.add_job(journal, "Powder room")
    with pytest.raises(NothingFound):
        visits.find_visit(journal, job.id)
    visits.note(journal, job.id, "flange is cracked", day=TODAY)
    assert visits.find_visit(journal, job.id, TODAY).day == TODAY
    with pytest.raises(NothingFound, match="2026-03-01"):
        visits.find_visit(journal, job.id, dt.date(2026, 3, 1))


def test_every_failure_is_an_error_a_person_can_act_on(journal: Journal) -> None:
    with pytest.raises(JournalError):
        visits.get_visit(journal, "nonsense")
    with pytest.raises(JournalError):
        jobs.get_job(journal, "nonsense")


def test_drafting_tells_how_far_it_is_and_can_be_stopped(tmp_path: Path) -> None:
    class Stopped(Exception):
        pass

    told: list[float] = []

    def hears(_what: str, share: float | None) -> None:
        told.append(share or 0.0)
        if stop and len(told) > 3:
            raise Stopped

    talk = "".join(f"We need to move the {n} inch shelf.\n" for n in range(2, 200))
    file = tmp_path / "long.txt"
    file.write_text(talk)
    stop = False
    visits.read_and_draft(file, told=hears)
    assert len(told) > 3 and told == sorted(told) and 0.3 < told[-1] < 1.0
    stop, told[:] = True, []
    with pytest.raises(Stopped):
        visits.read_and_draft(file, told=hears)
