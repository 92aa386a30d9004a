"""The tour: three invented jobs from recording to client update, on the screen or as text."""

from __future__ import annotations

import argparse
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, Command
from journal_tui.cli.output import on_terminal, put, say
from journal_tui.cli.tables import draft_lines, say_wrapped, width
from journal_tui.cli.visits import visit_title
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.journal.opening import Journal
    from journal_tui.journal.touring import TouredJob, TouredVisit


#: A visit's drafts are printed up to here; the rest are counted.
_MOST_DRAFTS = 8


def _tour(args: argparse.Namespace) -> int:
    from journal_tui.journal.opening import open_journal
    from journal_tui.journal.touring import take_tour

    with _scratch(args.journal) as path:
        journal = open_journal(path)
        try:
            jobs = take_tour(journal)
            if on_terminal() and not args.text:
                from journal_tui.screens.app import run_app

                run_app(journal)
            else:
                for toured in jobs:
                    _print_job(journal, toured)
        finally:
            journal.close()
    return DONE


@contextmanager
def _scratch(named: str | None) -> Iterator[Path]:
    if named:
        yield Path(named)
        return
    with tempfile.TemporaryDirectory(prefix="journal-tui-tour-", ignore_cleanup_errors=True) as folder:
        yield Path(folder) / "journal.db"


def _print_job(journal: Journal, toured: TouredJob) -> None:
    from journal_tui.journal.change_lists import contract_lines, order_line
    from journal_tui.journal.changes import change_orders
    from journal_tui.journal.contracts import contract_view
    from journal_tui.journal.formats import PunchFormat, UpdateFormat, punch_in_format, update_in_format
    from journal_tui.journal.punch import open_list
    from journal_tui.journal.touring_papers import record_line
    from journal_tui.journal.updates import client_update

    job = toured.job
    rule = "=" * width()
    say(rule)
    say_wrapped(job.name)
    say(rule)
    for visit in toured.visits:
        _print_visit(visit)
    say()
    put(punch_in_format(job, open_list(journal, job), PunchFormat.TEXT, journal.today(), width=width()))
    say("\nChange orders:\n")
    for order in change_orders(journal, job.id):
        say_wrapped(order_line(order), 2)
    for line in contract_lines(contract_view(journal, job.id)):
        say_wrapped(line, 2)
    say()
    say_wrapped(record_line(journal, job))
    say("\nClient update:\n")
    put(update_in_format(client_update(journal, job.id).markdown, job.name, UpdateFormat.MARKDOWN))
    say()


def _print_visit(toured: TouredVisit) -> None:
    say()
    say_wrapped(visit_title(toured.visit))
    for text in toured.done:
        say_wrapped(f"done: {text}", 2)
    for text in toured.notes:
        say_wrapped(f"typed: {one_line(text)}", 2)
    count = len(toured.drafts)
    if count:
        say(f"  {count} drafted:")
    for number, draft in enumerate(toured.drafts[:_MOST_DRAFTS], 1):
        for line in draft_lines(number, draft):
            say(line)
    if count > _MOST_DRAFTS:
        say_wrapped(f"and {count - _MOST_DRAFTS} more", 2)
    for text in toured.dropped:
        say_wrapped(f"dropped in review: {one_line(text)}", 2)


def _arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--text", action="store_true", help="print the tour as text, also on a terminal")


COMMANDS = (
    Command(
        "tour",
        "Look around three invented jobs, from recordings to client update.",
        _tour,
        "tour\ntour --text | less",
        _arguments,
        "The jobs are read, drafted and kept in a scratch journal that is gone afterwards, or in a\n"
        "new file named by --journal. When standard output is no terminal the run is printed.",
    ),
)
