"""The contract of a job: its first sum and last day, and how it stands with every accepted change."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain import change_order as rules
from journal_tui.domain.change_order import Contract, Pricing, Standing, TaxBase
from journal_tui.domain.errors import BadInput
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.work_days import work_days
from journal_tui.store import change_queries

#: The last day of work is looked for no further off than this.
_FAR = 4000


@dataclass(frozen=True, slots=True)
class ContractView:
    """A contract as it stands: sums, working days, and its last day of work with every accepted day."""

    standing: Standing
    finish: dt.date | None


def contract_of(journal: Journal, job_id: str) -> Contract:
    """Return a job's contract; empty while nothing is set."""
    return change_queries.contract(journal.store, job_id) or Contract()


def set_contract(
    journal: Journal,
    job_id: str,
    *,
    cents: int | None = None,
    finish: dt.date | None = None,
    markup: int | None = None,
    tax: int | None = None,
    tax_base: TaxBase | None = None,
) -> ContractView:
    """Set what is given of a job's contract; what is not given stays. Raises ``BadInput``."""
    job = get_job(journal, job_id)
    now = contract_of(journal, job.id)
    if cents is not None and cents < 0:
        raise BadInput("a contract sum below zero", "Give the sum that was agreed at first.")
    pricing = Pricing(
        now.pricing.markup if markup is None else markup,
        now.pricing.tax if tax is None else tax,
        tax_base or now.pricing.tax_base,
    )
    last = finish or now.finish
    values = {
        "cents": now.cents if cents is None else cents,
        "finish": last.isoformat() if last else None,
        **pricing_row(pricing),
    }
    with journal.store.write("set the contract", job.id) as w:
        if change_queries.contract(journal.store, job.id):
            w.change("contracts", job.id, **values)
        else:
            w.insert("contracts", {"id": job.id, **values})
    return contract_view(journal, job.id)


def contract_view(journal: Journal, job_id: str) -> ContractView:
    """Return how a job's contract stands, accepted change orders included."""
    stands = rules.standing(contract_of(journal, job_id), change_queries.change_orders(journal.store, job_id))
    first = stands.first.finish
    finish = later_day(journal, job_id, first, stands.accepted_days) if first else None
    return ContractView(stands, finish)


def later_day(journal: Journal, job_id: str, day: dt.date, days: int) -> dt.date:
    """Return the day ``days`` working days after ``day`` (before, when below zero) by the job's calendar."""
    calendar = work_days(journal, job_id).calendar
    step = dt.timedelta(days=1 if days > 0 else -1)
    left = abs(days)
    for _ in range(_FAR):
        if not left:
            return day
        day += step
        left -= calendar.is_workday(day)
    raise BadInput("the last day of work", "The job's calendar has too few working days for it.")


def pricing_row(pricing: Pricing) -> dict[str, object]:
    """Return how prices are made, as a row keeps it."""
    return {"markup": pricing.markup, "tax": pricing.tax, "tax_base": pricing.tax_base.value}
