"""The course of phases, and the small questions at the foot of the screen."""

from __future__ import annotations

import pytest
from rich.cells import cell_len
from textual.app import App, ComposeResult

from journal_tui.domain.kinds import STANDARD_PHASES, Party
from journal_tui.journal.course import PhaseCount, course
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import add, finish
from journal_tui.screens.course import Course
from journal_tui.screens.picker import Ask, Picker, letters_for
from tests.screens.seeing import app_on, lines_of, seen, typed


class _Shown(App[None]):
    def __init__(self, phases: list[PhaseCount]) -> None:
        super().__init__()
        self._given = phases
        self.walked: list[str | None] = []

    def get_css_variables(self) -> dict[str, str]:
        from journal_tui.screens.theme import LAMPLIGHT

        return {**super().get_css_variables(), **LAMPLIGHT.variables}

    def compose(self) -> ComposeResult:
        yield Course()

    def on_mount(self) -> None:
        self.query_one(Course).show(self._given)

    def on_course_walked(self, event: Course.Walked) -> None:
        self.walked.append(event.phase)

    @property
    def two_lines(self) -> list[str]:
        return [strip.text for strip in self.screen._compositor.render_strips()][:2]


_STANDARD = [PhaseCount(phase, at, 0, 3 - at if at < 3 else 0) for at, phase in enumerate(STANDARD_PHASES)]


async def test_the_six_phases_stand_whole_in_eighty_columns() -> None:
    app = _Shown(_STANDARD)
    async with app.run_test(size=(80, 4)) as pilot:
        names, fill = app.two_lines
        for at, phase in enumerate(STANDARD_PHASES):
            assert f"{phase} {at}" in names
        assert cell_len(names.rstrip()) <= 79 and names.count("│") == fill.count("│") == 6
        # Every tile's fill is as wide as its name's tile; a closed phase is full, an untouched one empty.
        tiles = list(zip(names.split("│"), fill.split("│"), strict=True))
        assert all(len(name) == len(bar) for name, bar in tiles)
        assert set(tiles[1][1].strip()) == {"▓"} and set(tiles[4][1].strip()) == {"░"}
        await pilot.click(offset=(names.index("subfloor") + 2, 0))
        await pilot.pause()
        assert app.walked == ["subfloor"]
        await pilot.click(offset=(names.index("subfloor") + 2, 1))
        await pilot.pause()
        assert app.walked == ["subfloor", None]


@pytest.mark.parametrize("width", [80, 60, 40, 20])
async def test_any_number_of_phases_fits_any_width(width: int) -> None:
    many = [PhaseCount(f"a phase with a long name {n}", n, 0, 1) for n in range(9)]
    app = _Shown(many)
    async with app.run_test(size=(width, 4)) as pilot:
        assert all(cell_len(line) <= width for line in app.two_lines)
        app.query_one(Course).step(3)
        await pilot.pause()
        assert app.walked == [many[2].phase]
        shown = app.two_lines[0]
        assert "▸" in shown or "‹" in shown


async def test_walking_stops_at_both_ends_and_a_phase_gone_is_let_go() -> None:
    app = _Shown(_STANDARD)
    async with app.run_test(size=(80, 4)):
        tiles = app.query_one(Course)
        tiles.step(-1)
        assert tiles.chosen is None
        for _ in range(20):
            tiles.step(1)
        assert tiles.chosen == "trim"
        tiles.show(_STANDARD[:2])
        assert tiles.chosen is None and tiles.open_count == 1


def test_counts_come_from_the_items_in_the_jobs_own_order(journal: Journal) -> None:
    job = add_job(journal, "Attic", phases=("demo", "rough electrical", "tile"))
    done = add(journal, job.id, "pull the old wire", phase="rough electrical")
    add(journal, job.id, "run the new wire", phase="rough electrical")
    add(journal, job.id, "pick the fan", phase="a phase of its own", who=Party.CLIENT)
    finish(journal, done.id)
    counted = {p.phase: p for p in course(journal, job)}
    assert list(counted) == ["demo", "rough electrical", "tile", "a phase of its own"]
    assert (counted["rough electrical"].open, counted["rough electrical"].closed) == (1, 1)
    assert counted["rough electrical"].share_closed == 0.5
    assert counted["a phase of its own"].waiting == 1
    assert counted["demo"].share_closed == 0.0


def test_each_choice_has_a_letter_of_its_own() -> None:
    assert letters_for(["saw", "chose", "owed"]) == ["s", "c", "o"]
    assert letters_for(["crew", "client", "inspector", "supplier"]) == ["c", "l", "i", "s"]
    phases = letters_for([*STANDARD_PHASES, "other"])
    assert len(set(phases)) == 7 and all(phases)
    many = letters_for(["aa"] * 20)
    assert [k for k in many if k] == ["a", *"1234567890"]
    assert letters_for(["[/]", "瓦"]) == ["1", "2"]


async def test_a_letter_stays_on_the_line_of_its_word(journal: Journal) -> None:
    app = app_on(journal)
    words = [f"choice {n} of many" for n in range(9)]
    async with app.run_test(size=(40, 24)) as pilot:
        app.push_screen(Picker("phase", words))
        await pilot.pause()
        shown = seen(app)
        for key, word in zip(letters_for(words), words, strict=True):
            assert f"{key} {word}" in shown


async def test_a_picker_gives_the_word_of_a_letter_and_esc_nothing(journal: Journal) -> None:
    app = app_on(journal)
    given: list[str | None] = []
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(Picker("kind", ["saw", "chose", "[/]"], "saw"), given.append)
        await pilot.pause()
        assert "kind?" in lines_of(app)[-1] and "[/]" in lines_of(app)[-1]
        await pilot.press("f1")
        assert "Press the letter before a word" in seen(app)
        await pilot.press("escape")
        await pilot.press("x", "C")
        app.push_screen(Picker("kind", ["saw", "chose"]), given.append)
        await pilot.press("escape")
        app.push_screen(Ask("words", "ask/a", "as it was"), given.append)
        await pilot.pause()
        await typed(pilot, " now")
        await pilot.press("escape")
        # Left half changed, it stands so when asked again.
        app.push_screen(Ask("words", "ask/a", "as it was"), given.append)
        await pilot.pause()
        assert "as it was now" in seen(app)
        await pilot.press("enter")
        await pilot.pause()
    assert given == ["chose", None, None, "as it was now"]
