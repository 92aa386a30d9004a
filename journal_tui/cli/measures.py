"""Measures without a job: a check or a take-off worked out from what is typed."""

from __future__ import annotations

import argparse
from collections.abc import Callable

from journal_tui.cli.command import DONE, Arguments, Command, takes_json
from journal_tui.cli.output import put_object, say
from journal_tui.cli.tables import width

_ABOUT = """Lengths are written as people do: 12-3, 12' 3", 3/4, 1 5/8, 147 in, 3.5 m. What could mean
two things is asked about. Every answer names its rule, the edition, and how well it is
known; local code and licensed people decide."""

#: The checks, each with what it says of itself and an example; their fields are the service's.
_CHECKS = (
    (
        "floor",
        "Say whether a floor is stiff and strong enough for tile.",
        "check floor --joist 2x10 --species SPF --grade 2 --spacing 16 --span 12-3",
    ),
    (
        "cut",
        "Say whether a notch or hole stays inside the rule.",
        "check cut --size 2x10 --kind hole --depth '3 1/2'",
    ),
    (
        "build-up",
        "Add up layers out and in: flange, door, threshold, tub.",
        "check build-up --out '5/8 particleboard' --new '3/4 plywood' --door-gap 1/2",
    ),
    (
        "way-in",
        "Say whether a tub or vanity gets through, and where not.",
        "check way-in --piece 60x32x22 --step 'door 30x80' --step 'corner 36x36'",
    ),
    (
        "supply",
        "Size water pipe along a line; count the parts.",
        "check supply --pressure 55 --code irc --run 'main, 60 ft, rise 2 ft: 2 bath group'",
    ),
    (
        "room",
        "Draw a room from its measures.",
        "check room --room 'E 8-0, N 3-6, W 2-0, N 1-6, W 6-0, S 5-0'",
    ),
    (
        "tile",
        "Lay out tile: start lines, cuts, counts, boxes.",
        "check tile --size 8-0x5-0 --tile 12x12 --joint 1/8\n"
        "check tile --size 8-0x5-0 --tile 12x24 --pattern 'running bond' --svg layout.svg",
    ),
    (
        "sheets",
        "Lay out panels or boards from the fewest sheets.",
        "check sheets --size 8-0x5-0 --sheet 48x96\ncheck sheets --size 8-0x5-0 --strip 12",
    ),
    (
        "take-off",
        "List what a room takes, by phase.",
        "check take-off --size 8-0x5-0 --tile 12x12 --panel 'plywood 3/4' --paint yes",
    ),
    (
        "cautions",
        "Say where the work can hurt someone, with the rule.",
        "check cautions --year 1962 --task demo --material vinyl",
    ),
)


def _runner(name: str) -> Callable[[argparse.Namespace], int]:
    def run(args: argparse.Namespace) -> int:
        from journal_tui.journal.measures import form_named, work_out

        values = {ask.name: _typed(args, ask.name) for ask in form_named(name).asks}
        answer = work_out(name, values)
        if getattr(args, "svg", None):
            from journal_tui.journal.measures import save_drawing

            save_drawing(answer, args.svg)
        if args.json:
            put_object(answer.data)
            return DONE
        for line in answer.text(width()):
            say_line(line)
        return DONE

    return run


def _typed(args: argparse.Namespace, name: str) -> str:
    value = getattr(args, name.replace("-", "_"))
    return "\n".join(value) if isinstance(value, list) else value or ""


def say_line(text: str) -> None:
    """Print a line, wrapped where it is prose; a drawing's lines stand as they are."""
    from journal_tui.journal.formats import wrapped

    for line in text.split("\n"):
        if len(line) <= width():
            say(line)
            continue
        inset = " " * (len(line) - len(line.lstrip()))
        first, *rest = wrapped(line.strip(), width() - len(inset) - 2)
        say(f"{inset}{first}")
        for more in rest:
            say(f"{inset}  {more}")


def _arguments(name: str) -> Arguments:
    def arguments(parser: argparse.ArgumentParser) -> None:
        from journal_tui.journal.measures import form_named

        for ask in form_named(name).asks:
            note = f" ({ask.default} unless you say)" if ask.default else ""
            again = "; may be given again" if ask.many else ""
            said = f"{ask.hint}{again}{note}".replace("%", "%%")
            if ask.many:
                parser.add_argument(f"--{ask.name}", metavar="TEXT", action="append", help=said)
            else:
                parser.add_argument(f"--{ask.name}", metavar="TEXT", choices=ask.choices or None, help=said)
        if name == "tile":
            parser.add_argument("--svg", metavar="FILE", help="also draw it to a new SVG file")
        takes_json(parser)

    return arguments


def _command(name: str, summary: str, example: str) -> Command:
    return Command(f"check {name}", summary, _runner(name), example, _arguments(name), _ABOUT)


COMMANDS = tuple(_command(*check) for check in _CHECKS)
