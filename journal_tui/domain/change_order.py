"""Change orders: what is added to a job or taken from it, at what price and in how many days.

The price is made in one order, stated wherever it is shown: each line at cost; then the markup on the
lines that bear it, rounded once on their sum; then the tax on what is taxed (materials with their share of
the markup, or everything), rounded once. The California tax agency reads a bill made so in the same order:
a percentage added before the tax is part of what is taxed (Sales and Use Tax Annotation 190.2500).

Numbers are given when an order is sent, inside the one writer of the journal: one more than the highest of
the job. An order set aside before it is sent takes none, a sent one keeps its own for good, so a job's
numbers have no gaps. Two laptops that each send offline may both give the same number; when their journals
meet, the one sent first (by the instant of its sending, then by its id) keeps it, and the other takes the
next free number and is sent to the client again under it, for its page still bears the old one.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from journal_tui.domain.errors import BadInput
from journal_tui.domain.made_from import MadeFrom
from journal_tui.domain.money import MOST_CENTS, divided, money, share, spread
from journal_tui.domain.text import one_line

#: Quantities are counted in hundredths: 2.5 hours are 250.
HUNDREDTHS = 100
MOST_QUANTITY = 10_000_000
#: More working days than this for one change is a slip of the keys.
MOST_DAYS = 400
MOST_LINES = 200


class ChangeState(StrEnum):
    """Where a change order stands."""

    DRAFTED = "drafted"
    SENT = "sent"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    WITHDRAWN = "withdrawn"

    @property
    def answered(self) -> bool:
        """True when the client has said yes or no."""
        return self in (ChangeState.ACCEPTED, ChangeState.DECLINED)

    @property
    def closed(self) -> bool:
        """True when nothing more is waited for."""
        return self.answered or self is ChangeState.WITHDRAWN


class LineKind(StrEnum):
    """What a line of a change order pays for."""

    LABOR = "labor"
    MATERIAL = "material"
    SUB = "sub"
    ALLOWANCE = "allowance"


class TaxBase(StrEnum):
    """What sales tax is charged on; the state says which."""

    NOTHING = "nothing"
    MATERIALS = "materials"
    EVERYTHING = "everything"


class Channel(StrEnum):
    """How an answer came."""

    SIGNED = "signed"
    EMAIL = "e-mail"
    MESSAGE = "message"
    LETTER = "letter"
    PHONE = "phone"
    IN_PERSON = "in person"


@dataclass(frozen=True, slots=True)
class ChangeLine:
    """One line at cost: ``quantity`` in hundredths of a ``unit``, ``each`` in cents for one unit.

    An allowance line is the difference between what was chosen and what the contract allows for it;
    below zero when the choice costs less. ``marked_up`` says whether the markup is charged on it.
    ``made_from`` is the line of the materials list it was made from, if it was.
    """

    kind: LineKind
    text: str
    quantity: int
    unit: str
    each: int
    marked_up: bool = True
    made_from: MadeFrom | None = None

    @property
    def cents(self) -> int:
        """What the line costs, a half cent rounded away from zero."""
        return divided(self.quantity * self.each, HUNDREDTHS)


@dataclass(frozen=True, slots=True)
class Pricing:
    """How lines become a price: ``markup`` and ``tax`` in basis points (1,500 is 15 percent)."""

    markup: int = 0
    tax: int = 0
    tax_base: TaxBase = TaxBase.NOTHING


@dataclass(frozen=True, slots=True)
class Price:
    """A price as it is made, all in cents; ``total`` is the sum of the three before it."""

    lines: int
    markup: int
    tax: int
    total: int


@dataclass(frozen=True, slots=True)
class Answer:
    """The client's answer with its proof: who gave it, how it came, on which day, and what was said."""

    by: str
    how: Channel
    day: dt.date
    note: str = ""


@dataclass(frozen=True, slots=True)
class ChangeOrder:
    """One change to a job.

    ``found`` is why it is proposed, ``offer`` what is proposed, ``left`` what it comes to if nothing
    is done. ``days`` are working days it adds to the job (below zero: saves). ``entry_id`` is the
    entry it was born from, ``item_id`` the punch item that stands for the client's answer while it is
    waited for. ``number`` is None until it is sent.
    """

    id: str
    job_id: str
    title: str
    found: str = ""
    offer: str = ""
    left: str = ""
    lines: tuple[ChangeLine, ...] = ()
    pricing: Pricing = Pricing()
    days: int = 0
    state: ChangeState = ChangeState.DRAFTED
    number: int | None = None
    drafted_on: dt.date = dt.date.min
    sent_on: dt.date | None = None
    answer_by: dt.date | None = None
    answer: Answer | None = None
    entry_id: str | None = None
    item_id: str | None = None

    @property
    def price(self) -> Price:
        """The price of its lines."""
        return price_of(self.lines, self.pricing)

    @property
    def name(self) -> str:
        """What it is called: ``change order 3, New subfloor``, or by its title while it has no number."""
        title = one_line(self.title)
        return f"change order {self.number}, {title}" if self.number else f"draft change order, {title}"


def price_of(lines: Sequence[ChangeLine], pricing: Pricing) -> Price:
    """Return the price of ``lines``: cost, then markup, then tax, each rounded once."""
    cost = sum(line.cents for line in lines)
    markup = share(sum(line.cents for line in lines if line.marked_up), pricing.markup)
    tax = share(_taxed(lines, pricing, markup), pricing.tax)
    return Price(cost, markup, tax, cost + markup + tax)


def _taxed(lines: Sequence[ChangeLine], pricing: Pricing, markup: int) -> int:
    if pricing.tax_base is TaxBase.NOTHING:
        return 0
    if pricing.tax_base is TaxBase.EVERYTHING:
        return sum(line.cents for line in lines) + markup
    materials = [line for line in lines if line.kind is LineKind.MATERIAL]
    marked = sum(line.cents for line in materials if line.marked_up)
    return sum(line.cents for line in materials) + share(marked, pricing.markup)


def shown_prices(lines: Sequence[ChangeLine], pricing: Pricing) -> list[int]:
    """Return what each line comes to for the client: its cost with its share of the markup.

    The shares add up to the markup exactly, so that the lines and the tax add up to the total.
    """
    bearing = [line.cents if line.marked_up else 0 for line in lines]
    markup = price_of(lines, pricing).markup
    return [line.cents + part for line, part in zip(lines, spread(markup, bearing), strict=True)]


# What may follow what -----------------------------------------------------------------------------


def checked_line(line: ChangeLine) -> ChangeLine:
    """Return ``line`` when it can stand in a change order. Raises ``BadInput`` saying why not."""
    if not line.text.strip():
        raise BadInput("a line without words", "Say what it is for, such as: new subfloor, 40 sq ft.")
    if not 0 < line.quantity <= MOST_QUANTITY:
        raise BadInput("the quantity of a line", "Give more than 0 and at most 100,000.")
    if abs(line.each) > MOST_CENTS or abs(line.cents) > MOST_CENTS:
        raise BadInput("the price of a line", "It is above ten million dollars; check the figures.")
    return line


def may_change(order: ChangeOrder) -> None:
    """Raise ``BadInput`` unless words, lines and days of ``order`` may still be changed."""
    if order.state is not ChangeState.DRAFTED:
        raise BadInput(
            f"{order.name} was {order.state}",
            "What the client has seen stays. Withdraw it while it is not answered, and write a new one.",
        )


def may_send(order: ChangeOrder) -> None:
    """Raise ``BadInput`` unless ``order`` can be sent: a draft that says something and changes something."""
    if order.state is not ChangeState.DRAFTED:
        raise BadInput(f"{order.name} was {order.state} already", "It is sent once.")
    if not order.offer.strip():
        raise BadInput(f"{order.name} proposes nothing yet", "Say what you would do.")
    for number, line in enumerate(order.lines, 1):
        if line.each == 0 and order.price.total:
            raise BadInput(
                f"line {number} of {order.name} has no price",
                "Give it one, or take it out. What comes free can be said in what you offer.",
            )
    if abs(order.price.total) > MOST_CENTS:
        raise BadInput(f"{order.name} comes to {money(order.price.total)}", "Check the figures.")
    if order.price.total == 0 and order.days == 0:
        raise BadInput(
            f"{order.name} changes neither the price nor the days",
            "Give it lines or days. What costs nothing and takes no time needs no change order.",
        )


def within_contract(order: ChangeOrder, now: Standing) -> None:
    """Raise ``BadInput`` when ``order`` would take more off a contract than is left with all that waits."""
    left = None if now.cents is None else now.cents + min(0, now.waiting_cents)
    if left is not None and order.price.total < 0 and left + order.price.total < 0:
        raise BadInput(
            f"{order.name} takes {money(-order.price.total)} off",
            f"The contract stands at {money(left)}. Check the figures, or the contract.",
        )


def sent(order: ChangeOrder, number: int, day: dt.date) -> ChangeOrder:
    """Return ``order`` as sent under ``number``."""
    may_send(order)
    return replace(order, state=ChangeState.SENT, number=number, sent_on=day)


def answered(order: ChangeOrder, accepted: bool, answer: Answer) -> ChangeOrder:
    """Return ``order`` as answered. Raises ``BadInput`` before it is sent, after an answer, without proof."""
    if order.state is ChangeState.DRAFTED:
        raise BadInput(f"{order.name} was not sent yet", "Send it first; an answer is to what was sent.")
    if order.state is not ChangeState.SENT:
        raise BadInput(
            f"{order.name} was {order.state} already",
            "An answer stands. If the client thinks again, write a new change order.",
        )
    if not answer.by.strip():
        raise BadInput("who gave the answer", "Give the name: it is the proof.")
    if order.sent_on and answer.day < order.sent_on:
        raise BadInput(
            "the day of the answer",
            f"{answer.day.isoformat()} is before it was sent, {order.sent_on.isoformat()}.",
        )
    return replace(order, state=ChangeState.ACCEPTED if accepted else ChangeState.DECLINED, answer=answer)


def withdrawn(order: ChangeOrder) -> ChangeOrder:
    """Return ``order`` as taken back. Raises ``BadInput`` once it is answered."""
    if order.state.closed:
        raise BadInput(f"{order.name} was {order.state} already", "It cannot be withdrawn any more.")
    return replace(order, state=ChangeState.WITHDRAWN)


def next_number(orders: Iterable[ChangeOrder]) -> int:
    """Return the number the next order sent gets: one more than the highest."""
    return max((order.number or 0 for order in orders), default=0) + 1


# The contract ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Contract:
    """What was agreed at first: the sum in cents, the last day of work, and how changes are priced."""

    cents: int | None = None
    finish: dt.date | None = None
    pricing: Pricing = Pricing()


@dataclass(frozen=True, slots=True)
class Standing:
    """A contract with its changes: what is accepted (cents, working days) and what still waits.

    ``cents`` is the contract sum as it stands, None while no first sum is set.
    """

    first: Contract
    accepted_cents: int
    accepted_days: int
    waiting_cents: int
    waiting_days: int
    cents: int | None


def standing(contract: Contract, orders: Iterable[ChangeOrder]) -> Standing:
    """Return how a contract stands: the first sum and every accepted change, in the order of the sums."""
    all_orders = list(orders)
    accepted = [order for order in all_orders if order.state is ChangeState.ACCEPTED]
    waiting = [order for order in all_orders if order.state is ChangeState.SENT]
    added = sum(order.price.total for order in accepted)
    return Standing(
        contract,
        added,
        sum(order.days for order in accepted),
        sum(order.price.total for order in waiting),
        sum(order.days for order in waiting),
        None if contract.cents is None else contract.cents + added,
    )


def in_words(cents: int) -> str:
    """Return a change of price in words: ``adds $120.00``, ``saves $80.00``, ``price unchanged``."""
    if cents == 0:
        return "price unchanged"
    return f"adds {money(cents)}" if cents > 0 else f"saves {money(-cents)}"
