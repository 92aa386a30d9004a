"""A job's measures on screens: entered, answered as they are typed, kept, and what to buy from them."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from rich.cells import cell_len

from journal_tui.journal.job_measures import keep_measure, materials_of, measures_of
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.line_list import LineList
from journal_tui.screens.materials import MaterialsScreen
from journal_tui.screens.measure_form import MeasureForm
from journal_tui.screens.measures import MeasuresScreen
from journal_tui.screens.page import Page
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import app_on, lines_of, seen, seen_on, top, typed, until, worked
from tests.screens.showing import shown

FLOOR = {"joist": "2x8", "species": "SPF", "grade": "2", "span": "12-6"}
NASTY = "[/] [red]x[/red] \x1b[31m \u202e 漢字 e\u0301 \\[x] [@click=app.quit]tap[/]"


async def test_an_empty_list_says_what_to_do_first_and_n_does_it(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14", year_built=1958)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("m")
        await worked(pilot)
        assert "No measure yet." in seen(app)
        await pilot.press("enter", "x", "n", "f")
        await worked(pilot)
        assert isinstance(app.screen, MeasureForm)
        page = top(app).query_one(Page)
        await until(pilot, lambda: "joist is missing" in page.text)
        for text in ("2x8", "SPF", "2", "", "12-3"):
            await typed(pilot, text)
            await pilot.press("down")
        await until(pilot, lambda: "L/363" in page.text)
        assert page.text.startswith("passes")
        await pilot.press("f2")
        await worked(pilot)
        await until(pilot, lambda: "passes" in seen(app))
        assert isinstance(app.screen, MeasuresScreen)
        (kept,) = measures_of(journal, job.id)
        assert kept.values == {**FLOOR, "span": "12-3"}


@pytest.mark.parametrize("width", [80, 40])
async def test_the_empty_lists_words_break_only_where_the_width_ends(journal: Journal, width: int) -> None:
    job = add_job(journal, "Alder Lane")
    async with shown(journal, MeasuresScreen(job.id), size=(width, 24)) as (pilot, _screen):
        lines = [line.strip() for line in seen_on(pilot).split("\n")]
        first = next(at for at, line in enumerate(lines) if line.startswith("Press n"))
        words = lines[first : next(at for at, line in enumerate(lines) if line.endswith("room.")) + 1]
        # No line stops while the next word would still have fitted.
        for line, after in pairwise(words):
            assert len(line) + 1 + len(after.split()[0]) > width - 8


async def test_the_answer_changes_at_the_key_with_its_margin(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    keep_measure(journal, job.id, "floor", "bath floor", FLOOR)
    app = app_on(journal)
    async with app.run_test(size=(120, 40)) as pilot:
        app.push_screen(MeasuresScreen(job.id))
        await worked(pilot)
        await until(pilot, lambda: "short" in seen(app))
        await pilot.press("enter")
        await worked(pilot)
        page = top(app).query_one(Page)
        await until(pilot, lambda: "0.023 in too much" in " ".join(page.text.split()))
        assert "sister each joist" in " ".join(page.text.split())
        span = top(app).query_one("#field-span", TypingLine)
        span.value = "12-"
        await until(pilot, lambda: "span: 12-" in page.text)
        span.value = "12-0"
        await until(pilot, lambda: page.text.startswith("passes"))


async def test_a_room_is_drawn_as_it_is_entered(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal)
    async with app.run_test(size=(80, 40)) as pilot:
        app.push_screen(MeasureForm(job.id, "room"))
        await worked(pilot)
        page = top(app).query_one(Page)
        room = top(app).query_one("#field-room", TypingLine)
        room.value = "E 8-0, N 3-6, W 2-0, N 1-6, W 6-0"
        await until(pilot, lambda: "does not close" in page.text)
        room.value += ", S 5-0"
        await until(pilot, lambda: "a  8' 0\"" in page.text)
        assert page.text.count("+") == 6


async def test_a_layout_is_drawn_to_a_file(journal: Journal, tmp_path: Path) -> None:
    job = add_job(journal, "Alder Lane 14")
    keep_measure(journal, job.id, "tile", "floor", {"size": "5-0x4-0", "tile": "12x12"})
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(MeasureForm(job.id, "tile", measures_of(journal, job.id)[0].id))
        await worked(pilot)
        page = top(app).query_one(Page)
        await until(pilot, lambda: "tile layout" in page.text)
        await pilot.press("f4")
        app.screen.query_one(TypingLine).value = str(tmp_path / "floor.svg")
        await pilot.press("enter")
        await pilot.pause()
        assert (tmp_path / "floor.svg").read_text().startswith("<svg ")
        await pilot.press("f4", "enter")
        await pilot.pause()
        top(app).query_one("#field-tile", TypingLine).value = "12"
        await until(pilot, lambda: "tile: 12" in page.text)
        await pilot.press("f4")
        await pilot.pause()
        assert "no drawing" in seen(app)


async def test_what_is_typed_and_not_saved_is_there_again(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(MeasureForm(job.id, "way-in"))
        await worked(pilot)
        await typed(pilot, "60x30")
        await pilot.press("escape")
        await worked(pilot)
        assert not measures_of(journal, job.id)
        app.push_screen(MeasureForm(job.id, "way-in"))
        await worked(pilot)
        assert top(app).query_one("#field-piece", TypingLine).value == "60x30"


async def test_cautions_know_the_year_the_house_was_built(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14", year_built=1958)
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(MeasureForm(job.id, "cautions"))
        await worked(pilot)
        assert top(app).query_one("#field-year", TypingLine).value == "1958"


async def test_taking_out_and_undo(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    keep_measure(journal, job.id, "floor", "bath floor", FLOOR)
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(MeasuresScreen(job.id))
        await worked(pilot)
        await pilot.press("x")
        await worked(pilot)
        assert "Taken out: bath floor" in seen(app)
        assert "No measure yet." in seen(app)
        await pilot.press("z")
        await worked(pilot)
        await until(pilot, lambda: "bath floor" in seen(app))
        assert len(measures_of(journal, job.id)) == 1


async def test_materials_say_where_they_are(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane 14")
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(MeasuresScreen(job.id))
        await worked(pilot)
        await pilot.press("m")
        await worked(pilot)
        assert "No materials yet." in seen(app)
        await pilot.press("b", "o", "s")
        assert "There is no material" in seen(app)
        await pilot.press("escape")
        keep_measure(journal, job.id, "take-off", "bath", {"size": "8-0x5-0", "panel": "plywood 3/4"})
        await pilot.press("m")
        await worked(pilot)
        await until(pilot, lambda: "2 sheets  plywood 3/4" in seen(app))
        assert isinstance(app.focused, LineList)
        await pilot.press("o")
        await typed(pilot, "2026-03-16")
        await pilot.press("enter")
        await pilot.pause()
        assert "ordered, due 2026-03-16" in seen(app)
        await pilot.press("down", "s")
        await pilot.pause()
        assert [m.standing.value for m in materials_of(journal, job.id)] == ["ordered", "on site"]
        await pilot.press("o")
        await typed(pilot, "someday")
        await pilot.press("enter")
        await pilot.pause()
        assert "!" in seen(app)
        await pilot.press("z")
        await worked(pilot)
        await until(pilot, lambda: "on site" not in "\n".join(lines_of(app)[1:5]))


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 30)])
async def test_nothing_typed_acts_and_every_line_fits(journal: Journal, size: tuple[int, int]) -> None:
    job = add_job(journal, f"Alder {NASTY}")
    for form in ("floor", "take-off", "tile"):
        keep_measure(
            journal,
            job.id,
            form,
            NASTY,
            {"panel": f"3/4 {NASTY}", "size": "8-0x5-0", "tile": "12x12"}
            if form == "take-off"
            else {"tile" if form == "tile" else "joist": NASTY},
            by=NASTY,
        )
    app = app_on(journal)
    acting = {chr(c) for c in (*range(0x20), 0x7F, *range(0x80, 0xA0))} | {"\u202e"}
    async with app.run_test(size=size) as pilot:
        for screen in (
            MeasuresScreen(job.id),
            MaterialsScreen(job.id),
            MeasureForm(job.id, "floor", measures_of(journal, job.id)[0].id),
        ):
            app.push_screen(screen)
            await worked(pilot)
            await worked(pilot)
            for line in lines_of(app):
                assert not acting & set(line), ascii(line)
                assert cell_len(line) == size[0]
        assert "[/]" in seen(app)
