"""The lines of a change order: typed, out of the plan, or out of the materials list; set right, taken out."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, NOTHING, PROGRAM, Command, count, opened, takes_job
from journal_tui.cli.output import note
from journal_tui.cli.tables import say_wrapped
from journal_tui.domain.errors import BadInput

if TYPE_CHECKING:
    from journal_tui.domain.change_order import ChangeLine, ChangeOrder
    from journal_tui.domain.job import Job
    from journal_tui.journal.opening import Journal

_KINDS = ("labor", "material", "sub", "allowance")


def order_found(journal: Journal, args: argparse.Namespace) -> tuple[Job, ChangeOrder]:
    """Return the job and the order that are named. Raises ``NothingFound``."""
    from journal_tui.journal.changes import find_order
    from journal_tui.journal.jobs import find_job

    job = find_job(journal, args.job)
    return job, find_order(journal, job, args.order)


def tell_order(journal: Journal, order: ChangeOrder) -> None:
    """Print an order in a line, then its lines with where they are from."""
    from journal_tui.journal.change_lists import order_line, order_lines
    from journal_tui.journal.change_materials import changes_since

    say_wrapped(order_line(order))
    for line in order_lines(order, changes_since(journal, order)):
        say_wrapped(line, 2)


def _line(args: argparse.Namespace) -> int:
    from journal_tui.domain.money import cents_typed
    from journal_tui.journal.change_plan import lines_of_held_work
    from journal_tui.journal.changes import add_line, add_lines, change_line, drop_line

    with opened(args) as journal:
        _job, order = order_found(journal, args)
        if args.drop is not None:
            order = drop_line(journal, order.id, args.drop)
        elif args.from_plan is not None:
            rate = cents_typed(args.from_plan)
            order = add_lines(journal, order.id, lines_of_held_work(journal, order.id, rate))
        elif args.change is not None:
            if args.change > len(order.lines):
                raise BadInput(f"there is no line {args.change}", f"{order.name} has {len(order.lines)}.")
            line = _typed(args, order.lines[args.change - 1])
            order = change_line(journal, order.id, args.change, line)
        else:
            if args.kind is None or not args.text or args.each is None:
                raise BadInput("a line needs a kind, words and a price", "Such as: labor carpentry --each 65")
            order = add_line(journal, order.id, _typed(args, None))
        tell_order(journal, order)
    return DONE


def _typed(args: argparse.Namespace, before: ChangeLine | None) -> ChangeLine:
    """Return the line that is typed; what is not said of it is as ``before``."""
    from journal_tui.domain.change_order import HUNDREDTHS, ChangeLine, LineKind
    from journal_tui.domain.money import cents_typed

    kind = LineKind(args.kind or (before.kind if before else LineKind.LABOR))
    marked = before.marked_up if before and not args.kind else kind is not LineKind.ALLOWANCE
    quantity = before.quantity if before else HUNDREDTHS
    each = before.each if before else 0
    return ChangeLine(
        kind,
        " ".join(args.text) or (before.text if before else ""),
        quantity if args.quantity is None else cents_typed(args.quantity),
        (before.unit if before else "") if args.unit is None else args.unit,
        each if args.each is None else cents_typed(args.each),
        marked and not args.no_markup,
        before.made_from if before else None,
    )


def _materials(args: argparse.Namespace) -> int:
    from journal_tui.domain.money import cents_typed
    from journal_tui.journal.change_materials import offered, offered_words, take_material, trace_words

    if args.take is None and (args.each is not None or args.quantity is not None):
        raise BadInput("a price of what?", "Name the material: --take WORDS --each PRICE")
    with opened(args) as journal:
        _job, order = order_found(journal, args)
        if args.take is not None:
            each = None if args.each is None else cents_typed(args.each)
            quantity = None if args.quantity is None else cents_typed(args.quantity)
            order = take_material(journal, order.id, args.take, each=each, quantity=quantity)
            tell_order(journal, order)
            return DONE
        choices = offered(journal, order.id)
    phase = None
    for choice in choices:
        if choice.made.phase != phase:
            phase = choice.made.phase
            say_wrapped(phase)
        say_wrapped(offered_words(choice), 2)
        say_wrapped(trace_words(choice.made), 4)
    if not choices:
        note(f"no materials yet: Keep a take-off: {PROGRAM} measure set JOB take-off size=8-0x5-0")
    return DONE if choices else NOTHING


def takes_order(parser: argparse.ArgumentParser) -> None:
    """Take a job and a change order of it."""
    takes_job(parser)
    parser.add_argument("order", metavar="ORDER", help="its number, its short name, or words of its title")


def _line_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument("kind", choices=_KINDS, nargs="?", help="what it pays for")
    parser.add_argument("text", metavar="WORDS", nargs="*", help="what it is for")
    parser.add_argument("--each", metavar="PRICE", help="the price of one unit at cost")
    parser.add_argument("--quantity", metavar="N", help="how many units (1 unless you say), such as 2.5")
    parser.add_argument("--unit", metavar="UNIT", help="the unit, such as hour or sheet")
    parser.add_argument("--no-markup", action="store_true", help="charge no markup on it")
    parser.add_argument("--drop", metavar="N", type=count, help="take line N out instead")
    parser.add_argument(
        "--change", metavar="N", type=count, help="set line N right instead: what is not said of it stays"
    )
    parser.add_argument(
        "--from-plan", metavar="RATE", help="add the crew-hours, at RATE, and materials of the work it holds"
    )


def _materials_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument("--take", metavar="WORDS", help="take this material into the order, or anew")
    parser.add_argument(
        "--each", metavar="PRICE", help="the price of one package (what you typed last in this job, else)"
    )
    parser.add_argument(
        "--quantity", metavar="N", help="how many packages (what the list says, unless you say)"
    )


COMMANDS = (
    Command(
        "change-order line",
        "Add a line to a draft, set one right, or take one out.",
        _line,
        "change-order line elm subfloor labor carpentry --quantity 12 --unit hour --each 65\n"
        "change-order line elm subfloor --from-plan 65\n"
        "change-order line elm subfloor --change 2 --each 54.50",
        _line_arguments,
        "Price: each line at cost, then the markup on their sum, then the tax on what is taxed with its\n"
        "share of the markup. The client sees prices with the markup in them. Each sum is rounded to the\n"
        "cent once, a half cent away from zero.",
    ),
    Command(
        "change-order materials",
        "List what the measures call for, or take it into a draft at a price.",
        _materials,
        "change-order materials elm subfloor\n"
        'change-order materials elm subfloor --take "plywood 3/4" --each 54',
        _materials_arguments,
        "The materials list counts whole packages from the take-offs kept with the job; the price is yours,\n"
        "kept for the job. When the measures change later, the line stays and the list says that they did.",
    ),
)
