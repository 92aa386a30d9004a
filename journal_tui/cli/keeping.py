"""The journal itself: where it is, a copy of it, and the version of the program."""

from __future__ import annotations

import argparse
from pathlib import Path

from journal_tui.cli.command import DONE, PROGRAM, Command, opened
from journal_tui.cli.output import say
from journal_tui.cli.tables import columns, width
from journal_tui.domain.text import one_line


def _where(args: argparse.Namespace) -> int:
    from journal_tui.journal.faults import log_path
    from journal_tui.journal.opening import whereabouts

    found = whereabouts(Path(args.journal) if args.journal else None)
    facts = {
        "journal": str(found.path),
        "": f"{found.state}; {found.chosen_by}",
        "variable": found.variable,
        "fault log": str(log_path()),
    }
    for name, value in facts.items():
        # A path is not broken over lines: it is copied from here.
        say(f"{name:<9}  {one_line(value)}")
    return DONE


def _backup(args: argparse.Namespace) -> int:
    from journal_tui.journal.opening import backup

    with opened(args) as journal:
        made = backup(journal, Path(args.file))
    for line in columns([("Copied to", 9), (one_line(str(made)), width() - 11)]):
        say(line)
    return DONE


def _version(args: argparse.Namespace) -> int:
    from journal_tui import __version__

    say(f"{PROGRAM} {__version__}")
    return DONE


def _backup_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", metavar="FILE", help="a new file, or a folder to put one in")


COMMANDS = (
    Command("where", "Print where the journal lives and what decides it.", _where, "where"),
    Command(
        "backup",
        "Copy the journal to a new file, also while it is in use.",
        _backup,
        "backup /media/stick/journal-friday.db",
        _backup_arguments,
    ),
    Command("version", "Print the version.", _version, "version"),
)
