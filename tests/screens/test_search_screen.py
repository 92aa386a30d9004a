"""Search as you type, and opening what was found."""

from __future__ import annotations

import datetime as dt

from journal_tui.journal import review
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note
from journal_tui.screens.line_list import LineList
from journal_tui.screens.search import SearchLine, SearchScreen
from journal_tui.screens.visit import VisitScreen
from tests.screens.seeing import app_on, lines_of, seen, top, typed, until, worked
from tests.screens.walks import walked_job


async def test_words_are_found_as_they_are_typed_and_enter_opens_the_visit_there(journal: Journal) -> None:
    job, visit = walked_job(journal, 12)
    review.keep_rest(journal, visit.id)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash")
        assert "Type what you are looking for." in seen(app)
        await typed(pilot, "soft pla")
        await until(pilot, lambda: "kept: 2" in seen(app))
        found = [line for line in lines_of(app) if "soft" in line and ("saw" in line or "owed" in line)]
        assert len(found) == 2
        chosen = top(app).query_one(LineList).selected
        assert chosen is not None
        await pilot.press("down", "enter")
        await pilot.pause()
        assert isinstance(app.screen, VisitScreen)
        at = top(app).query_one(LineList).selected
        assert at is not None and "plank" in at.words
        assert any(line.startswith("▸") for line in lines_of(app))
        await pilot.press("escape")
        # The words are there still, and what is typed next takes their place.
        assert isinstance(app.screen, SearchScreen)
        await worked(pilot)
        await pilot.press("escape")  # from the line to the list
        await pilot.press("slash")
        await typed(pilot, "chisel")
        assert top(app).query_one(SearchLine).value == "chisel"
        await until(pilot, lambda: "said: 1" in seen(app))
        await pilot.press("enter")
        await pilot.pause()
        at = top(app).query_one(LineList).selected
        assert at is not None and "chisel" in at.words and at.key.startswith("said/")


async def test_every_job_is_searched_from_the_list_and_named(journal: Journal) -> None:
    for name in ("Alder Lane", "Birch Street"):
        note(journal, add_job(journal, name).id, "need to strap the supply", day=dt.date(2026, 3, 1))
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("s")
        await typed(pilot, "strap")
        await until(pilot, lambda: "kept: 2" in seen(app))
        assert "Alder Lane" in seen(app) and "Birch Street" in seen(app)
        await pilot.press("ctrl+u")
        await until(pilot, lambda: "Type what you are looking for." in seen(app))


async def test_nothing_found_and_signs_of_query_syntax(journal: Journal) -> None:
    job, visit = walked_job(journal, 6)
    review.keep_rest(journal, visit.id)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("slash")
        await typed(pilot, 'a"b* -NEAR( [/')
        await until(pilot, lambda: "No entry and nothing said holds all of these words." in seen(app))
        await pilot.press("enter")
        assert "Type words that are found" in seen(app)
        await pilot.press("ctrl+u")
        await typed(pilot, "[red]")
        await worked(pilot)
        assert "[red]" in seen(app)
