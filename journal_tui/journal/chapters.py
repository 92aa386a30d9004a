"""Chapters for the client's video, from a reviewed visit: what may be told, at the moment it was said."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from journal_tui.domain.document import ChapterFacts, MomentFact
from journal_tui.domain.errors import NothingFound
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.punch import PunchState
from journal_tui.domain.reading import client_heading, for_client
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import find_visit, visits_of
from journal_tui.journal.writing import file_name, write_document
from journal_tui.store import queries


@dataclass(frozen=True, slots=True)
class VisitChapters:
    """The chapters of a visit: a WebVTT file's text and a description with time marks.

    ``left_out`` counts entries that are not for the client, ``waiting`` drafts not reviewed yet.
    """

    visit: Visit
    webvtt: str
    description: str
    left_out: int
    waiting: int


def visit_chapters(
    journal: Journal, job: Job, day: dt.date | None = None, name: str | None = None
) -> VisitChapters:
    """Return the chapters of a job's newest recorded visit (of ``day``).

    Of several on that day, the newest with something to show; with ``name``, the one
    ``visits.find_visit`` finds by it.

    Raises ``NothingFound`` when no such visit has an entry the client may read at a known moment.
    """
    from journal_tui.documents.chapters import chapters_webvtt, video_description

    visit = _recorded(journal, job, day, name)
    entries = [e for e in queries.entries_of_visits(journal.store, [visit.id]) if e.start is not None]
    facts = _facts(journal, job, visit)
    waiting = queries.waiting_counts(journal.store, [visit.id]).get(visit.id, 0)
    if not facts.moments:
        some = "1 draft waits" if waiting == 1 else f"{waiting} drafts wait"
        why = f"{some} for review; what is kept becomes chapters." if waiting else ""
        raise NothingFound(
            f"nothing said on {short_day(visit.day)} can be shown to the client",
            why or "Only kept entries that the client may read, from captions with times, become chapters.",
        )
    return VisitChapters(
        visit,
        chapters_webvtt(facts),
        video_description(facts),
        left_out=sum(entry.audience is not Audience.CLIENT for entry in entries),
        waiting=waiting,
    )


def _recorded(journal: Journal, job: Job, day: dt.date | None, name: str | None) -> Visit:
    found = visits_of(journal, job.id, day) if name is None else [find_visit(journal, job.id, day, name)]
    found = [visit for visit in found if visit.recording_id]
    if not found:
        when = f" of {short_day(day)}" if day else ""
        which = f' that fits "{one_line(name)}"' if name is not None else ""
        raise NothingFound(f"no visit{when}{which} has a recording", "Log one with: journal-tui log JOB FILE")
    same_day = [visit for visit in found if visit.day == found[0].day]
    return next((v for v in same_day if _facts(journal, job, v).moments), found[0])


def _facts(journal: Journal, job: Job, visit: Visit) -> ChapterFacts:
    from journal_tui.journal.update_facts import client_roles

    roles = client_roles(journal, job)
    dropped = {item.entry_id for item in queries.punch_items(journal.store, job.id, PunchState.DROPPED.value)}
    moments = []
    for entry in queries.entries_of_visits(journal.store, [visit.id]):
        if entry.kind is Kind.NEXT_STEP and entry.id in dropped:
            continue  # decided against since: it is not next
        text = for_client(entry.text, entry.audience, roles)
        area = for_client(entry.area, entry.audience, roles)
        if entry.start is not None and text is not None and area is not None:
            moments.append(MomentFact(entry.start, entry.kind, area, text))
    return ChapterFacts(client_heading(job.name), visit.day, visit.length, tuple(moments))


def write_chapters(folder: Path, job: Job, made: VisitChapters) -> list[Path]:
    """Write the chapters file and the description to ``folder``; return both. Raises ``CannotWrite``."""
    title = client_heading(job.name)
    return [
        write_document(folder, file_name(f"{title} chapters", made.visit.day, ending), text)
        for ending, text in (("vtt", made.webvtt), ("txt", made.description))
    ]
