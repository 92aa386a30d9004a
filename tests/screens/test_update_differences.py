"""The writer's version against what the journal says now, on the screen."""

from __future__ import annotations

import pytest

from journal_tui.domain.document import Length
from journal_tui.domain.job import Job
from journal_tui.journal import updates, visits
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import add
from journal_tui.screens.line_list import LineList
from journal_tui.screens.page import Page
from journal_tui.screens.update import UpdateScreen
from journal_tui.screens.update_differences import DifferencesScreen
from tests.screens.seeing import lines_of, seen_on, until, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    """A job whose update was edited in two places before a new fact came in."""
    job = add_job(journal, "Elm Row 3")
    visits.note(journal, job.id, "tub: the sill is dry")
    visits.note(journal, job.id, "floor: two planks are soft by the door")
    draft = updates.client_update(journal, job.id)
    mine = draft.markdown.replace("The sill is dry", "The sill is bone dry")
    mine = mine.replace("please ask.", "please call us.")
    assert mine.count("bone dry") == mine.count("please call us") == 1
    updates.save_edit(journal, job.id, draft.made, mine)
    visits.note(journal, job.id, "window: the new sash is loose")
    return job


async def test_every_difference_is_in_the_list_and_the_chosen_one_in_full(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, _screen):
        assert "3 differences: d" in text_of(pilot)
        await pilot.press("d")
        await worked(pilot)
        screen = front(pilot, DifferencesScreen)
        assert len(screen.query_one(LineList).rows) == 3
        await until(pilot, lambda: "~ **Tub.** The sill is [-bone-]" in screen.query_one(Page).text)
        text = text_of(pilot)
        assert "you changed this" in text and "the journal added this" in text
        await pilot.press("down")
        await until(pilot, lambda: "+ **Window.** The new sash is loose." in screen.query_one(Page).text)


async def test_one_is_taken_one_is_kept_and_both_come_back(journal: Journal, job: Job) -> None:
    async with shown(journal, DifferencesScreen(job.id, Length.STANDARD)) as (pilot, screen):
        before = updates.client_update(journal, job.id).markdown
        await pilot.press("t")
        await worked(pilot)
        after = updates.client_update(journal, job.id).markdown
        assert after == before.replace("bone dry", "dry")
        assert len(screen.query_one(LineList).rows) == 2
        # What is selected now is what the journal added: it is refused.
        await pilot.press("k")
        await worked(pilot)
        without = updates.client_update(journal, job.id).markdown
        assert "sash" not in without and "please call us" in without
        await pilot.press("z")
        await worked(pilot)
        assert updates.client_update(journal, job.id).markdown == after
        await pilot.press("z")
        await worked(pilot)
        assert updates.client_update(journal, job.id).markdown == before
        assert "As it was before that." in text_of(pilot)


async def test_what_changed_meanwhile_is_not_settled_blindly(journal: Journal, job: Job) -> None:
    async with shown(journal, DifferencesScreen(job.id, Length.STANDARD)) as (pilot, _screen):
        other = journal.another()
        draft = updates.client_update(other, job.id)
        updates.save_edit(other, job.id, draft.made, draft.markdown.replace("bone dry", "as dry as toast"))
        other.close()
        await pilot.press("t")
        await worked(pilot)
        assert "changed meanwhile" in text_of(pilot)
    assert "as dry as toast" in updates.client_update(journal, job.id).markdown


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_it_fits_and_can_be_read_without_color(
    journal: Journal, job: Job, size: tuple[int, int]
) -> None:
    async with shown(journal, DifferencesScreen(job.id, Length.STANDARD), size) as (pilot, screen):
        await until(pilot, lambda: "[-bone-]" in screen.query_one(Page).text)
        lines = lines_of(screen.japp)
        assert len(lines) == size[1] and all(len(line) == size[0] for line in lines)
        assert "[-bone-]" in seen_on(pilot)


async def test_none_left_says_so(journal: Journal, job: Job) -> None:
    async with shown(journal, DifferencesScreen(job.id, Length.STANDARD)) as (pilot, screen):
        for left in (2, 1, 0):
            await pilot.press("t")
            await worked(pilot)
            assert len(screen.query_one(LineList).rows) == left
        await until(pilot, lambda: "do not differ" in text_of(pilot))
    assert not updates.client_update(journal, job.id).edited


async def test_words_are_shown_literally(journal: Journal) -> None:
    job = add_job(journal, "Elm Row 3")
    add(journal, job.id, "strap the supply")
    draft = updates.client_update(journal, job.id)
    updates.save_edit(journal, job.id, draft.made, draft.markdown + "\n".join(NASTY))
    async with shown(journal, DifferencesScreen(job.id, Length.STANDARD), (120, 50)) as (pilot, screen):
        await until(pilot, lambda: "need [/] here" in screen.query_one(Page).text)
        assert "[red]door[/red]" in seen_on(pilot)
        assert "\x1b" not in screen.query_one(Page).text
