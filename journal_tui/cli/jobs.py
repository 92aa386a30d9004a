"""Jobs: listing, beginning, changing and showing them."""

from __future__ import annotations

import argparse

from journal_tui.cli.command import DONE, NOTHING, Command, opened, takes_job, takes_json
from journal_tui.cli.output import note, put_object, say
from journal_tui.cli.tables import columns, say_wrapped, width
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day


def _jobs(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import list_jobs

    with opened(args) as journal:
        lines = list_jobs(journal)
    if args.json:
        put_object(
            [
                {
                    **_record(line.job),
                    "open": line.open_items,
                    "waiting_drafts": line.waiting_drafts,
                    "last_visit": line.last_day.isoformat() if line.last_day else None,
                }
                for line in lines
            ]
        )
        return DONE if lines else NOTHING
    if not lines:
        note('there are no jobs yet: Begin one with: journal-tui job add "Hall bath"')
        return NOTHING
    for line in lines:
        last = (
            f"last visit {short_day(line.last_day)} {line.last_day.year}" if line.last_day else "no visit yet"
        )
        waiting = f", {line.waiting_drafts} drafts to review" if line.waiting_drafts else ""
        left = "\n".join(filter(None, (one_line(line.job.name), one_line(line.job.address))))
        for text in columns([(left, width() - 38), (f"{line.open_items} open{waiting}\n{last}", 36)]):
            say(text)
    return DONE


def _record(job: Job) -> dict[str, object]:
    return {
        "id": job.id,
        "name": job.name,
        "client": job.client,
        "address": job.address,
        "scope": job.scope,
        "year_built": job.year_built,
        "phases": list(job.phases),
    }


def _fields(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--client", metavar="NAME", help="who the work is for")
    parser.add_argument("--address", metavar="TEXT", help="where it is")
    parser.add_argument("--scope", metavar="TEXT", help="what the work is, in a line")
    parser.add_argument("--built", metavar="YEAR", help="the year the house was built")
    parser.add_argument(
        "--phases",
        metavar="LIST",
        help="the phases in the order the work goes, with commas between (demo, rough plumbing, "
        "subfloor, backer, tile, trim unless you say otherwise)",
    )
    parser.add_argument(
        "--private-note", metavar="TEXT", help="door codes, money, anything no document may ever show"
    )


def _changes(args: argparse.Namespace) -> dict[str, object]:
    found: dict[str, object] = {
        name: value
        for name in ("client", "address", "scope", "private_note")
        if (value := getattr(args, name)) is not None
    }
    if args.built is not None:
        found["year_built"] = _year(args.built)
    if args.phases is not None:
        found["phases"] = tuple(args.phases.split(","))
    return found


def _year(text: str) -> int | None:
    if not text.strip():
        return None
    if not (text.isascii() and text.strip().isdigit() and len(text.strip()) == 4):
        raise BadInput(f'"{one_line(text)[:40]}" is no year', "Give four digits, such as 1957.")
    return int(text)


def _add(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import add_job

    changes = _changes(args)
    with opened(args, new=True) as journal:
        job = add_job(journal, args.name, **changes)  # type: ignore[arg-type]
        say_wrapped(f"Begun: {one_line(job.name)}, in {one_line(str(journal.path))}.")
    return DONE


def _change(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import change_job, find_job

    changes = _changes(args)
    if args.name is not None:
        changes["name"] = args.name
    if not changes:
        raise BadInput("nothing to change", "Say what, such as --client or --phases. See --help.")
    with opened(args) as journal:
        job = change_job(journal, find_job(journal, args.job).id, **changes)
        say_wrapped(f"Changed: {one_line(job.name)}.")
    return DONE


def _show(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
    if args.json:
        put_object({**_record(job), "private_note": job.private_note})
        return DONE
    facts = {
        "name": job.name,
        "client": job.client,
        "address": job.address,
        "scope": job.scope,
        "built": str(job.year_built or ""),
        "phases": ", ".join(job.phases),
        "private note": job.private_note,
        "id": job.id,
    }
    for name, value in facts.items():
        if value:
            for text in columns([(name, 12), (one_line(value), width() - 14)]):
                say(text)
    return DONE


def _add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("name", metavar="NAME", help="what you call the job")
    _fields(parser)


def _change_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--name", metavar="NAME", help="another name for it")
    _fields(parser)


def _show_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_json(parser)


COMMANDS = (
    Command("jobs", "List the jobs, the one visited last first.", _jobs, "jobs", takes_json),
    Command(
        "job add",
        "Begin a job.",
        _add,
        'job add "Hall bath, 12 Elm" --client "Ines Quill" --built 1957',
        _add_arguments,
        "The journal file is made when there is none yet.",
    ),
    Command(
        "job change",
        "Change what a job says of itself.",
        _change,
        'job change elm --phases "demo, rough plumbing, rough electrical, subfloor, backer, tile, trim"',
        _change_arguments,
    ),
    Command(
        "job show",
        "Show one job, its private note too.",
        _show,
        "job show elm",
        _show_arguments,
    ),
)
