"""A tour: invented jobs taken into a journal by the real readers and drafter."""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from operator import itemgetter
from pathlib import Path
from typing import Any

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Hazard, Kind, Party
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.entries import change_entry
from journal_tui.journal.job_measures import keep_measure
from journal_tui.journal.jobs import add_job, list_jobs
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import find_item, finish, open_list
from journal_tui.journal.review import Change, ReviewDraft, change, drop, keep_rest
from journal_tui.journal.review import drafts as review_drafts
from journal_tui.journal.touring_papers import Step, agree, paper_steps
from journal_tui.journal.updates import client_update, send_draft
from journal_tui.journal.visits import get_visit, job_words, log_recording, note, read_and_draft

_LIST = "jobs.toml"
_OF_JOB = ("name", "client", "address", "scope", "year_built", "private_note", "phases")


@dataclass(frozen=True, slots=True)
class TouredVisit:
    """A visit as the tour logged it: what was drafted and dropped, and which items it found done."""

    visit: Visit
    drafts: tuple[Draft, ...]
    dropped: tuple[str, ...]
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
    own = {key: facts[key] for key in _OF_JOB if key in facts}
    if "phases" in own:
        own["phases"] = tuple(own["phases"])
    job = add_job(journal, **own)
    for m in facts.get("measure", ()):
        keep_measure(journal, job.id, m["form"], m["name"], m["values"], by=m["by"], day=m["day"] + moved)
    if "contract" in facts:
        agree(journal, job, facts["contract"], moved)
    visits: list[TouredVisit] = []

    def seen(visit: dict[str, Any]) -> Callable[[Journal], None]:
        return lambda then: visits.append(_visit(then, job, folder, visit, moved))

    def told(then: Journal) -> None:
        send_draft(then, client_update(then, job.id))

    steps: list[Step] = [(visit["day"] + moved, seen(visit)) for visit in facts["visit"]]
    steps += paper_steps(job, facts, folder, moved)
    steps += [(day + moved, told) for day in facts.get("told", ())]
    # What was seen on a day comes before what was written of it; sorting keeps their order.
    for day, step in sorted(steps, key=itemgetter(0)):
        step(Journal(journal.store, partial(_same, day)))
    return TouredJob(job, tuple(visits))


def _same(day: dt.date) -> dt.date:
    return day


def _visit(
    journal: Journal, job: Job, folder: Path, facts: dict[str, Any], moved: dt.timedelta
) -> TouredVisit:
    day = journal.today()
    found = (_finished(journal, job, words, day) for words in facts.get("done", ()))
    done = tuple(text for text in found if text)
    if "done_before" in facts:
        done += _all_finished(journal, job, facts["done_before"] + moved, day)
    people: str = facts.get("people", "")
    drafts: tuple[Draft, ...] = ()
    dropped: tuple[str, ...] = ()
    missed: list[dict[str, Any]] = []
    visit: Visit | None = None
    if "file" in facts:
        drafting = read_and_draft(folder / facts["file"], job_words(journal, job))
        drafts = drafting.drafts
        visit = log_recording(
            journal, job.id, drafting, day=day, people=people, summary=facts.get("summary", "")
        )
        dropped, missed = _reviewed(journal, visit, facts)
    notes = tuple(facts.get("notes", ()))
    for line in notes:
        typed = note(journal, job.id, line, day=day, people=people)
        visit = visit or get_visit(journal, typed[0].visit_id)
        for entry in typed:
            for fix in facts.get("fix", ()):
                if folded(fix["draft"]) in folded(entry.text):
                    change_entry(journal, entry.id, _change(fix))
    for fix in missed:
        # What drafting made nothing of, its finder types.
        if "text" in fix and not any(folded(fix["draft"]) in folded(line) for line in notes):
            for entry in note(journal, job.id, fix["text"], day=day, people=people)[:1]:
                change_entry(journal, entry.id, _change(fix))
    if visit is None:
        raise BadInput(f"the visit of {day.isoformat()} says nothing", "Give it a file, or notes.")
    return TouredVisit(visit, drafts, dropped, notes, done)


def _reviewed(
    journal: Journal, visit: Visit, facts: dict[str, Any]
) -> tuple[tuple[str, ...], list[dict[str, Any]]]:
    """Set drafts right, drop some and keep the rest, as their reviewer did.

    Return those dropped, and what should be set right and was not drafted.
    """
    dropped: dict[str, ReviewDraft] = {}
    right: set[str] = set()
    missed = []
    for fix in facts.get("fix", ()):
        # Of two drafts of one thing the reviewer sets the first right and drops the other.
        found = [d for d in _drafts_with(journal, visit, fix["draft"]) if d.id not in right]
        dropped |= {draft.id: draft for draft in found[1:]}
        for draft in found[:1]:
            right.add(draft.id)
            change(journal, draft.id, _change(fix))
        missed += [] if found else [fix]
    for words in facts.get("drop", ()):
        dropped |= {d.id: d for d in _drafts_with(journal, visit, words) if d.id not in right}
    for draft in dropped.values():
        if draft.id not in right:
            drop(journal, draft.id)
    for fix in list(missed):
        # Drafting may have worded it anew: then it is the draft that was heard in these words.
        left = [d for d in review_drafts(journal, visit.id) if d.id not in right | dropped.keys()]
        heard = [d for d in left if folded(fix["draft"]) in folded(d.draft.heard)]
        for draft in heard[:1]:
            right.add(draft.id)
            missed.remove(fix)
            change(journal, draft.id, _change(fix))
    keep_rest(journal, visit.id)
    return tuple(draft.draft.text for draft in dropped.values()), missed


def _change(fix: dict[str, Any]) -> Change:
    values = {key: value for key, value in fix.items() if key != "draft"}
    if "kind" in values:
        values["kind"] = Kind(values["kind"])
    if "who" in values:
        values["who"] = Party(values["who"])
    if "hazards" in values:
        values["hazards"] = tuple(Hazard(hazard) for hazard in values["hazards"])
    return Change(**values)


def _drafts_with(journal: Journal, visit: Visit, words: str) -> list[ReviewDraft]:
    """Return the drafts whose text is ``words``, else those whose text holds them."""
    held = [d for d in review_drafts(journal, visit.id) if folded(words) in folded(d.draft.text)]
    return [d for d in held if folded(words) == folded(d.draft.text)] or held


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
