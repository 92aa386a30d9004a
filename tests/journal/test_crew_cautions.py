"""What a crew sheet and an update warn of: the house's year, and dangers seen and not settled."""

from __future__ import annotations

import pytest

from journal_tui.domain.draft import Draft
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Hazard, Kind, Party
from journal_tui.journal import jobs, next_visit, punch, updates
from journal_tui.journal.keeping import add_item
from journal_tui.journal.opening import Journal
from tests.conftest import TODAY
from tests.journal.open_items import owed


def _seen(
    journal: Journal, job: Job, text: str, area: str, hazard: Hazard, audience: Audience = Audience.CLIENT
) -> str:
    draft = Draft(
        0.0, 0.0, Kind.OBSERVATION, "demo", area, text, True, None, (hazard,), "", "", audience=audience
    )
    with journal.store.write("add a punch item", job.id) as w:
        return add_item(w, draft, job.id, None, TODAY, None)


def _care(journal: Journal, job: Job) -> str:
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    return next_visit.sheet_markdown(journal, visit, inputs).partition("## Take care")[2]


@pytest.fixture
def job(journal: Journal) -> Job:
    job = jobs.add_job(journal, "Ferris kitchen", client="Ann Ferris", year_built=1948)
    owed(journal, job, "set the hood")
    return job


def test_dangers_seen_and_not_settled_are_on_the_sheet(journal: Journal, job: Job) -> None:
    tiles = _seen(journal, job, "nine-inch tiles, black mastic", "floor", Hazard.ASBESTOS)
    _seen(journal, job, "live wire hangs", "hood", Hazard.ELECTRICAL)
    _seen(journal, job, "wire in the wall", "sink wall", Hazard.ELECTRICAL)
    care = _care(journal, job)
    assert "May hold asbestos (floor): stop" in care
    assert "Wiring (hood, sink wall): keep hands off" in care
    assert "Lead: built 1948" in care
    assert "safe" not in care.lower()
    punch.finish(journal, tiles)
    assert "May hold asbestos" not in _care(journal, job)


@pytest.mark.parametrize(("year", "lead"), [(1977, True), (1978, False), (None, False)])
def test_lead_goes_by_the_year_whatever_the_work(journal: Journal, year: int | None, lead: bool) -> None:
    """Target housing is built before 1978: 40 CFR 745.103."""
    job = jobs.add_job(journal, "Bath", year_built=year)
    owed(journal, job, "set the toilet")
    assert ("before 1978" in _care(journal, job)) == lead


def test_a_private_observation_names_no_place(journal: Journal, job: Job) -> None:
    _seen(journal, job, "owner's own wiring", "attic nook", Hazard.ELECTRICAL, Audience.PRIVATE)
    assert "attic nook" not in _care(journal, job)


def test_every_hazard_has_words_for_the_crew() -> None:
    from journal_tui.documents.cautions import crew_caution

    for hazard in Hazard:
        assert crew_caution(hazard, ["hall", "hall"]).count("(hall)") == 1
        assert "()" not in crew_caution(hazard, [""])
        assert "safe" not in crew_caution(hazard, []).lower()


def test_an_update_takes_care_of_asbestos_an_entry_names(journal: Journal, job: Job) -> None:
    from journal_tui.journal.visits import note

    note(journal, job.id, "Nine by nine tiles under the range, black mastic, might be asbestos")
    text = updates.client_update(journal, job.id).markdown
    care = text[text.index("Please take care") :]
    assert "Old material that may hold asbestos" in care


def test_the_sheet_s_title_reads_right_without_the_client_s_name(journal: Journal, job: Job) -> None:
    owed(journal, job, "Ferris wants the hooks lower", "trim")
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    sheet = next_visit.sheet_markdown(journal, visit, inputs)
    assert sheet.startswith("# Kitchen\n")
    assert "The client wants the hooks lower" in sheet
    assert Party.CLIENT.value + " kitchen" not in sheet
