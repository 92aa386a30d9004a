"""One entry and one visit in full: what was said, what became of it, and setting an entry right."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from journal_tui.domain.draft import Draft
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import short_day
from journal_tui.journal import review
from journal_tui.journal.opening import Journal
from journal_tui.journal.review import Change, SaidLine
from journal_tui.journal.visits import get_visit
from journal_tui.store import queries

#: How far around an entry its words are looked for, in seconds.
_AROUND = 30.0


@dataclass(frozen=True, slots=True)
class EntryDetail:
    """An entry with its visit, its punch item if it left one, and the words said around it.

    ``said`` marks the captions the entry rests on; it is empty for a typed entry.
    """

    entry: Entry
    visit: Visit
    item: PunchItem | None
    said: tuple[SaidLine, ...]


@dataclass(frozen=True, slots=True)
class VisitRecord:
    """A visit in full: its entries in the order said, all its captions, and the items it left by entry id."""

    visit: Visit
    entries: tuple[Entry, ...]
    said: tuple[SaidLine, ...]
    items: Mapping[str, PunchItem]
    waiting_drafts: int
    timed: bool


def get_entry(journal: Journal, entry_id: str) -> Entry:
    """Return the entry with this id. Raises ``NothingFound``."""
    found = queries.entry(journal.store, entry_id)
    if found is None:
        raise NothingFound("no such entry", "It may have been taken out by undo, here or in another copy.")
    return found


def find_entry(journal: Journal, job: Job, words: str, *, day: dt.date | None = None) -> Entry:
    """Return the one entry of a job (of ``day``'s visits) whose area and text hold all of ``words``.

    Raises ``NothingFound`` when none does and ``BadInput`` when several do.
    """
    wanted = folded(words)
    entries = [e for e in queries.entries_since(journal.store, job.id, "") if day in (None, e.day)]
    for found in (
        [e for e in entries if e.id == words or folded(e.text) == wanted],
        [e for e in entries if wanted and all(w in folded(f"{e.area} {e.text}") for w in wanted.split())],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            some = "; ".join(f"{short_day(e.day)} {one_line(e.text)}" for e in found[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(found)} entries', f"Say more: {some}.")
    raise NothingFound(f'no entry fits "{one_line(words)}"', "See them with: journal-tui timeline JOB")


def entry_detail(journal: Journal, entry_id: str) -> EntryDetail:
    """Return an entry with where it comes from. Raises ``NothingFound``."""
    entry = get_entry(journal, entry_id)
    visit = get_visit(journal, entry.visit_id)
    return EntryDetail(
        entry, visit, queries.item_of_entry(journal.store, entry.id), tuple(_said(journal, entry, visit))
    )


def _said(journal: Journal, entry: Entry, visit: Visit) -> list[SaidLine]:
    if visit.recording_id is None or entry.start is None or entry.end is None:
        return []
    start, end = entry.start, entry.end
    return [
        SaidLine(c["start"], c["end"], c["text"], c["speaker"], c["start"] < end and c["end"] > start)
        for c in queries.cues_between(journal.store, visit.recording_id, start - _AROUND, end + _AROUND)
    ]


def visit_record(journal: Journal, visit_id: str) -> VisitRecord:
    """Return a visit in full. Raises ``NothingFound``."""
    visit = get_visit(journal, visit_id)
    entries = queries.entries_of_visits(journal.store, [visit.id])
    items = queries.items_of_visits(journal.store, [visit.id])
    said: tuple[SaidLine, ...] = ()
    timed = False
    if visit.recording_id:
        recording = queries.verbatim(journal.store, visit.recording_id)
        timed = bool(recording and recording["timed"])
        cues = queries.cues(journal.store, visit.recording_id)
        said = tuple(SaidLine(c["start"], c["end"], c["text"], c["speaker"], False) for c in cues)
    return VisitRecord(
        visit,
        tuple(entries),
        said,
        {item.entry_id: item for item in items if item.entry_id},
        queries.waiting_counts(journal.store, [visit.id]).get(visit.id, 0),
        timed,
    )


def typed_record(journal: Journal, job_id: str, day: dt.date) -> VisitRecord | None:
    """Return what was typed of a job on a day, None when nothing was yet."""
    visit = queries.typed_visit(journal.store, job_id, day.isoformat())
    return visit_record(journal, visit.id) if visit else None


def change_entry(journal: Journal, entry_id: str, changes: Change) -> Entry:
    """Set an entry right, whether it was drafted or typed; its punch item follows.

    Raises ``BadInput`` for an empty text.
    """
    entry = get_entry(journal, entry_id)
    drafted = queries.drafts_of_entry(journal.store, entry_id)
    if drafted:
        review.change(journal, drafted[0]["id"], changes)
        return get_entry(journal, entry_id)
    before = _as_draft(entry, queries.item_of_entry(journal.store, entry.id) is not None)
    after = review.changed(before, changes)
    if not after.text.strip():
        raise BadInput("an empty text", "Type what the entry should say.")
    if after != before:
        visit = get_visit(journal, entry.visit_id)
        with journal.store.write("change an entry", entry.job_id) as w:
            w.change("entries", entry.id, **review.fields(after))
            review.follow(journal, w, entry.id, after, visit)
    return get_entry(journal, entry_id)


def _as_draft(entry: Entry, left_open: bool) -> Draft:
    return Draft(
        start=entry.start or 0.0,
        end=entry.end or 0.0,
        kind=entry.kind,
        phase=entry.phase,
        area=entry.area,
        text=entry.text,
        open=left_open,
        who=entry.who,
        hazards=entry.hazards,
        why="",
        heard=entry.text,
        audience=entry.audience,
    )
