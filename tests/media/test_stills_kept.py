"""Stills beside the journal: by hash, all or nothing, with their visit, and for whom they are."""

from __future__ import annotations

import hashlib
import os
import resource
import signal
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from journal_tui.domain.draft import Draft
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.journal import review, stills
from journal_tui.journal.hearing import Listening, draft_file
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal, backup, open_journal
from journal_tui.journal.recordings import log_file
from journal_tui.journal.undoing import undo
from journal_tui.journal.visits import Told, log_recording, timeline
from journal_tui.journal.writing import CannotWrite, put_file
from tests.media.making import make, pictures, silence

CUES = [
    (0.5, 2.5, "The toilet flange is rusted through."),
    (3.0, 4.5, "We need to replace the flange before the subfloor."),
    (9.0, 11.0, "We decided on the white hex tile for the floor."),
]


@pytest.fixture(scope="module")
def walk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make(
        tmp_path_factory.mktemp("walk") / "walk.mp4", frames=pictures(120), sound=silence(12), cues=CUES
    )


def by_hand(start: float, end: float, text: str) -> Draft:
    """A draft of what was said, whatever the drafter would make of it."""
    return Draft(
        start, end, Kind.OBSERVATION, "demo", "toilet", text, False, None, (), "by hand", text, (), (), ()
    )


def log(
    journal: Journal, job: Job, path: Path, told: Told | None = None, again: bool = False, cues: int = 3
) -> Visit:
    drafting = draft_file(path, None, Listening(journal, job, again=again))
    drafting = replace(drafting, drafts=tuple(by_hand(*cue) for cue in CUES[:cues]))
    return log_recording(journal, job.id, drafting, told=told, again=again)


def files(journal: Journal) -> list[Path]:
    return sorted(p for p in stills.folder_of(journal).rglob("*") if p.is_file())


class Stopped(Exception):
    pass


def test_every_draft_has_its_still_by_hash(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    visit = log(journal, job, walk)
    assert stills.count(journal, visit.id) == 3
    assert stills.folder_of(journal) == journal.path.parent / "journal.stills"
    for path in files(journal):
        assert path.stem == hashlib.sha256(path.read_bytes()).hexdigest()
        assert path.parent.name == path.stem[:2]
    for draft in review.drafts(journal, visit.id):
        still = stills.still_of_draft(journal, draft.id)
        assert still is not None
        assert still.path in files(journal)
        assert draft.draft.start - 1.0 <= still.moment <= draft.draft.start + 3.0


def test_the_same_recording_again_leaves_the_same_files(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    log(journal, job, walk)
    before = files(journal)
    log(journal, job, walk, again=True)
    assert files(journal) == before


def test_undo_takes_the_stills_out_and_strays_are_cleared_a_day_later(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    visit = log(journal, job, walk)
    kept = files(journal)
    undo(journal, job.id)
    assert stills.count(journal, visit.id) == 0
    for path in kept:
        os.utime(path, (time.time() - 90_000,) * 2)
    other = make(walk.parent / "other.mp4", frames=pictures(200)[150:], cues=CUES[:1])
    log(journal, job, other, cues=1)
    assert not set(kept) & set(files(journal))
    assert len(files(journal)) == 1


def test_stopping_leaves_no_file_and_no_visit(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")

    def stop(what: str, _share: float | None) -> None:
        if "draft 3 of 3" in what:
            assert files(journal)
            raise Stopped

    with pytest.raises(Stopped):
        log(journal, job, walk, told=stop)
    assert not stills.folder_of(journal).exists()
    assert timeline(journal, job.id) == []


def test_a_full_disk_leaves_no_file_and_no_visit(tmp_path: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    random = np.random.default_rng(5)
    busy = [Image.fromarray(random.integers(0, 256, (720, 1280, 3)).astype(np.uint8)) for _ in range(2)]
    path = make(tmp_path / "walk.mp4", frames=busy * 20, cues=CUES[:2])
    before = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    # POSIX setrlimit: past this size a write fails as on a full disk; it is not to come to the journal's own.
    resource.setrlimit(resource.RLIMIT_FSIZE, (100_000, limits[1]))
    try:
        with pytest.raises(CannotWrite, match=r"the disk holding .* is full"):
            log(journal, job, path, cues=2)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        signal.signal(signal.SIGXFSZ, before)
    assert not stills.folder_of(journal).exists()
    assert timeline(journal, job.id) == []
    log(journal, job, path, cues=2)
    assert len(files(journal)) >= 1, "with room again it goes through"


def test_stills_without_pillow_are_said_to_be_missing(
    walk: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = add_job(journal, name="Hall bath")
    monkeypatch.setattr("journal_tui.walkthrough.media.needs.installed", lambda *names: "PIL" not in names)
    logged = log_file(journal, job.id, walk)
    assert 'no stills are taken: pip install "journal-tui[video]" brings it' in logged.notices
    assert stills.count(journal, logged.visit.id) == 0


def test_the_client_sees_stills_of_what_he_may_read(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    visit = log(journal, job, walk)
    drafts = review.drafts(journal, visit.id)
    hashes = {d.id: s.sha256 for d in drafts if (s := stills.still_of_draft(journal, d.id))}
    text = "\n".join(stills.link_of(sha256) for sha256 in hashes.values())
    assert stills.pictures_for_client(journal, job.id, text) == {}, "nothing is kept yet"
    review.keep_rest(journal, visit.id)
    review.change(journal, drafts[0].id, review.Change(audience=Audience.PRIVATE))
    review.change(journal, drafts[1].id, review.Change(audience=Audience.CREW))
    allowed = stills.pictures_for_client(journal, job.id, text)
    assert list(allowed) == [stills.link_of(hashes[drafts[2].id])]
    other = add_job(journal, name="Other house")
    assert stills.pictures_for_client(journal, other.id, text) == {}


def test_a_changed_file_is_not_shown(walk: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    visit = log(journal, job, walk)
    review.keep_rest(journal, visit.id)
    path = files(journal)[0]
    path.write_bytes(b"something else")
    text = stills.link_of(path.stem)
    assert stills.pictures_for_client(journal, job.id, text) == {}
    log(journal, job, walk, again=True)
    assert hashlib.sha256(path.read_bytes()).hexdigest() == path.stem, "logging it again mends it"


def test_a_backup_takes_the_stills_with_it(walk: Path, journal: Journal, tmp_path: Path) -> None:
    job = add_job(journal, name="Hall bath")
    visit = log(journal, job, walk)
    kept = open_journal(backup(journal, tmp_path / "out" / "kept.db"))
    names = [path.name for path in files(journal)]
    assert [path.name for path in files(kept)] == names
    for draft in review.drafts(kept, visit.id):
        still = stills.still_of_draft(kept, draft.id)
        assert still is not None
        assert still.path.is_relative_to(tmp_path / "out" / "kept.stills")
    kept.close()


def test_a_backup_whose_stills_have_no_room_is_not_made(
    walk: Path, journal: Journal, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = add_job(journal, name="Hall bath")
    log(journal, job, walk)
    written: list[str] = []

    def full(folder: Path, name: str, data: bytes) -> Path:
        if written:
            raise CannotWrite("the disk is full")
        written.append(name)
        return put_file(folder, name, data)

    monkeypatch.setattr(stills, "put_file", full)
    with pytest.raises(CannotWrite):
        backup(journal, tmp_path / "out" / "kept.db")
    assert list((tmp_path / "out").iterdir()) == []
