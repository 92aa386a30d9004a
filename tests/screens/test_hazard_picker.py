"""Hazards named and taken away by key, in review and on an entry."""

from __future__ import annotations

from journal_tui.domain.kinds import Hazard
from journal_tui.journal import punch, review
from journal_tui.journal.entries import get_entry
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.review import ReviewScreen
from tests.screens.showing import shown, text_of
from tests.screens.walks import walked_job


async def test_a_hazard_the_drafter_missed_is_named_in_review(journal: Journal) -> None:
    job, visit = walked_job(journal)
    first = review.drafts(journal, visit.id)[0].id
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        assert "h no hazard" in text_of(pilot)
        await pilot.press("h")
        await pilot.pause()
        assert "a asbestos" in text_of(pilot) and "none of them (now)" in text_of(pilot)
        await pilot.press("a")
        await pilot.press("h", "l")
        await pilot.pause()
        assert "h hazard: asbestos, lead" in text_of(pilot)
        assert review.get_draft(journal, first).draft.hazards == (Hazard.ASBESTOS, Hazard.LEAD)
        # The letter of one already named takes it away.
        await pilot.press("h", "a")
        await pilot.pause()
        assert review.get_draft(journal, first).draft.hazards == (Hazard.LEAD,)
        await pilot.press("z")
        await pilot.pause()
        assert "h hazard: asbestos, lead" in text_of(pilot)
        await pilot.press("h", "n")
        await pilot.pause()
        assert "h no hazard" in text_of(pilot)


async def test_an_entrys_hazard_is_named_and_its_punch_item_follows(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    (entry,) = note(journal, job.id, "need to cap the stub at the range")
    async with shown(journal, EntryScreen(job.id, entry.id)) as (pilot, _screen):
        assert "none named (h names one)" in text_of(pilot)
        await pilot.press("h", "g")
        await pilot.pause()
        assert "hazard gas" in text_of(pilot)
        assert get_entry(journal, entry.id).hazards == (Hazard.GAS,)
        (group,) = punch.open_list(journal, job).phases
        assert group.items[0].hazards == (Hazard.GAS,)
        await pilot.press("h", "n")
        await pilot.pause()
        (group,) = punch.open_list(journal, job).phases
        assert group.items[0].hazards == get_entry(journal, entry.id).hazards == ()
