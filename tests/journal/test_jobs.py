"""Beginning, finding and changing jobs."""

from __future__ import annotations

import pytest

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.journal import jobs
from journal_tui.journal.opening import Journal


def test_a_job_is_found_by_what_a_person_types(journal: Journal) -> None:
    bath = jobs.add_job(journal, "Hall bath", client="Ada Lindqvist", address="12 Elm Row")
    laundry = jobs.add_job(journal, "Upstairs laundry", address="40 Quarry Road")
    for words in ("Hall bath", "hall", "ELM", "lindqvist", bath.id):
        assert jobs.find_job(journal, words) == bath
    assert jobs.find_job(journal, "quarry laundry") == laundry


def test_an_exact_name_wins_over_names_that_hold_it(journal: Journal) -> None:
    bath = jobs.add_job(journal, "Bath")
    jobs.add_job(journal, "Bath two")
    assert jobs.find_job(journal, "bath") == bath


def test_words_that_fit_two_jobs_or_none_are_refused_with_the_names(journal: Journal) -> None:
    with pytest.raises(NothingFound, match="no jobs yet"):
        jobs.find_job(journal, "x")
    jobs.add_job(journal, "Bath one")
    jobs.add_job(journal, "Bath two")
    with pytest.raises(BadInput, match="Bath two"):
        jobs.find_job(journal, "bath")
    with pytest.raises(NothingFound, match="Bath one"):
        jobs.find_job(journal, "kitchen")


@pytest.mark.parametrize("name", ["", "  \n"])
def test_a_job_needs_a_name(journal: Journal, name: str) -> None:
    with pytest.raises(BadInput, match="needs a name"):
        jobs.add_job(journal, name)


def test_two_jobs_of_one_name_are_refused(journal: Journal) -> None:
    jobs.add_job(journal, "Hall bath")
    with pytest.raises(BadInput, match="already a job"):
        jobs.add_job(journal, "hall  BATH")


@pytest.mark.parametrize("year", [19, 1599, 2030])
def test_an_odd_year_is_refused(journal: Journal, year: int) -> None:
    with pytest.raises(BadInput, match=str(year)):
        jobs.add_job(journal, "Hall bath", year_built=year)


def test_a_job_may_add_phases_of_its_own(journal: Journal) -> None:
    job = jobs.add_job(journal, "Hall bath", phases=("demo", "Rough  Electrical", "tile"))
    assert job.phases == ("demo", "rough electrical", "tile")
    with pytest.raises(BadInput, match="once"):
        jobs.change_job(journal, job.id, phases=("demo", "Demo"))


def test_changing_a_job_keeps_what_was_not_named(journal: Journal) -> None:
    job = jobs.add_job(journal, "Hall bath", client="Ada", year_built=1954)
    changed = jobs.change_job(journal, job.id, name="Hall bath, gut", year_built=None)
    assert (changed.name, changed.client, changed.year_built) == ("Hall bath, gut", "Ada", None)
    with pytest.raises(BadInput, match="no colour"):
        jobs.change_job(journal, job.id, colour="red")
