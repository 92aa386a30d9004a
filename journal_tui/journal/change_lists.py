"""Change orders and the contract in lines, for lists on a screen and on the command line."""

from __future__ import annotations

from typing import Any

from journal_tui.domain.change_order import ChangeOrder, ChangeState, in_words, shown_prices
from journal_tui.domain.money import money, rate
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.changes import handle
from journal_tui.journal.contracts import ContractView


def order_line(order: ChangeOrder) -> str:
    """Return an order in a line: what it is called by, its title, price, days and where it stands."""
    return f"{handle(order)} {one_line(order.title)}: {order_facts(order)}"


def order_facts(order: ChangeOrder) -> str:
    """Return an order's price, days and where it stands, in words."""
    days = (
        "no days" if not order.days else f"{order.days:+d} working day{'s' if abs(order.days) != 1 else ''}"
    )
    return f"{in_words(order.price.total)}, {days}, {state_words(order)}"


def state_words(order: ChangeOrder) -> str:
    """Return where an order stands, with since when and by whose word."""
    if order.state is ChangeState.SENT and order.sent_on:
        return f"sent {short_day(order.sent_on)}, waits for the answer"
    if order.answer is not None:
        answer = order.answer
        return f"{order.state.value} {short_day(answer.day)} by {one_line(answer.by)} ({answer.how.value})"
    return order.state.value


def line_lines(order: ChangeOrder) -> list[str]:
    """Return the lines of an order with cost and price, and how the total is made; for its owner."""
    told = [
        f"{number}. {line.kind.value}: {one_line(line.text)}: {money(line.cents)} at cost, {money(price)}"
        for number, (line, price) in enumerate(
            zip(order.lines, shown_prices(order.lines, order.pricing), strict=True), 1
        )
    ]
    if order.lines:
        price = order.price
        told.append(
            f"{money(price.lines)} at cost + {money(price.markup)} markup ({rate(order.pricing.markup)}) + "
            f"{money(price.tax)} tax ({rate(order.pricing.tax)} on {order.pricing.tax_base.value})"
            f" = {money(price.total)}"
        )
    return told


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
    }
