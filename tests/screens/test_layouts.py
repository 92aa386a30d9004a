"""Every screen at the size it is designed for, at 40 by 15, and at 120 columns."""

from __future__ import annotations

import pytest

from journal_tui.journal import review
from journal_tui.journal.opening import Journal
from journal_tui.screens.beside import Beside
from journal_tui.screens.course import Course
from journal_tui.screens.frame import KeyLine, StatusLine, TitleLine
from journal_tui.screens.line_list import LineList
from tests.screens.seeing import app_on, lines_of, seen, top, worked
from tests.screens.test_nasty_text import EVERY_SCREEN, House
from tests.screens.walks import walked_job


@pytest.fixture
def house(journal: Journal) -> House:
    job, visit = walked_job(journal, 12)
    kept = [d.id for d in review.drafts(journal, visit.id)][:8]
    review.keep(journal, kept)
    entry_id = review.get_draft(journal, kept[2]).entry_id
    return House(journal, job, visit, entry_id or "")


@pytest.mark.parametrize("name", EVERY_SCREEN)
async def test_the_frame_stands_at_every_size(house: House, name: str) -> None:
    app = app_on(house.journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(EVERY_SCREEN[name](house))
        await worked(pilot)
        for width, height in ((80, 24), (40, 15), (120, 30), (24, 7), (80, 24)):
            await pilot.resize_terminal(width, height)
            await pilot.pause()
            screen = top(app)
            assert screen.query_one(TitleLine).region.y == 0
            keys = screen.query_one(KeyLine).region
            assert (keys.y, keys.height) == (height - 1, 1)
            if height > 10:
                status = screen.query_one(StatusLine).region
                assert status.bottom == keys.y and status.height >= 1
                assert "F1 help" in lines_of(app)[-1]
                # What the screen is about has most of it.
                assert not screen.query_one(TitleLine).region.overlaps(status)


async def test_the_words_stand_beside_at_120_and_below_at_80_and_give_way_at_40(house: House) -> None:
    app = app_on(house.journal, house.job.id)
    async with app.run_test(size=(120, 30)) as pilot:
        await pilot.press("down", "down", "down")
        await pilot.pause()
        lines, beside = top(app).query_one(LineList), top(app).query_one(Beside)
        assert beside.region.x >= lines.region.right and beside.region.height > 15
        assert lines.region.width >= 70
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert beside.region.y >= lines.region.bottom and beside.region.width == 80
        assert lines.region.height >= 11
        await pilot.resize_terminal(40, 15)
        await pilot.pause()
        assert not beside.display or beside.region.area == 0
        assert lines.region.height >= 8
        assert top(app).query_one(Course).region.height == 1
        assert "‹ all phases" in seen(app)
        # The selected line is still the one that was.
        assert lines.selected is not None and any(line.startswith("▸") for line in lines_of(app))
