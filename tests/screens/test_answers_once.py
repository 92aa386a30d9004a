"""Keys faster than a question closes: it answers once, and nothing behind it is touched."""

from __future__ import annotations

import pytest
from textual.screen import Screen

from journal_tui.journal.entries import get_entry
from journal_tui.journal.jobs import add_job, list_jobs
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note
from journal_tui.screens.area_picker import AreaPicker
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.help import HelpScreen
from journal_tui.screens.job_form import JobForm
from journal_tui.screens.picker import Ask, Picker
from tests.screens.seeing import app_on, typed, until
from tests.screens.showing import front, shown


async def test_a_second_letter_behind_the_first_closes_nothing_and_is_no_command(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    (entry,) = note(journal, job.id, "tile: grout is cracked")
    async with shown(journal, EntryScreen(job.id, entry.id)) as (pilot, _screen):
        await pilot.press("p")
        assert isinstance(pilot.app.screen, Picker)
        # d is demo; t and e would be commands of the entry's own screen.
        await typed(pilot, "dte")
        await pilot.pause()
        front(pilot, EntryScreen)
    assert get_entry(journal, entry.id).phase == "demo"


@pytest.mark.parametrize(
    "question",
    [
        lambda: Picker("kind", ["saw", "chose"]),
        lambda: Ask("words", "ask/once", "as it was"),
        lambda: AreaPicker(["floor"], "floor"),
        lambda: HelpScreen(Screen()),
    ],
    ids=["picker", "line", "area", "help"],
)
async def test_a_question_answered_twice_answers_once(journal: Journal, question: object) -> None:
    app = app_on(journal)
    given: list[object] = []
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        under, asked = app.screen, question()  # type: ignore[operator]
        app.push_screen(asked, given.append)
        await pilot.pause()
        asked.dismiss("first")
        asked.dismiss("second")
        await pilot.pause()
        assert app.screen is under and given == ["first"]
    app.autosave.close()


async def test_a_form_saved_twice_at_once_saves_one_job(journal: Journal) -> None:
    async with shown(journal, JobForm(None)) as (pilot, screen):
        await typed(pilot, "Elm Row 3", "f2", "f2", "escape")
        await until(pilot, lambda: pilot.app.screen is not screen)
        assert len(pilot.app.screen_stack) == 1
    assert [line.job.name for line in list_jobs(journal)] == ["Elm Row 3"]
