"""Activities, what comes before what, and the critical path method (Kelley and Walker, 1959).

Times are whole units (hours, days, quarter hours: the caller's choice), measured from 0.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

#: A loop longer than this is named by its first steps and a count.
LOOP_SHOWN = 8


@dataclass(frozen=True, slots=True)
class Activity:
    """Something that takes ``duration`` whole units and ``needs`` units of named resources meanwhile."""

    id: str
    duration: int
    needs: Mapping[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Precedence:
    """``after`` may start ``lag`` units (0 or more) after ``before`` has finished."""

    before: str
    after: str
    lag: int = 0


@dataclass(frozen=True, slots=True)
class Timing:
    """Early and late start and finish of one activity, and its floats, in units."""

    es: int
    ef: int
    ls: int
    lf: int
    free_float: int

    @property
    def total_float(self) -> int:
        """How long it may slip without moving the end."""
        return self.ls - self.es

    @property
    def critical(self) -> bool:
        """True when any slip moves the end."""
        return self.total_float == 0


@dataclass(frozen=True, slots=True)
class CriticalPath:
    """The times of every activity, the length of the whole, and one critical path in order."""

    timings: Mapping[str, Timing]
    duration: int
    path: tuple[str, ...]


class LoopFound(BadInput):
    """Things that wait for each other in a ring. ``loop`` holds their ids in order of waiting."""

    def __init__(self, loop: Sequence[str], names: Mapping[str, str] | None = None) -> None:
        self.loop = tuple(loop)
        said = [f'"{one_line((names or {}).get(i, i))}"' for i in self.loop]
        super().__init__("The order goes round in a circle", _loop_words(said))


def _loop_words(said: Sequence[str]) -> str:
    if len(said) == 1:
        return f"{said[0]} cannot wait for itself. Take that link away."
    shown = list(said[:LOOP_SHOWN])
    steps = [f"{a} waits for {b}" for a, b in zip(shown, [*shown[1:], said[0]], strict=True)]
    if len(said) > LOOP_SHOWN:
        steps[-1] = f"and so on through {len(said) - LOOP_SHOWN} more, back to {said[0]}"
    return "; ".join(steps) + ". Take one of these links away."


def topological_order(
    ids: Sequence[str], precedences: Iterable[Precedence], names: Mapping[str, str] | None = None
) -> list[str]:
    """Return ``ids`` so that everything comes after what it waits for, else as given.

    Raises LoopFound naming one loop, or BadInput when a link names an unknown id.
    """
    known = set(ids)
    after: dict[str, list[str]] = {i: [] for i in ids}
    before: dict[str, list[str]] = {i: [] for i in ids}
    for link in precedences:
        for end in (link.before, link.after):
            if end not in known:
                raise BadInput("A link leads nowhere", f'there is no activity "{one_line(end)}" in this plan')
        after[link.before].append(link.after)
        before[link.after].append(link.before)
    missing = {i: len(before[i]) for i in ids}
    order = [i for i in ids if not missing[i]]
    for done in order:  # grows while it is walked
        for nxt in after[done]:
            missing[nxt] -= 1
            if not missing[nxt]:
                order.append(nxt)
    if len(order) < len(ids):
        raise LoopFound(_a_loop(ids, missing, before), names)
    return order


def _a_loop(ids: Sequence[str], missing: Mapping[str, int], before: Mapping[str, Sequence[str]]) -> list[str]:
    """Return one loop among the activities that could not be ordered.

    Each of those has at least one predecessor that could not be ordered either, so walking
    backwards among them must come round.
    """
    here = next(i for i in ids if missing[i])
    seen: dict[str, int] = {}
    walk: list[str] = []
    while here not in seen:
        seen[here] = len(walk)
        walk.append(here)
        here = next(p for p in before[here] if missing[p])
    return walk[seen[here] :]


def check_activities(activities: Sequence[Activity], precedences: Iterable[Precedence]) -> None:
    """Refuse doubled ids, negative durations and negative lags, in words."""
    seen: set[str] = set()
    for a in activities:
        if a.id in seen:
            raise BadInput("Two activities have one name", f'"{one_line(a.id)}" is there twice')
        seen.add(a.id)
        if a.duration < 0:
            raise BadInput("A duration is negative", f'"{one_line(a.id)}" takes {a.duration}')
    for link in precedences:
        if link.lag < 0:
            raise BadInput(
                "A wait is negative",
                f'"{one_line(link.after)}" would start {-link.lag} before "{one_line(link.before)}" is done',
            )


def critical_path(
    activities: Sequence[Activity],
    precedences: Sequence[Precedence],
    names: Mapping[str, str] | None = None,
) -> CriticalPath:
    """Return early and late times, floats and a critical path; resources are not looked at.

    Forward pass ES = max(EF of predecessors + lag), backward pass LF = min(LS of successors - lag);
    total float = LS - ES; free float = min(ES of successors - lag) - EF.
    """
    check_activities(activities, precedences)
    order = topological_order([a.id for a in activities], precedences, names)
    length = {a.id: a.duration for a in activities}
    before: dict[str, list[Precedence]] = {i: [] for i in order}
    after: dict[str, list[Precedence]] = {i: [] for i in order}
    for link in precedences:
        before[link.after].append(link)
        after[link.before].append(link)
    es: dict[str, int] = {}
    for i in order:
        es[i] = max((es[p.before] + length[p.before] + p.lag for p in before[i]), default=0)
    end = max((es[i] + length[i] for i in order), default=0)
    lf: dict[str, int] = {}
    timings: dict[str, Timing] = {}
    for i in reversed(order):
        lf[i] = min((lf[s.after] - length[s.after] - s.lag for s in after[i]), default=end)
        ef = es[i] + length[i]
        free = min((es[s.after] - s.lag for s in after[i]), default=end) - ef
        timings[i] = Timing(es[i], ef, lf[i] - length[i], lf[i], free)
    ordered = {a.id: timings[a.id] for a in activities}
    return CriticalPath(ordered, end, _critical_chain(order, before, timings, end))


def _critical_chain(
    order: Sequence[str],
    before: Mapping[str, Sequence[Precedence]],
    timings: Mapping[str, Timing],
    end: int,
) -> tuple[str, ...]:
    last = next((i for i in reversed(order) if timings[i].ef == end), None)
    chain: list[str] = []
    while last is not None:
        chain.append(last)
        driving = [p.before for p in before[last] if timings[p.before].ef + p.lag == timings[last].es]
        last = driving[0] if driving else None
    return tuple(reversed(chain))
