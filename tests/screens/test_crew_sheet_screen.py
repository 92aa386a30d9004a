"""The crew sheet on screen: as the crew reads it, frozen and written to a folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.journal import next_visit
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.next_visit import NextVisitScreen
from journal_tui.screens.next_visit_sheet import CrewSheetScreen
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.typing_line import TypingLine
from tests.journal.open_items import owed
from tests.screens.seeing import until, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    job = add_job(journal, "Alder Lane 14, hall bath", client="Vera Lund")
    owed(journal, job, "strap the new supply", "rough plumbing")
    owed(journal, job, "ask about the lockbox", audience=Audience.PRIVATE)
    return job


async def test_the_sheet_is_seen_frozen_and_written(journal: Journal, job: Job, tmp_path: Path) -> None:
    async with shown(journal, NextVisitScreen(job.id)) as (pilot, _screen):
        assert "s sheet" in text_of(pilot) and "f freeze" in text_of(pilot)
        await pilot.press("s")
        await worked(pilot)
        text = front(pilot, CrewSheetScreen).query_one(Page).text
        assert "[ ] tub wall: strap the new supply" in " ".join(text.split())
        assert "lockbox" not in text
        await pilot.press("f")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        pilot.app.screen.query_one(TypingLine).value = str(tmp_path / "out")
        await pilot.press("enter")
        await worked(pilot)
        assert "Frozen and written" in text_of(pilot)
    assert len(list((tmp_path / "out").iterdir())) == 5
    (sheet,) = next_visit.frozen_sheets(journal, job.id)
    assert (tmp_path / "out" / f"{_name(sheet.markdown)}").read_text() == sheet.markdown


def _name(markdown: str) -> str:
    assert markdown.startswith("# Alder Lane 14, hall bath")
    return "alder-lane-14-hall-bath-crew-sheet-2026-03-13.md"


async def test_a_folder_that_is_none_freezes_nothing(journal: Journal, job: Job, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    async with shown(journal, CrewSheetScreen(job.id)) as (pilot, _screen):
        await pilot.press("f")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        pilot.app.screen.query_one(TypingLine).value = str(tmp_path / "file")
        await pilot.press("enter")
        await worked(pilot)
        assert "is not a folder" in text_of(pilot)
    assert next_visit.frozen_sheets(journal, job.id) == []


@pytest.mark.parametrize("size", [(80, 24), (40, 15)])
async def test_nasty_words_are_shown_as_they_are(journal: Journal, size: tuple[int, int]) -> None:
    job = add_job(journal, "[/b] lane")
    for words in NASTY:
        owed(journal, job, words, "tile", words)
    async with shown(journal, CrewSheetScreen(job.id), size) as (pilot, screen):
        assert "\x1b" not in text_of(pilot)
        assert "need [/] here" in " ".join(screen.query_one(Page).text.split())
