"""The client update: printed, written to files, edited, and frozen as sent."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Mapping
from pathlib import Path
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
)
from journal_tui.cli.output import note, on_terminal, put, put_html, say
from journal_tui.cli.tables import columns, width
from journal_tui.cli.update_checks import remark_lines
from journal_tui.cli.visits import STDIN, typed_in
from journal_tui.domain.document import Length
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.reading import client_heading
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day

if TYPE_CHECKING:
    from journal_tui.journal.opening import Journal
    from journal_tui.journal.updates import UpdateDraft

_PRINTED = ("md", "html", "text")
_FORMATS = (*_PRINTED, "pdf", "eml")
_LENGTHS = ("short", "standard", "full")


def _update(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.stills import pictures_for_client
    from journal_tui.journal.update_changes import check
    from journal_tui.journal.updates import client_update, discard_edit, reading, save_edit, send_draft

    with opened(args) as journal:
        job = find_job(journal, args.job)
        day = day_given(args, journal)
        length = Length(args.length)
        if args.discard_edit:
            discard_edit(journal, job.id, length)
        draft = client_update(journal, job.id, day, length)
        title = draft.facts.title
        if args.edited is not None:
            save_edit(journal, job.id, draft.made, _edited(args.edited), length)
            draft = client_update(journal, job.id, day, length)
        if args.take or args.keep:
            _settle(journal, job.id, args, day)
            draft = client_update(journal, job.id, day, length)
        if args.check or args.differences:
            return _look_over(journal, draft, args)
        found = check(draft)
        for line in remark_lines(found.remarks):
            note(line)
        if draft.conflicts:
            note(
                f"{draft.conflicts} places were changed both by you and by what is new: both stand in the "
                "text; settle them, then give it back with --edited"
            )
        if args.out is not None:
            pictures = pictures_for_client(journal, job.id, draft.markdown)
            _write(args, draft.markdown, title, day or journal.today(), pictures)
        if args.send:
            sent = send_draft(journal, draft, day)
            note(f"frozen as sent on {sent.sent_on.isoformat()}: The next update starts from here.")
        if args.out is not None or args.send or on_terminal():
            read = reading(draft.markdown)
            told = f"it reads at grade {read.grade:.1f}, {read.words} words"
            untold = f"; {found.not_told_words} (--check names them)" if found.not_told else ""
            note(told + untold)
        if args.out is None:
            pictures = pictures_for_client(journal, job.id, draft.markdown)
            _print(draft.markdown, title, args.format or "md", pictures)
    return NOTHING if draft.facts.empty and not draft.edited else DONE


def _settle(journal: Journal, job_id: str, args: argparse.Namespace, day: dt.date | None) -> None:
    from journal_tui.journal.update_changes import Side, settle

    length = Length(args.length)
    side = Side.JOURNAL if args.take else Side.YOURS
    settle(journal, job_id, args.take or args.keep, side, length, day)
    note("taken as the journal says it" if args.take else "kept as you have it")


def _look_over(journal: Journal, draft: UpdateDraft, args: argparse.Namespace) -> int:
    """Print what is asked to be seen beside the update."""
    from journal_tui.cli.update_checks import check_lines, difference_lines
    from journal_tui.journal.update_changes import changes, check

    lines: list[str] = []
    if args.check:
        lines += check_lines(check(draft))
    if args.differences:
        lines += difference_lines(changes(journal, draft.job.id, draft, Length(args.length)))
    for line in lines:
        say(line)
    if not lines:
        note("nothing to think of" if args.check else "your version and the journal's do not differ")
    return DONE if lines else NOTHING


def _edited(file: str) -> str:
    if file == STDIN:
        return typed_in()
    from journal_tui.journal.formats import read_edited

    return read_edited(Path(file))


def _write(
    args: argparse.Namespace, markdown: str, title: str, day: dt.date, pictures: Mapping[str, bytes]
) -> None:
    from journal_tui.journal.formats import UpdateFormat, write_update

    forms = (UpdateFormat(args.format),) if args.format else (*UpdateFormat,)
    for path in write_update(Path(args.out), markdown, title, day, forms, pictures):
        say(one_line(str(path)))


def _print(markdown: str, title: str, form: str, pictures: Mapping[str, bytes]) -> None:
    from journal_tui.journal.formats import UpdateFormat, update_in_format

    text = update_in_format(markdown, title, UpdateFormat(form), pictures)
    (put_html if form == "html" else put)(text)


def _updates(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.stills import pictures_for_client
    from journal_tui.journal.updates import sent_updates

    with opened(args) as journal:
        job = find_job(journal, args.job)
        sent = sent_updates(journal, job.id)
        if not sent:
            raise NothingFound(
                f"no update was sent to the client of {job.name}", f"See: {PROGRAM} update --help"
            )
        if args.show is not None:
            if args.show > len(sent):
                raise BadInput(f"there is no update {args.show}", f"{len(sent)} were sent.")
            markdown = sent[len(sent) - args.show].markdown
            pictures = pictures_for_client(journal, job.id, markdown)
            _print(markdown, client_heading(job.name), args.format, pictures)
            return DONE
    for number, document in zip(range(len(sent), 0, -1), sent, strict=True):
        first = document.markdown.lstrip("# \n").partition("\n")[0]
        day = f"{short_day(document.sent_on)} {document.sent_on.year}"
        time = f"{document.frozen_at.astimezone():%H:%M}"
        for line in columns([(str(number), -3), (day, 15), (time, 5), (one_line(first), width() - 29)]):
            say(line)
    return DONE


def _update_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--format",
        choices=_FORMATS,
        help="the form: md (Markdown, unless you say), html or text; with --out also pdf or eml (an e-mail)",
    )
    parser.add_argument(
        "--out",
        metavar="FOLDER",
        help="write it to this folder instead, in every form unless --format names one",
    )
    parser.add_argument(
        "--length",
        choices=_LENGTHS,
        default="standard",
        help="short (a message under 600 characters), standard (unless you say), or full",
    )
    parser.add_argument(
        "--send", action="store_true", help="freeze it as sent; the next one starts from here"
    )
    parser.add_argument(
        "--edited",
        metavar="FILE",
        help="keep the Markdown in FILE as your version of it; - reads standard input",
    )
    parser.add_argument(
        "--check",
        action="store_true",
        help="name instead what is left out of it and why, and words of blame or alarm in it",
    )
    parser.add_argument(
        "--differences",
        action="store_true",
        help="show instead, change by change, what the journal says now against your version",
    )
    settled = parser.add_mutually_exclusive_group()
    settled.add_argument("--take", metavar="N", type=count, help="take the journal's wording of difference N")
    settled.add_argument("--keep", metavar="N", type=count, help="keep your wording of difference N")
    parser.add_argument("--discard-edit", action="store_true", help="go back to what the facts say")
    takes_day(parser, "the date it bears (today unless you say)")


def _updates_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--show", metavar="N", type=count, help="print update N exactly as it was sent")
    parser.add_argument("--format", choices=_PRINTED, default="md", help="the form (md unless you say)")


COMMANDS = (
    Command(
        "update",
        "Print what the client may read of all since the last update.",
        _update,
        "update elm\nupdate elm --length short --format text\nupdate elm --out ~/Desktop --send"
        "\nupdate elm > elm.md   (edit it, then:)"
        "\nupdate elm --edited elm.md --send --out ~/Desktop"
        "\nupdate elm --check\nupdate elm --differences\nupdate elm --take 2",
        _update_arguments,
        "Private entries, codes and names never come into it. Nothing is sent anywhere: --send only\n"
        "freezes the text with its date.",
    ),
    Command(
        "updates",
        "List the updates sent, or print one as it was sent.",
        _updates,
        "updates elm --show 2 --format text",
        _updates_arguments,
    ),
)
