"""A job's measures: does the floor work, does it fit, how much of everything."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.journal.job_measures import (
    SavedMeasure,
    Worked,
    drop_measure,
    get_measure,
    measures_of,
    rooms_of,
    worked,
)
from journal_tui.journal.jobs import get_job
from journal_tui.journal.measures import FORMS
from journal_tui.journal.opening import Journal
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine
from journal_tui.screens.measure_draw import measure_line
from journal_tui.screens.picker import Picker
from journal_tui.screens.working import Progress


class OpenMeasure(Command):
    """Open the selected measure: its numbers, and what they come to."""

    id = "measures.open"
    name = "Open the measure"
    key = "enter"
    foot = "open"


class NewMeasure(Command):
    """Measure something new: a floor, a way in, tile, sheets, pipe, a take-off."""

    id = "measures.new"
    name = "New measure"
    key = "n"
    foot = "new"


class DropMeasure(Command):
    """Take the selected measure out of the job; z brings it back."""

    id = "measures.drop"
    name = "Take the measure out"
    key = "x"
    foot = "take out"


class Materials(Command):
    """List what the take-offs come to, by phase, and where each thing is."""

    id = "measures.materials"
    name = "Materials list"
    key = "m"
    foot = "materials"


class MeasuresScreen(ListingScreen):
    """The measures of a job."""

    HELP = (
        "What was measured at this house and what it comes to: passes, short, cannot tell, or counted. "
        "Open one to see by how much, by which rule, and what would change the answer."
    )
    OWN_COMMANDS = (OpenMeasure, NewMeasure, DropMeasure, Materials, Narrow)

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._verdicts: dict[str, str] = {}

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No measure yet.",
            "Press n and choose what to measure: a floor for tile, the way in for a tub, "
            "a tile layout, sheets, supply pipe, or a take-off of the whole room.",
        )
        yield LineList()
        yield NarrowLine()

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, "measures")
        self._verdicts.clear()
        self._show()

        def work_out_all(journal: Journal, _progress: Progress) -> list[Worked]:
            rooms = rooms_of(journal, job.id)
            return [worked(measure, rooms) for measure in measures_of(journal, job.id)]

        self.work("verdicts", work_out_all)

    def _show(self) -> None:
        found = measures_of(self.journal, self.job_id or "")
        self.lines.show([_row(m, self._verdicts.get(m.id)) for m in found])
        self.lines.display = bool(found)
        self.query_one(EmptyNote).display = not found

    def work_done(self, name: str, result: object) -> None:
        if name == "verdicts" and isinstance(result, list):
            self._verdicts = {one.measure.id: one.verdict for one in result if isinstance(one, Worked)}
            self._show()

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        if event.row is not None:
            with self.trying():
                self._open(get_measure(self.journal, event.row.key).form, event.row.key)

    def _open(self, form: str, measure_id: str | None) -> None:
        from journal_tui.screens.measure_form import MeasureForm

        self.app.push_screen(MeasureForm(self.job_id or "", form, measure_id), self._formed)

    def _formed(self, measure_id: object) -> None:
        if isinstance(measure_id, str):
            self.reload()
            self.lines.select(measure_id)

    def action_open_measure(self) -> None:
        self.lines.action_open()

    def action_new_measure(self) -> None:
        def chosen(form: str | None) -> None:
            if form is not None:
                self._open(form, None)

        self.app.push_screen(Picker("measure what", [form.name for form in FORMS]), chosen)

    def action_drop_measure(self) -> None:
        if self.lines.selected is None:
            self.say("There is no measure to take out.")
            return
        with self.trying():
            measure = drop_measure(self.journal, self.lines.selected.key)
            self.reload()
            self.say(f"Taken out: {measure.name}. z brings it back.")

    def action_materials(self) -> None:
        from journal_tui.screens.materials import MaterialsScreen

        self.app.push_screen(MaterialsScreen(self.job_id or ""))


def _row(measure: SavedMeasure, verdict: str | None) -> Row:
    def draw(width: int) -> Content:
        return measure_line(measure, verdict, width)

    return Row(measure.id, draw, f"{measure.form} {measure.name}")
