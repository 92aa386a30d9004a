"""The lines of a change order on screen: set right, taken out, and taken from the measured materials."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from journal_tui.domain.change_order import ChangeLine, LineKind
from journal_tui.domain.job import Job
from journal_tui.journal import changes
from journal_tui.journal.change_materials import take_material
from journal_tui.journal.job_measures import keep_measure
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.change_order_lines import OrderLinesScreen
from journal_tui.screens.change_orders import OrderScreen
from journal_tui.screens.form import FormScreen
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import until, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    job = add_job(journal, "Alder Lane 14, hall bath", client="Vera Lund")
    _measured(journal, job, "8-0x5-0")
    return job


def _measured(journal: Journal, job: Job, size: str) -> None:
    keep_measure(journal, job.id, "take-off", "bath floor", {"size": size, "subfloor": "plywood 3/4"})


@pytest.fixture
def order(journal: Journal, job: Job) -> str:
    made = changes.draft_order(journal, job.id, "New subfloor")
    changes.change_words(journal, made.id, offer="New boards", days=1)
    changes.add_line(journal, made.id, ChangeLine(LineKind.LABOR, "carpentry", 1_200, "hour", 6_500))
    return made.id


async def _fill(pilot: Pilot[None], **words: str) -> None:
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
    for name, text in words.items():
        pilot.app.screen.query_one(f"#field-{name}", TypingLine).value = text
    await pilot.press("f2")
    await worked(pilot)


async def test_a_material_is_taken_at_a_price_and_a_line_set_right(
    journal: Journal, job: Job, order: str
) -> None:
    async with shown(journal, OrderScreen(job.id, order), (100, 40)) as (pilot, _screen):
        await pilot.press("l")
        await worked(pilot)
        screen = front(pilot, OrderLinesScreen)
        text = text_of(pilot)
        assert "1. labor: carpentry, 12 hours at $65.00 $780.00" in text
        assert "materials for subfloor" in text and "2 sheets plywood 3/4 no price yet" in text
        screen.lines.select("material/0")
        await pilot.pause()
        assert "plywood 3/4: 2 sheets, from the take-off “bath floor”" in text_of(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
        assert "2 sheets, says the list" not in text_of(pilot), "the count stands in the line itself"
        await _fill(pilot, each="")
        assert isinstance(pilot.app.screen, FormScreen) and "no price in this job yet" in text_of(pilot)
        await _fill(pilot, each="54.35")
        assert "2. material: plywood 3/4, 2 sheets at $54.35 $108.70" in text_of(pilot)
        assert "in line 2" in text_of(pilot)
        screen.lines.select("line/1")
        await pilot.press("enter")
        await _fill(pilot, each="70")
        assert "12 hours at $70.00 $840.00" in text_of(pilot)
        screen.lines.select("line/1")
        await pilot.press("x")
        await worked(pilot)
        assert "carpentry" not in text_of(pilot)
        await pilot.press("z")
        await worked(pilot)
        assert "carpentry" in text_of(pilot)
    assert [line.each for line in changes.get_order(journal, order).lines] == [7_000, 5_435]


async def test_a_line_whose_measures_changed_says_so(journal: Journal, job: Job, order: str) -> None:
    take_material(journal, order, "plywood 3/4", each=5_000)
    _measured(journal, job, "12-0x8-0")
    async with shown(journal, OrderScreen(job.id, order), (100, 40)) as (pilot, _screen):
        assert "! the list has changed since Thu 12 Mar: it says 3 sheets now" in text_of(pilot)
        await pilot.press("l")
        await worked(pilot)
        front(pilot, OrderLinesScreen).lines.select("line/2")
        await pilot.pause()
        assert "! 2. material: plywood 3/4, 2 sheets" in text_of(pilot)
        assert "! the list has changed since Thu 12 Mar" in text_of(pilot)


async def test_a_job_without_lines_and_measures_says_how_to_begin(journal: Journal) -> None:
    job = add_job(journal, "Elm Row 3")
    order = changes.draft_order(journal, job.id, "New subfloor")
    async with shown(journal, OrderLinesScreen(job.id, order.id)) as (pilot, _screen):
        assert "No lines yet." in text_of(pilot)
        await pilot.press("x")
        assert "Only a line of the order" in text_of(pilot)
        await pilot.press("a")
        await _fill(pilot, text="carpentry", each="65")
        assert "1. labor: carpentry $65.00" in text_of(pilot)


@pytest.mark.parametrize("size", [(80, 24), (40, 15)])
async def test_nasty_words_are_shown_as_they_are(
    journal: Journal, job: Job, order: str, size: tuple[int, int]
) -> None:
    for words in NASTY:
        changes.add_line(journal, order, ChangeLine(LineKind.SUB, words, 200, words, 100))
    keep_measure(journal, job.id, "take-off", "[/] bath", {"size": "4-0x4-0", "panel": "[red]ply[/red] 1/2"})
    async with shown(journal, OrderLinesScreen(job.id, order), size) as (pilot, screen):
        assert "\x1b" not in text_of(pilot)
        for row in screen.lines.rows:
            if row.selectable:
                screen.lines.select(row.key)
                await pilot.pause()
                assert "\x1b" not in text_of(pilot)
        assert "[red]ply[/red]" in " ".join(row.words for row in screen.lines.rows)
