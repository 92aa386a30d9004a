"""Change orders and the contract in lines, for lists on a screen and on the command line."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from journal_tui.domain.change_order import (
    HUNDREDTHS,
    ChangeLine,
    ChangeOrder,
    ChangeState,
    in_words,
    shown_prices,
)
from journal_tui.domain.money import money, rate
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.changes import handle
from journal_tui.journal.contracts import ContractView

#: Units that stay as they are after any number.
_NEVER_PLURAL = frozenset("ft in lb oz gal qt pt yd hr ea each lf sf sy cy".split())


def order_line(order: ChangeOrder) -> str:
    """Return an order in a line: what it is called by, its title, price, days and where it stands."""
    return f"{handle(order)} {one_line(order.title)}: {order_facts(order)}"


def order_facts(order: ChangeOrder) -> str:
    """Return an order's price, days and where it stands, in words."""
    days = (
        "no days" if not order.days else f"{order.days:+d} working day{'s' if abs(order.days) != 1 else ''}"
    )
    return f"{in_words(order.price.total)}, {days}, {state_words(order)}"


def order_brief(order: ChangeOrder) -> str:
    """Return an order's price and where it stands since when, for a list."""
    day = order.answer.day if order.answer is not None else order.sent_on
    since = f" {short_day(day)}" if day is not None else ""
    return f"{in_words(order.price.total)}, {order.state.value}{since}"


def state_words(order: ChangeOrder) -> str:
    """Return where an order stands, with since when and by whose word."""
    if order.state is ChangeState.SENT and order.sent_on:
        return f"sent {short_day(order.sent_on)}, waits for the answer"
    if order.answer is not None:
        answer = order.answer
        return f"{order.state.value} {short_day(answer.day)} by {one_line(answer.by)} ({answer.how.value})"
    return order.state.value


def hundredths(quantity: int) -> str:
    """Return a quantity counted in hundredths as a number: 250 is ``2.5``."""
    return f"{quantity // HUNDREDTHS}.{quantity % HUNDREDTHS:02d}".rstrip("0").rstrip(".")


def amount_words(quantity: int, unit: str) -> str:
    """Return a quantity (hundredths) of a unit in words, ``2 bags of 50 lb``; one without a unit is empty."""
    number = hundredths(quantity)
    unit = one_line(unit).strip()
    if not unit:
        return number if quantity != HUNDREDTHS else ""
    head, joint, rest = unit.partition(" of ")
    word = head.rsplit(" ", 1)[-1].casefold()
    if quantity != HUNDREDTHS and word[-1:].isalpha() and word[-1:] != "s" and word not in _NEVER_PLURAL:
        head += "es" if word.endswith(("x", "ch", "sh")) else "s"
    return f"{number} {head}{joint}{rest}"


def order_lines(order: ChangeOrder, since: Mapping[int, str]) -> list[str]:
    """Return the lines of an order with cost and price, where each quantity of the materials list is from,
    what has changed on the list ``since`` (of ``change_materials.changes_since``), and how the total is
    made; for its owner.
    """
    from journal_tui.journal.change_materials import trace_words

    told = []
    prices = shown_prices(order.lines, order.pricing)
    for number, (line, shown) in enumerate(zip(order.lines, prices, strict=True), 1):
        told.append(f"{number}. {line_words(line)}: {money(line.cents)} at cost, {money(shown)}")
        if line.made_from is not None:
            told.append(f"   made from: {trace_words(line.made_from)}")
        if number in since:
            told.append(f"   ! {since[number]}")
    if order.lines:
        price = order.price
        told.append(
            f"{money(price.lines)} at cost + {money(price.markup)} markup ({rate(order.pricing.markup)}) + "
            f"{money(price.tax)} tax ({rate(order.pricing.tax)} on {order.pricing.tax_base.value})"
            f" = {money(price.total)}"
        )
    return told


def line_words(line: ChangeLine) -> str:
    """Return what a line pays for: its kind, its words, and how many at which price when that is not one."""
    amount = amount_words(line.quantity, line.unit)
    each = f", {amount} at {money(line.each)}" if amount else ""
    each += "" if line.each else ", no price yet"
    return f"{line.kind.value}: {one_line(line.text)}{each}"


def contract_lines(view: ContractView) -> list[str]:
    """Return how a contract stands, in lines."""
    stands = view.standing
    lines = []
    if stands.cents is None or stands.first.cents is None:
        lines.append("No contract sum is set.")
    else:
        first, added = money(stands.first.cents), money(stands.accepted_cents)
        lines.append(f"contract {first}, changes {added}: {money(stands.cents)}")
    if view.finish and stands.first.finish:
        days = f"{stands.accepted_days:+d} working days: " if stands.accepted_days else ""
        lines.append(
            f"last day {short_day(stands.first.finish)} {stands.first.finish.year}, {days}"
            f"{short_day(view.finish)} {view.finish.year}"
        )
    if stands.waiting_cents or stands.waiting_days:
        lines.append(
            f"waiting for an answer: {money(stands.waiting_cents)}, {stands.waiting_days:+d} working days"
        )
    return lines


def order_object(order: ChangeOrder) -> dict[str, Any]:
    """Return an order for another program; sums are whole cents."""
    price, answer = order.price, order.answer
    return {
        "number": order.number,
        "handle": handle(order),
        "title": order.title,
        "state": order.state.value,
        "cost": price.lines,
        "markup": price.markup,
        "tax": price.tax,
        "total": price.total,
        "days": order.days,
        "sent": order.sent_on.isoformat() if order.sent_on else None,
        "answered": answer.day.isoformat() if answer else None,
        "answered_by": answer.by if answer else None,
        "answered_how": answer.how.value if answer else None,
        "lines": [_line_object(line) for line in order.lines],
    }


def _line_object(line: ChangeLine) -> dict[str, Any]:
    made = line.made_from
    return {
        "kind": line.kind.value,
        "text": line.text,
        "quantity": line.quantity / HUNDREDTHS,
        "unit": line.unit,
        "each": line.each,
        "cost": line.cents,
        "marked_up": line.marked_up,
        "made_from": None
        if made is None
        else {
            "material": made.name,
            "phase": made.phase,
            "packages": made.packages,
            "amount": round(made.amount, 3),
            "unit": made.unit,
            "waste": made.waste,
            "basis": made.basis,
            "day": made.day.isoformat(),
            "measures": [part.name for part in made.parts],
        },
    }
