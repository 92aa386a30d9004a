"""The contract of a job: what was agreed at first, and how it stands with its change orders."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, Command, opened, takes_job
from journal_tui.cli.tables import say_wrapped

if TYPE_CHECKING:
    from journal_tui.journal.contracts import ContractView


def _contract(args: argparse.Namespace) -> int:
    from journal_tui.domain.change_order import TaxBase
    from journal_tui.domain.money import cents_typed, rate_typed
    from journal_tui.journal.contracts import contract_view, set_contract
    from journal_tui.journal.days import day_ahead
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        if any(v is not None for v in (args.sum, args.finish, args.markup, args.tax, args.tax_on)):
            set_contract(
                journal,
                job.id,
                cents=None if args.sum is None else cents_typed(args.sum),
                finish=None if args.finish is None else day_ahead(args.finish, journal.today()),
                markup=None if args.markup is None else rate_typed(args.markup),
                tax=None if args.tax is None else rate_typed(args.tax),
                tax_base=None if args.tax_on is None else TaxBase(args.tax_on),
            )
        say_contract(contract_view(journal, job.id))
    return DONE


def say_contract(view: ContractView) -> None:
    """Print how a contract stands."""
    from journal_tui.journal.change_lists import contract_lines

    for line in contract_lines(view):
        say_wrapped(line)


def _contract_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--sum", metavar="SUM", help="the sum agreed at first, such as 24,500")
    parser.add_argument("--finish", metavar="DAY", help="the last day of work agreed at first")
    parser.add_argument("--markup", metavar="PERCENT", help="the markup on new change orders")
    parser.add_argument("--tax", metavar="PERCENT", help="the sales tax on new change orders")
    parser.add_argument(
        "--tax-on", choices=("nothing", "materials", "everything"), help="what the tax is on in your state"
    )


COMMANDS = (
    Command(
        "contract",
        "Show how a contract stands, or set what was agreed at first.",
        _contract,
        "contract elm --sum 24,500 --finish 2026-12-18 --markup 15 --tax 8.25 --tax-on materials"
        "\ncontract elm",
        _contract_arguments,
    ),
)
