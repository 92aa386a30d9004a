"""A resource-limited project in whole units: what the solver takes and gives (RCPSP)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.planning.network import Activity, Precedence, check_activities, topological_order

#: A horizon beyond this many units would need more memory than a plan is worth.
MOST_UNITS = 2_000_000


@dataclass(frozen=True, slots=True)
class Project:
    """Activities by number, in an order where predecessors come first.

    ``durations`` in units; ``needs[j][r]`` units of resource r that j holds while it runs, never
    more than ``capacities[r]``; ``links`` are (before, after, lag).
    """

    durations: tuple[int, ...]
    needs: tuple[tuple[int, ...], ...]
    capacities: tuple[int, ...]
    links: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Solution:
    """A feasible schedule: start of every activity, its end, and the best known lower bound.

    ``schedules`` is how many schedules were built to find it.
    """

    makespan: int
    starts: tuple[int, ...]
    lower_bound: int
    schedules: int

    @property
    def proven(self) -> bool:
        """True when no schedule can be shorter."""
        return self.makespan == self.lower_bound


def project_from(
    activities: Sequence[Activity], precedences: Sequence[Precedence], capacities: Mapping[str, int]
) -> tuple[Project, list[str]]:
    """Return the numbered project and the ids in its order.

    Raises BadInput when an activity needs more of a resource than there is, and LoopFound.
    """
    check_activities(activities, precedences)
    by_id = {a.id: a for a in activities}
    order = topological_order([a.id for a in activities], precedences)
    number = {i: n for n, i in enumerate(order)}
    names = list(capacities)
    rows: list[tuple[int, ...]] = []
    for i in order:
        for name, units in by_id[i].needs.items():
            have = capacities.get(name, 0)
            if units < 0 or units > have:
                raise BadInput(
                    "Nobody can do this",
                    f'"{one_line(i)}" needs {units} of "{one_line(name)}" and there are {have}',
                )
        rows.append(tuple(by_id[i].needs.get(name, 0) for name in names))
    durations = tuple(by_id[i].duration for i in order)
    if sum(durations) + sum(p.lag for p in precedences) > MOST_UNITS:
        raise BadInput("The project is too long", f"more than {MOST_UNITS:,} units of work and waiting")
    links = tuple((number[p.before], number[p.after], p.lag) for p in precedences)
    return Project(durations, tuple(rows), tuple(capacities[n] for n in names), links), order
