"""One measure: its numbers typed on one side, what they come to on the other, worked out at every key."""

from __future__ import annotations

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Container
from textual.timer import Timer
from textual.widgets import Input

from journal_tui.journal.job_measures import Worked, form_of, keep_measure, rooms_of, worked_as_typed
from journal_tui.journal.jobs import get_job
from journal_tui.journal.measures import Answer, form_named, save_drawing
from journal_tui.journal.opening import Journal
from journal_tui.screens.commands import Command
from journal_tui.screens.form import Field, FormScreen
from journal_tui.screens.measure_draw import answer_lines
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.working import Progress

#: Seconds without a key before the answer is worked out.
_REST = 0.1
#: Fields of every measure that are not the form's own.
_OWN = ("called", "measured-by")


class DrawToFile(Command):
    """Write the drawing of a tile layout to a new SVG file, to scale."""

    id = "measure.draw"
    name = "Draw to a file"
    key = "f4"
    foot = "draw"
    always = True


class MeasureForm(FormScreen):
    """The form of a measure; a new one when ``measure_id`` is None. The result is the measure's id."""

    HELP = (
        "Type what the tape says: 12-3, 3/4, 1 5/8, 3.5 m. The answer beside it changes at every key, with "
        "its margin, its rule, and what would change it. A field left empty takes what its hint says. "
        "Several values in one field are parted by ; and f2 keeps the measure, finished or not."
    )
    OWN_COMMANDS = (*FormScreen.OWN_COMMANDS, DrawToFile)
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012
    DEFAULT_CSS = """
    MeasureForm #halves { height: 1fr; layout: vertical; }
    MeasureForm #halves VerticalScroll { height: 1fr; padding: 0 1; }
    MeasureForm #halves Horizontal { margin-bottom: 0; }
    MeasureForm Page { height: 1fr; border-top: solid $joint; padding: 0 1; }
    MeasureForm.-wide #halves { layout: horizontal; }
    MeasureForm.-wide #halves VerticalScroll { width: 45%; height: 1fr; }
    MeasureForm.-wide Page { width: 1fr; border-top: none; border-left: solid $joint; }
    """

    def __init__(self, job_id: str, form: str, measure_id: str | None = None) -> None:
        super().__init__(job_id)
        self.form, self.measure_id = form, measure_id
        self._due: Timer | None = None
        self._answer: Answer | None = None
        self.place = f"measure/{measure_id or f'{job_id}/{form}'}"

    def fields(self) -> Sequence[Field]:
        filled = form_of(self.journal, self.job_id or "", self.form, self.measure_id)
        return (
            *(Field(name, name, value, hint) for name, hint, value in filled.fields),
            Field("called", "called", filled.name, f"{self.form}, or such as hall bath {self.form}"),
            Field("measured-by", "measured by", filled.measured_by, "who held the tape"),
        )

    def body(self) -> ComposeResult:
        with Container(id="halves"):
            yield from super().body()
            yield Page()

    def reload(self) -> None:
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, self.form)
        self.say(form_named(self.form).summary)
        self._work_out()

    @property
    def values(self) -> dict[str, str]:
        """The form's own fields as typed."""
        found = {(line.id or "").removeprefix("field-"): line.value for line in self.typing_lines}
        return {name: text for name, text in found.items() if name not in _OWN}

    def on_input_changed(self, event: Input.Changed) -> None:
        if isinstance(event.input, TypingLine):
            # A layout may take a second: it is not begun anew for every key of a word.
            if self._due is not None:
                self._due.stop()
            self._due = self.set_timer(_REST, self._work_out)

    def _work_out(self) -> None:
        form, values, job_id = self.form, self.values, self.job_id or ""

        def work(journal: Journal, _progress: Progress) -> Worked:
            return worked_as_typed(form, values, rooms_of(journal, job_id))

        self.work("answer", work)

    def work_done(self, name: str, result: object) -> None:
        if name == "answer" and isinstance(result, Worked):
            self._answer = result.answer
            self.query_one(Page).show(lambda width: answer_lines(result, width))

    def action_draw_to_file(self) -> None:
        answer = self._answer
        if answer is None or not answer.svg:
            self.say("There is no drawing of this to write: only tile layouts are drawn to scale.")
            return

        def write(path: str | None) -> None:
            if path:
                with self.trying():
                    self.say(f"Drawn to {save_drawing(answer, path)}.")

        self.app.push_screen(Ask("new SVG file?", f"{self.place}/svg", "layout.svg"), write)

    def save(self, values: dict[str, str]) -> str | None:
        called, by = (values.pop(name, "") for name in _OWN)
        kept = keep_measure(
            self.journal, self.job_id or "", self.form, called, values, by=by, measure_id=self.measure_id
        )
        return kept.id
