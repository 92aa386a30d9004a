"""Forms of the plan: what an item takes, and when and by whom a job is worked."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.text import one_line
from journal_tui.journal.jobs import get_job
from journal_tui.journal.plan_entry import ITEM_FIELDS, item_typed, item_values, week_typed, week_values
from journal_tui.screens.form import Field, FormScreen


class ItemForm(FormScreen):
    """The form of what an item takes."""

    HELP = (
        "What the plan takes the item to be. An empty line is common practice, which the hint shows; what is "
        "filled in is stated. The label of the product in hand wins over every wait."
    )

    def __init__(self, job_id: str, item_id: str, text: str) -> None:
        super().__init__(job_id)
        self.item_id = item_id
        self.text = text
        self.place = f"plan-item/{item_id}"

    def fields(self) -> Sequence[Field]:
        job = get_job(self.journal, self.job_id or "")
        values = item_values(self.journal, job, self.item_id)
        return [Field(name, label, *values[name]) for name, label in ITEM_FIELDS]

    def reload(self) -> None:
        self.title_is("What it takes", self.text)

    def save(self, values: dict[str, str]) -> str | None:
        return item_typed(self.journal, self.item_id, values)


class WeekForm(FormScreen):
    """The form of a job's work week."""

    HELP = (
        "When and by whom the job is worked. Waits run on the clock through nights, weekends and "
        "holidays; work does not. Single days off, and days of subs, are set on the schedule."
    )

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self.place = f"week/{job_id}"

    def fields(self) -> Sequence[Field]:
        return [Field(*line) for line in week_values(self.journal, self.job_id or "")]

    def reload(self) -> None:
        self.title_is(one_line(get_job(self.journal, self.job_id or "").name), "work week")

    def save(self, values: dict[str, str]) -> str | None:
        return week_typed(self.journal, self.job_id or "", values)
