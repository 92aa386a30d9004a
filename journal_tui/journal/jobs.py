"""Jobs: beginning one, finding one by what a person types, and changing it."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import dataclass

from journal_tui.domain.errors import BadInput, NothingFound, about
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import OTHER_PHASE, STANDARD_PHASES
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.store import queries, rows

_TEXT_FIELDS = ("name", "client", "address", "scope", "private_note")
_EARLIEST_HOUSE = 1600


@dataclass(frozen=True, slots=True)
class JobLine:
    """A job as the list of jobs shows it."""

    job: Job
    open_items: int
    waiting_drafts: int
    last_day: dt.date | None


def list_jobs(journal: Journal) -> list[JobLine]:
    """Return every job, the one visited last first."""
    return [
        JobLine(
            rows.job(row),
            row["open_items"],
            row["waiting_drafts"],
            dt.date.fromisoformat(row["last_day"]) if row["last_day"] else None,
        )
        for row in queries.jobs(journal.store)
    ]


def get_job(journal: Journal, job_id: str) -> Job:
    """Return the job with this id. Raises ``NothingFound``."""
    found = queries.job(journal.store, job_id)
    if found is None:
        raise NothingFound("no such job", "It may have been taken out by undo, here or in another copy.")
    return found


def find_job(journal: Journal, words: str) -> Job:
    """Return the one job that ``words`` names: its id, its whole name, or words of its name or address.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    jobs = [line.job for line in list_jobs(journal)]
    if not jobs:
        raise NothingFound("there are no jobs yet", 'Begin one with: journal-tui job add "Hall bath"')
    wanted = folded(words)
    for exact in (
        [job for job in jobs if job.id == words],
        [job for job in jobs if folded(job.name) == wanted],
        [job for job in jobs if wanted and _all_in(wanted, f"{job.name} {job.address} {job.client}")],
    ):
        if len(exact) == 1:
            return exact[0]
        if exact:
            names = "; ".join(one_line(job.name) for job in exact[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(exact)} jobs', f"Say more: {names}.")
    names = "; ".join(one_line(job.name) for job in jobs[:8])
    raise NothingFound(f'no job is called "{one_line(words)}"', f"There are: {names}.")


def _all_in(words: str, text: str) -> bool:
    return all(word in folded(text) for word in words.split())


def phase_named(job: Job, text: str) -> str:
    """Return the phase of a job that ``text`` names, whole or by the beginning of it.

    Raises ``BadInput`` listing the job's phases when it names none or several.
    """
    names = dict.fromkeys((*job.phases, OTHER_PHASE))
    wanted = folded(text)
    found = [name for name in names if folded(name) == wanted] or [
        name for name in names if wanted and folded(name).startswith(wanted)
    ]
    if len(found) != 1:
        listed = ", ".join(one_line(name) for name in names)
        raise BadInput(f'"{one_line(text)[:40]}" is no phase of this job', f"It has: {listed}.")
    return found[0]


def add_job(
    journal: Journal,
    name: str,
    *,
    client: str = "",
    address: str = "",
    scope: str = "",
    year_built: int | None = None,
    private_note: str = "",
    phases: tuple[str, ...] = STANDARD_PHASES,
) -> Job:
    """Begin a job and return it. Raises ``BadInput`` for an empty or taken name or an odd year."""
    _check_name(journal, name, None)
    _check_year(journal, year_built)
    for what, text in (
        ("the client", client),
        ("the address", address),
        ("the scope", scope),
        ("the private note", private_note),
    ):
        measured(text, what)
    with journal.store.write(f"begin the job {name.strip()}") as w:
        job_id = w.insert(
            "jobs",
            {
                "name": name.strip(),
                "client": client.strip(),
                "address": address.strip(),
                "scope": scope.strip(),
                "year_built": year_built,
                "phases": _phases_text(phases),
                "private_note": private_note,
            },
        )
    return get_job(journal, job_id)


def change_job(journal: Journal, job_id: str, **changes: object) -> Job:
    """Change fields of a job (name, client, address, scope, year_built, private_note, phases)."""
    job = get_job(journal, job_id)
    values: dict[str, object] = {}
    for key, value in changes.items():
        if key == "phases":
            assert isinstance(value, tuple)
            values[key] = _phases_text(value)
        elif key == "year_built":
            assert value is None or isinstance(value, int)
            _check_year(journal, value)
            values[key] = value
        elif key in _TEXT_FIELDS:
            with about(key):
                text = measured(str(value), f"the {key.replace('_', ' ')}")
            values[key] = text.strip() if key != "private_note" else text
        else:
            raise BadInput(f"a job has no {key}")
    if "name" in values:
        _check_name(journal, str(values["name"]), job.id)
    if values:
        with journal.store.write(f"change the job {job.name}", job.id) as w:
            w.change("jobs", job.id, **values)
    return get_job(journal, job_id)


@about("name")
def _check_name(journal: Journal, name: str, own_id: str | None) -> None:
    if not measured(name, "the name").strip():
        raise BadInput("a job needs a name", 'Such as "Hall bath, 12 Elm".')
    for line in list_jobs(journal):
        if line.job.id != own_id and folded(line.job.name) == folded(name):
            raise BadInput(f'there is already a job called "{one_line(name)}"', "Give this one another name.")


@about("year_built")
def _check_year(journal: Journal, year: int | None) -> None:
    if year is not None and not _EARLIEST_HOUSE <= year <= journal.today().year + 1:
        raise BadInput(
            f"year built {year}", f"Give a year from {_EARLIEST_HOUSE} to {journal.today().year + 1}."
        )


def _phases_text(phases: tuple[str, ...]) -> str:
    cleaned = [" ".join(phase.split()).lower() for phase in phases if phase.strip()]
    if not cleaned or len(set(cleaned)) != len(cleaned):
        raise BadInput("the phases of a job", "Name each phase once, in the order the work goes.")
    return json.dumps(cleaned, ensure_ascii=False)
