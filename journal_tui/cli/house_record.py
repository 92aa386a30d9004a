"""The record of a house."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli import photos
from journal_tui.cli.command import DONE, Command, count, day_given, opened, takes_day, takes_job
from journal_tui.cli.output import note, put, put_html, say
from journal_tui.cli.photos import takes_work
from journal_tui.cli.tables import say_wrapped
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    import datetime as dt

    from journal_tui.journal.opening import Journal

_FORMS = ("md", "html", "text", "pdf", "eml")
_HOW = ("signed", "e-mail", "message", "letter", "phone", "in person")


def _record(args: argparse.Namespace) -> int:
    from journal_tui.domain.reading import client_heading
    from journal_tui.journal.house_record import freeze_record, record_markdown
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.papers import PaperForm, paper_text, write_paper
    from journal_tui.journal.stills import pictures_for_client

    form = PaperForm(args.format or "md")
    with opened(args) as journal:
        job = find_job(journal, args.job)
        markdown = record_markdown(journal, job, closing=args.closing)
        if args.freeze:
            markdown = freeze_record(journal, job, closing=args.closing).markdown
            note("frozen as it stands today")
        pictures = pictures_for_client(journal, job.id, markdown)
        title = f"{client_heading(job.name)}, record"
        if args.out is not None:
            forms = (form,) if args.format else (*PaperForm,)
            for path in write_paper(Path(args.out), markdown, title, title, journal.today(), forms, pictures):
                say(one_line(str(path)))
            return DONE
    if not form.is_text:
        raise BadInput(f"{form.value} is not for a terminal", "Name a folder to write it to, with --out.")
    (put_html if form is PaperForm.HTML else put)(paper_text(markdown, title, form, pictures))
    return DONE


def _add(args: argparse.Namespace) -> int:
    from journal_tui.journal.entries import find_entry
    from journal_tui.journal.house_record import WorkWords, add_work
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        entry = find_entry(journal, job, args.entry) if args.entry is not None else None
        points = tuple((point, length) for point, length in args.place or ())
        words = WorkWords(
            args.surface,
            " ".join(args.what),
            args.size or "",
            points,
            day_given(args, journal) or (entry.day if entry else None),
            _other_day(args.covered, journal),
            entry.id if entry else None,
        )
        add_work(journal, job.id, words)
    say_wrapped(f"On record: {one_line(args.surface)}: {one_line(' '.join(args.what))}")
    return DONE


def _other_day(text: str | None, journal: Journal) -> dt.date | None:
    from journal_tui.journal.days import day_typed

    return None if text is None else day_typed(text, journal.today())


def _test(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import add_test, find_work
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        work = find_work(journal, find_job(journal, args.job), args.work)
        passed = args.result == "passed"
        add_test(
            journal, work, args.test, args.found, passed=passed, by=args.by, day=day_given(args, journal)
        )
    say_wrapped(f"On record: {one_line(args.test)}: {one_line(args.found)}")
    return DONE


def _change(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import find_work
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.record_forms import fields_of_work, save_work

    with opened(args) as journal:
        job = find_job(journal, args.job)
        work = find_work(journal, job, args.work)
        fields = fields_of_work(journal, work["id"])
        given = {"surface": args.surface, "what": args.what, "size": args.size, "covered": args.covered}
        given |= {"seen": args.day, "entry": args.entry}
        if args.place is not None:
            pairs = [*args.place, ("", ""), ("", "")]
            if len(args.place) > 2:
                raise BadInput("more than two distances", "Give one or two.")
            given |= {"from_a": pairs[0][0], "length_a": pairs[0][1]}
            given |= {"from_b": pairs[1][0], "length_b": pairs[1][1]}
        changes = {field: text for field, text in given.items() if text is not None}
        if not changes:
            raise BadInput(
                "nothing to change", "Say what: --surface, --what, --size, --from, --day, --entry."
            )
        save_work(journal, job.id, work["id"], {**fields, **changes})
    say_wrapped(f"Set right: {one_line(args.what or work['what'])}")
    return DONE


def _cover(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import cover, find_work
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.record_changes import uncover

    with opened(args) as journal:
        work = find_work(journal, find_job(journal, args.job), args.work)
        if args.take_back:
            uncover(journal, work)
        else:
            cover(journal, work, day_given(args, journal))
    say_wrapped(f"{'Not covered' if args.take_back else 'Covered'}: {one_line(work['what'])}")
    return DONE


def _drop(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import find_work
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.record_changes import (
        drop_finish,
        drop_test,
        drop_work,
        find_finish,
        numbered_test,
    )

    with opened(args) as journal:
        job = find_job(journal, args.job)
        if args.finish:
            gone = find_finish(journal, job, args.work)
            drop_finish(journal, gone["id"])
        elif args.test is not None:
            gone = numbered_test(journal, find_work(journal, job, args.work), args.test)
            drop_test(journal, gone["id"])
        else:
            gone = find_work(journal, job, args.work)
            drop_work(journal, gone)
    say_wrapped(f"Off the record: {one_line(gone['what'])}")
    return DONE


def _finish(args: argparse.Namespace) -> int:
    from journal_tui.journal.house_record import FinishWords, add_finish
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.record_forms import last_day

    with opened(args) as journal:
        job = find_job(journal, args.job)
        words = FinishWords(
            args.area,
            " ".join(args.what),
            args.description or "",
            args.lot or "",
            args.care or "",
            day_given(args, journal),
            None if args.warranty is None else last_day(args.warranty),
        )
        add_finish(journal, job.id, words)
    say_wrapped(f"On record: {one_line(' '.join(args.what))}")
    return DONE


def _sign(args: argparse.Namespace) -> int:
    from journal_tui.domain.change_order import Channel
    from journal_tui.journal.house_record import sign_off
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        day = day_given(args, journal)
        sign_off(journal, job.id, args.by, Channel(args.how), day=day, note=args.note or "")
    say_wrapped(f"Accepted by {one_line(args.by)}.")
    return DONE


# Arguments ---------------------------------------------------------------------------------------


def _record_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--closing", action="store_true", help="with finishes, care, warranties and the acceptance"
    )
    parser.add_argument("--freeze", action="store_true", help="keep it as it stands today, word for word")
    parser.add_argument("--format", choices=_FORMS, help="the form (md unless you say)")
    parser.add_argument(
        "--out", metavar="FOLDER", help="write it to this folder, in every form unless one is named"
    )


def _add_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("surface", metavar="SURFACE", help="the wall, floor or ceiling it is behind")
    parser.add_argument("what", metavar="WHAT", nargs="+", help="what is behind it")
    parser.add_argument("--size", metavar="SIZE", help="its size, such as 2x8")
    _takes_place(parser)
    parser.add_argument("--covered", metavar="DAY", help="the day it was covered")
    parser.add_argument("--entry", metavar="WORDS", help="the entry it rests on; its photo is shown")
    takes_day(parser, "the day it was seen (the entry's day, or today)")


def _test_arguments(parser: argparse.ArgumentParser) -> None:
    takes_work(parser)
    parser.add_argument("test", metavar="TEST", help="what test it was")
    parser.add_argument("result", choices=("passed", "failed"), help="what came of it")
    parser.add_argument("found", metavar="FOUND", help="what was read, such as: held 100 psi for 15 minutes")
    parser.add_argument("--by", metavar="NAME", required=True, help="who made it")
    takes_day(parser, "the day of the test (today unless you say)")


def _change_arguments(parser: argparse.ArgumentParser) -> None:
    takes_work(parser)
    parser.add_argument("--surface", metavar="SURFACE", help="the wall, floor or ceiling it is behind")
    parser.add_argument("--what", metavar="WHAT", help="what is behind it")
    parser.add_argument("--size", metavar="SIZE", help="its size, such as 2x8")
    _takes_place(parser)
    parser.add_argument("--covered", metavar="DAY", help="the day it was covered")
    parser.add_argument("--entry", metavar="WORDS", help='the entry it rests on; "" for none')
    takes_day(parser, "the day it was seen")


def _takes_place(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--from",
        dest="place",
        metavar=("POINT", "LENGTH"),
        nargs=2,
        action="append",
        help='how far from a point that stays, such as: --from "door jamb" "34 1/2 in"; twice for two points',
    )


def _drop_arguments(parser: argparse.ArgumentParser) -> None:
    takes_work(parser)
    parser.add_argument("--test", metavar="N", type=count, help="take only test N of it off")
    parser.add_argument("--finish", action="store_true", help="WORK are words of a finish")


def _cover_arguments(parser: argparse.ArgumentParser) -> None:
    takes_work(parser)
    parser.add_argument("--take-back", action="store_true", help="it is not covered after all")
    takes_day(parser, "the day it was covered (today unless you say)")


def _finish_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("area", metavar="AREA", help="where it is")
    parser.add_argument("what", metavar="WHAT", nargs="+", help="what it is")
    parser.add_argument("--description", metavar="TEXT", help="color, size and make-up, without its maker")
    parser.add_argument("--lot", metavar="LOT", help="the lot or batch, and what is left over")
    parser.add_argument("--care", metavar="TEXT", help="how to keep it well")
    parser.add_argument("--warranty", metavar="DATE", help="the last day of the warranty, such as 2036-03-12")
    takes_day(parser, "the day it was put in")


def _sign_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--by", metavar="NAME", required=True, help="who accepted the job")
    parser.add_argument("--how", choices=_HOW, required=True, help="how it was said")
    parser.add_argument("--note", metavar="TEXT", help="what was agreed about anything still open")
    takes_day(parser, "the day (today unless you say)")


COMMANDS = (
    Command(
        "record",
        "Print what is behind a house's surfaces, or the closing file.",
        _record,
        "record elm\nrecord elm --closing --out ~/Desktop",
        _record_arguments,
        "The same for everyone who owns the house later: names and codes never come into it.",
    ),
    Command(
        "record add",
        "Put something behind a surface on record.",
        _add,
        'record add elm "long wall" blocking for the grab bar --size 2x8 --from "door jamb" "34 1/2 in"',
        _add_arguments,
    ),
    Command(
        "record test",
        "Put a test of it on record.",
        _test,
        'record test elm supply "pressure test" passed "held 100 psi for 15 minutes" --by Rui',
        _test_arguments,
    ),
    Command(
        "record change",
        "Set right what is behind a surface.",
        _change,
        "record change elm blocking --size 2x10",
        _change_arguments,
    ),
    Command(
        "record cover",
        "Say when it was covered, or that it is not.",
        _cover,
        "record cover elm blocking",
        _cover_arguments,
    ),
    Command(
        "record drop",
        "Take it, a test of it, or a finish off the record.",
        _drop,
        "record drop elm 2",
        _drop_arguments,
    ),
    Command(
        "record finish",
        "Put a finish on record: lot, care, warranty.",
        _finish,
        'record finish elm floor hex tile --description "white porcelain, one inch" --lot "7 boxes, C12"',
        _finish_arguments,
    ),
    Command(
        "record sign",
        "Record that the finished job was accepted.",
        _sign,
        'record sign elm --by "Ada Lindqvist" --how signed',
        _sign_arguments,
    ),
    *photos.COMMANDS,
)
