"""What the client's page of a change order is made from. Text in it has already passed ``domain.reading``."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.change_order import ChangeState, LineKind, TaxBase
from journal_tui.domain.reading import ClientText


@dataclass(frozen=True, slots=True)
class PageLine:
    """A line as the client sees it: what for, how much of it, and its price in cents, markup included."""

    kind: LineKind
    text: ClientText
    amount: ClientText
    cents: int


@dataclass(frozen=True, slots=True)
class ChangePage:
    """A change order for the client.

    ``tax`` and ``total`` are cents; ``before`` and ``after`` the contract sum without and with it, each
    None while no first sum is set; ``finish`` and ``finish_after`` the last days of work. ``waits`` is
    the work that waits for the answer. ``answer`` is how it was answered, in words, empty before.
    """

    title: ClientText
    job: ClientText
    address: ClientText
    number: int | None
    day: dt.date
    found: ClientText
    offer: ClientText
    left: ClientText
    lines: tuple[PageLine, ...]
    tax: int
    tax_base: TaxBase
    total: int
    days: int
    state: ChangeState
    answer_by: dt.date | None = None
    before: int | None = None
    after: int | None = None
    finish: dt.date | None = None
    finish_after: dt.date | None = None
    waits: tuple[ClientText, ...] = ()
    answer: ClientText | None = None
