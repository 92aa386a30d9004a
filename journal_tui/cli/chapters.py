"""Chapters for the client's video."""

from __future__ import annotations

import argparse
from pathlib import Path

from journal_tui.cli.command import DONE, Command, day_given, opened, takes_day, takes_job, takes_visit
from journal_tui.cli.output import note, put, say
from journal_tui.cli.visits import tell_others
from journal_tui.domain.text import one_line

_FORMATS = ("text", "vtt")


def _chapters(args: argparse.Namespace) -> int:
    from journal_tui.journal.chapters import visit_chapters, write_chapters
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        made = visit_chapters(journal, job, day_given(args, journal), args.visit)
        tell_others(args, journal, made.visit)
    if args.out is not None:
        for path in write_chapters(Path(args.out), job, made):
            say(one_line(str(path)))
    else:
        put(made.webvtt if args.format == "vtt" else made.description)
    if made.waiting:
        some = (
            "1 draft of this visit waits"
            if made.waiting == 1
            else f"{made.waiting} drafts of this visit wait"
        )
        note(f"{some} for review; what is kept becomes chapters too")
    if made.left_out:
        note(f"{made.left_out} of this visit's entries left out: not for the client")
    return DONE


def _arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_day(parser, "the day of the visit (the newest recorded one unless you say)")
    takes_visit(parser)
    parser.add_argument(
        "--format",
        choices=_FORMATS,
        default="text",
        help="text (a description with time marks, unless you say) or vtt (a WebVTT chapters file)",
    )
    parser.add_argument("--out", metavar="FOLDER", help="write both to this folder instead")


COMMANDS = (
    Command(
        "chapters",
        "Print time marks for the video of a visit, so that the client can step through it.",
        _chapters,
        "chapters elm\nchapters elm --day 3/11 --format vtt\nchapters elm --out ~/Desktop",
        _arguments,
        "Made of the kept entries that the client may read: what was found, decided and comes next,\n"
        "each at the moment it was said. Private entries, codes and names never come into it.",
    ),
)
