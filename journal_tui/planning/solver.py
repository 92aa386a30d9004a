"""Short schedules under limited resources, in pure Python, the same every time.

Several priority rules first, then a hybrid genetic search over activity lists with
forward-backward improvement of every child (Hartmann, Naval Research Logistics 45, 1998; Valls,
Ballestin and Quintanilla, EJOR 185, 2008). Effort is counted in schedules built, not in seconds,
so the answer does not depend on the machine; it ends early when a lower bound is met.
"""

from __future__ import annotations

import heapq
import random
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from journal_tui.planning.project import Project, Solution
from journal_tui.planning.sgs import Generator

#: Schedules built for one answer unless the caller says otherwise: under a second at 30 activities.
BUDGET = 4000
#: Activities times schedules; above this the budget shrinks, so that 2,000 activities stay quick.
WORK_LIMIT = 180_000
# The four below were tuned on 48 problems of 30 activities; the mean gap moved by 0.1 % at most.
POPULATION = 60
#: Activities moved within their window in every child.
MOVES = 2
#: Schedules without a shorter one after which the population is drawn anew (the best is kept).
STAGNANT = 3000


@dataclass(slots=True)
class _Member:
    order: list[int]
    starts: list[int]
    makespan: int


def tails(generator: Generator) -> list[int]:
    """Return for each activity the least time from its start to the end of everything after it."""
    tail = [0] * generator.count
    for j in reversed(range(generator.count)):
        rest = max((tail[k] + lag for k, lag in generator.after[j]), default=0)
        tail[j] = generator.durations[j] + rest
    return tail


def lower_bound(project: Project, generator: Generator) -> int:
    """Return a length no schedule can beat: the critical path, or a resource's total work."""
    path = max(tails(generator), default=0)
    for r, capacity in enumerate(project.capacities):
        work = sum(d * row[r] for d, row in zip(project.durations, project.needs, strict=True))
        if capacity:
            path = max(path, -(-work // capacity))
    return path


def priority_rules(generator: Generator) -> list[list[float]]:
    """Return ranks (lowest first) by latest finish, latest start, successors, rank weight, length."""
    n = generator.count
    tail = tails(generator)
    followers: list[set[int]] = [set() for _ in range(n)]
    if n <= 400:
        for j in reversed(range(n)):
            for k, _ in generator.after[j]:
                followers[j] |= followers[k] | {k}
    d = generator.durations
    return [
        [float(d[j] - tail[j]) for j in range(n)],
        [float(-tail[j]) for j in range(n)],
        [float(-len(followers[j])) for j in range(n)],
        [float(-d[j] - sum(d[k] for k, _ in generator.after[j])) for j in range(n)],
        [float(d[j]) for j in range(n)],
    ]


def ranked_list(generator: Generator, rank: Sequence[float]) -> list[int]:
    """Return the activity list that takes, of all that may come next, the lowest rank."""
    missing = [len(row) for row in generator.before]
    ready = [(rank[j], j) for j in range(generator.count) if not missing[j]]
    heapq.heapify(ready)
    order: list[int] = []
    while ready:
        _, j = heapq.heappop(ready)
        order.append(j)
        for k, _ in generator.after[j]:
            missing[k] -= 1
            if not missing[k]:
                heapq.heappush(ready, (rank[k], k))
    return order


def moved(generator: Generator, order: list[int], rng: random.Random) -> None:
    """Move one activity of a list, in place, to another spot between its neighbours in precedence."""
    if len(order) < 2:
        return
    at = rng.randrange(len(order))
    j = order[at]
    before = {p for p, _ in generator.before[j]}
    after = {s for s, _ in generator.after[j]}
    low = high = at
    while low > 0 and order[low - 1] not in before:
        low -= 1
    while high < len(order) - 1 and order[high + 1] not in after:
        high += 1
    order.insert(rng.randint(low, high), order.pop(at))


def solve(project: Project, budget: int = BUDGET, seed: int = 1) -> Solution:
    """Return a short feasible schedule, the same for the same project, budget and seed.

    ``budget`` is the number of schedules built at most, give or take one child.
    """
    generator = Generator(project)
    bound = lower_bound(project, generator)
    budget = max(20, min(budget, WORK_LIMIT // max(1, generator.count)))
    search = _Search(generator, bound, budget, random.Random(seed))
    best = search.run()
    return Solution(best.makespan, tuple(best.starts), bound, generator.built)


class _Search:
    def __init__(self, generator: Generator, bound: int, budget: int, rng: random.Random) -> None:
        self.generator = generator
        self.bound = bound
        self.budget = budget
        self.rng = rng
        self.members: list[_Member] = []
        self.best: _Member | None = None
        self.best_at = 0

    @property
    def finished(self) -> bool:
        return self.generator.built >= self.budget or (
            self.best is not None and self.best.makespan <= self.bound
        )

    def run(self) -> _Member:
        self._found_by_rules()
        while not self.finished:
            self._sample_population()
            while not self.finished and self.generator.built - self.best_at < STAGNANT:
                self._generation()
            self.members = []
            self.best_at = self.generator.built
        assert self.best is not None
        return self.best

    def _sample_population(self) -> None:
        tail = tails(self.generator)
        while len(self.members) < POPULATION and not self.finished:
            self._add(self._sampled(tail))

    def _found_by_rules(self) -> None:
        g = self.generator
        for rank in priority_rules(g):
            self._add(ranked_list(g, rank))
            if self.finished:
                return
            self._add(g.listed(g.parallel(rank)))
            if self.finished:
                return

    def _improved(self, order: list[int]) -> _Member:
        g = self.generator
        starts = g.serial(order)
        length = g.makespan(starts)
        if length > self.bound:
            better = g.justified(starts)
            if g.makespan(better) <= length:
                starts, length = better, g.makespan(better)
        return _Member(g.listed(starts), starts, length)

    def _add(self, order: list[int]) -> None:
        member = self._improved(order)
        self.members.append(member)
        self._note(member)

    def _note(self, member: _Member) -> None:
        if self.best is None or member.makespan < self.best.makespan:
            self.best = member
            self.best_at = self.generator.built

    def _sampled(self, tail: Sequence[int]) -> list[int]:
        """Return a random list biased to activities with much behind them (regret-based sampling)."""
        g, rng = self.generator, self.rng
        missing = [len(row) for row in g.before]
        ready = [j for j in range(g.count) if not missing[j]]
        order: list[int] = []
        while ready:
            least = min(tail[j] for j in ready)
            weights = list(accumulate(tail[j] - least + 1 for j in ready))
            at = bisect_right(weights, int(rng.random() * weights[-1]))
            j = ready[at]
            ready[at] = ready[-1]
            ready.pop()
            order.append(j)
            for k, _ in g.after[j]:
                missing[k] -= 1
                if not missing[k]:
                    ready.append(k)
        return order

    def _generation(self) -> None:
        """Breed one child of two tournament winners; it takes the place of the longest schedule."""
        mother, father = self._winner(), self._winner()
        child = self._crossed(mother.order, father.order)
        for _ in range(MOVES):
            moved(self.generator, child, self.rng)
        member = self._improved(child)
        self._note(member)
        if any(m.starts == member.starts for m in self.members):
            return
        worst = max(range(len(self.members)), key=lambda i: self.members[i].makespan)
        if member.makespan <= self.members[worst].makespan:
            self.members[worst] = member

    def _winner(self) -> _Member:
        a, b = self.rng.choice(self.members), self.rng.choice(self.members)
        return a if a.makespan <= b.makespan else b

    def _crossed(self, mother: list[int], father: list[int]) -> list[int]:
        """Two-point crossover of activity lists: precedence holds in the child."""
        n = len(mother)
        a, b = sorted((self.rng.randint(0, n), self.rng.randint(0, n)))
        child = mother[:a]
        taken = set(child)
        for j in father:
            if len(child) >= b:
                break
            if j not in taken:
                child.append(j)
                taken.add(j)
        child += [j for j in mother if j not in taken]
        return child
