"""Every command there is, in the order help lists them."""

from __future__ import annotations

from journal_tui.cli import (
    change_lines,
    change_orders,
    chapters,
    contract,
    crew_sheets,
    finding,
    house_record,
    job_measures,
    jobs,
    keeping,
    measures,
    planning,
    punch,
    records,
    review,
    tour,
    updates,
    visits,
    work_days,
)
from journal_tui.cli.command import PROGRAM, Command
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

#: The groups of commands, as help heads them.
GROUPS: tuple[tuple[str, tuple[Command, ...]], ...] = (
    ("to look around", tour.COMMANDS),
    ("jobs", jobs.COMMANDS),
    ("visits", visits.COMMANDS),
    ("review of drafts", review.COMMANDS),
    ("setting things right", records.COMMANDS),
    ("the punch list", punch.COMMANDS),
    ("the plan", (*planning.COMMANDS, *crew_sheets.COMMANDS, *work_days.COMMANDS)),
    ("measures", (*measures.COMMANDS, *job_measures.COMMANDS)),
    ("the client update", (*updates.COMMANDS, *chapters.COMMANDS)),
    ("change orders", (*contract.COMMANDS, *change_orders.COMMANDS, *change_lines.COMMANDS)),
    ("the record of the house", house_record.COMMANDS),
    ("finding things", finding.COMMANDS),
    ("the journal", keeping.COMMANDS),
)

_WIDTH = 80

COMMANDS: tuple[Command, ...] = tuple(command for _title, group in GROUPS for command in group)


def command_named(words: list[str]) -> tuple[Command, list[str]]:
    """Return the command that ``words`` begin with and the words after its name.

    Raises ``BadInput`` naming the nearest commands when there is none of that name.
    """
    named = {command.name: command for command in (*COMMANDS, *planning.HIDDEN)}
    for length in (2, 1):
        command = named.get(" ".join(words[:length]))
        if command and len(words) >= length:
            return command, words[length:]
    first = words[0]
    further = [name for name in named if name.startswith(f"{first} ")]
    if further:
        options = ", ".join(further)
        if len(words) > 1 and words[1] not in ("-h", "--help"):
            raise BadInput(
                f'there is no command "{_shown(first)} {_shown(words[1])}"', f"There are: {options}."
            )
        raise BadInput(f"{first} what?", f"There are: {options}.")
    from difflib import get_close_matches

    near = get_close_matches(first[:40], {name.split()[0] for name in named})
    hint = f"Did you mean {' or '.join(sorted(near))}? " if near else ""
    raise BadInput(f'there is no command "{_shown(first)}"', f"{hint}See: {PROGRAM} --help")


def _shown(word: str) -> str:
    line = one_line(word)
    return line if len(line) <= 40 else f"{line[:39]}…"


def overview() -> str:
    """Return the help of the whole program: every command with what it does."""
    from textwrap import wrap

    lines = [
        f"usage: {PROGRAM} [--journal PATH] [COMMAND ...]",
        "",
        "A remodeler's site journal: a recorded walk-through becomes a punch list and a",
        "client update. Without a command, the journal opens on the screen.",
    ]
    longest = max(len(command.name) for command in COMMANDS)
    for title, group in GROUPS:
        lines += ["", f"{title}:"]
        for command in group:
            lines += wrap(
                command.summary,
                _WIDTH,
                initial_indent=f"  {command.name.ljust(longest)}  ",
                subsequent_indent=" " * (longest + 4),
            )
    lines += [
        "",
        "options:",
        "  --journal PATH  the journal file to use, before or after the command",
        "  --version       print the version and stop",
        "  -h, --help      print this and stop",
        "",
        f"More on one command, with an example: {PROGRAM} COMMAND --help",
        "Exit codes: 0 done, 1 nothing found, 2 bad input or an unusable journal.",
    ]
    return "\n".join(lines)
