"""Setting the record of a house right: changing what is on it, uncovering, and taking things off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.house_record import (
    FinishWords,
    WorkWords,
    get_finish,
    get_test,
    get_work,
    kept_finish,
    kept_test,
    kept_work,
)
from journal_tui.journal.opening import Journal
from journal_tui.journal.stills import spare
from journal_tui.store import record_queries
from journal_tui.store.store import Row


def change_work(journal: Journal, work_id: str, words: WorkWords) -> None:
    """Set something behind a surface right. Raises ``NothingFound``; ``BadInput`` as ``add_work`` does."""
    work = get_work(journal, work_id)
    values = kept_work(journal, work["job_id"], words)
    _change(journal, "hidden_works", "change hidden work on record", work, values)


def change_test(
    journal: Journal, test_id: str, what: str, result: str, *, passed: bool, by: str, day: dt.date | None
) -> None:
    """Set a test right. Raises ``NothingFound``, and ``BadInput`` as ``add_test`` does."""
    test = get_test(journal, test_id)
    values = kept_test(journal, what, result, passed=passed, by=by, day=day)
    _change(journal, "hidden_tests", "change a test on record", test, values)


def change_finish(journal: Journal, finish_id: str, words: FinishWords) -> None:
    """Set a finish right. Raises ``NothingFound``, and ``BadInput`` as ``add_finish`` does."""
    finish = get_finish(journal, finish_id)
    _change(journal, "finishes", "change a finish on record", finish, kept_finish(journal, words))


def _change(journal: Journal, table: str, label: str, row: Row, values: Mapping[str, object]) -> None:
    if any(row[field] != value for field, value in values.items()):
        with journal.store.write(label, row["job_id"]) as w:
            w.change(table, row["id"], **values)


def uncover(journal: Journal, work: Row) -> None:
    """Take back that a hidden work was covered. Raises ``BadInput`` when it is not said to be."""
    if work["covered"] is None:
        raise BadInput(f"{one_line(work['what'])} is not covered", "Nothing says that it was.")
    with journal.store.write("take back that hidden work was covered", work["job_id"]) as w:
        w.change("hidden_works", work["id"], covered=None)


def drop_work(journal: Journal, work: Row) -> None:
    """Take a hidden work, its tests and their photos off the record; the history keeps them."""
    tests = record_queries.hidden_tests(journal.store, work["job_id"]).get(work["id"], ())
    photos = record_queries.photos_of_work(journal.store, work["id"], of_tests=True)
    with journal.store.write("take hidden work off the record", work["job_id"]) as w:
        for photo in photos:
            w.remove("record_photos", photo["id"])
        for test in tests:
            w.remove("hidden_tests", test["id"])
        w.remove("hidden_works", work["id"])
    spare(journal, [photo["sha256"] for photo in photos])


def drop_test(journal: Journal, test_id: str) -> None:
    """Take a test and its photos off the record. Raises ``NothingFound``."""
    test = get_test(journal, test_id)
    photos = record_queries.photos_of_test(journal.store, test_id)
    with journal.store.write("take a test off the record", test["job_id"]) as w:
        for photo in photos:
            w.remove("record_photos", photo["id"])
        w.remove("hidden_tests", test_id)
    spare(journal, [photo["sha256"] for photo in photos])


def drop_finish(journal: Journal, finish_id: str) -> None:
    """Take a finish off the record. Raises ``NothingFound``."""
    finish = get_finish(journal, finish_id)
    with journal.store.write("take a finish off the record", finish["job_id"]) as w:
        w.remove("finishes", finish_id)


def numbered_test(journal: Journal, work: Row, number: int) -> Row:
    """Return test ``number`` (counted from 1) of a hidden work. Raises ``BadInput`` when there is none."""
    tests = record_queries.hidden_tests(journal.store, work["job_id"]).get(work["id"], [])
    if not 1 <= number <= len(tests):
        raise BadInput(f"there is no test {number}", f"{len(tests)} of it are on record.")
    return tests[number - 1]


def find_finish(journal: Journal, job: Job, words: str) -> Row:
    """Return the one finish of a job whose area and name hold all of ``words``.

    Raises ``NothingFound`` when none does and ``BadInput`` when several do.
    """
    wanted = folded(words).split()
    found = [
        row
        for row in record_queries.finishes(journal.store, job.id)
        if wanted and all(word in folded(f"{row['area']} {row['what']}") for word in wanted)
    ]
    if not found:
        raise NothingFound(
            f'no finish on record fits "{one_line(words)}"', "See them with: journal-tui record JOB --closing"
        )
    if len(found) > 1:
        raise BadInput(f'"{one_line(words)}" fits {len(found)} finishes', "Say more of it.")
    return found[0]
