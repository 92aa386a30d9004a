"""Time the planning of 60, 500 and 2,000 items and print how it grows.

    python -m tests.planning.plan_growth

Items of six areas and all phases in the words of common tasks, a few inspections and questions.
"""

from __future__ import annotations

import datetime as dt
import time

from journal_tui.domain.kinds import STANDARD_PHASES, WHOLE_ROOM, Party
from journal_tui.planning.items import PlanItem
from journal_tui.planning.jobplan import plan_job
from journal_tui.planning.tasks import built_in
from journal_tui.planning.visit import plan_visit
from tests.planning.making import CALENDAR, NOW, item

AREAS = ("tub wall", "floor", "vanity", "toilet wall", "ceiling", WHOLE_ROOM)


def many(count: int) -> list[PlanItem]:
    """Return ``count`` open items, spread over areas and phases in the order of the common tasks."""
    tasks = list(built_in().tasks.values())
    items: list[PlanItem] = []
    for n in range(count):
        task = tasks[n * len(tasks) // count]
        who = Party.INSPECTOR if task.hold == "inspection" else Party.CLIENT if n % 40 == 7 else Party.CREW
        words = " ".join(sorted(task.words[0]))
        phase = task.phase or STANDARD_PHASES[n % 6]
        items.append(item(f"{words} {n}", phase, AREAS[n % len(AREAS)], who, id=f"{n:05d}"))
    return items


def main() -> None:
    """Print one line for each size."""
    for count in (60, 500, 2000):
        items = many(count)
        began = time.perf_counter()
        plan = plan_job(items, [], STANDARD_PHASES, None, CALENDAR, NOW)
        planned = time.perf_counter()
        visit = plan_visit(items, [], STANDARD_PHASES, CALENDAR, dt.date(2026, 3, 12), 8, 2)
        done = time.perf_counter()
        print(
            f"{count:5} items: plan {planned - began:.3f} s, {(planned - began) / count * 1e3:.2f} ms each;"
            f" next visit {done - planned:.3f} s; {len(plan.order.arrows)} arrows,"
            f" ends {plan.end_day}, {len(visit.items)} on the visit"
        )


if __name__ == "__main__":
    main()
