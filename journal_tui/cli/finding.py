"""Finding things: search over entries and talk, what was done, and what was learned."""

from __future__ import annotations

import argparse

from journal_tui.cli.command import DONE, NOTHING, PROGRAM, Command, count, opened, takes_job, takes_json
from journal_tui.cli.output import note, put_object, say
from journal_tui.cli.tables import columns, say_wrapped, width
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import clock, short_day


def _search(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.searching import search

    words = " ".join(args.words)
    if not words.strip():
        raise BadInput("no word to search for", f"Such as: {PROGRAM} search flange")
    with opened(args) as journal:
        job_id = find_job(journal, args.job).id if args.job is not None else None
        hits = search(journal, words, job_id=job_id, limit=args.limit)
    if args.json:
        put_object(
            [
                {
                    "job": hit.job_name,
                    "day": hit.day.isoformat(),
                    "start": hit.start,
                    "kind": hit.kind.value if hit.kind else None,
                    "phase": hit.phase or None,
                    "area": hit.area or None,
                    "text": hit.text,
                }
                for hit in hits
            ]
        )
        return DONE if hits else NOTHING
    if not hits:
        note(f'nothing holds "{words}"')
        return NOTHING
    for hit in hits:
        at = f", {clock(hit.start)}" if hit.start is not None else ""
        place = ", ".join(part for part in (hit.phase, hit.area) if part)
        head = f"{hit.job_name}, {short_day(hit.day)} {hit.day.year}{at}"
        say_wrapped(f"{head}: {place}" if place else head)
        kind = hit.kind.spoken if hit.kind else "said"
        for line in columns([("", 0), (kind, 5), (one_line(hit.text), width() - 9)]):
            say(line)
    return DONE


def _history(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.undoing import history

    with opened(args) as journal:
        job = find_job(journal, args.job)
        deeds = history(journal, job.id, limit=args.limit)
    for deed in deeds:
        when = deed.at.astimezone()
        text = f"{deed.label} (undone)" if deed.undone else deed.label
        for line in columns([(f"{when:%Y-%m-%d %H:%M}", 16), (one_line(text), width() - 18)]):
            say(line)
    return DONE if deeds else NOTHING


def _undo(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.undoing import undo

    with opened(args) as journal:
        say(f"Undone: {one_line(undo(journal, find_job(journal, args.job).id))}.")
    return DONE


def _words(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.review import forget_word, own_words

    with opened(args) as journal:
        job = find_job(journal, args.job)
        known = own_words(journal, job.id)
        if args.forget is not None:
            wanted = folded(args.forget)
            ids = [word_id for word_id, word in known if folded(word.phrase) == wanted]
            if not ids:
                raise BadInput(
                    f'"{one_line(args.forget)}" was not learned', f"See what was: {PROGRAM} words JOB"
                )
            for word_id in ids:
                forget_word(journal, job.id, word_id)
            say(f"Forgotten: {one_line(args.forget)}.")
            return DONE
    for _id, word in known:
        means = ", ".join(part for part in (word.area, word.phase) if part)
        say_wrapped(f"{word.phrase}: {means}")
    if not known:
        note("no words were learned on this job yet: They are, when review changes an area or a phase.")
    return DONE if known else NOTHING


def _search_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "words", metavar="WORD", nargs="+", help="words that must all be there; the last may be unfinished"
    )
    parser.add_argument("--job", metavar="JOB", help="only in this job")
    parser.add_argument(
        "--limit", metavar="N", type=count, default=50, help="at most so many of each (50 unless you say)"
    )
    takes_json(parser)


def _history_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument(
        "--limit", metavar="N", type=count, default=50, help="at most so many (50 unless you say)"
    )


def _words_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--forget", metavar="WORDS", help="stop using what was learned about these words")


COMMANDS = (
    Command(
        "search",
        "Find entries, and everything that was said, by their words.",
        _search,
        "search flange rust\nsearch shutoff --job elm",
        _search_arguments,
    ),
    Command(
        "history",
        "List what was done on a job, newest first.",
        _history,
        "history elm --limit 10",
        _history_arguments,
    ),
    Command(
        "undo",
        "Take back the newest change to a job; again, the one before it.",
        _undo,
        "undo elm",
        takes_job,
        "A sent update stays sent.",
    ),
    Command(
        "words",
        "List the words that review has taught the drafter on a job.",
        _words,
        'words elm\nwords elm --forget "window side"',
        _words_arguments,
    ),
)
