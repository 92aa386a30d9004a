"""A job as it is typed into a form: every field a line of text."""

from __future__ import annotations

from dataclasses import dataclass

from journal_tui.domain.errors import BadInput, about
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import STANDARD_PHASES
from journal_tui.domain.text import one_line
from journal_tui.journal.jobs import add_job, change_job, get_job
from journal_tui.journal.opening import Journal


@dataclass(frozen=True, slots=True)
class JobFields:
    """What stands in a job's form. ``phases`` are in order with commas between."""

    name: str
    client: str = ""
    address: str = ""
    year_built: str = ""
    scope: str = ""
    phases: str = ""
    private_note: str = ""


EMPTY_JOB = JobFields(name="", phases=", ".join(STANDARD_PHASES))


def fields_of_job(journal: Journal, job_id: str) -> JobFields:
    """Return a job as its form shows it. Raises ``NothingFound``."""
    job = get_job(journal, job_id)
    return JobFields(
        name=job.name,
        client=job.client,
        address=job.address,
        year_built=str(job.year_built) if job.year_built else "",
        scope=job.scope,
        phases=", ".join(job.phases),
        private_note=job.private_note,
    )


def save_job(journal: Journal, job_id: str | None, fields: JobFields) -> Job:
    """Begin a job as typed, or change the one with this id; return it.

    Raises ``BadInput`` naming the field that cannot be used.
    """
    with about("year_built"):
        year = _year(fields.year_built)
    phases = tuple(part for part in fields.phases.split(",") if part.strip()) or STANDARD_PHASES
    if job_id is None:
        return add_job(
            journal,
            fields.name,
            client=fields.client,
            address=fields.address,
            scope=fields.scope,
            year_built=year,
            private_note=fields.private_note,
            phases=phases,
        )
    return change_job(
        journal,
        job_id,
        name=fields.name,
        client=fields.client,
        address=fields.address,
        scope=fields.scope,
        year_built=year,
        private_note=fields.private_note,
        phases=phases,
    )


def _year(text: str) -> int | None:
    typed = text.strip()
    if not typed:
        return None
    if not (typed.isascii() and typed.isdigit() and len(typed) == 4):
        raise BadInput(
            f'year built "{one_line(typed)[:20]}"', "Type a year of four digits, or leave it empty."
        )
    return int(typed)
