"""What the plan says of a change order: how many days it adds, what work and materials it is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from journal_tui.domain import change_order as rules
from journal_tui.domain.change_order import ChangeLine
from journal_tui.domain.errors import BadInput
from journal_tui.journal.changes import get_order
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import plan_inputs
from journal_tui.planning.jobplan import plan_job
from journal_tui.store import change_queries


def days_by_plan(journal: Journal, order_id: str) -> int:
    """Return how many working days later the plan ends with the work an order holds than without it.

    Raises ``BadInput`` when it holds no work or the job cannot be planned.
    """
    order = get_order(journal, order_id)
    job = get_job(journal, order.job_id)
    held = set(change_queries.holds_of(journal.store, order.id))
    inputs = plan_inputs(journal, job)
    if not held & {item.id for item in inputs.items}:
        raise BadInput(f"{order.name} holds no work", "Say which punch items it adds: change-order hold.")
    ends = []
    for left_out in (held, set()):
        items = [item for item in inputs.items if item.id not in left_out]
        links = [k for k in inputs.links if not {k.before, k.after} & left_out]
        plan = plan_job(items, links, job.phases, inputs.days.means, inputs.days.calendar, inputs.now)
        ends.append(plan.end_day)
    return _workdays_between(inputs.days.calendar.is_workday, *ends)


def _workdays_between(is_workday: Callable[[dt.date], bool], first: dt.date, last: dt.date) -> int:
    low, high = sorted((first, last))
    days = sum(is_workday(low + dt.timedelta(n)) for n in range(1, (high - low).days + 1))
    return days if last >= first else -days


def lines_of_held_work(journal: Journal, order_id: str, hourly: int) -> list[ChangeLine]:
    """Return a labor line for the crew-hours of the work an order holds, at ``hourly`` cents an hour,
    and a material line for each material it needs, its price still to be filled in by hand.

    Raises ``BadInput`` when it holds no work.
    """
    order = get_order(journal, order_id)
    held = set(change_queries.holds_of(journal.store, order.id))
    inputs = plan_inputs(journal, get_job(journal, order.job_id))
    items = [item for item in inputs.items if item.id in held]
    if not items:
        raise BadInput(f"{order.name} holds no work", "Say which punch items it adds: change-order hold.")
    hours = round(sum(item.crew_hours for item in items if item.sub is None) * rules.HUNDREDTHS)
    lines = []
    if hours:
        lines.append(ChangeLine(rules.LineKind.LABOR, "our work", hours, "hour", hourly))
    for name in dict.fromkeys(m for item in items for m in item.materials):
        lines.append(ChangeLine(rules.LineKind.MATERIAL, name, rules.HUNDREDTHS, "", 0))
    return lines
