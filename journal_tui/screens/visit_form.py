"""Changing a visit's day, who was there, and what it was about."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.errors import about
from journal_tui.journal.days import day_typed
from journal_tui.journal.visits import change_visit, get_visit
from journal_tui.screens.form import Field, FormScreen


class VisitForm(FormScreen):
    """The form of a visit."""

    HELP = "The day may be typed like Friday, 3/11 or 2026-03-11."

    def __init__(self, job_id: str, visit_id: str) -> None:
        super().__init__(job_id)
        self.visit_id = visit_id
        self.place = f"visit-form/{visit_id}"

    def fields(self) -> Sequence[Field]:
        visit = get_visit(self.journal, self.visit_id)
        return (
            Field("day", "day", visit.day.isoformat(), "today, Friday, 3/11 or 2026-03-11"),
            Field("people", "who", visit.people, "Rui, Dana"),
            Field("summary", "about", visit.summary, "second walk, after demo"),
        )

    def reload(self) -> None:
        self.title_is("Edit the visit")

    def save(self, values: dict[str, str]) -> str | None:
        with about("day"):
            day = day_typed(values["day"], self.journal.today())
        change_visit(
            self.journal,
            self.visit_id,
            day=day.isoformat(),
            people=values["people"].strip(),
            summary=values["summary"].strip(),
        )
        return self.visit_id
