"""Visits: logging one from a recording or from typed lines, and the timeline of a job."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import BinaryIO

from journal_tui.domain.draft import Draft, JobWords
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import AlreadyLogged, BadInput, CannotRead, NothingFound
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.recording import Captions
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import short_day, visit_day_fault
from journal_tui.journal.jobs import get_job
from journal_tui.journal.keeping import keep_draft
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import heard_place, measured, remember
from journal_tui.store import queries, rows

#: Hears how far long work is: what is being done, and the share done from 0 to 1 (None: not known).
Told = Callable[[str, float | None], None]
#: The share of the work that is reading the words and cutting them into sentences.
_READ = 0.3


@dataclass(frozen=True, slots=True)
class TimelineVisit:
    """A visit with its entries in the order said, and how many drafts still wait for review.

    ``items`` holds, by entry id, the punch items its entries left.
    """

    visit: Visit
    entries: tuple[Entry, ...]
    waiting_drafts: int
    items: Mapping[str, PunchItem] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Drafting:
    """A recording read and drafted, not yet saved."""

    captions: Captions
    drafts: tuple[Draft, ...]
    notices: tuple[str, ...]
    #: The sound or video file itself, when that is what was given; ``pictured`` when stills can be taken.
    recording: Path | None = None
    pictured: Path | None = None


def timeline(
    journal: Journal,
    job_id: str,
    *,
    limit: int = 20,
    before: Visit | None = None,
    phase: str | None = None,
) -> list[TimelineVisit]:
    """Return a job's visits, newest first, from the one before ``before`` on.

    With ``phase``, only the visits with an entry of that phase, and of their entries only those.
    """
    key = (before.day.isoformat(), before.id) if before else None
    visits = queries.visits(journal.store, job_id, limit, key, phase)
    if not visits:
        return []
    ids = [visit.id for visit in visits]
    entries: dict[str, list[Entry]] = {visit_id: [] for visit_id in ids}
    for entry in queries.entries_of_visits(journal.store, ids, phase):
        entries[entry.visit_id].append(entry)
    waiting = queries.waiting_counts(journal.store, ids)
    items = {item.entry_id: item for item in queries.items_of_visits(journal.store, ids) if item.entry_id}
    return [
        TimelineVisit(
            v,
            tuple(entries[v.id]),
            waiting.get(v.id, 0),
            {e.id: items[e.id] for e in entries[v.id] if e.id in items},
        )
        for v in visits
    ]


def job_words(journal: Journal, job: Job) -> JobWords:
    """Return what drafting knows of a job: phases, areas so far, words learned in review."""
    own = tuple(word for _id, word in queries.own_words(journal.store, job.id))
    return JobWords(job.phases, tuple(queries.areas(journal.store, job.id)), own)


def read_and_draft(path: Path, words: JobWords | None = None, told: Told | None = None) -> Drafting:
    """Read a caption file and draft from it; nothing is saved. Raises ``CannotRead``.

    ``told`` hears what is being done and the share done so far (0 to 1).
    """
    from journal_tui.walkthrough.captions import read_captions

    if told:
        told(f"reading {one_line(path.name)}", 0.0)
    captions = read_captions(path)
    if told:
        told(f"drafting from {len(captions.cues)} captions", _READ)
    return drafted(captions, words, told)


def read_stream_and_draft(
    stream: BinaryIO, name: str, words: JobWords | None = None, told: Told | None = None
) -> Drafting:
    """Read captions to the end of ``stream``, calling them ``name``, and draft; nothing is saved.

    Raises ``CannotRead``, also for more bytes than a caption file may have.
    """
    from journal_tui.walkthrough.captions import MOST_BYTES, read_text

    data = stream.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise CannotRead(
            f"{one_line(name)} is too large (captions may have {MOST_BYTES // 1024 // 1024} MB)",
            "It may be the recording itself; give its captions.",
        )
    return drafted(read_text(name, data), words, told)


def drafted(captions: Captions, words: JobWords | None, told: Told | None = None) -> Drafting:
    """Draft from captions; nothing is saved. ``told`` hears how far it is, and may raise to stop.

    Raises ``CannotRead`` for more words than a recording may have.
    """
    from journal_tui.walkthrough.captions import refuse_endless
    from journal_tui.walkthrough.drafting import draft_entries, talk_notices

    def reached(share: float) -> None:
        if told:
            told(f"drafting from {len(captions.cues)} captions", _READ + (1 - _READ) * share)

    refuse_endless(captions)
    drafts = draft_entries(captions, words or JobWords(), reached)
    notices = tuple(str(notice) for notice in captions.notices)
    # They say why nothing was drafted; where something was, reading the talk again finds none.
    return Drafting(captions, drafts, notices if drafts else notices + tuple(talk_notices(captions)))


def log_recording(
    journal: Journal,
    job_id: str,
    drafting: Drafting,
    *,
    day: dt.date | None = None,
    people: str = "",
    summary: str = "",
    again: bool = False,
    told: Told | None = None,
) -> Visit:
    """Save a visit with its recording and the drafts made from it, to be reviewed; all or nothing.

    From a recording with pictures a still is taken for each draft; ``told`` hears of it, and may raise
    to stop.

    Raises ``AlreadyLogged`` when the same recording (by hash) is in the journal and ``again`` is
    False, and ``BadInput`` for a date that cannot be a visit's.
    """
    job = get_job(journal, job_id)
    day = _checked_day(journal, day)
    captions = drafting.captions
    if not again:
        refuse_logged(journal, captions)
    from journal_tui.journal.stills import taken

    with (
        taken(journal, drafting.pictured, drafting.drafts, told) as stills,
        journal.store.write(f"log the visit of {short_day(day)}", job.id) as w,
    ):
        recording_id = w.insert(
            "recordings",
            {
                "name": captions.name,
                "form": captions.form,
                "sha256": captions.sha256,
                "timed": int(captions.timed),
                "length": float(captions.length),
                "verbatim": captions.verbatim,
                "notices": rows.listed(drafting.notices),
            },
        )
        w.insert_all(
            "cues",
            (
                {
                    "recording_id": recording_id,
                    "line": cue.line,
                    "start": float(cue.start),
                    "end": float(cue.end),
                    "speaker": cue.speaker,
                    "text": cue.text,
                }
                for cue in captions.cues
            ),
        )
        visit_id = w.insert(
            "visits",
            {
                "job_id": job.id,
                "day": day.isoformat(),
                "people": measured(people, "who was there").strip(),
                "summary": measured(summary, "the summary").strip(),
                "recording_id": recording_id,
            },
        )
        draft_ids = w.insert_all("drafts", (rows.draft_row(draft, visit_id) for draft in drafting.drafts))
        w.insert_all(
            "stills",
            (rows.still_row(draft_ids[s.place], s.sha256, s.moment, s.width, s.height) for s in stills),
        )
    if drafting.recording:
        remember(journal, heard_place(captions.sha256), "")
    return get_visit(journal, visit_id)


def refuse_logged(journal: Journal, captions: Captions) -> None:
    """Raise ``AlreadyLogged`` when the recording of ``captions`` (by hash) is in the journal."""
    earlier = queries.visits_of_recording(journal.store, captions.sha256)
    if earlier:
        visit = earlier[0]
        job = get_job(journal, visit.job_id)
        raise AlreadyLogged(
            f"{one_line(captions.name)} is already logged",
            f"It is the visit of {short_day(visit.day)} to {one_line(job.name)}. Log it again only if that "
            "is what you mean.",
        )


def note(
    journal: Journal, job_id: str, text: str, *, day: dt.date | None = None, people: str = ""
) -> list[Entry]:
    """Save a typed line as entries of the day's typed visit, through the same drafter; return them."""
    job = get_job(journal, job_id)
    day = _checked_day(journal, day)
    drafts = _drafted_note(journal, job, text)
    if not drafts:
        raise BadInput("an empty note", "Type what you saw, chose or owe, one thing a line.")
    visit = queries.typed_visit(journal.store, job.id, day.isoformat())
    entry_ids = []
    with journal.store.write("type a note", job.id) as w:
        visit_id = (
            visit.id
            if visit
            else w.insert(
                "visits",
                {
                    "job_id": job.id,
                    "day": day.isoformat(),
                    "people": measured(people, "who was there").strip(),
                    "summary": "",
                },
            )
        )
        for draft in drafts:
            entry_ids.append(keep_draft(w, draft, job.id, visit_id, day, timed=False))
    return [entry for entry_id in entry_ids if (entry := queries.entry(journal.store, entry_id))]


def preview_note(journal: Journal, job_id: str, text: str) -> tuple[Draft, ...]:
    """Return what a typed line would become, saving nothing."""
    return _drafted_note(journal, get_job(journal, job_id), text)


def _drafted_note(journal: Journal, job: Job, text: str) -> tuple[Draft, ...]:
    from journal_tui.walkthrough.drafting import draft_note

    text = measured(text, "the note").strip()
    drafts = draft_note(text, job_words(journal, job)) if text else ()
    # What was typed is kept to the letter, blanks and all; the drafter's reading of it shapes the rest.
    return (replace(drafts[0], text=text),) if len(drafts) == 1 else drafts


def get_visit(journal: Journal, visit_id: str) -> Visit:
    """Return the visit with this id. Raises ``NothingFound``."""
    found = queries.visit(journal.store, visit_id)
    if found is None:
        raise NothingFound("no such visit", "It may have been taken out by undo, here or in another copy.")
    return found


def change_visit(journal: Journal, visit_id: str, **changes: str) -> Visit:
    """Change who was at a visit (``people``), its ``summary`` or its ``day`` (ISO)."""
    visit = get_visit(journal, visit_id)
    unknown = set(changes) - {"people", "summary", "day"}
    if unknown:
        raise BadInput(f"a visit has no {sorted(unknown)[0]}")
    for key, text in changes.items():
        measured(text, f"the {key}")
    if "day" in changes:
        _checked_day(journal, dt.date.fromisoformat(changes["day"]))
    with journal.store.write(f"change the visit of {short_day(visit.day)}", visit.job_id) as w:
        w.change("visits", visit_id, **changes)
    return get_visit(journal, visit_id)


def find_visit(journal: Journal, job_id: str, day: dt.date | None = None, name: str | None = None) -> Visit:
    """Return a job's newest visit (of ``day``), or the one of them that ``name`` names.

    ``name`` is a number, 1 for the newest, or words of the recording's name or of the summary.
    Raises ``NothingFound`` when there is none, ``BadInput`` for a name that fits none or several.
    """
    found = visits_of(journal, job_id, day)
    if not found:
        when = f" of {day.isoformat()}" if day else ""
        raise NothingFound(f"no visit{when} is logged", "Log one with: journal-tui log JOB FILE")
    return found[0] if name is None else _named(found, name)


def visits_of(journal: Journal, job_id: str, day: dt.date | None = None) -> list[Visit]:
    """Return a job's visits (of ``day``), newest first, at most 500: the order numbers count in."""
    return [v for v in queries.visits(journal.store, job_id, 500) if day in (None, v.day)]


def called(visit: Visit) -> str:
    """Return what tells a visit from others of its day: its recording, its summary, or that it was typed."""
    return one_line(visit.recording_name or visit.summary or "typed")


def _named(found: Sequence[Visit], name: str) -> Visit:
    word = folded(name)
    if word.isascii() and word.isdigit():
        if len(word) < 7 and 1 <= int(word) <= len(found):
            return found[int(word) - 1]
        some = "there is 1 visit" if len(found) == 1 else f"there are {len(found)} visits"
        raise BadInput(f"there is no visit {word[:10]}", f"{some.capitalize()}; 1 is the newest.")
    fitting = [v for v in found if word and word in folded(f"{v.recording_name} {v.summary}")]
    if len(fitting) == 1:
        return fitting[0]
    listed = ", ".join(f"{n} {called(v)} of {short_day(v.day)}" for n, v in enumerate(found[:8], 1))
    raise BadInput(
        f'{"several visits fit" if fitting else "no visit fits"} "{one_line(name)[:40]}"',
        f"There are {listed}.",
    )


def last_people(journal: Journal, job_id: str) -> str:
    """Return who was at a job's newest visit, as typed, "" when there is none."""
    visits = queries.visits(journal.store, job_id, 1)
    return visits[0].people if visits else ""


def _checked_day(journal: Journal, day: dt.date | None) -> dt.date:
    today = journal.today()
    day = day or today
    fault = visit_day_fault(day, today)
    if fault:
        raise BadInput("the date of the visit", f"{fault}.")
    return day
