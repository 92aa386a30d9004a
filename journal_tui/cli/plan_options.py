"""The options that state what an item takes."""

from __future__ import annotations

import argparse
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from journal_tui.cli.command import number, whole

if TYPE_CHECKING:
    from journal_tui.planning.items import Stated

STATED_HELP = (
    "Without options it shows what the plan takes the item to be. --usual takes back all that was\n"
    "stated. The label of the product in hand wins over every wait given here."
)


def stated_arguments(parser: argparse.ArgumentParser) -> None:
    """Give a command the options that state an item's figures."""
    parser.add_argument(
        "--hours", metavar="H", type=number, help="crew-hours: the hours of all people together"
    )
    parser.add_argument("--people", metavar="N", type=whole, help="how many at once")
    parser.add_argument("--wait", metavar="H", type=number, help="hours by the clock before what follows")
    parser.add_argument("--note", metavar="TEXT", help="where the wait comes from")
    parser.add_argument("--sub", metavar="TRADE", help="the licensed sub who does it; crew for the crew")
    parser.add_argument("--task", metavar="NAME", help="the common task whose figures to take")
    parser.add_argument("--load", metavar="THING", action="append", help="what to load; again for each")
    order = parser.add_mutually_exclusive_group()
    order.add_argument("--free", action="store_true", help="free of the order of phases")
    order.add_argument("--in-order", action="store_true", help="in the order of phases")
    closing = parser.add_mutually_exclusive_group()
    closing.add_argument("--closes", action="store_true", help="it covers other work")
    closing.add_argument("--leaves-open", action="store_true", help="it covers nothing")
    parser.add_argument("--usual", action="store_true", help="begin from common practice again")


def stated_given(args: argparse.Namespace, before: Stated) -> Stated:
    """Return ``before`` with what the options state."""
    changes: dict[str, Any] = {}
    for name, value in (
        ("crew_hours", args.hours),
        ("people", args.people),
        ("wait_hours", args.wait),
        ("wait_note", args.note),
        ("task", args.task),
    ):
        if value is not None:
            changes[name] = value
    if args.sub is not None:
        changes["sub"] = "" if args.sub.strip().lower() == "crew" else args.sub
    if args.load is not None:
        changes["materials"] = tuple(args.load)
    if args.free or args.in_order:
        changes["free"] = args.free
    if args.closes or args.leaves_open:
        changes["closes"] = args.closes
    return replace(before, **changes)
