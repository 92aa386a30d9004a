"""The plan: the schedule, what is stated of items, links, holds, the work week, and public problem sets."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, NOTHING, Command, number, opened, takes_day, takes_job
from journal_tui.cli.output import note, put, put_json, put_object, say
from journal_tui.cli.plan_options import STATED_HELP, stated_arguments, stated_given
from journal_tui.cli.tables import say_wrapped, width
from journal_tui.cli.visits import STDIN, typed_in
from journal_tui.domain.errors import BadInput
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day

if TYPE_CHECKING:
    from journal_tui.domain.job import Job
    from journal_tui.journal.opening import Journal

_OPEN = (PunchState.OPEN,)
_OPEN_OR_DONE = (PunchState.OPEN, PunchState.DONE)
_HOLDS = ("inspection", "decision", "delivery", "test")


def _item(
    journal: Journal, job: Job, words: str | list[str], states: tuple[PunchState, ...] = _OPEN
) -> PunchItem:
    from journal_tui.journal.punch import find_item

    return find_item(journal, job, words if isinstance(words, str) else " ".join(words), states=states)


def _schedule(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan import job_plan, why
    from journal_tui.journal.plan_text import PlanFormat, plan_in_format
    from journal_tui.planning.dates import date_ahead

    with opened(args) as journal:
        job = find_job(journal, args.job)
        view = job_plan(journal, job)
        if args.why is not None:
            say_wrapped(why(view, _item(journal, job, args.why).id))
            return DONE
        form = PlanFormat(args.format)
        first = date_ahead(args.start, journal.today()) if args.start is not None else None
        text = plan_in_format(view, form, width=width(), first=first)
    (put_json if form is PlanFormat.JSON else put)(text)
    return DONE if view.plan.rows else NOTHING


def _schedule_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--format",
        choices=("text", "json", "csv", "ics"),
        default="text",
        help="the form (text unless you say)",
    )
    parser.add_argument("--why", metavar="ITEM", help="say in one sentence why this item is not sooner")
    parser.add_argument("--start", metavar="DAY", help="the first day drawn (today unless you say)")


# Items and links --------------------------------------------------------------------------------


def _plan_item(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import planned_item, state, stated_of
    from journal_tui.journal.plan_text import item_lines
    from journal_tui.planning.items import Stated

    with opened(args) as journal:
        job = find_job(journal, args.job)
        item = _item(journal, job, args.item, _OPEN_OR_DONE)
        before = Stated() if args.usual else stated_of(journal, job.id, item.id)
        stated = stated_given(args, before)
        changed = args.usual or stated != before
        shown = state(journal, item.id, stated) if changed else planned_item(journal, job, item.id)
        for line in item_lines(shown, width()):
            say(line)
    return DONE


def _plan_item_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the item: its handle, or words of it")
    stated_arguments(parser)


def _link(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import link

    with opened(args) as journal:
        job = find_job(journal, args.job)
        after = _item(journal, job, args.item)
        before = _item(journal, job, args.after, _OPEN_OR_DONE)
        link(journal, before.id, after.id, args.lag)
        say_wrapped(_link_words(before, after, args.lag))
    return DONE


def _link_words(before: PunchItem, after: PunchItem, lag: float) -> str:
    wait = f" and {lag:g} h by the clock" if lag else ""
    return f"“{one_line(after.text)}” waits for “{one_line(before.text)}”{wait}"


def _unlink(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import unlink

    with opened(args) as journal:
        job = find_job(journal, args.job)
        after = _item(journal, job, args.item, (*PunchState,))
        before = _item(journal, job, args.after, (*PunchState,))
        unlink(journal, before.id, after.id)
        say_wrapped(f"“{one_line(after.text)}” waits for “{one_line(before.text)}” no more")
    return DONE


def _links(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import job_links

    with opened(args) as journal:
        lines = job_links(journal, find_job(journal, args.job))
        for line in lines:
            say_wrapped(_link_words(line.before, line.after, line.lag_hours))
    return DONE if lines else NOTHING


def _link_arguments(parser: argparse.ArgumentParser) -> None:
    _unlink_arguments(parser)
    parser.add_argument(
        "--lag", metavar="HOURS", type=number, default=0.0, help="hours to wait between them, by the clock"
    )


def _unlink_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the item that waits")
    parser.add_argument("--after", metavar="ITEM", required=True, help="the item it waits for")


# Holds --------------------------------------------------------------------------------------------


def _book(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import book
    from journal_tui.planning.dates import date_ahead
    from journal_tui.planning.items import HoldKind

    with opened(args) as journal:
        job = find_job(journal, args.job)
        item = _item(journal, job, args.item)
        day = None if args.on == "none" else date_ahead(args.on, journal.today())
        kind = HoldKind(args.kind) if args.kind else None
        held = book(journal, item.id, day, who=args.who or "", kind=kind)
    when = f"booked for {short_day(day)} {day.year}" if day else "no longer booked"
    kind_said = held.hold.kind.value if held.hold else "hold"
    say_wrapped(f"{kind_said}, {when}: {one_line(item.text)}. A booked day is a forecast, not a pass.")
    return DONE


def _book_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the item: its handle, or words of it")
    parser.add_argument(
        "--on", metavar="DAY", required=True, help='the day: friday, "next thu", 12/3, 3 dec; or none'
    )
    parser.add_argument("--who", metavar="NAME", help="who comes, answers or delivers")
    parser.add_argument("--kind", choices=_HOLDS, help="make a hold of it, of this kind")


def _result(args: argparse.Namespace) -> int:
    from journal_tui.cli.punch import tell
    from journal_tui.journal.days import day_typed
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.plan_items import record_result
    from journal_tui.planning.items import HoldResult

    if not args.passed and args.failed is None:
        raise BadInput("passed or failed?", "Give --passed, or --failed with what was found.")
    with opened(args) as journal:
        job = find_job(journal, args.job)
        item = _item(journal, job, args.item, _OPEN_OR_DONE)
        day = day_typed(args.day, journal.today()) if args.day is not None else journal.today()
        result = HoldResult(day, args.by, args.passed, tuple(args.failed or ()), args.shown)
        recorded = record_result(journal, item.id, result)
        tell(recorded.item, "Passed" if result.passed else "Failed")
        for correction in recorded.corrections:
            tell(correction, "Added")
        if recorded.again is not None:
            tell(recorded.again, "Added, to be booked")
    return DONE


def _result_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the item: its handle, or words of it")
    outcome = parser.add_mutually_exclusive_group()
    outcome.add_argument("--passed", action="store_true", help="it passed")
    outcome.add_argument(
        "--failed", metavar="FOUND", action="append", help="what was found wrong; again for each thing"
    )
    parser.add_argument("--by", metavar="NAME", required=True, help="who said so")
    parser.add_argument(
        "--shown", metavar="TEXT", default="", help="what shows it: a photo's name, a reading"
    )
    takes_day(parser, "the day of it (today unless you say)")


# Common tasks ---------------------------------------------------------------------------------------


def _tasks(args: argparse.Namespace) -> int:
    from journal_tui.journal.plan import task_book, tasks_file
    from journal_tui.journal.plan_text import task_lines
    from journal_tui.planning.tasks import built_in_text

    if args.file:
        put(built_in_text())
        return DONE
    with opened(args) as journal:
        book, where = task_book(journal), tasks_file(journal)
    for line in task_lines(book, width()):
        say(line)
    note(f"all of it common practice; to change any, put a file in the form of --file at {where}")
    return DONE


def _tasks_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--file", action="store_true", help="print the data file itself, to be edited")


# Public problem sets --------------------------------------------------------------------------------


def _solve(args: argparse.Namespace) -> int:
    from journal_tui.journal.problems import read_problem
    from journal_tui.planning.psplib import solve_psplib

    if args.file == STDIN:
        answer = solve_psplib(typed_in(), "standard input")
    else:
        answer = solve_psplib(read_problem(Path(args.file)), one_line(args.file))
    if args.json:
        put_object(answer)
    else:
        say(f"makespan {answer['makespan']}")
        say("starts " + " ".join(map(str, answer["starts"])))
    return DONE


def _solve_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "file", metavar="FILE.sm", help="a single-mode problem in PSPLIB form; - reads standard input"
    )
    parser.add_argument("--json", action="store_true", help="print JSON, for another program")


COMMANDS = (
    Command(
        "schedule",
        "Draw when all that is open can be done, and when the job ends.",
        _schedule,
        'schedule elm\nschedule elm --why "hang backer"\nschedule elm --format ics > elm.ics',
        _schedule_arguments,
        "Dates are forecasts. Figures nobody has stated are common practice; plan item shows and sets them.",
    ),
    Command(
        "plan item",
        "Show or state what an item takes: hours, people, wait, sub.",
        _plan_item,
        'plan item elm grout\nplan item elm grout --hours 6 --people 1 --wait 48 --note "by the label"',
        _plan_item_arguments,
        STATED_HELP,
    ),
    Command(
        "tasks",
        "List the common tasks whose figures stand in until stated.",
        _tasks,
        "tasks\ntasks --file > tasks.toml",
        _tasks_arguments,
        "A file tasks.toml beside the journal adds to them, and replaces those of the same name.",
    ),
    Command(
        "link",
        "Say that one item waits for another.",
        _link,
        'link elm "set the toilet" --after "tile floor" --lag 24',
        _link_arguments,
        "What would go round in a circle is refused, and the circle named.",
    ),
    Command(
        "unlink",
        "Take a link between two items away.",
        _unlink,
        'unlink elm "set the toilet" --after "tile floor"',
        _unlink_arguments,
    ),
    Command("links", "List the links of a job.", _links, "links elm", takes_job),
    Command(
        "hold book",
        "Book the day of an inspection, answer, delivery or test.",
        _book,
        'hold book elm "rough inspection" --on "next thu"',
        _book_arguments,
    ),
    Command(
        "hold result",
        "Record how an inspection, answer, delivery or test came out.",
        _result,
        'hold result elm "rough inspection" --passed --by "city inspector" --shown "card signed, photo 12"\n'
        'hold result elm "rough inspection" --failed "nail plate missing at stud 3" --by "city inspector"',
        _result_arguments,
        "Only this releases what follows. A failure puts corrections and another look on the punch list.",
    ),
)

#: Commands for whoever checks the solver on public problem sets; help does not list them.
HIDDEN = (
    Command(
        "solve-psplib",
        "Solve a single-mode problem file of the public PSPLIB sets.",
        _solve,
        "solve-psplib j301_1.sm --json",
        _solve_arguments,
    ),
)
