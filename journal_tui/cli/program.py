"""One run of the program: which command, with what, and what each way of failing looks like."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from pathlib import Path

from journal_tui.cli.command import DONE, PROGRAM, parser_of
from journal_tui.cli.output import (
    NOBODY_READS,
    STOPPED,
    OutputGone,
    abandon_output,
    complain,
    finish,
    on_terminal,
    prepare_streams,
    say,
)
from journal_tui.domain.errors import BadInput, JournalError

FAULT = 2


def run(argv: Sequence[str]) -> int:
    """Run the command that ``argv`` (without the program's name) asks for; return its exit code."""
    prepare_streams()
    try:
        code = _run(list(argv))
        finish()
        return code
    except SystemExit as stop:  # argparse has printed a help text
        return _finished(stop.code if isinstance(stop.code, int) else DONE)
    except BrokenPipeError:
        abandon_output()
        return NOBODY_READS
    except KeyboardInterrupt:
        complain("stopped", "Nothing was half-saved.")
        return STOPPED
    except JournalError as error:
        complain(error.title, error.body)
        return _finished(error.exit_code)
    except Exception as error:
        return _report(error)


def _finished(code: int) -> int:
    try:
        finish()
    except (BrokenPipeError, OutputGone):
        abandon_output()
        return code or FAULT
    return code


def _report(error: Exception) -> int:
    from journal_tui.journal.faults import record_fault

    where = record_fault(error)
    kept = f"The details are in {where}." if where else "The details could not be written down."
    complain("a fault in this program", f"{type(error).__name__}. {kept} Nothing was half-saved.")
    return FAULT


def _run(argv: list[str]) -> int:
    journal, rest = _journal_first(argv)
    if not rest:
        return _open_app(journal)
    if rest[0] in ("-h", "--help", "help") and len(rest) < 2:
        return _print_help()
    if rest[0] == "--version":
        rest = ["version"]
    from journal_tui.cli.registry import command_named

    command, words = command_named(rest[1:] if rest[0] == "help" else rest)
    if rest[0] == "help":
        words = ["--help"]
    args = _parsed(parser_of(command), words)
    args.journal = args.journal or journal
    return command.run(args)


def _journal_first(argv: list[str]) -> tuple[str | None, list[str]]:
    """Take ``--journal PATH`` off the front."""
    path = None
    while argv and (argv[0] == "--journal" or argv[0].startswith("--journal=")):
        if "=" in argv[0]:
            path, argv = argv[0].partition("=")[2], argv[1:]
        elif len(argv) > 1:
            path, argv = argv[1], argv[2:]
        else:
            path, argv = "", []
        if not path:
            raise BadInput("--journal names no file", f"Such as: {PROGRAM} --journal ~/jobs.db jobs")
    return path, argv


def _parsed(parser: argparse.ArgumentParser, words: list[str]) -> argparse.Namespace:
    """Parse ``words``; those after ``--`` are taken as they stand, whatever they look like.

    argparse drops or refuses some of them itself (a second ``--`` among them), so it is given
    stand-ins: no argument from a shell can hold U+0000.
    """
    literal: list[str] = []
    if "--" in words:
        cut = words.index("--")
        words, literal = words[:cut], words[cut + 1 :]
    args = parser.parse_args([*words, *(f"\0{number}" for number in range(len(literal)))])
    stand_ins = {f"\0{number}": text for number, text in enumerate(literal)}
    for name, value in vars(args).items():
        if isinstance(value, str):
            setattr(args, name, stand_ins.get(value, value))
        elif isinstance(value, list):
            setattr(args, name, [stand_ins.get(v, v) if isinstance(v, str) else v for v in value])
    return args


def _print_help() -> int:
    from journal_tui.cli.registry import overview

    say(overview())
    return DONE


def _open_app(path: str | None) -> int:
    if not on_terminal():
        return _print_help()
    from journal_tui.journal.opening import open_journal
    from journal_tui.screens.app import run_app

    journal = open_journal(Path(path) if path else None)
    try:
        run_app(journal)
    finally:
        journal.close()
    return DONE
