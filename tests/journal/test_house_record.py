"""The record of a house in a journal: hidden work, its tests, finishes, and the acceptance."""

from __future__ import annotations

import datetime as dt

import pytest

from journal_tui.documents import plain_text
from journal_tui.domain.change_order import Channel
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Party
from journal_tui.journal import house_record as record
from journal_tui.journal import jobs, punch, record_changes
from journal_tui.journal.house_record import FinishWords, WorkWords
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan_items import record_result
from journal_tui.planning.items import HoldResult
from tests.conftest import TODAY


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room", client="Ada Lindqvist", address="12 Elm Row")


def test_the_record_says_what_is_behind_where_and_how_it_was_tested(journal: Journal, job: Job) -> None:
    record.add_work(
        journal,
        job.id,
        WorkWords(
            "Long wall",
            "blocking for the grab bar",
            "2x8",
            (("the door jamb", "34 1/2 in"), ("the floor", "2 ft 9 in")),
            dt.date(2026, 3, 9),
        ),
    )
    record.add_work(journal, job.id, WorkWords("long wall", "new supply, copper", '1/2"'))
    record.add_test(
        journal, record.find_work(journal, job, "supply"), "pressure test", "held 100 psi for 15 minutes",
        passed=True, by="Rui",
    )  # fmt: skip
    record.add_test(
        journal, record.find_work(journal, job, "supply"), "pressure test", "a drip at the valve",
        passed=False, by="Rui", day=dt.date(2026, 3, 10),
    )  # fmt: skip
    record.cover(journal, record.find_work(journal, job, "blocking"), dt.date(2026, 3, 11))
    item = punch.add(journal, job.id, "rough inspection", phase="rough plumbing", who=Party.INSPECTOR)
    record_result(journal, item.id, HoldResult(dt.date(2026, 3, 10), "J. Okoro", True, (), "card signed"))
    made = plain_text(record.record_markdown(journal, job))
    assert made == (
        "Powder room: what is behind the walls\n\n"
        "As of Thursday, March 12, 2026, for 12 Elm Row. Please keep this with the papers of the house. "
        "It says where things are that you can no longer see.\n\n"
        "Behind the long wall\n\n"
        "Blocking for the grab bar, 2x8. You find it 2' 10 1/2\" from the door jamb and 2' 9\" from the "
        "floor. We saw it on March 9 and covered it on March 11.\n\n"
        'New supply, copper, 1/2". We saw it on March 12.\n\n'
        "- Pressure test: did not pass, a drip at the valve, March 10.\n"
        "- Pressure test: passed, held 100 psi for 15 minutes, March 12.\n\n"
        "Inspections and tests\n\n"
        "- Rough inspection: passed, March 10.\n\n"
        "Before you drill or cut, check with a tool that finds wires and pipes. A record can be off by an "
        "inch.\n"
    )


def test_the_closing_file_has_finishes_warranty_care_and_the_acceptance(journal: Journal, job: Job) -> None:
    record.add_finish(
        journal,
        job.id,
        FinishWords(
            "floor",
            "hex tile",
            "white porcelain, one inch, matte",
            "7 boxes, lot C12",
            "wipe with water and mild soap",
            TODAY,
            dt.date(2031, 3, 12),
        ),
    )
    open_item = punch.add(journal, job.id, "touch up the sill")
    waiting = plain_text(record.record_markdown(journal, job, closing=True))
    assert "One thing on our list is still open." in waiting
    with pytest.raises(BadInput, match="1 punch item is open"):
        record.sign_off(journal, job.id, "Ada Lindqvist", Channel.SIGNED)
    punch.finish(journal, open_item.id)
    record.sign_off(journal, job.id, "Ada Lindqvist", Channel.SIGNED)
    with pytest.raises(BadInput, match="accepted already"):
        record.sign_off(journal, job.id, "Ada Lindqvist", Channel.SIGNED)
    made = plain_text(record.record_markdown(journal, job, closing=True))
    for words in (
        "Powder room: the papers of the finished job",
        "Hex tile. White porcelain, one inch, matte. Lot: 7 boxes, lot C12. Put in on March 12. "
        "The warranty runs until March 12, 2031. To keep it well: Wipe with water and mild soap.",
        "Ada Lindqvist accepted the job on Thursday, March 12, 2026 (signed).",
    ):
        assert words in made
    assert "Hex tile" not in record.record_markdown(journal, job)
    sent = record.freeze_record(journal, job, closing=True)
    assert sent.markdown == record.record_markdown(journal, job, closing=True)


def test_what_helps_nobody_is_refused(journal: Journal, job: Job) -> None:
    for words, title in (
        (WorkWords(" ", "pipe"), "the surface is not said"),
        (WorkWords("wall", ""), "what is behind it is not said"),
        (WorkWords("wall", "pipe", points=(("jamb", "soon"),)), "the distance"),
        (WorkWords("wall", "pipe", points=(("jamb", "0 in"),)), "the distance"),
        (WorkWords("wall", "pipe", points=(("", "3 in"),)), "the point"),
        (WorkWords("wall", "pipe", points=(("a", "1 in"),) * 3), "more than two"),
        (WorkWords("wall", "pipe", seen=dt.date(2027, 1, 1)), "still to come"),
        (WorkWords("wall", "pipe", seen=TODAY, covered=dt.date(2026, 3, 1)), "the day it was covered"),
    ):
        with pytest.raises(BadInput, match=title):
            record.add_work(journal, job.id, words)
    with pytest.raises(BadInput, match="warranty"):
        record.add_finish(journal, job.id, FinishWords("", "tile", warranty=dt.date(2126, 1, 1)))
    with pytest.raises(NothingFound):
        record.freeze_record(journal, job)
    with pytest.raises(NothingFound):
        record.find_work(journal, job, "1")
    for n in range(2):
        record.add_work(journal, job.id, WorkWords("wall", f"pipe {n}"))
    with pytest.raises(BadInput, match="fits 2"):
        record.find_work(journal, job, "pipe")
    record_changes.drop_work(journal, record.find_work(journal, job, "1"))
    assert record.find_work(journal, job, "1")["what"] == "pipe 1"


def test_names_and_codes_stay_out_of_the_record(journal: Journal, job: Job) -> None:
    record.add_work(journal, job.id, WorkWords("wall", "Marcos ran the wire, lockbox code is 4471"))
    made = record.record_markdown(journal, job)
    assert "Marcos" not in made and "4471" not in made
