"""A visit in full, and setting a visit, an entry or whose move an item is right."""

from __future__ import annotations

import argparse

from journal_tui.cli.command import (
    DONE,
    PROGRAM,
    Command,
    day_given,
    opened,
    takes_day,
    takes_job,
    takes_json,
    takes_visit,
)
from journal_tui.cli.output import put_object, say
from journal_tui.cli.punch import tell
from journal_tui.cli.review import FIELDS_HELP, change_typed, party_named
from journal_tui.cli.tables import columns, entry_lines, say_wrapped, width
from journal_tui.cli.visits import entry_record, tell_others, visit_title
from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock


def _show(args: argparse.Namespace) -> int:
    from journal_tui.journal.entries import visit_record
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.visits import find_visit

    with opened(args) as journal:
        job = find_job(journal, args.job)
        visit = find_visit(journal, job.id, day_given(args, journal), args.visit)
        record = visit_record(journal, visit.id)
        tell_others(args, journal, visit)
    if args.json:
        put_object(
            {
                "day": record.visit.day.isoformat(),
                "people": record.visit.people,
                "summary": record.visit.summary,
                "recording": record.visit.recording_name or None,
                "entries": [entry_record(entry) for entry in record.entries],
                "said": [
                    {"start": line.start, "end": line.end, "speaker": line.speaker, "text": line.text}
                    for line in record.said
                ],
            }
        )
        return DONE
    say_wrapped(job.name)
    say_wrapped(visit_title(record.visit))
    say()
    for entry in record.entries:
        for text in entry_lines(entry):
            say(text)
    if record.waiting_drafts:
        say(f"  {record.waiting_drafts} drafts wait for review.")
    if record.said:
        say("\nSaid, word for word:")
    for line in record.said:
        speaker = f"{line.speaker}: " if line.speaker else ""
        at = clock(line.start) if record.timed else ""
        for text in columns([(at, -7), (one_line(f"{speaker}{line.text}"), width() - 9)]):
            say(text)
    return DONE


def _change_visit(args: argparse.Namespace) -> int:
    from journal_tui.journal.days import day_typed
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.visits import change_visit, find_visit

    changes = {k: v for k, v in (("people", args.people), ("summary", args.summary)) if v is not None}
    with opened(args) as journal:
        job = find_job(journal, args.job)
        visit = find_visit(journal, job.id, day_given(args, journal), args.visit)
        if args.move_to is not None:
            changes["day"] = day_typed(args.move_to, journal.today()).isoformat()
        if not changes:
            raise BadInput("nothing to change", "Say what: --people, --summary or --move-to.")
        tell_others(args, journal, visit)
        say_wrapped(f"Changed: {visit_title(change_visit(journal, visit.id, **changes))}")
    return DONE


def _change_entry(args: argparse.Namespace) -> int:
    from journal_tui.journal.entries import change_entry, find_entry
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        changes = [change_typed(assignment, job) for assignment in args.set]
        entry = find_entry(journal, job, " ".join(args.entry), day=day_given(args, journal))
        for change in changes:
            entry = change_entry(journal, entry.id, change)
        for text in entry_lines(entry):
            say(text)
    return DONE


def _hand(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.punch import find_item, hand_to

    party = party_named(args.to)
    with opened(args) as journal:
        job = find_job(journal, args.job)
        item = find_item(journal, job, " ".join(args.item), states=(PunchState.OPEN,))
        tell(hand_to(journal, item.id, party), f"Now the {party.value}'s move")
    return DONE


def _show_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_day(parser, "the visit of that day (else the newest)")
    takes_visit(parser)
    takes_json(parser)


def _visit_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_day(parser, "the visit of that day (else the newest)")
    takes_visit(parser)
    parser.add_argument("--people", metavar="NAMES", help="who was there, with commas between")
    parser.add_argument("--summary", metavar="TEXT", help="what the visit was about, in a line")
    parser.add_argument("--move-to", metavar="DAY", help="the day it really was")


def _entry_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("entry", metavar="WORDS", nargs="+", help="words of the entry that fit no other")
    takes_day(parser, "only an entry of that day's visits")
    parser.add_argument(
        "--set",
        metavar="FIELD=VALUE",
        action="append",
        required=True,
        help=f"{FIELDS_HELP}; can be given more than once",
    )


def _hand_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the item: its handle, or words of it")
    parser.add_argument(
        "--to", metavar="PARTY", required=True, help="whose move it is: crew, client, inspector or supplier"
    )


COMMANDS = (
    Command(
        "visit show",
        "Show a visit in full: its entries, and all that was said.",
        _show,
        "visit show elm --day 11/20",
        _show_arguments,
    ),
    Command(
        "visit change",
        "Set right who was at a visit, its summary or its day.",
        _change_visit,
        'visit change elm --people "Rui, Dana" --move-to yesterday',
        _visit_arguments,
    ),
    Command(
        "entry change",
        "Set an entry right; its punch item follows.",
        _change_entry,
        'entry change elm flange cracked --set "area=hall toilet" --set audience=private',
        _entry_arguments,
        f"What it was before stays in the history; {PROGRAM} undo JOB takes a change back.",
    ),
    Command(
        "hand",
        "Say whose move a punch item is.",
        _hand,
        "hand elm pick the mirror --to client",
        _hand_arguments,
    ),
)
