"""The still of a draft in its review: painted beside it, over the whole screen, or told in words."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from rich.console import Console

from journal_tui.journal import review, stills
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.review import ReviewScreen
from journal_tui.screens.still import StillPane, StillView
from journal_tui.walkthrough.media.cells import cells
from tests.media.making import make, pictures, silence
from tests.media.test_stills_kept import CUES, log
from tests.screens.showing import front, shown, text_of

HALF = "▀"


@pytest.fixture(autouse=True)
def colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of today, whatever the tests run in."""
    monkeypatch.setattr(Console, "color_system", property(lambda _self: "truecolor"))


@pytest.fixture
def visit(tmp_path: Path, journal: Journal) -> tuple[str, str]:
    job = add_job(journal, name="Hall bath")
    walk = make(tmp_path / "walk.mp4", frames=pictures(50), sound=silence(5), cues=CUES)
    return job.id, log(journal, job, walk).id


def columns_of(pane: StillPane) -> list[str]:
    return [line for line in pane.render().plain.split("\n") if HALF in line]


def test_cells_are_the_pictures_points(tmp_path: Path) -> None:
    image = Image.new("RGB", (40, 40), (200, 30, 30))
    image.paste((30, 30, 200), (0, 20, 40, 40))
    image.save(tmp_path / "two.jpg", quality=95)
    rows = cells(tmp_path / "two.jpg", 10, 8)
    assert (len(rows), len(rows[0])) == (5, 10), "as large as fits: ten cells wide, five high"
    upper, lower = rows[0][5][0], rows[4][5][1]
    assert upper[0] > 150 > upper[2]
    assert lower[2] > 150 > lower[0]
    tall = cells(tmp_path / "two.jpg", 80, 6)
    assert (len(tall), len(tall[0])) == (6, 12)


async def test_a_wide_screen_shows_the_still_beside_the_draft(
    journal: Journal, visit: tuple[str, str]
) -> None:
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (_pilot, screen):
        pane = screen.query_one(StillPane)
        assert pane.display
        painted = columns_of(pane)
        assert len(painted) >= 8
        assert len({len(line) for line in painted}) == 1
        here = screen.here
        assert here is not None
        still = stills.still_of_draft(journal, here.id)
        assert still is not None
        # A cell's colours are those of the picture there.
        spans = pane.render().spans
        assert len(spans) > 20


async def test_v_shows_it_over_the_whole_screen_and_any_key_goes_back(
    journal: Journal, visit: tuple[str, str]
) -> None:
    async with shown(journal, ReviewScreen(*visit)) as (pilot, screen):
        assert "v shows the still of 0:0" in text_of(pilot)
        await pilot.press("v")
        view = pilot.app.screen
        assert isinstance(view, StillView)
        assert len(columns_of(view.query_one(StillPane))) >= 20
        await pilot.press("enter")
        assert front(pilot, ReviewScreen) is screen
        states = [d.state for d in review.drafts(journal, visit[1])]
        assert states.count(review.DraftState.KEPT) == 0, "the key only closed the picture"


@pytest.mark.parametrize("few", [None, "standard"])
async def test_a_terminal_without_the_colours_says_where_it_is(
    journal: Journal, visit: tuple[str, str], few: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Console, "color_system", property(lambda _self: few))
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (_pilot, screen):
        told = screen.query_one(StillPane).render().plain
        assert HALF not in told
        assert told.startswith("Still at 0:0")
        assert "journal.stills" in told.replace("\n", "")


async def test_without_pillow_it_says_what_to_install(
    journal: Journal, visit: tuple[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "PIL.Image", None)
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (_pilot, screen):
        told = " ".join(screen.query_one(StillPane).render().plain.split())
        assert 'pip install "journal-tui[video]"' in told


async def test_the_still_of_a_kept_entry_is_shown_from_it(journal: Journal, visit: tuple[str, str]) -> None:
    first = review.drafts(journal, visit[1])[0]
    review.keep(journal, [first.id])
    entry_id = review.get_draft(journal, first.id).entry_id
    assert entry_id
    async with shown(journal, EntryScreen(visit[0], entry_id)) as (pilot, screen):
        assert "of the recording (v shows it)" in text_of(pilot)
        await pilot.press("v")
        view = pilot.app.screen
        assert isinstance(view, StillView)
        assert len(columns_of(view.query_one(StillPane))) >= 20
        await pilot.press("enter")
        assert front(pilot, EntryScreen) is screen
    for path in stills.folder_of(journal).rglob("*.jpg"):
        path.unlink()
    async with shown(journal, EntryScreen(visit[0], entry_id)) as (pilot, _screen):
        assert "v shows it" not in text_of(pilot)
        await pilot.press("v")
        assert "No still was taken of this." in text_of(pilot)


async def test_a_draft_without_a_still_has_no_pane(journal: Journal, visit: tuple[str, str]) -> None:
    for path in stills.folder_of(journal).rglob("*.jpg"):
        path.unlink()
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (pilot, screen):
        assert not screen.query_one(StillPane).display
        await pilot.press("v")
        assert "No still was taken for this draft." in text_of(pilot)


async def test_a_file_that_is_no_picture_is_told(journal: Journal, visit: tuple[str, str]) -> None:
    for path in stills.folder_of(journal).rglob("*.jpg"):
        path.write_bytes(b"no picture [/b]")
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (_pilot, screen):
        assert "It cannot be shown here." in " ".join(screen.query_one(StillPane).render().plain.split())


async def test_going_on_changes_the_still(
    journal: Journal, visit: tuple[str, str], reading: Callable[[StillPane], str]
) -> None:
    async with shown(journal, ReviewScreen(*visit), (120, 40)) as (pilot, screen):
        pane = screen.query_one(StillPane)
        before = reading(pane)
        await pilot.press("enter")
        assert reading(pane) != before


@pytest.fixture
def reading() -> Callable[[StillPane], str]:
    """How a pane reads: its last line says the moment."""
    return lambda pane: pane.render().plain.rsplit("\n", 1)[-1]
