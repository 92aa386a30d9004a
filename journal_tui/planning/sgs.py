"""Schedule generation: from an order of activities to start times under limited resources.

Serial and parallel schemes (Kelley 1963; Kolisch, EJOR 90, 1996) and forward-backward
improvement, also called double justification (Valls, Ballestin and Quintanilla, EJOR 165, 2005).
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import sub

from journal_tui.planning.project import Project

Links = list[list[tuple[int, int]]]


class Generator:
    """Builds schedules of one project; ``built`` counts them.

    What is free of all resources in one unit of time is packed into a single integer, each
    resource in its own bits under a guard bit that is lost when more is taken than is there, so
    that "does it fit" is one subtraction however many resources there are.
    """

    def __init__(self, project: Project) -> None:
        self.durations = list(project.durations)
        self.count = len(self.durations)
        self.before: Links = [[] for _ in self.durations]
        self.after: Links = [[] for _ in self.durations]
        for a, b, lag in project.links:
            self.before[b].append((a, lag))
            self.after[a].append((b, lag))
        self.packed = [0] * self.count
        self.full = self.guard = 0
        offset = 0
        for r, capacity in enumerate(project.capacities):
            guard = 1 << (offset + capacity.bit_length())
            self.guard |= guard
            self.full |= guard | capacity << offset
            for j, row in enumerate(project.needs):
                self.packed[j] |= row[r] << offset
            offset += capacity.bit_length() + 1
        lags = [max((lag for _, lag in row), default=0) for row in self.after]
        self.horizon = sum(self.durations) + sum(lags) + 1
        self.built = 0

    def serial(self, order: Sequence[int]) -> list[int]:
        """Return starts: each activity in ``order`` as early as it fits beside those before it."""
        return self._place(order, self.before)

    def backward(self, order: Sequence[int]) -> list[int]:
        """Return starts counted back from the end, activities in ``order`` as late as they fit."""
        return self._place(order, self.after)

    def _place(self, order: Sequence[int], before: Links) -> list[int]:
        self.built += 1
        durations, packed, guard = self.durations, self.packed, self.guard
        free = [self.full] * self.horizon
        starts = [0] * self.count
        finish = [0] * self.count
        for j in order:
            start = 0
            for p, lag in before[j]:
                ready = finish[p] + lag
                if ready > start:
                    start = ready
            length = durations[j]
            need = packed[j]
            end = start + length
            if need and length:
                at = start
                while at < end:
                    if (free[at] - need) & guard != guard:
                        start = at + 1
                        end = start + length
                    at += 1
                free[start:end] = map(sub, free[start:end], [need] * length)
            starts[j] = start
            finish[j] = end
        return starts

    def parallel(self, rank: Sequence[float]) -> list[int]:
        """Return starts: going through time, whatever is ready starts by lowest ``rank`` if it fits."""
        self.built += 1
        free = [self.full] * self.horizon
        missing = [len(row) for row in self.before]
        ready_at = [0] * self.count
        waiting = [j for j in range(self.count) if not missing[j]]
        starts = [0] * self.count
        events = {0}
        while waiting:
            now = min(events)
            events.discard(now)
            placed = True
            while placed:  # an activity of no length frees its successors at this very moment
                placed = False
                for j in sorted((j for j in waiting if ready_at[j] <= now), key=rank.__getitem__):
                    length, need = self.durations[j], self.packed[j]
                    if length and (free[now] - need) & self.guard != self.guard:
                        continue
                    starts[j] = now
                    for at in range(now, now + length):
                        free[at] -= need
                    events.add(now + length)
                    waiting.remove(j)
                    placed = True
                    for k, lag in self.after[j]:
                        ready_at[k] = max(ready_at[k], now + length + lag)
                        missing[k] -= 1
                        if not missing[k]:
                            waiting.append(k)
                            events.add(ready_at[k])
            events.discard(now)
        return starts

    def makespan(self, starts: Sequence[int]) -> int:
        """Return when the last activity of a forward schedule finishes."""
        return max((s + d for s, d in zip(starts, self.durations, strict=True)), default=0)

    def justified(self, starts: Sequence[int]) -> list[int]:
        """Return the schedule pushed right, then left again: never longer, often shorter."""
        durations = self.durations
        last_first = sorted(range(self.count), key=lambda j: (starts[j] + durations[j], j), reverse=True)
        late = self.backward(last_first)
        # ``late`` counts back from the end; the activity that starts first lies furthest from it.
        first_first = sorted(range(self.count), key=lambda j: (-late[j] - durations[j], j))
        return self.serial(first_first)

    def listed(self, starts: Sequence[int]) -> list[int]:
        """Return the activity list of a schedule: by start, predecessors first."""
        return sorted(range(self.count), key=lambda j: (starts[j], j))
