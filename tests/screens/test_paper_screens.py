"""Change orders and the record of the house on screen: written, previewed, frozen, answered."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from journal_tui.domain.change_order import Answer, ChangeLine, ChangeState, Channel, LineKind
from journal_tui.domain.job import Job
from journal_tui.journal import changes, house_record
from journal_tui.journal.change_answers import answer_order, send_order
from journal_tui.journal.house_record import WorkWords
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.screens.change_orders import ChangeOrdersScreen, OrderScreen
from journal_tui.screens.form import FormScreen
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.record_page import RecordPage
from journal_tui.screens.timeline import TimelineScreen
from journal_tui.screens.typing_line import TypingLine
from tests.screens.seeing import until, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    return add_job(journal, "Alder Lane 14, hall bath", client="Vera Lund", address="14 Alder Lane")


async def _fill(pilot: Pilot[None], *words: str) -> None:
    """Put words into the lines of the form in front, in order, and save it."""
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
    for line, text in zip(pilot.app.screen.query(TypingLine), words, strict=False):
        line.value = text
    await pilot.press("f2")
    await worked(pilot)


async def test_a_change_order_from_the_first_word_to_the_answer(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    async with shown(journal, TimelineScreen(job.id), (100, 40)) as (pilot, _screen):
        await pilot.press("c")
        await worked(pilot)
        assert "There is no change order yet." in text_of(pilot)
        await pilot.press("k")
        await _fill(pilot, "20,000", "2026-04-03", "15", "8", "mat")
        assert "contract $20,000.00, changes $0.00: $20,000.00" in text_of(pilot)
        await pilot.press("n")
        await _fill(
            pilot, "New subfloor", "the floor is soft", "We replace the boards.", "", "2", "2026-03-18"
        )
        assert "Change order (draft): New subfloor" in front(pilot, OrderScreen).query_one(Page).text
        await pilot.press("a")
        await _fill(pilot, "labor", "carpentry", "12", "hour", "65")
        assert "$780.00 at cost + $117.00 markup (15%)" in text_of(pilot)
        assert "Work: carpentry, 12 hours: $897.00" in front(pilot, OrderScreen).query_one(Page).text
        await pilot.press("f")
        await _fill_line(pilot, str(tmp_path / "out"))
        assert sorted(p.suffix for p in (tmp_path / "out").iterdir()) == [
            ".eml",
            ".html",
            ".md",
            ".pdf",
            ".txt",
        ]
        await pilot.press("y")
        await _fill(pilot, "yes", "Vera Lund", "signed", "", "")
        assert "accepted Thu 12 Mar by Vera Lund (signed)" in text_of(pilot)
        await pilot.press("escape")
        await worked(pilot)
        assert "changes $897.00: $20,897.00" in text_of(pilot)
    (order,) = changes.change_orders(journal, job.id)
    assert (order.number, order.state) == (1, ChangeState.ACCEPTED)


async def _fill_line(pilot: Pilot[None], text: str) -> None:
    await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
    pilot.app.screen.query_one(TypingLine).value = text
    await pilot.press("enter")
    await worked(pilot)


async def test_what_cannot_be_done_is_said_and_what_was_typed_stays(journal: Journal, job: Job) -> None:
    order = changes.draft_order(journal, job.id, "New subfloor")
    async with shown(journal, OrderScreen(job.id, order.id), (100, 30)) as (pilot, _screen):
        await pilot.press("y")
        await _fill(pilot, "yes", "Vera", "signed", "", "")
        assert "was not sent yet" in text_of(pilot)
        assert pilot.app.screen.query(TypingLine).first().value == "yes"
        await pilot.press("escape")
        await pilot.press("W")
        await worked(pilot)
        assert "withdrawn" in text_of(pilot)


async def test_the_list_of_orders_names_each_at_80_columns(journal: Journal, job: Job) -> None:
    order = changes.draft_order(journal, job.id, "New sash with tempered glass, and the rotted sill")
    changes.change_words(journal, order.id, offer="We put in a new sash.")
    changes.add_line(journal, order.id, ChangeLine(LineKind.LABOR, "carpentry", 900, "hour", 6_800))
    send_order(journal, order.id)
    answer = Answer("Dorothea Longlastname Lund", Channel.SIGNED, journal.today())
    answer_order(journal, order.id, accepted=True, answer=answer)
    async with shown(journal, ChangeOrdersScreen(job.id), (80, 24)) as (pilot, _screen):
        said = text_of(pilot)
        assert "▸ 1 New sash with tempered glass" in said
        assert "adds $612.00, accepted Thu 12 Mar" in said


@pytest.mark.parametrize("size", [(80, 24), (40, 15)])
async def test_nasty_words_are_shown_as_they_are(journal: Journal, job: Job, size: tuple[int, int]) -> None:
    words = " ".join(NASTY)
    order = changes.draft_order(journal, job.id, words)
    changes.change_words(journal, order.id, found=words, offer=words, left=words)
    house_record.add_work(journal, job.id, WorkWords(words, words, words))
    for screen in (ChangeOrdersScreen(job.id), OrderScreen(job.id, order.id), RecordPage(job.id)):
        async with shown(journal, screen, size) as (pilot, _screen):
            assert "\x1b" not in text_of(pilot)
            pages = list(pilot.app.screen.query(Page))
            assert not pages or "need [/] here" in " ".join(pages[0].text.split())
