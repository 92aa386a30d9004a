"""The punch list: printed in four forms, and its items done, dropped, reopened and added."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, NOTHING, PROGRAM, Command, day_given, opened, takes_day, takes_job
from journal_tui.cli.next_visit import print_visit, visit_arguments
from journal_tui.cli.output import note, put, put_json
from journal_tui.cli.review import party_named
from journal_tui.cli.tables import say_wrapped, width
from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    import datetime as dt

    from journal_tui.journal.opening import Journal

_FORMATS = ("text", "md", "csv", "json")


def _punch(args: argparse.Namespace) -> int:
    if args.visit is not None:
        return print_visit(args)
    _refuse_visit_options(args)
    from journal_tui.journal.formats import PunchFormat, punch_in_format
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.punch import closed_items, open_list

    with opened(args) as journal:
        job = find_job(journal, args.job)
        items = open_list(journal, job)
        closed = closed_items(journal, job) if args.all else []
        form = PunchFormat(args.format)
        text = punch_in_format(job, items, form, journal.today(), width=width(), closed=closed)
    (put_json if form is PunchFormat.JSON else put)(text)
    return DONE if items.count or closed else NOTHING


def _refuse_visit_options(args: argparse.Namespace) -> None:
    given = (args.hours, args.people, args.without, args.first)
    if args.freeze or any(value is not None for value in given):
        raise BadInput("which visit?", 'Say the day: --visit "next thu"')


def _set(
    change: Callable[..., PunchItem], states: tuple[PunchState, ...], said: str
) -> Callable[[argparse.Namespace], int]:
    def run(args: argparse.Namespace) -> int:
        from journal_tui.journal.jobs import find_job
        from journal_tui.journal.punch import find_item

        with opened(args) as journal:
            job = find_job(journal, args.job)
            item = find_item(journal, job, " ".join(args.item), states=states)
            day = day_given(args, journal)
            changed = change(journal, item.id, day=day, note=args.note)
            tell(changed, said)
            _tell_if_held(journal, changed)
        return DONE

    return run


def _tell_if_held(journal: Journal, item: PunchItem) -> None:
    from journal_tui.journal.plan_items import still_held

    if still_held(journal, item):
        note(f"what follows waits for its result; record it with: {PROGRAM} hold result JOB ITEM")


def tell(item: PunchItem, said: str) -> None:
    """Print what became of an item, with the handle it is called by."""
    from journal_tui.journal.punch import handle

    where = f"{one_line(item.area)}: " if item.area else ""
    say_wrapped(f"{said} ({handle(item)}): {where}{one_line(item.text)}")


def _finish(journal: Journal, item_id: str, *, day: dt.date | None, note: str) -> PunchItem:
    from journal_tui.journal.punch import finish

    return finish(journal, item_id, day=day, note=note)


def _drop(journal: Journal, item_id: str, *, day: dt.date | None, note: str) -> PunchItem:
    from journal_tui.journal.punch import drop

    return drop(journal, item_id, day=day, note=note)


def _reopen(journal: Journal, item_id: str, *, day: dt.date | None, note: str) -> PunchItem:
    from journal_tui.journal.punch import reopen

    return reopen(journal, item_id, day=day, note=note)


def _add(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job, phase_named
    from journal_tui.journal.punch import add

    with opened(args) as journal:
        job = find_job(journal, args.job)
        item = add(
            journal,
            job.id,
            " ".join(args.text),
            phase=phase_named(job, args.phase) if args.phase is not None else None,
            area=args.area,
            who=party_named(args.who) if args.who is not None else None,
            day=day_given(args, journal),
        )
        tell(item, f"Added to {one_line(item.phase)}")
    return DONE


def _punch_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--format", choices=_FORMATS, default="text", help="the form (text unless you say)")
    parser.add_argument("--all", action="store_true", help="also what is done or dropped")
    visit_arguments(parser)


def _item_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "item", metavar="ITEM", nargs="+", help="the item: its handle from the list, or words of it"
    )
    takes_day(parser, "the day it came about (today unless you say)")
    parser.add_argument("--note", metavar="TEXT", default="", help="a word on how or why, kept with it")


def _add_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("text", metavar="TEXT", nargs="+", help="what is owed")
    parser.add_argument("--phase", metavar="PHASE", help="its phase (else read from the words)")
    parser.add_argument("--area", metavar="AREA", help="where it is (else read from the words)")
    parser.add_argument(
        "--who", metavar="PARTY", help="whose move: crew, client, inspector, supplier (else from the words)"
    )
    takes_day(parser, "the day it was first owed (today unless you say)")


_NAMED = f"An item is named by its handle, printed by {PROGRAM} punch JOB, or by words that fit no other."

COMMANDS = (
    Command(
        "punch",
        "Print what is open in the order of the work; what waits, apart.",
        _punch,
        'punch elm\npunch elm --format csv > elm.csv\npunch elm --visit "next thu" --hours 8 --people 2',
        _punch_arguments,
        "With --visit: which ready items fit, what to load, and what the rest waits for.",
    ),
    Command(
        "done",
        "Mark a punch item done.",
        _set(_finish, (PunchState.OPEN,), "Done"),
        'done elm water test\ndone elm 3fa20 --day yesterday --note "held 80 psi overnight"',
        _item_arguments,
        _NAMED,
    ),
    Command(
        "drop",
        "Decide against a punch item; it is kept in the history.",
        _set(_drop, (PunchState.OPEN,), "Dropped"),
        'drop elm second niche --note "client chose one"',
        _item_arguments,
        _NAMED,
    ),
    Command(
        "reopen",
        "Put a done or dropped item back on the list.",
        _set(_reopen, (PunchState.DONE, PunchState.DROPPED), "Open again"),
        "reopen elm water test",
        _item_arguments,
        _NAMED,
    ),
    Command(
        "add",
        "Type an item straight onto the punch list.",
        _add,
        'add elm "strap the new supply" --phase "rough plumbing" --area "vanity wall"',
        _add_arguments,
    ),
)
