"""The record of a house: what is behind its surfaces, what it was finished with, who accepted it."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Callable
from dataclasses import dataclass

from journal_tui.domain.change_order import Channel
from journal_tui.domain.document import DocumentKind, SentDocument
from journal_tui.domain.errors import BadInput, NothingFound, about
from journal_tui.domain.house_record import Distance, Finish, HiddenTest, HiddenWork, HouseRecord, SignOff
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.punch import PunchState
from journal_tui.domain.reading import ClientText, client_heading, for_client
from journal_tui.domain.text import folded, one_line, storable
from journal_tui.domain.times import visit_day_fault
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.journal.update_facts import client_roles
from journal_tui.store import plan_queries, queries, record_queries
from journal_tui.store.store import Row

_KIND = DocumentKind.RECORD
#: A warranty longer than this is a slip of the keys.
_WARRANTY_YEARS = 60


@dataclass(frozen=True, slots=True)
class WorkWords:
    """A hidden work as it is typed: lengths in tape words; ``points`` are up to two (point, length)."""

    surface: str
    what: str
    size: str = ""
    points: tuple[tuple[str, str], ...] = ()
    seen: dt.date | None = None
    covered: dt.date | None = None
    entry_id: str | None = None


@dataclass(frozen=True, slots=True)
class FinishWords:
    """A finish as it is typed."""

    area: str
    what: str
    description: str = ""
    lot: str = ""
    care: str = ""
    placed: dt.date | None = None
    warranty: dt.date | None = None


def add_work(journal: Journal, job_id: str, words: WorkWords) -> str:
    """Put something behind a surface on record; return its id.

    Raises ``BadInput`` without a surface or what it is, for a length that is none, or more than two points.
    """
    job = get_job(journal, job_id)
    values = kept_work(journal, job.id, words)
    with journal.store.write("put hidden work on record", job.id) as w:
        return w.insert("hidden_works", {"job_id": job.id, **values})


def kept_work(journal: Journal, job_id: str, words: WorkWords) -> dict[str, str | None]:
    """Return a hidden work as it is kept. Raises as ``add_work`` does, naming the field."""
    with about("surface"):
        surface = _needed(words.surface, "the surface")
    with about("what"):
        what = _needed(words.what, "what is behind it")
    if len(words.points) > 2:
        raise BadInput("more than two distances", "Give one or two, from points that will still be there.")
    points = [_point(*pair, name) for pair, name in zip(words.points, ("a", "b"), strict=False)]
    points += [("", "")] * (2 - len(points))
    with about("seen"):
        seen = _day(journal, words.seen)
    with about("covered"):
        if words.covered and _day(journal, words.covered) < seen:
            raise BadInput("the day it was covered", "It is before the day it was seen.")
    if words.entry_id is not None:
        entry = queries.entry(journal.store, words.entry_id)
        if entry is None or entry.job_id != job_id:
            raise NothingFound(
                "no such entry", "It may have been taken out by undo, here or in another copy."
            )
    with about("size"):
        size = one_line(measured(words.size, "the size"))
    return {
        "surface": surface,
        "what": what,
        "size": size,
        "from_a": points[0][0],
        "length_a": points[0][1],
        "from_b": points[1][0],
        "length_b": points[1][1],
        "seen": seen.isoformat(),
        "covered": words.covered.isoformat() if words.covered else None,
        "entry_id": words.entry_id,
    }


def _needed(text: str, what: str) -> str:
    line = one_line(measured(text, what))
    if not line:
        raise BadInput(f"{what} is not said", "A record without it helps nobody later.")
    return line


def _point(point: str, length: str, name: str) -> tuple[str, str]:
    from journal_tui.measures.fractions import display
    from journal_tui.measures.lengths import parse_length

    with about(f"from_{name}"):
        kept = _needed(point, "the point it is measured from")
    with about(f"length_{name}"):
        return kept, display(parse_length(length, "the distance"))


def _day(journal: Journal, day: dt.date | None) -> dt.date:
    day = day or journal.today()
    fault = visit_day_fault(day, journal.today())
    if fault or day > journal.today():
        raise BadInput("the date", fault or f"{day.isoformat()} is still to come.")
    return day


def find_work(journal: Journal, job: Job, words: str) -> Row:
    """Return the one hidden work of a job that ``words`` names: its number in the record, or words of it.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    works = record_queries.hidden_works(journal.store, job.id)
    if words.isascii() and words.isdigit() and 1 <= int(words[:6]) <= len(works):
        return works[int(words) - 1]
    wanted = folded(words).split()
    found = [w for w in works if wanted and all(x in folded(f"{w['surface']} {w['what']}") for x in wanted)]
    if len(found) == 1:
        return found[0]
    if found:
        raise BadInput(
            f'"{one_line(words)}" fits {len(found)} of the record', "Say more, or give its number."
        )
    raise NothingFound(f'nothing on record fits "{one_line(words)}"', "See it with: journal-tui record JOB")


def get_work(journal: Journal, work_id: str) -> Row:
    """Return the hidden work with this id. Raises ``NothingFound``."""
    return _found(record_queries.hidden_work(journal.store, work_id))


def get_test(journal: Journal, test_id: str) -> Row:
    """Return the test with this id, its job and its work's words with it. Raises ``NothingFound``."""
    return _found(record_queries.hidden_test(journal.store, test_id))


def get_finish(journal: Journal, finish_id: str) -> Row:
    """Return the finish with this id. Raises ``NothingFound``."""
    return _found(record_queries.finish(journal.store, finish_id))


def _found(row: Row | None) -> Row:
    if row is None:
        raise NothingFound(
            "this is not on record", "It may have been taken out by undo, here or in another copy."
        )
    return row


def add_test(
    journal: Journal, work: Row, what: str, result: str, *, passed: bool, by: str, day: dt.date | None = None
) -> str:
    """Put a test of a hidden work on record; return its id.

    Raises ``BadInput`` without what it was, what came of it, or who made it, and for a day before the work
    was seen.
    """
    values = kept_test(journal, what, result, passed=passed, by=by, day=day)
    with journal.store.write("put a test on record", work["job_id"]) as w:
        return w.insert("hidden_tests", {"work_id": work["id"], **values})


def kept_test(
    journal: Journal, what: str, result: str, *, passed: bool, by: str, day: dt.date | None
) -> dict[str, str | int]:
    """Return a test as it is kept. Raises as ``add_test`` does, naming the field."""
    with about("what"):
        what = _needed(what, "the test")
    with about("found"):
        result = _needed(result, "the result")
    with about("by"):
        by = _needed(by, "who made the test")
    with about("day"):
        made = _day(journal, day)
    return {"what": what, "result": result, "passed": int(passed), "by": by, "day": made.isoformat()}


def cover(journal: Journal, work: Row, day: dt.date | None = None) -> None:
    """Say when a hidden work was covered. Raises ``BadInput`` for a day before it was seen."""
    covered = _day(journal, day)
    if covered.isoformat() < work["seen"]:
        raise BadInput("the day it was covered", "It is before the day it was seen.")
    with journal.store.write("cover hidden work", work["job_id"]) as w:
        w.change("hidden_works", work["id"], covered=covered.isoformat())


def add_finish(journal: Journal, job_id: str, words: FinishWords) -> str:
    """Put a finish on record; return its id. Raises ``BadInput`` without what it is."""
    job = get_job(journal, job_id)
    values = kept_finish(journal, words)
    with journal.store.write("put a finish on record", job.id) as w:
        return w.insert("finishes", {"job_id": job.id, **values})


def kept_finish(journal: Journal, words: FinishWords) -> dict[str, str | None]:
    """Return a finish as it is kept. Raises as ``add_finish`` does, naming the field."""
    with about("placed"):
        placed = _day(journal, words.placed) if words.placed else None
    with about("warranty"):
        latest = journal.today() + dt.timedelta(days=366 * _WARRANTY_YEARS)
        if words.warranty and (words.warranty > latest or (placed and words.warranty < placed)):
            raise BadInput("the end of the warranty", f"{words.warranty.isoformat()}: check the year.")
    with about("what"):
        what = _needed(words.what, "what it is")
    return {
        "area": one_line(measured(words.area, "the area")),
        "what": what,
        "description": one_line(measured(words.description, "the description")),
        "lot": one_line(measured(words.lot, "the lot")),
        "care": one_line(measured(words.care, "the care")),
        "placed": placed.isoformat() if placed else None,
        "warranty": words.warranty.isoformat() if words.warranty else None,
    }


def sign_off(
    journal: Journal, job_id: str, by: str, how: Channel, *, day: dt.date | None = None, note: str = ""
) -> None:
    """Record that the finished job was accepted. Raises ``BadInput`` when it is already, or work is open."""
    job = get_job(journal, job_id)
    with about("by"):
        name = _needed(by, "who accepted it")
    if record_queries.sign_off(journal.store, job.id):
        raise BadInput("the job is accepted already", "A sign-off stands.")
    left = len(queries.punch_items(journal.store, job.id, PunchState.OPEN.value))
    with about("note"):
        if left and not note.strip():
            raise BadInput(
                "1 punch item is open" if left == 1 else f"{left} punch items are open",
                "Close them first, or say in a note what was agreed about them.",
            )
    with about("day"):
        signed = _day(journal, day)
    values = {
        "id": job.id,
        "by": name,
        "how": how.value,
        "day": signed.isoformat(),
        "note": one_line(measured(note, "the note")),
        "open_items": left,
    }
    # No job on the action: an acceptance is not what undo should take back.
    with journal.store.write("record the acceptance of the job") as w:
        w.insert("sign_offs", values)


# The record itself -------------------------------------------------------------------------------


def house_record(journal: Journal, job: Job, *, closing: bool = False) -> HouseRecord:
    """Return the record of a house as its owner may read it: names and codes withheld."""
    roles = client_roles(journal, job)

    def client(text: str) -> ClientText:
        shown = for_client(text, Audience.CLIENT, roles)
        assert shown is not None  # only what is marked for others is kept from the client
        return shown

    tests = record_queries.hidden_tests(journal.store, job.id)
    own = record_queries.record_photos(journal.store, job.id)
    photos = record_queries.photos_of_job(journal.store, job.id, client_only=True)
    stills = record_queries.stills_of_job(journal.store, job.id)

    def pictures(row: Row) -> tuple[str, ...]:
        taken = (*own.get(row["id"], ()), *photos.get(row["entry_id"], ()))
        # What he photographed shows it better than a picture out of a walk.
        return tuple(dict.fromkeys(taken)) or tuple(filter(None, [stills.get(row["entry_id"])]))

    works = []
    for row in record_queries.hidden_works(journal.store, job.id):
        places = [(row["from_a"], row["length_a"]), (row["from_b"], row["length_b"])]
        works.append(
            HiddenWork(
                client(row["surface"]),
                client(row["what"]),
                client(row["size"]),
                tuple(Distance(client(point), length) for point, length in places if point),
                dt.date.fromisoformat(row["seen"]),
                _date(row["covered"]),
                tuple(
                    HiddenTest(
                        client(t["what"]),
                        client(t["result"]),
                        bool(t["passed"]),
                        dt.date.fromisoformat(t["day"]),
                        tuple(own.get(t["id"], ())),
                    )
                    for t in tests.get(row["id"], ())
                ),
                pictures(row),
            )
        )
    return HouseRecord(
        title=client_heading(job.name),
        address=client_heading(job.address),
        day=journal.today(),
        works=tuple(works),
        passed=tuple(_results(journal, job, roles)),
        finishes=tuple(_finish(row, client) for row in record_queries.finishes(journal.store, job.id))
        if closing
        else (),
        sign_off=_signed(journal, job) if closing else None,
        open_items=len(queries.punch_items(journal.store, job.id, PunchState.OPEN.value)),
        closing=closing,
    )


def _date(value: str | None) -> dt.date | None:
    return dt.date.fromisoformat(value) if value else None


def _results(journal: Journal, job: Job, roles: dict[str, str]) -> list[HiddenTest]:
    """Return what came of the job's inspections and tests, as recorded on its plan."""
    items = {i.id: i for i in queries.punch_items(journal.store, job.id, None)}
    holds = plan_queries.holds(journal.store, job.id)
    told = []
    for item_id, rows in plan_queries.hold_results(journal.store, job.id).items():
        item = items.get(item_id)
        text = for_client(item.text, item.audience, roles) if item else None
        if text is None or holds[item_id]["kind"] not in ("inspection", "test"):
            continue
        for row in rows:
            told.append(HiddenTest(text, None, bool(row["passed"]), dt.date.fromisoformat(row["day"])))
    return sorted(told, key=lambda test: (test.day, test.what))


def _finish(row: Row, client: Callable[[str], ClientText]) -> Finish:
    return Finish(
        client(row["area"]),
        client(row["what"]),
        client(row["description"]),
        client(row["lot"]),
        client(row["care"]),
        _date(row["placed"]),
        _date(row["warranty"]),
    )


def _signed(journal: Journal, job: Job) -> SignOff | None:
    row = record_queries.sign_off(journal.store, job.id)
    if row is None:
        return None
    # The owner's own name is the proof, and it is theirs to read.
    by, note = client_heading(row["by"]), client_heading(row["note"])
    return SignOff(by, row["how"], dt.date.fromisoformat(row["day"]), note)


def record_markdown(journal: Journal, job: Job, *, closing: bool = False) -> str:
    """Return the record of a house as Markdown."""
    from journal_tui.documents.house_record import house_record_markdown

    return house_record_markdown(house_record(journal, job, closing=closing))


def freeze_record(journal: Journal, job: Job, *, closing: bool = False) -> SentDocument:
    """Freeze the record as it stands: this exact text, with the date. Raises ``NothingFound`` when empty."""
    record = house_record(journal, job, closing=closing)
    if not (record.works or record.passed or record.finishes):
        raise NothingFound("there is nothing on record yet", "Put hidden work or a finish on it first.")
    markdown = storable(record_markdown(journal, job, closing=closing))
    with journal.store.write("freeze the record of the house") as w:
        record_id = w.insert(
            "documents",
            {
                "job_id": job.id,
                "kind": _KIND.value,
                "sent_on": journal.today().isoformat(),
                "markdown": markdown,
                "sha256": hashlib.sha256(markdown.encode()).hexdigest(),
            },
        )
    return next(d for d in queries.documents(journal.store, job.id, _KIND) if d.id == record_id)
