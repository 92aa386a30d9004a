"""Visits: a job's timeline, logging a recording, typing notes, and drafting without a journal."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING

from journal_tui.cli.command import (
    DONE,
    NOTHING,
    PROGRAM,
    Command,
    count,
    day_given,
    opened,
    takes_day,
    takes_job,
    takes_json,
)
from journal_tui.cli.meter import meter
from journal_tui.cli.output import note, on_terminal, put_object, say
from journal_tui.cli.tables import draft_lines, entry_lines, say_wrapped
from journal_tui.domain.errors import AlreadyLogged, BadInput
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock, short_day

if TYPE_CHECKING:
    from journal_tui.domain.draft import Draft, JobWords
    from journal_tui.domain.entry import Entry
    from journal_tui.domain.job import Job, Visit
    from journal_tui.journal.opening import Journal
    from journal_tui.journal.visits import Drafting, TimelineVisit

STDIN = "-"
_NOTICES_SHOWN = 10


def _timeline(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.visits import timeline

    with opened(args) as journal:
        job = find_job(journal, args.job)
        visits = timeline(journal, job.id, limit=args.limit)
    if args.json:
        put_object([_visit_record(visit) for visit in visits])
    elif not visits:
        note(f"no visit to {job.name} is logged: Log one with: {PROGRAM} log JOB FILE")
    else:
        _show_visits(job, visits)
    return DONE if visits else NOTHING


def _show_visits(job: Job, visits: list[TimelineVisit]) -> None:
    say_wrapped(job.name)
    for line in visits:
        say()
        say_wrapped(visit_title(line.visit))
        for entry in line.entries:
            for text in entry_lines(entry):
                say(text)
        if line.waiting_drafts:
            say(f"  {line.waiting_drafts} drafts wait for review.")


def visit_title(visit: Visit) -> str:
    """Return the day of a visit, what it was about, who was there and what was recorded."""
    length = clock(visit.length) if visit.length else ""
    recorded = visit.recording_name and f"{visit.recording_name} {length}".strip()
    told = (one_line(part) for part in (visit.summary, visit.people, recorded))
    return "; ".join((f"{short_day(visit.day)} {visit.day.year}", *(part for part in told if part)))


def tell_others(args: argparse.Namespace, journal: Journal, visit: Visit) -> None:
    """Say which other visits there are on a visit's day, where none was named."""
    from journal_tui.journal.visits import called, visits_of

    same_day = visits_of(journal, visit.job_id, visit.day)
    if args.visit is None and len(same_day) > 1:
        listed = "; ".join(
            f"{n} {called(v)}{' (this one)' if v.id == visit.id else ''}" for n, v in enumerate(same_day, 1)
        )
        note(
            f"{len(same_day)} visits on {short_day(visit.day)}: {listed}. "
            f"For another: --day {visit.day.isoformat()} --visit N"
        )


def _visit_record(line: TimelineVisit) -> dict[str, object]:
    visit = line.visit
    return {
        "id": visit.id,
        "day": visit.day.isoformat(),
        "people": visit.people,
        "summary": visit.summary,
        "recording": visit.recording_name or None,
        "length": visit.length,
        "waiting_drafts": line.waiting_drafts,
        "entries": [entry_record(entry) for entry in line.entries],
    }


def entry_record(entry: Entry) -> dict[str, object]:
    """Return an entry as other programs get it; ``start`` and ``end`` in seconds, null when typed."""
    return {
        "id": entry.id,
        "kind": entry.kind.value,
        "phase": entry.phase,
        "area": entry.area,
        "text": entry.text,
        "open": entry.open,
        "who": entry.who.value if entry.who else None,
        "hazards": [hazard.value for hazard in entry.hazards],
        "audience": entry.audience.value,
        "start": entry.start,
        "end": entry.end,
    }


def _drafting(args: argparse.Namespace, words: JobWords | None, **listening: object) -> Drafting:
    from journal_tui.journal.hearing import Listening, draft_file
    from journal_tui.journal.visits import read_stream_and_draft

    if not args.file:
        raise BadInput("no file is named", f"Such as: {PROGRAM} draft walk.vtt")
    if args.file != STDIN:
        model = Path(args.speech_model) if args.speech_model else None
        with meter() as told, _kept_when_stopped("journal" in listening):
            return draft_file(Path(args.file), words, Listening(model=model, told=told, **listening))  # type: ignore[arg-type]
    if sys.stdin is None:
        raise BadInput("standard input is closed", "Name the caption file instead of -.")
    with meter() as told:
        return read_stream_and_draft(sys.stdin.buffer, "standard input", words, told)


@contextmanager
def _kept_when_stopped(kept: bool) -> Iterator[None]:
    try:
        yield
    except KeyboardInterrupt:
        if kept:
            note("what was heard of a recording so far is kept: give the same command again to go on")
        raise


def _tell_notices(drafting: Drafting) -> None:
    for text in drafting.notices[:_NOTICES_SHOWN]:
        note(f"{drafting.captions.name}, {text}")
    more = len(drafting.notices) - _NOTICES_SHOWN
    if more > 0:
        note(f"{drafting.captions.name}: {more} more remarks like these")


def _draft(args: argparse.Namespace) -> int:
    drafting = _drafting(args, None)
    _tell_notices(drafting)
    if args.json:
        put_object([_draft_record(draft) for draft in drafting.drafts])
    elif not drafting.drafts:
        note(f"{drafting.captions.name}: nothing found, chosen or owed was heard in it")
    else:
        for number, draft in enumerate(drafting.drafts, 1):
            for text in draft_lines(number, draft, timed=drafting.captions.timed):
                say(text)
    return DONE if drafting.drafts else NOTHING


def _draft_record(draft: Draft) -> dict[str, object]:
    return {
        "start": round(draft.start, 3),
        "end": round(draft.end, 3),
        "kind": draft.kind.value,
        "phase": draft.phase,
        "area": draft.area,
        "text": draft.text,
        "open": draft.open,
        "who": draft.who.value if draft.who else None,
        "hazard": draft.hazard,
        "why": draft.why,
    }


def _log(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.review import keep_rest
    from journal_tui.journal.stills import count as stills_count

    with opened(args) as journal:
        job = find_job(journal, args.job)
        day = day_given(args, journal)
        details = {"day": day, "people": args.people, "summary": args.summary}
        try:
            drafting, visit = _logged(args, journal, job, details, again=args.again)
        except AlreadyLogged as known:
            if not _insists(known):
                say("Left as it was.")
                return NOTHING
            drafting, visit = _logged(args, journal, job, details, again=True)
        count = len(drafting.drafts)
        say_wrapped(f"Logged the visit of {short_day(visit.day)} {visit.day.year} to {one_line(job.name)}.")
        if visit.day > journal.today():
            mend = f"{PROGRAM} visit change {quote(args.job)} --move-to DAY"
            note(f"that day is still to come: set it right with: {mend}")
        if stills := stills_count(journal, visit.id):
            say(f"{stills} of {count} drafts {'has' if stills == 1 else 'have'} a still picture.")
        if args.keep:
            say(f"{keep_rest(journal, visit.id)} of {count} drafts kept.")
        elif count:
            waits = "drafts wait" if count > 1 else "draft waits"
            say_wrapped(f"{count} {waits} for review: {PROGRAM} review {quote(args.job)}")
        else:
            say("No drafts were made from it; its words can be searched.")
    return DONE


def _logged(
    args: argparse.Namespace, journal: Journal, job: Job, details: dict[str, object], *, again: bool
) -> tuple[Drafting, Visit]:
    from journal_tui.journal.visits import job_words, log_recording

    drafting = _drafting(args, job_words(journal, job), journal=journal, job=job, again=again)
    with meter() as told:
        visit = log_recording(journal, job.id, drafting, again=again, told=told, **details)  # type: ignore[arg-type]
    _tell_notices(drafting)
    return drafting, visit


def _insists(known: AlreadyLogged) -> bool:
    """Ask whether what is logged already is to be logged again. Raises ``BadInput`` with nobody to ask."""
    if not on_terminal():
        raise BadInput(known.title, f"{known.body} Then say --again.") from known
    say_wrapped(f"{known.title}. {known.body}")
    try:
        return input("Log it again? [y/N] ").strip().lower() in ("y", "yes")
    except EOFError:  # Ctrl-D
        return False


def _note(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.typed import measured
    from journal_tui.journal.visits import note as save_note

    text = " ".join(args.text)
    with opened(args) as journal:
        job = find_job(journal, args.job)
        day = day_given(args, journal)
        if text == STDIN:
            text = typed_in()
        lines = [line for line in text.replace("\r\n", "\n").split("\n") if line.strip()]
        for line in lines:  # before any is saved: a list refused half-way would be typed again
            measured(line, "the note")
        saved = [
            e for line in lines or [""] for e in save_note(journal, job.id, line, day=day, people=args.people)
        ]
    if args.json:
        put_object([entry_record(entry) for entry in saved])
        return DONE
    for entry in saved:
        for line in entry_lines(entry):
            say(line)
    return DONE


def typed_in() -> str:
    """Return all of standard input as text."""
    if sys.stdin is None:
        raise BadInput("standard input is closed", "Give the text itself instead of -.")
    if sys.stdin.isatty():
        note("type, one thing a line; Ctrl-D on a line of its own ends it")
    return sys.stdin.read()


def _timeline_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--limit", metavar="N", type=count, default=20, help="how many visits to show (20 unless you say)"
    )
    takes_json(parser)


def _log_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "file",
        metavar="FILE",
        help="its captions (.vtt, .srt, .txt) or the recording itself; - reads captions from standard input",
    )
    _takes_speech_model(parser)
    takes_day(parser, "the day of the visit (today unless you say)")
    parser.add_argument("--people", metavar="NAMES", default="", help="who was there, with commas between")
    parser.add_argument("--summary", metavar="TEXT", default="", help="what the visit was about, in a line")
    parser.add_argument("--again", action="store_true", help="log it although it is in the journal already")
    parser.add_argument("--keep", action="store_true", help="keep every draft as it is, without review")


def _takes_speech_model(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--speech-model",
        metavar="FOLDER",
        help="the folder of the model that recognises speech (else the one named last, or one found here)",
    )


def _note_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "text",
        metavar="TEXT",
        nargs="+",
        help="what you saw, chose or owe, one thing a line; - reads lines from standard input",
    )
    takes_day(parser, "the day it is about (today unless you say)")
    parser.add_argument("--people", metavar="NAMES", default="", help="who was there, with commas between")
    takes_json(parser)


def _draft_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "file",
        metavar="FILE",
        help="captions (.vtt, .srt or .txt) or a recording; - reads captions from standard input",
    )
    _takes_speech_model(parser)
    parser.add_argument(
        "--json",
        action="store_true",
        help="print a JSON list of objects with the keys start, end (seconds), kind, phase, area, text, "
        "open, who, hazard, why",
    )


COMMANDS = (
    Command(
        "timeline",
        "Show a job's visits, newest first, with their entries.",
        _timeline,
        "timeline elm --limit 3",
        _timeline_arguments,
    ),
    Command(
        "log",
        "Log a visit from a recording or its captions; drafts are made.",
        _log,
        'log elm walk.vtt --day yesterday --people "Rui, Dana" --summary "after demo"\nlog elm walk.mp4',
        _log_arguments,
        "The captions are kept word for word. Of a recording the words are taken from a caption file of\n"
        "the same name beside it, else from a text track inside it, else its speech is recognised on this\n"
        "machine; which one it was is said. Ctrl-C stops: the same command then goes on where it stopped.\n"
        "A recording that is in the journal already is logged again only when you say so.",
    ),
    Command(
        "note",
        "Type what you saw, chose or owe; it is saved at once.",
        _note,
        'note elm "need to move the vanity drain 3 in left"\nnote elm - < notes.txt',
        _note_arguments,
        "Each line is read as talk is: its kind, phase, area and whose move it is come from the words.",
    ),
    Command(
        "draft",
        "Show what would be drafted from a recording; nothing is saved.",
        _draft,
        "draft walk.srt\ndraft walk.srt --json",
        _draft_arguments,
        "No journal is needed.",
    ),
)
