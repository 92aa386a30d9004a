"""What a command is: one definition that parsing, help and the check of the docs all read."""

from __future__ import annotations

import argparse
import math
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    import datetime as dt

    from journal_tui.journal.opening import Journal

PROGRAM = "journal-tui"

#: Exit codes; 2 is ``JournalError.exit_code``.
DONE = 0
NOTHING = 1

Arguments = Callable[[argparse.ArgumentParser], None]


def no_arguments(parser: argparse.ArgumentParser) -> None:
    """Take nothing but what every command takes."""


@dataclass(frozen=True, slots=True)
class Command:
    """A command: its name (one word or two), what it does in a line, and how it is called.

    ``about`` is what its help adds to the summary; ``example`` is one command line or more, each
    on a line of its own, without the program's name.
    """

    name: str
    summary: str
    run: Callable[[argparse.Namespace], int]
    example: str
    arguments: Arguments = no_arguments
    about: str = ""


class Parser(argparse.ArgumentParser):
    """A parser whose complaints are errors of ours: one line that names the way out."""

    def error(self, message: str) -> NoReturn:
        """Raise ``BadInput`` with argparse's message."""
        raise BadInput(message, f"See: {self.prog} --help")


def parser_of(command: Command) -> Parser:
    """Return the parser of one command, with its help whole."""
    lines = "\n".join(f"  {PROGRAM} {line}" for line in command.example.splitlines())
    about = f"{command.summary}\n\n{command.about}" if command.about else command.summary
    parser = Parser(
        prog=f"{PROGRAM} {command.name}",
        description=about,
        epilog=f"example:\n{lines}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
        add_help=False,
    )
    command.arguments(parser)
    general = parser.add_argument_group("always")
    general.add_argument("-h", "--help", action="help", help="print this and stop")
    general.add_argument(
        "--journal", metavar="PATH", help="the journal file to use (also possible before the command)"
    )
    return parser


def options_of(command: Command) -> list[str]:
    """Return the long options of a command that not every command has, as its help lists them."""
    parser = argparse.ArgumentParser(add_help=False)
    command.arguments(parser)
    return [name for action in parser._actions for name in action.option_strings if name.startswith("--")]


@contextmanager
def opened(args: argparse.Namespace, *, new: bool = False) -> Iterator[Journal]:
    """Open the journal the command is about and let go of it after.

    A journal that is not there yet is made only when ``new``: a slip in ``--journal`` should not
    leave an empty file behind and report that nothing was found in it.
    """
    from journal_tui.journal.opening import open_existing, open_journal

    path = Path(args.journal) if args.journal else None
    journal = open_journal(path) if new else open_existing(path)
    try:
        yield journal
    finally:
        journal.close()


def day_given(args: argparse.Namespace, journal: Journal) -> dt.date | None:
    """Return the date typed after ``--day``, None when there is none. Raises ``BadInput``."""
    if args.day is None:
        return None
    from journal_tui.journal.days import day_typed

    return day_typed(args.day, journal.today())


def takes_job(parser: argparse.ArgumentParser) -> None:
    """Give a command its JOB argument."""
    parser.add_argument("job", metavar="JOB", help="the job: its name, or words of its name or address")


def takes_day(parser: argparse.ArgumentParser, meaning: str) -> None:
    """Give a command its ``--day`` option."""
    parser.add_argument(
        "--day", metavar="DAY", help=f'{meaning}, such as yesterday, "last Friday", 11/20 or 2026-11-20'
    )


def takes_visit(parser: argparse.ArgumentParser) -> None:
    """Give a command its ``--visit`` option, for one of several visits."""
    parser.add_argument(
        "--visit",
        metavar="VISIT",
        help="one of several visits: its number (1 the newest, of that --day), or words of its "
        "recording's name or summary",
    )


def takes_json(parser: argparse.ArgumentParser) -> None:
    """Give a command its ``--json`` option."""
    parser.add_argument("--json", action="store_true", help="print JSON, for another program")


def count(text: str) -> int:
    """Return how many things an option asks for: 1 to 10,000."""
    if not (text.isascii() and text.isdigit() and 1 <= int(text[:6]) <= 10_000 and len(text) < 6):
        raise argparse.ArgumentTypeError(f"{one_line(text)[:20]} is not a number from 1 to 10000")
    return int(text)


def whole(text: str) -> int:
    """Return the whole number an option is given."""
    try:
        return int(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{one_line(text)[:20]}" is not a whole number') from None


def number(text: str) -> float:
    """Return the number an option is given; it is finite."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f'"{one_line(text)[:20]}" is not a number')
    return value
