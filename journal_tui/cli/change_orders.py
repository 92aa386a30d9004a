"""Change orders: begun, worded, shown, sent and answered, and the work that waits for them."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from journal_tui.cli.change_lines import order_found, takes_order, tell_order
from journal_tui.cli.command import (
    DONE,
    NOTHING,
    Command,
    day_given,
    opened,
    takes_day,
    takes_job,
    takes_json,
)
from journal_tui.cli.contract import say_contract
from journal_tui.cli.output import note, put, put_html, put_object, read_by_eye, say
from journal_tui.cli.tables import say_wrapped
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.domain.change_order import ChangeOrder
    from journal_tui.journal.opening import Journal

_FORMS = ("md", "html", "text", "pdf", "eml")
_HOW = ("signed", "e-mail", "message", "letter", "phone", "in person")


def _list(args: argparse.Namespace) -> int:
    from journal_tui.journal.change_lists import order_line, order_object
    from journal_tui.journal.changes import change_orders
    from journal_tui.journal.contracts import contract_view
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        orders = change_orders(journal, job.id)
        view = contract_view(journal, job.id)
    if args.json:
        put_object([order_object(order) for order in orders])
        return DONE if orders else NOTHING
    for order in orders:
        say_wrapped(order_line(order))
    say_contract(view)
    return DONE if orders else NOTHING


def _add(args: argparse.Namespace) -> int:
    from journal_tui.journal.changes import draft_order
    from journal_tui.journal.entries import find_entry
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        entry = find_entry(journal, job, args.entry) if args.entry is not None else None
        order = draft_order(journal, job.id, " ".join(args.title), entry_id=entry.id if entry else None)
        tell_order(journal, _worded(journal, order, args))
    return DONE


def _worded(journal: Journal, order: ChangeOrder, args: argparse.Namespace) -> ChangeOrder:
    from journal_tui.journal.change_plan import days_by_plan
    from journal_tui.journal.changes import change_words
    from journal_tui.journal.days import day_ahead

    days = None
    if args.days is not None:
        days = days_by_plan(journal, order.id) if args.days == "plan" else _days(args.days)
    return change_words(
        journal,
        order.id,
        found=args.found,
        offer=args.offer,
        left=args.left,
        days=days,
        answer_by=None if args.by is None else day_ahead(args.by, journal.today()),
    )


def _days(text: str) -> int:
    digits = text.removeprefix("-")
    if not (digits.isascii() and digits.isdigit() and len(digits) < 5):
        raise BadInput(f"{one_line(text)[:20]} is no number of working days", "Such as 2, -1, or: plan.")
    return int(text)


def _set(args: argparse.Namespace) -> int:
    with opened(args) as journal:
        tell_order(journal, _worded(journal, order_found(journal, args)[1], args))
    return DONE


def _hold(args: argparse.Namespace) -> int:
    from journal_tui.domain.punch import PunchState
    from journal_tui.journal.changes import held_items, hold, release
    from journal_tui.journal.punch import find_item

    with opened(args) as journal:
        job, order = order_found(journal, args)
        item = find_item(journal, job, " ".join(args.item), states=(PunchState.OPEN,))
        (release if args.release else hold)(journal, order.id, item.id)
        held = held_items(journal, order.id)
    for waits in held:
        say_wrapped(f"waits: {one_line(waits.text)}")
    if not held:
        note("nothing waits for it")
    return DONE


def _show(args: argparse.Namespace) -> int:
    from journal_tui.domain.reading import client_heading
    from journal_tui.journal.change_pages import page_markdown, write_page
    from journal_tui.journal.papers import PaperForm, paper_text

    form = PaperForm(args.format or ("text" if read_by_eye() else "md"))
    with opened(args) as journal:
        job, order = order_found(journal, args)
        if args.out is not None:
            for path in write_page(journal, order, Path(args.out), (form,) if args.format else None):
                say(one_line(str(path)))
            return DONE
        markdown = page_markdown(journal, order)
    if not form.is_text:
        raise BadInput(f"{form.value} is not for a terminal", "Name a folder to write it to, with --out.")
    title = f"{client_heading(job.name)}, change order"
    (put_html if form is PaperForm.HTML else put)(paper_text(markdown, title, form))
    return DONE


def _send(args: argparse.Namespace) -> int:
    from journal_tui.journal.change_answers import send_order
    from journal_tui.journal.change_pages import write_page
    from journal_tui.journal.writing import checked_folder

    with opened(args) as journal:
        _job, order = order_found(journal, args)
        if args.out is not None:
            checked_folder(Path(args.out))
        sent = send_order(journal, order.id)
        tell_order(journal, sent)
        if args.out is not None:
            for path in write_page(journal, sent, Path(args.out)):
                say(one_line(str(path)))
    note(f"frozen as change order {sent.number}: hand it on yourself, then record the answer")
    return DONE


def _answer(args: argparse.Namespace) -> int:
    from journal_tui.domain.change_order import Answer, Channel
    from journal_tui.journal.change_answers import answer_order
    from journal_tui.journal.changes import held_items
    from journal_tui.journal.contracts import contract_view

    with opened(args) as journal:
        _job, order = order_found(journal, args)
        day = day_given(args, journal) or journal.today()
        proof = Answer(args.by, Channel(args.how), day, args.note or "")
        answered = answer_order(journal, order.id, args.answer == "yes", proof)
        tell_order(journal, answered)
        say_contract(contract_view(journal, order.job_id))
        if args.answer == "no":
            for item in held_items(journal, order.id):
                say_wrapped(f"no longer waits, drop it if it is not wanted: {one_line(item.text)}")
    return DONE


def _withdraw(args: argparse.Namespace) -> int:
    from journal_tui.journal.change_answers import withdraw_order

    with opened(args) as journal:
        tell_order(journal, withdraw_order(journal, order_found(journal, args)[1].id))
    return DONE


# Arguments ---------------------------------------------------------------------------------------


def _takes_words(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--found", metavar="TEXT", help="why: what was found")
    parser.add_argument("--offer", metavar="TEXT", help="what you would do")
    parser.add_argument("--left", metavar="TEXT", help="what it comes to if nothing is done")
    parser.add_argument("--days", metavar="N", help="working days it adds (below zero: saves), or: plan")
    parser.add_argument("--by", metavar="DAY", help="the day you ask for the answer by")


def _list_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_json(parser)


def _add_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("title", metavar="TITLE", nargs="+", help="what it is called")
    parser.add_argument("--entry", metavar="WORDS", help="the entry it is born from, by words of it")
    _takes_words(parser)


def _set_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    _takes_words(parser)


def _hold_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument("item", metavar="ITEM", nargs="+", help="the punch item: its short name or words")
    parser.add_argument("--release", action="store_true", help="let it go on instead")


def _show_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument(
        "--format", choices=_FORMS, help="the form (text on a terminal, else md, unless you say)"
    )
    parser.add_argument(
        "--out", metavar="FOLDER", help="write it to this folder, in every form unless one is named"
    )


def _send_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument("--out", metavar="FOLDER", help="write it to this folder too, in every form")


def _answer_arguments(parser: argparse.ArgumentParser) -> None:
    takes_order(parser)
    parser.add_argument("answer", choices=("yes", "no"), help="what the client said")
    parser.add_argument("--by", metavar="NAME", required=True, help="who gave the answer")
    parser.add_argument("--how", choices=_HOW, required=True, help="how it came: the proof there is")
    parser.add_argument("--note", metavar="TEXT", help="what was said, or where the proof is kept")
    takes_day(parser, "the day it came (today unless you say)")


COMMANDS = (
    Command(
        "change-orders",
        "List a job's change orders and the contract with them.",
        _list,
        "change-orders elm",
        _list_arguments,
    ),
    Command(
        "change-order add",
        "Begin a change order, from nothing or from an entry.",
        _add,
        'change-order add elm New subfloor --entry "floor is soft" --offer "New boards." --days 2',
        _add_arguments,
    ),
    Command(
        "change-order set",
        "Change what a draft says.",
        _set,
        'change-order set elm subfloor --left "The boards go on rotting." --days plan --by friday',
        _set_arguments,
    ),
    Command(
        "change-order hold",
        "Let a punch item wait for the answer.",
        _hold,
        "change-order hold elm subfloor new plywood",
        _hold_arguments,
    ),
    Command(
        "change-order show",
        "Print a change order as the client reads it.",
        _show,
        "change-order show elm subfloor --format text",
        _show_arguments,
    ),
    Command(
        "change-order send",
        "Give a draft its number and freeze it as sent.",
        _send,
        "change-order send elm subfloor --out ~/Desktop",
        _send_arguments,
        "Nothing is sent anywhere: hand the page on yourself. It cannot be undone.",
    ),
    Command(
        "change-order answer",
        "Record the client's answer, with its proof.",
        _answer,
        'change-order answer elm 1 yes --by "Ada Lindqvist" --how signed',
        _answer_arguments,
    ),
    Command(
        "change-order withdraw",
        "Take back a change order that is not answered.",
        _withdraw,
        "change-order withdraw elm 1",
        takes_order,
    ),
)
