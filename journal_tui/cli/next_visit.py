"""The punch list of the next visit: what fits, what to bring, what the rest waits for."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, NOTHING, number, opened, whole
from journal_tui.cli.output import note, put, put_json, put_paper
from journal_tui.cli.tables import width
from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import PunchState

if TYPE_CHECKING:
    from journal_tui.domain.job import Job
    from journal_tui.journal.opening import Journal
    from journal_tui.planning.visit import Wish

_FORMS = ("text", "json", "md")


def visit_arguments(parser: argparse.ArgumentParser) -> None:
    """Give the punch command its options for the next visit."""
    visit = parser.add_argument_group("the next visit")
    visit.add_argument(
        "--visit", metavar="DAY", help='what fits into a visit on this day: friday, "next thu", 12/3'
    )
    size_arguments(visit)
    visit.add_argument("--freeze", action="store_true", help="freeze it as a crew sheet and print that")


def size_arguments(visit: argparse._ActionsContainer) -> None:
    """Take how long and how many a visit is, and what is left out of it or done first."""
    visit.add_argument(
        "--hours", metavar="H", type=number, help="hours there are (the job's day unless you say)"
    )
    visit.add_argument(
        "--people", metavar="N", type=whole, help="people there are (the job's crew unless you say)"
    )
    visit.add_argument("--without", metavar="ITEM", action="append", help="leave an item out; again for each")
    visit.add_argument("--first", metavar="ITEM", action="append", help="take an item first; again for each")


def wish_given(args: argparse.Namespace, journal: Journal, job: Job) -> Wish:
    """Return what is left out and what comes first, by the open items these words name."""
    from journal_tui.journal.punch import find_item
    from journal_tui.planning.visit import Wish

    def named(words: list[str] | None) -> tuple[str, ...]:
        return tuple(find_item(journal, job, w, states=(PunchState.OPEN,)).id for w in words or ())

    return Wish(frozenset(named(args.without)), named(args.first))


def print_visit(args: argparse.Namespace) -> int:
    """Print the next visit in the form asked for."""
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.next_visit import freeze, next_visit, sheet_markdown
    from journal_tui.journal.plan_text import visit_json, visit_text
    from journal_tui.planning.dates import date_ahead

    if args.format not in _FORMS or args.all:
        raise BadInput("a visit has no such form", f"Give --format {', '.join(_FORMS)}, without --all.")
    with opened(args) as journal:
        job = find_job(journal, args.job)
        wish = wish_given(args, journal, job)
        day = date_ahead(args.visit, journal.today())
        visit, inputs = next_visit(journal, job, day, args.hours, args.people, wish)
        if args.freeze:
            sheet = freeze(journal, visit, inputs)
            note(f"frozen as the crew sheet of {sheet.sent_on.isoformat()}")
            put_paper(sheet.markdown)
        elif args.format == "md":
            put(sheet_markdown(journal, visit, inputs))
        elif args.format == "json":
            put_json(visit_json(visit, inputs))
        else:
            put(visit_text(visit, inputs, width()))
    return DONE if visit.items else NOTHING
