"""The materials of a job: what its take-offs come to, by phase, and where each thing is."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.journal.job_measures import Material, Standing, materials_of, set_material
from journal_tui.journal.jobs import get_job
from journal_tui.journal.measures import day_due, where_it_is
from journal_tui.journal.opening import Journal
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, pieces
from journal_tui.screens.listing import ListingScreen, Narrow, NarrowLine
from journal_tui.screens.measure_draw import material_line
from journal_tui.screens.picker import Ask
from journal_tui.screens.working import Progress


class ToBuy(Command):
    """Say that the selected material is still to buy."""

    id = "materials.to_buy"
    name = "To buy"
    key = "b"
    foot = "to buy"


class Ordered(Command):
    """Say that the selected material is ordered, and the day it is due: it holds the work until then."""

    id = "materials.ordered"
    name = "Ordered"
    key = "o"
    foot = "ordered"


class OnSite(Command):
    """Say that the selected material is at the house."""

    id = "materials.on_site"
    name = "On site"
    key = "s"
    foot = "on site"


class MaterialsScreen(ListingScreen):
    """The materials of a job."""

    HELP = (
        "What this job's take-offs come to, in the order the work goes: waste is added once and packages are "
        "rounded once. Say of each thing whether it is to buy, ordered for a day, or on site."
    )
    OWN_COMMANDS = (ToBuy, Ordered, OnSite, Narrow)

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self._materials: dict[str, Material] = {}

    def body(self) -> ComposeResult:
        yield EmptyNote(
            "No materials yet.",
            "They follow from a take-off: go back, press n, and choose take-off.",
        )
        yield LineList()
        yield NarrowLine()

    def reload(self) -> None:
        """Work the take-offs out again, in a thread; the list is shown when it is ready."""
        job = get_job(self.journal, self.job_id or "")
        self.title_is(job.name, "materials")
        job_id = job.id

        def count(journal: Journal, _progress: Progress) -> tuple[Material, ...]:
            return materials_of(journal, job_id)

        self.work("materials", count)

    def work_done(self, name: str, result: object) -> None:
        if name == "materials" and isinstance(result, tuple):
            self._show(result)

    def _show(self, materials: tuple[Material, ...]) -> None:
        self._materials = {f"{m.need.phase}/{m.need.name}": m for m in materials}
        rows: list[Row] = []
        phase = None
        for key, material in self._materials.items():
            if material.need.phase != phase:
                phase = material.need.phase
                rows.append(_heading(phase))
            rows.append(_row(key, material))
        self.lines.show(rows)
        self.lines.display = bool(rows)
        self.query_one(EmptyNote).display = not rows
        if rows and self.focused is None:
            self.lines.focus()

    @property
    def chosen(self) -> Material | None:
        """The selected material."""
        row = self.lines.selected
        return self._materials.get(row.key) if row else None

    def _set(self, standing: Standing, due: str | None = None) -> None:
        material = self.chosen
        if material is None:
            self.say("There is no material to speak of.")
            return
        with self.trying():
            day = day_due(due, self.journal.today()) if due is not None else None
            now = set_material(self.journal, self.job_id or "", material, standing, day)
            self._materials[f"{now.need.phase}/{now.need.name}"] = now
            self._show(tuple(self._materials.values()))
            self.say(f"{now.need.name}: {where_it_is(now)}.")

    def action_to_buy(self) -> None:
        self._set(Standing.TO_BUY)

    def action_on_site(self) -> None:
        self._set(Standing.ON_SITE)

    def action_ordered(self) -> None:
        if self.chosen is None:
            self.say("There is no material to speak of.")
            return

        def due(text: str | None) -> None:
            if text is not None:
                self._set(Standing.ORDERED, text)

        self.app.push_screen(Ask("due on which day?", f"material-due/{self.job_id}"), due)


def _heading(phase: str) -> Row:
    def draw(_width: int) -> Content:
        return pieces((phase, "bold $soft"))

    return Row(f"phase/{phase}", draw, selectable=False)


def _row(key: str, material: Material) -> Row:
    def draw(width: int) -> Content:
        return material_line(material, where_it_is(material), width)

    return Row(key, draw, f"{material.need.name} {material.need.phase} {where_it_is(material)}")
