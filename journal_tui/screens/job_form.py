"""Beginning a job, and changing what is written of one."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.journal.forms import EMPTY_JOB, JobFields, fields_of_job, save_job
from journal_tui.screens.form import Field, FormScreen


class JobForm(FormScreen):
    """The form of a job; a new one when ``job_id`` is None. The result is the job's id."""

    HELP = (
        "A job is a house and a scope. Only the name is needed. The private note (door codes, money) never "
        "leaves this journal: no document reads it. The year built decides which cautions documents carry."
    )

    def __init__(self, job_id: str | None) -> None:
        super().__init__(job_id)
        self.place = f"job-form/{job_id or 'new'}"

    def fields(self) -> Sequence[Field]:
        now = fields_of_job(self.journal, self.job_id) if self.job_id else EMPTY_JOB
        return (
            Field("name", "name", now.name, "Hall bath, 12 Elm"),
            Field("client", "client", now.client, "who the update goes to"),
            Field("address", "address", now.address),
            Field("year_built", "year built", now.year_built, "such as 1956; older houses need more care"),
            Field("scope", "scope", now.scope, "what is to be done, in a line"),
            Field("phases", "phases", now.phases, "in the order the work goes, with commas between"),
            Field(
                "private_note",
                "private note",
                now.private_note,
                "door code, money; never leaves this journal",
            ),
        )

    def reload(self) -> None:
        self.title_is("Edit the job" if self.job_id else "New job")

    def save(self, values: dict[str, str]) -> str | None:
        return save_job(self.journal, self.job_id, JobFields(**values)).id
