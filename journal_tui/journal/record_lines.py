"""The record of a house as its keeper works on it: every line of it, with nothing withheld."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import folded
from journal_tui.journal.opening import Journal
from journal_tui.store import queries, record_queries
from journal_tui.store.store import Row


@dataclass(frozen=True, slots=True)
class TestedLine:
    """A test of a hidden work; ``photos`` is how many of it are attached."""

    id: str
    work_id: str
    what: str
    result: str
    passed: bool
    by: str
    day: dt.date
    photos: int


@dataclass(frozen=True, slots=True)
class WorkLine:
    """Something behind a surface; ``places`` are (point, length), ``entry`` the words it rests on, or "".

    ``tests`` are in the order they were made.
    """

    id: str
    surface: str
    what: str
    size: str
    places: tuple[tuple[str, str], ...]
    seen: dt.date
    covered: dt.date | None
    entry: str
    tests: tuple[TestedLine, ...]
    photos: int

    @property
    def failed(self) -> TestedLine | None:
        """The first test that failed and has not passed since, by its name; None when there is none."""
        last = {folded(test.what): test for test in self.tests}
        return next((test for test in last.values() if not test.passed), None)


@dataclass(frozen=True, slots=True)
class FinishLine:
    """Something the house was finished with."""

    id: str
    area: str
    what: str
    description: str
    lot: str
    care: str
    placed: dt.date | None
    warranty: dt.date | None


@dataclass(frozen=True, slots=True)
class Accepted:
    """Who accepted the finished job, how, when, and what was agreed of anything open."""

    by: str
    how: str
    day: dt.date
    note: str


@dataclass(frozen=True, slots=True)
class RecordLines:
    """All that is on record of a house: works by surface, finishes, and the acceptance."""

    surfaces: tuple[tuple[str, tuple[WorkLine, ...]], ...]
    finishes: tuple[FinishLine, ...]
    accepted: Accepted | None
    open_items: int


def record_lines(journal: Journal, job: Job) -> RecordLines:
    """Return what is on record of a job's house, for whoever keeps it."""
    store = journal.store
    photos = record_queries.record_photos(store, job.id)
    tests = record_queries.hidden_tests(store, job.id)
    surfaces: dict[str, list[WorkLine]] = {}
    for row in record_queries.hidden_works(store, job.id):
        made = [_test(t, len(photos.get(t["id"], ()))) for t in tests.get(row["id"], ())]
        work = _work(journal, row, made, len(photos.get(row["id"], ())))
        surfaces.setdefault(folded(row["surface"]), []).append(work)
    signed = record_queries.sign_off(store, job.id)
    return RecordLines(
        tuple((works[0].surface, tuple(works)) for works in surfaces.values()),
        tuple(_finish(row) for row in record_queries.finishes(store, job.id)),
        Accepted(signed["by"], signed["how"], dt.date.fromisoformat(signed["day"]), signed["note"])
        if signed
        else None,
        len(queries.punch_items(store, job.id, PunchState.OPEN.value)),
    )


def on_record(journal: Journal, entry_id: str) -> list[str]:
    """Return what is on record that rests on an entry, each in a few words."""
    rows = record_queries.works_of_entry(journal.store, entry_id)
    return [f"{row['surface']}: {row['what']}" for row in rows]


def _test(row: Row, photos: int) -> TestedLine:
    day = dt.date.fromisoformat(row["day"])
    return TestedLine(
        row["id"], row["work_id"], row["what"], row["result"], bool(row["passed"]), row["by"], day, photos
    )


def _work(journal: Journal, row: Row, tests: list[TestedLine], photos: int) -> WorkLine:
    places = ((row["from_a"], row["length_a"]), (row["from_b"], row["length_b"]))
    entry = queries.entry(journal.store, row["entry_id"]) if row["entry_id"] else None
    return WorkLine(
        row["id"],
        row["surface"],
        row["what"],
        row["size"],
        tuple((point, length) for point, length in places if point),
        dt.date.fromisoformat(row["seen"]),
        _date(row["covered"]),
        entry.text if entry else "",
        tuple(tests),
        photos,
    )


def _finish(row: Row) -> FinishLine:
    return FinishLine(
        row["id"],
        row["area"],
        row["what"],
        row["description"],
        row["lot"],
        row["care"],
        _date(row["placed"]),
        _date(row["warranty"]),
    )


def _date(value: str | None) -> dt.date | None:
    return dt.date.fromisoformat(value) if value else None
