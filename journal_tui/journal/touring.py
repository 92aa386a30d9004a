"""A tour: invented jobs taken into a journal by the real readers and drafter."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import one_line
from journal_tui.journal.job_measures import keep_measure
from journal_tui.journal.jobs import add_job, list_jobs
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import find_item, finish, open_list
from journal_tui.journal.review import keep_rest
from journal_tui.journal.visits import get_visit, job_words, log_recording, note, read_and_draft

_LIST = "jobs.toml"


@dataclass(frozen=True, slots=True)
class TouredVisit:
    """A visit as the tour logged it: what was drafted and kept, and which items it found done."""

    visit: Visit
    drafts: tuple[Draft, ...]
    notes: tuple[str, ...]
    done: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TouredJob:
    """A job of the tour with its visits, oldest first."""

    job: Job
    visits: tuple[TouredVisit, ...] = field(default=())


def demo_folder() -> Path:
    """Return where the invented jobs are: in the installed package, or beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "demo_data", package.parent / "demo_data"):
        if (folder / _LIST).is_file():
            return folder
    raise BadInput(
        "the invented jobs are missing", f"{package / 'demo_data'} is not there; install journal_tui again."
    )


def take_tour(journal: Journal, folder: Path | None = None) -> list[TouredJob]:
    """Take the invented jobs of ``folder`` into an empty journal and return what became of them.

    Their dates are moved by whole weeks so that the newest visit is within the last seven days.
    Raises ``BadInput`` when the journal holds jobs: invented ones never mix with real ones.
    """
    if list_jobs(journal):
        raise BadInput(
            f"{one_line(str(journal.path))} holds jobs already",
            "The tour's jobs are invented; give it a new file, or leave out --journal.",
        )
    folder = folder or demo_folder()
    jobs = tomllib.loads((folder / _LIST).read_text(encoding="utf-8"))["job"]
    newest = max(visit["day"] for job in jobs for visit in job["visit"])
    moved = dt.timedelta(weeks=(journal.today() - newest).days // 7)
    return [_tour_job(journal, folder, facts, moved) for facts in jobs]


def _tour_job(journal: Journal, folder: Path, facts: dict[str, Any], moved: dt.timedelta) -> TouredJob:
    visits = facts.pop("visit")
    if "phases" in facts:
        facts["phases"] = tuple(facts["phases"])
    measures = facts.pop("measure", ())
    job = add_job(journal, facts.pop("name"), **facts)
    for m in measures:
        keep_measure(journal, job.id, m["form"], m["name"], m["values"], by=m["by"], day=m["day"] + moved)
    return TouredJob(job, tuple(_visits(journal, job, folder, visits, moved)))


def _visits(
    journal: Journal, job: Job, folder: Path, visits: Iterable[dict[str, Any]], moved: dt.timedelta
) -> Iterator[TouredVisit]:
    for facts in visits:
        day = facts["day"] + moved
        found = (_finished(journal, job, words, day) for words in facts.get("done", ()))
        done = tuple(text for text in found if text)
        if "done_before" in facts:
            done += _all_finished(journal, job, facts["done_before"] + moved, day)
        people: str = facts.get("people", "")
        drafts: tuple[Draft, ...] = ()
        visit: Visit | None = None
        if "file" in facts:
            drafting = read_and_draft(folder / facts["file"], job_words(journal, job))
            drafts = drafting.drafts
            visit = log_recording(
                journal, job.id, drafting, day=day, people=people, summary=facts.get("summary", "")
            )
            keep_rest(journal, visit.id)
        notes = tuple(facts.get("notes", ()))
        for line in notes:
            typed = note(journal, job.id, line, day=day, people=people)
            visit = visit or get_visit(journal, typed[0].visit_id)
        if visit:
            yield TouredVisit(visit, drafts, notes, done)


def _all_finished(journal: Journal, job: Job, before: dt.date, day: dt.date) -> tuple[str, ...]:
    owed = [item for group in open_list(journal, job).phases for item in group.items]
    old = [item for item in owed if item.since < before]
    return tuple(finish(journal, item.id, day=day).text for item in old)


def _finished(journal: Journal, job: Job, words: str, day: dt.date) -> str | None:
    try:
        item = find_item(journal, job, words, states=(PunchState.OPEN,))
    except (BadInput, NothingFound):
        # Drafting may have made no item of those words, or two; the tour shows what it did make.
        return None
    return finish(journal, item.id, day=day).text
