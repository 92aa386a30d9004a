"""The list of jobs and the form of one."""

from __future__ import annotations

import datetime as dt

from journal_tui.journal.jobs import add_job, change_job, list_jobs
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note
from journal_tui.screens.job_form import JobForm
from journal_tui.screens.jobs import JobsScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import app_on, lines_of, seen, top, typed, until
from tests.screens.walks import walked_job


async def test_an_empty_journal_says_what_to_do_first_and_n_does_it(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "No job yet." in seen(app) and "Press n to begin one" in seen(app)
        await pilot.press("enter", "e", "z", "slash")
        assert isinstance(app.screen, JobsScreen)
        await pilot.press("escape", "n")
        await typed(pilot, "Attic")
        await pilot.press(*["enter"] * 3)
        await typed(pilot, "1928")
        await pilot.press(*["down"] * 3, "enter")
        await pilot.pause()
        assert isinstance(app.screen, JobsScreen)
        (line,) = list_jobs(journal)
        assert (line.job.name, line.job.year_built) == ("Attic", 1928)
        # The list has the keys now, though there was none when the screen opened.
        assert isinstance(app.focused, LineList)
        await pilot.press("enter")
        assert "No visit yet." in seen(app)


async def test_jobs_show_open_items_drafts_and_the_last_visit(journal: Journal) -> None:
    walked_job(journal, 5)
    laundry = add_job(
        journal, "Birch Street 3, laundry", client="T. Okonjo", scope="Laundry over the kitchen"
    )
    note(journal, laundry.id, "need to strap the new supply", day=dt.date(2026, 3, 2))
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        lines = lines_of(app)
        alder = next(line for line in lines if "Alder" in line)
        birch = next(line for line in lines if "Birch" in line)
        assert "5 to review" in alder and "0 open" in alder and "Wed 11 Mar" in alder
        assert "1 open" in birch and "Mon 2 Mar" in birch and "to review" not in birch
        # The one visited last is on top and selected; its card stands below the list.
        assert lines.index(alder) < lines.index(birch) and alder.startswith("▸")
        assert any("14 Alder Lane" in line for line in lines[-7:])
        await pilot.press("down")
        assert "Laundry over the kitchen" in seen(app)
        assert "rough plumbing 1" in seen(app)


async def test_narrowing_the_jobs_and_opening_the_one_left(journal: Journal) -> None:
    for name in ("Alder Lane", "Birch Street", "Cooper Road"):
        add_job(journal, name)
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.press("slash")
        await typed(pilot, "BIR")
        assert "1 of them" in seen(app) and "Cooper" not in seen(app)
        await pilot.press("enter", "enter")
        await pilot.pause()
        assert "Birch Street" in lines_of(app)[0]
        await pilot.press("escape", "escape")
        assert "Cooper" in seen(app)


async def test_a_fault_in_the_form_is_named_and_nothing_typed_is_lost(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane", year_built=1956, private_note="lockbox 4471")
    add_job(journal, "Birch Street")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("e")
        values = {line.id: line.value for line in top(app).query(TypingLine)}
        assert values["field-year_built"] == "1956" and values["field-private_note"] == "lockbox 4471"
        year = top(app).query_one("#field-year_built", TypingLine)
        year.value = "56"
        await pilot.press("f2")
        assert '! year built "56"' in seen(app) and "four digits" in seen(app)
        year.value = "1957"
        top(app).query_one("#field-name", TypingLine).value = "birch street"
        await pilot.press("f2")
        assert "there is already a job called" in seen(app)
        top(app).query_one("#field-name", TypingLine).value = "Alder Lane 14"
        await pilot.press("f2")
        await pilot.pause()
        changed = next(line.job for line in list_jobs(journal) if line.job.id == job.id)
        assert (changed.name, changed.year_built) == ("Alder Lane 14", 1957)
        assert "Alder Lane 14" in lines_of(app)[0]
        # And undo takes it back.
        await pilot.press("z")
        await pilot.pause()
        assert "Undone: change the job Alder Lane." in seen(app)
        assert lines_of(app)[0].startswith(" Alder Lane ")


async def test_undo_on_the_list_is_about_the_selected_job(journal: Journal) -> None:
    first, second = add_job(journal, "Alder Lane"), add_job(journal, "Birch Street")
    change_job(journal, first.id, scope="new floor")
    app = app_on(journal)
    async with app.run_test() as pilot:
        await pilot.pause()
        lines = top(app).query_one(LineList)
        lines.select(second.id)
        await pilot.pause()
        await pilot.press("z")
        assert "nothing to undo" in seen(app)
        lines.select(first.id)
        await pilot.pause()
        await pilot.press("z")
        assert "Undone: change the job" in seen(app)


async def test_keys_typed_right_behind_the_one_that_opens_a_form_are_not_lost(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await typed(pilot, "need to caulk")
        await until(pilot, lambda: isinstance(app.screen, JobForm))
        line = app.screen.query(TypingLine).first()
        await until(pilot, lambda: line.value == "eed to caulk")
    app.autosave.close()
