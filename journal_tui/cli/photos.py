"""Photos of entries, of what is on record of a house, and of its tests."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, Command, count, day_given, opened, takes_day, takes_job
from journal_tui.cli.output import note
from journal_tui.cli.tables import say_wrapped
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.journal.opening import Journal


def _photo(args: argparse.Namespace) -> int:
    from journal_tui.journal.entries import find_entry
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        entry = find_entry(journal, job, args.entry, day=day_given(args, journal))
        return _photos(args, journal, entry.id, "the entry has no photos")


def _photos(args: argparse.Namespace, journal: Journal, of_id: str, none: str) -> int:
    """Attach the files given to a thing, take one away, and list what is attached."""
    from journal_tui.journal.photos import add_photo, drop_photo, photos_of

    for file in args.file:
        add_photo(journal, of_id, Path(file))
    if args.drop is not None:
        drop_photo(journal, of_id, args.drop)
    kept = photos_of(journal, of_id)
    for number, photo in enumerate(kept, 1):
        say_wrapped(f"{number} {photo.width} by {photo.height} points: {one_line(str(photo.path))}")
    if not kept:
        note(none)
    return DONE


def _record_photo(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import find_work
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.record_changes import numbered_test

    with opened(args) as journal:
        of = find_work(journal, find_job(journal, args.job), args.work)
        if args.test is not None:
            of = numbered_test(journal, of, args.test)
        return _photos(args, journal, of["id"], "it has no photos")


# Arguments ---------------------------------------------------------------------------------------


def _photo_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("entry", metavar="ENTRY", help="words of the entry")
    _takes_files(parser)
    takes_day(parser, "the day of the entry, when its words fit several")


def _record_photo_arguments(parser: argparse.ArgumentParser) -> None:
    takes_work(parser)
    _takes_files(parser)
    parser.add_argument("--test", metavar="N", type=count, help="of test N of it, instead of the work itself")


def takes_work(parser: argparse.ArgumentParser) -> None:
    """Have a command name a job and something on record of its house."""
    takes_job(parser)
    parser.add_argument("work", metavar="WORK", help="its number in the record, or words of it")


def _takes_files(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", nargs="*", help="a JPEG or PNG file")
    parser.add_argument("--drop", metavar="N", type=count, help="take photo N away")


COMMANDS = (
    Command(
        "photo",
        "Attach photos to an entry, or list them.",
        _photo,
        "photo elm flange ~/Pictures/flange.jpg",
        _photo_arguments,
        "A photo is turned upright, made small, and kept without place, time or camera.",
    ),
    Command(
        "record photo",
        "Attach photos to it or to a test of it, or list them.",
        _record_photo,
        "record photo elm supply ~/Pictures/gauge.jpg --test 1",
        _record_photo_arguments,
        "A photo is turned upright, made small, and kept without place, time or camera.",
    ),
)
