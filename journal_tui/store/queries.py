"""What is asked of a journal file. Every list is paged by key, never by counting rows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from journal_tui.domain.draft import OwnWord
from journal_tui.domain.entry import Entry
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.punch import PunchItem
from journal_tui.store import rows
from journal_tui.store.store import Row, Store

if TYPE_CHECKING:
    from journal_tui.domain.document import DocumentKind, SentDocument

_VISIT = (
    "SELECT v.*, r.name AS recording_name, r.length FROM visits v"
    " LEFT JOIN recordings r ON r.id = v.recording_id"
)
_ENTRY = (
    "SELECT e.*, v.day, EXISTS (SELECT 1 FROM punch_items p WHERE p.entry_id = e.id AND p.state = 'open')"
    " AS open FROM entries e JOIN visits v ON v.id = e.visit_id"
)
_ITEM = (
    "SELECT p.*, v.day AS visit_day, e.start AS said_at FROM punch_items p"
    " LEFT JOIN entries e ON e.id = p.entry_id LEFT JOIN visits v ON v.id = e.visit_id"
)
#: Sorts after every identifier.
_AFTER_ALL = "~"


def jobs(store: Store) -> list[Row]:
    """Return every job's row with its open count and the day of its last visit, newest visit first."""
    return list(
        store.rows(
            "SELECT j.*, (SELECT count(*) FROM punch_items p WHERE p.job_id = j.id AND p.state = 'open')"
            " AS open_items, (SELECT max(day) FROM visits v WHERE v.job_id = j.id) AS last_day,"
            " (SELECT count(*) FROM drafts d JOIN visits v ON v.id = d.visit_id"
            " WHERE v.job_id = j.id AND d.state = 'waiting') AS waiting_drafts"
            " FROM jobs j ORDER BY last_day DESC NULLS FIRST, j.id DESC"
        )
    )


def job(store: Store, job_id: str) -> Job | None:
    """Return one job."""
    row = store.row("SELECT * FROM jobs WHERE id = ?", [job_id])
    return rows.job(row) if row else None


def visits(
    store: Store,
    job_id: str,
    limit: int,
    before: tuple[str, str] | None = None,
    phase: str | None = None,
) -> list[Visit]:
    """Return a job's visits, newest first, from the one before ``before`` (day, id) on.

    With ``phase``, only those with an entry of that phase.
    """
    day, visit_id = before or (_AFTER_ALL, _AFTER_ALL)
    about = "AND EXISTS (SELECT 1 FROM entries e WHERE e.visit_id = v.id AND e.phase = ?)" if phase else ""
    found = store.rows(
        f"{_VISIT} WHERE v.job_id = ? AND (v.day, v.id) < (?, ?) {about}"
        " ORDER BY v.day DESC, v.id DESC LIMIT ?",
        [job_id, day, visit_id, *([phase] if phase else []), limit],
    )
    return [rows.visit(row) for row in found]


def drafted_visits(store: Store, job_id: str) -> list[Visit]:
    """Return a job's visits that drafts were made from, newest first, at most 500."""
    found = store.rows(
        f"{_VISIT} WHERE v.job_id = ? AND EXISTS (SELECT 1 FROM drafts d WHERE d.visit_id = v.id)"
        " ORDER BY v.day DESC, v.id DESC LIMIT 500",
        [job_id],
    )
    return [rows.visit(row) for row in found]


def visit(store: Store, visit_id: str) -> Visit | None:
    """Return one visit."""
    row = store.row(f"{_VISIT} WHERE v.id = ?", [visit_id])
    return rows.visit(row) if row else None


def typed_visit(store: Store, job_id: str, day: str) -> Visit | None:
    """Return the visit of that day that no recording belongs to, if there is one."""
    row = store.row(f"{_VISIT} WHERE v.job_id = ? AND v.day = ? AND v.recording_id IS NULL", [job_id, day])
    return rows.visit(row) if row else None


def visits_of_recording(store: Store, sha256: str) -> list[Visit]:
    """Return the visits that a recording with this hash was logged as."""
    return [rows.visit(r) for r in store.rows(f"{_VISIT} WHERE r.sha256 = ? ORDER BY v.id", [sha256])]


def entries_of_visits(store: Store, visit_ids: Sequence[str], phase: str | None = None) -> list[Entry]:
    """Return the entries of some visits (of one ``phase``) in the order they were said, typed ones last."""
    marks = ", ".join("?" for _ in visit_ids)
    about, params = ("AND e.phase = ?", [*visit_ids, phase]) if phase else ("", [*visit_ids])
    found = store.rows(
        f"{_ENTRY} WHERE e.visit_id IN ({marks}) {about} ORDER BY e.start IS NULL, e.start, e.id", params
    )
    return [rows.entry(row) for row in found]


def items_of_visits(store: Store, visit_ids: Sequence[str]) -> list[PunchItem]:
    """Return the punch items born from the entries of some visits, in no order."""
    marks = ", ".join("?" for _ in visit_ids)
    found = store.rows(
        f"{_ITEM} WHERE p.entry_id IN (SELECT id FROM entries WHERE visit_id IN ({marks}))", visit_ids
    )
    return [rows.punch_item(row) for row in found]


def entry(store: Store, entry_id: str) -> Entry | None:
    """Return one entry."""
    row = store.row(f"{_ENTRY} WHERE e.id = ?", [entry_id])
    return rows.entry(row) if row else None


def entries_since(store: Store, job_id: str, after: str) -> list[Entry]:
    """Return a job's entries saved after an instant (UTC, ISO 8601), by visit day and moment said."""
    found = store.rows(
        f"{_ENTRY} WHERE e.job_id = ? AND e.created_at > ? ORDER BY v.day, e.start IS NULL, e.start, e.id",
        [job_id, after],
    )
    return [rows.entry(row) for row in found]


def areas(store: Store, job_id: str) -> list[str]:
    """Return the areas of a job's entries, the most used first."""
    found = store.rows(
        "SELECT area FROM entries WHERE job_id = ? AND area <> '' GROUP BY area"
        " ORDER BY count(*) DESC, area LIMIT 200",
        [job_id],
    )
    return [row["area"] for row in found]


def entry_texts(store: Store, job_id: str) -> list[str]:
    """Return what a job's newest entries say, at most 500."""
    found = store.rows("SELECT text FROM entries WHERE job_id = ? ORDER BY id DESC LIMIT 500", [job_id])
    return [row["text"] for row in found]


def waiting_counts(store: Store, visit_ids: Sequence[str]) -> dict[str, int]:
    """Return how many drafts of each visit wait for review."""
    marks = ", ".join("?" for _ in visit_ids)
    found = store.rows(
        f"SELECT visit_id, count(*) AS n FROM drafts WHERE state = 'waiting' AND visit_id IN ({marks})"
        " GROUP BY visit_id",
        visit_ids,
    )
    return {row["visit_id"]: row["n"] for row in found}


def visits_to_review(store: Store, job_id: str) -> list[tuple[Visit, int]]:
    """Return a job's visits with drafts that wait, and how many, newest first."""
    found = store.rows(
        f"{_VISIT} WHERE v.job_id = ? AND EXISTS"
        " (SELECT 1 FROM drafts d WHERE d.visit_id = v.id AND d.state = 'waiting')"
        " ORDER BY v.day DESC, v.id DESC",
        [job_id],
    )
    counts = waiting_counts(store, [row["id"] for row in found])
    return [(rows.visit(row), counts[row["id"]]) for row in found]


def drafts(store: Store, visit_id: str) -> list[Row]:
    """Return a visit's drafts in the order they were said."""
    return list(store.rows("SELECT * FROM drafts WHERE visit_id = ? ORDER BY start, id", [visit_id]))


def draft(store: Store, draft_id: str) -> Row | None:
    """Return one draft's row."""
    return store.row("SELECT * FROM drafts WHERE id = ?", [draft_id])


def drafts_of_entry(store: Store, entry_id: str) -> list[Row]:
    """Return the drafts that became an entry: one, or none when it was typed."""
    return list(
        store.rows(
            "SELECT * FROM drafts WHERE visit_id = (SELECT visit_id FROM entries WHERE id = ?)"
            " AND entry_id = ?",
            [entry_id, entry_id],
        )
    )


def still_of_draft(store: Store, draft_id: str) -> Row | None:
    """Return the row of a draft's still."""
    return store.row("SELECT * FROM stills WHERE draft_id = ?", [draft_id])


def stills_of_entries(store: Store, visit_ids: Sequence[str]) -> dict[str, str]:
    """Return the hash of each still of the entries of some visits, by entry."""
    marks = ", ".join("?" for _ in visit_ids)
    found = store.rows(
        "SELECT d.entry_id, s.sha256 FROM drafts d JOIN stills s ON s.draft_id = d.id"
        f" WHERE d.visit_id IN ({marks}) AND d.entry_id IS NOT NULL",
        visit_ids,
    )
    return {row["entry_id"]: row["sha256"] for row in found}


def stills_count(store: Store, visit_id: str) -> int:
    """Return how many drafts of a visit have a still."""
    row = store.row(
        "SELECT count(*) AS n FROM stills s JOIN drafts d ON d.id = s.draft_id WHERE d.visit_id = ?",
        [visit_id],
    )
    return row["n"] if row else 0


def client_stills(store: Store, job_id: str) -> list[str]:
    """Return the hashes of the stills and photos of a job's entries and record that are for the client."""
    found = store.rows(
        "SELECT s.sha256 FROM visits v JOIN drafts d ON d.visit_id = v.id"
        " JOIN stills s ON s.draft_id = d.id JOIN entries e ON e.id = d.entry_id"
        " WHERE v.job_id = ? AND e.audience = 'client'"
        " UNION SELECT p.sha256 FROM entries e JOIN photos p ON p.entry_id = e.id"
        " WHERE e.job_id = ? AND e.audience = 'client'"
        # What is on record belongs to whoever owns the house.
        " UNION SELECT p.sha256 FROM hidden_works w JOIN record_photos p ON p.work_id = w.id"
        " WHERE w.job_id = ?",
        [job_id, job_id, job_id],
    )
    return [row["sha256"] for row in found]


def still_hashes(store: Store) -> set[str]:
    """Return the hash of every still any draft has, and of every photo of an entry or of the record."""
    found = store.rows(
        "SELECT sha256 FROM stills UNION SELECT sha256 FROM photos UNION SELECT sha256 FROM record_photos"
    )
    return {row["sha256"] for row in found}


def cues(store: Store, recording_id: str) -> list[Row]:
    """Return a recording's captions in order."""
    return list(store.rows("SELECT * FROM cues WHERE recording_id = ? ORDER BY start, id", [recording_id]))


def cues_between(store: Store, recording_id: str, start: float, end: float) -> list[Row]:
    """Return the captions heard at any moment from ``start`` to ``end`` (seconds), in order."""
    return list(
        store.rows(
            "SELECT * FROM cues WHERE recording_id = ? AND start <= ? AND end >= ? ORDER BY start, id",
            [recording_id, end, start],
        )
    )


def timed(store: Store, recording_id: str) -> bool:
    """True when a recording's captions say when they were said."""
    row = store.row("SELECT timed FROM recordings WHERE id = ?", [recording_id])
    return bool(row and row["timed"])


def verbatim(store: Store, recording_id: str) -> Row | None:
    """Return a recording as it was loaded."""
    return store.row("SELECT * FROM recordings WHERE id = ?", [recording_id])


def own_words(store: Store, job_id: str) -> list[tuple[str, OwnWord]]:
    """Return (id, word) of what was learned in a job's reviews and is in use, newest last."""
    found = store.rows("SELECT * FROM own_words WHERE job_id = ? AND in_use = 1 ORDER BY id", [job_id])
    return [(row["id"], rows.own_word(row)) for row in found]


def punch_items(store: Store, job_id: str, state: str | None = "open") -> list[PunchItem]:
    """Return a job's punch items in one state, or in any when ``state`` is None."""
    clause, params = ("AND p.state = ?", [job_id, state]) if state else ("", [job_id])
    return [rows.punch_item(row) for row in store.rows(f"{_ITEM} WHERE p.job_id = ? {clause}", params)]


def punch_item(store: Store, item_id: str) -> PunchItem | None:
    """Return one punch item."""
    row = store.row(f"{_ITEM} WHERE p.id = ?", [item_id])
    return rows.punch_item(row) if row else None


def phase_counts(store: Store, job_id: str) -> list[Row]:
    """Return (phase, open, waiting, closed) counts of a job's punch items, in no order."""
    found = store.rows(
        "SELECT phase, sum(state = 'open') AS open, sum(state <> 'open') AS closed,"
        " sum(state = 'open' AND who IS NOT NULL AND who <> 'crew') AS waiting"
        " FROM punch_items WHERE job_id = ? GROUP BY phase",
        [job_id],
    )
    return list(found)


def item_of_entry(store: Store, entry_id: str) -> PunchItem | None:
    """Return the punch item born from an entry."""
    row = store.row(f"{_ITEM} WHERE p.entry_id = ?", [entry_id])
    return rows.punch_item(row) if row else None


def items_done_since(store: Store, job_id: str, after: str) -> list[PunchItem]:
    """Return items now done whose last change was saved after an instant (UTC, ISO 8601)."""
    found = store.rows(
        f"{_ITEM} WHERE p.job_id = ? AND p.state = 'done' AND (SELECT max(c.created_at) FROM punch_changes c"
        " WHERE c.item_id = p.id) > ? ORDER BY p.closed, p.id",
        [job_id, after],
    )
    return [rows.punch_item(row) for row in found]


def item_changes(store: Store, item_id: str) -> list[Row]:
    """Return what happened to a punch item, oldest first."""
    return list(store.rows("SELECT * FROM punch_changes WHERE item_id = ? ORDER BY id", [item_id]))


def documents(store: Store, job_id: str, kind: DocumentKind) -> list[SentDocument]:
    """Return what was sent, newest first."""
    found = store.rows(
        "SELECT * FROM documents WHERE job_id = ? AND kind = ? ORDER BY id DESC LIMIT 500",
        [job_id, kind.value],
    )
    return [rows.document(row) for row in found]


def last_sent_at(store: Store, job_id: str, kind: DocumentKind) -> str:
    """Return the instant (UTC, ISO 8601) the last document of a kind was frozen, "" when none was."""
    row = store.row(
        "SELECT max(created_at) AS at FROM documents WHERE job_id = ? AND kind = ?", [job_id, kind.value]
    )
    return (row["at"] or "") if row else ""


def working_document(store: Store, job_id: str, kind: str) -> Row | None:
    """Return the document of a kind being edited for a job, if any."""
    return store.row("SELECT * FROM working_documents WHERE job_id = ? AND kind = ?", [job_id, str(kind)])


def people_of(store: Store, job_id: str) -> list[str]:
    """Return who was at a job's visits, as typed."""
    found = store.rows("SELECT DISTINCT people FROM visits WHERE job_id = ? AND people <> ''", [job_id])
    return [row["people"] for row in found]


def typed(store: Store, place: str) -> str:
    """Return text left unfinished in a place, "" when there is none."""
    row = store.row("SELECT text FROM typed WHERE id = ?", [place])
    return row["text"] if row else ""


def actions(store: Store, job_id: str, limit: int) -> list[Row]:
    """Return what was done on a job and when its documents were frozen, newest first."""
    return list(
        store.rows(
            "SELECT a.at, a.label, EXISTS (SELECT 1 FROM actions u WHERE u.undoes = a.id) AS undone"
            " FROM actions a WHERE a.job_id = ? OR a.id IN (SELECT h.action_id FROM documents d"
            " JOIN history h ON h.table_name = 'documents' AND h.row_id = d.id AND h.op = 'insert'"
            " WHERE d.job_id = ?) ORDER BY a.id DESC LIMIT ?",
            [job_id, job_id, limit],
        )
    )
