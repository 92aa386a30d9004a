"""The crew sheet of the next visit: printed, written to files, frozen; and the frozen ones again."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, NOTHING, PROGRAM, Command, count, opened, takes_job
from journal_tui.cli.next_visit import size_arguments, wish_given
from journal_tui.cli.output import note, put, put_html, read_by_eye, say
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.domain.job import Job
    from journal_tui.journal.crew_papers import SheetPaper
    from journal_tui.journal.next_visit import VisitPlan
    from journal_tui.journal.opening import Journal

_FORMS = ("md", "html", "text", "pdf", "eml")


def _sheet(args: argparse.Namespace) -> int:
    from journal_tui.journal.crew_papers import visit_paper
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.next_visit import freeze, next_visit

    with opened(args) as journal:
        job = find_job(journal, args.job)
        plan = _plan(args, journal, job)
        visit, inputs = next_visit(journal, job, plan.day, plan.hours, plan.people, plan.wish)
        paper = visit_paper(journal, visit, inputs)
        if args.out is None:
            _print(args, paper)
        else:
            _write(args, paper)
        if args.freeze:
            sheet = freeze(journal, visit, inputs)
            note(f"frozen as the crew sheet of {sheet.sent_on.isoformat()}")
    return DONE if visit.items else NOTHING


def _plan(args: argparse.Namespace, journal: Journal, job: Job) -> VisitPlan:
    """Return the visit being put together, with what is said here in place of what was."""
    from dataclasses import replace

    from journal_tui.journal.next_visit import visit_plan
    from journal_tui.planning.dates import date_ahead

    plan = visit_plan(journal, job)
    if args.visit is not None:
        plan = replace(plan, day=date_ahead(args.visit, journal.today()))
    if args.without or args.first:
        plan = replace(plan, wish=wish_given(args, journal, job))
    return replace(
        plan,
        hours=plan.hours if args.hours is None else args.hours,
        people=plan.people if args.people is None else args.people,
    )


def _print(args: argparse.Namespace, paper: SheetPaper) -> None:
    from journal_tui.journal.papers import PaperForm, paper_text

    form = PaperForm(args.format or ("text" if read_by_eye() else "md"))
    if not form.is_text:
        raise BadInput(f"{form.value} is not for a terminal", "Name a folder to write it to, with --out.")
    text = paper_text(paper.markdown, paper.title, form, paper.pictures)
    (put_html if form is PaperForm.HTML else put)(text)


def _write(args: argparse.Namespace, paper: SheetPaper) -> None:
    from journal_tui.journal.crew_papers import write_sheet
    from journal_tui.journal.papers import PaperForm

    forms = (PaperForm(args.format),) if args.format else (*PaperForm,)
    for path in write_sheet(paper, Path(args.out), forms):
        say(one_line(str(path)))
    if PaperForm.PDF in forms and (said := paper.longer()):
        note(said)


def _sheets(args: argparse.Namespace) -> int:
    from journal_tui.journal.crew_papers import frozen_paper
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.next_visit import frozen_sheets

    with opened(args) as journal:
        job = find_job(journal, args.job)
        sheets = frozen_sheets(journal, job.id)
        if args.print is not None:
            if args.print > len(sheets):
                raise BadInput(
                    f"there is no sheet {args.print}", f"There are {len(sheets)}; 1 is the newest."
                )
            paper = frozen_paper(journal, job, sheets[args.print - 1])
            (_print if args.out is None else _write)(args, paper)
            return DONE
    if args.format or args.out:
        raise BadInput("which sheet?", "Say its number in the list: --print 1 is the newest.")
    for number, sheet in enumerate(sheets, 1):
        about = next((b for b in sheet.markdown.split("\n\n")[1:3] if b.endswith("people.")), "")
        say(f"{number:>3}  frozen {sheet.sent_on.isoformat()}  {one_line(about)}".rstrip())
    if not sheets:
        note(
            f"no crew sheet was frozen for this job yet: {PROGRAM} crew-sheet JOB --freeze makes the next one"
        )
    return DONE if sheets else NOTHING


def _takes_forms(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--format", choices=_FORMS, help="the form (text on a terminal, else md, unless you say)"
    )
    parser.add_argument(
        "--out", metavar="FOLDER", help="write it to this folder, in every form unless one is named"
    )


def _sheet_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--visit",
        metavar="DAY",
        help="the day of the visit (as put together on the screen, else the next working day)",
    )
    size_arguments(parser)
    _takes_forms(parser)
    parser.add_argument("--freeze", action="store_true", help="freeze it: this exact sheet, with the date")


def _sheets_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--print", metavar="N", type=count, help="print the N-th of them, 1 the newest")
    _takes_forms(parser)


COMMANDS = (
    Command(
        "crew-sheet",
        "Print the crew's page for the next visit, or write it to files.",
        _sheet,
        "crew-sheet elm --format text\ncrew-sheet elm --visit friday --people 2 --out ~/Desktop --freeze",
        _sheet_arguments,
        "The PDF is one page unless the visit is too much for one, and says so then. Nothing private is on\n"
        "the sheet; pictures are those of entries the crew may read.",
    ),
    Command(
        "sheets",
        "List the crew sheets frozen for a job, or print one.",
        _sheets,
        "sheets elm\nsheets elm --print 1 --out ~/Desktop --format pdf",
        _sheets_arguments,
    ),
)
