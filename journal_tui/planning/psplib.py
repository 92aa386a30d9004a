"""Reader of PSPLIB single-mode problem files (Kolisch and Sprecher, EJOR 96, 1996)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TypedDict

from journal_tui.domain.errors import BadInput
from journal_tui.planning.network import Activity, Precedence
from journal_tui.planning.project import project_from
from journal_tui.planning.solver import BUDGET, solve


@dataclass(frozen=True, slots=True)
class Problem:
    """Jobs "1" to "n" (the first and last are dummies), their order, and the resources by name."""

    activities: tuple[Activity, ...]
    precedences: tuple[Precedence, ...]
    capacities: dict[str, int]


class Answer(TypedDict):
    """A schedule as printed: its length and the start of every job, by job number from 1."""

    makespan: int
    starts: list[int]


class _Lines:
    """The file's lines, with where we are, so that every fault can name its line."""

    def __init__(self, text: str, name: str) -> None:
        self.lines = text.splitlines()
        self.name = name
        self.at = 0

    def fault(self, what: str, line: int | None = None) -> BadInput:
        where = line if line is not None else self.at
        # Before the first line is read there is none to point at.
        place = f"line {where}: " if where else ""
        return BadInput(f"{self.name} is not a single-mode PSPLIB file", f"{place}{what}")

    def seek(self, heading: str) -> str:
        """Move past the line that starts with ``heading`` and return it."""
        for i in range(self.at, len(self.lines)):
            if self.lines[i].strip().upper().startswith(heading):
                self.at = i + 1
                return self.lines[i]
        below = "below here " if self.at else ""
        raise self.fault(f'no line {below}begins with "{heading}"')

    def numbers(self) -> list[int] | None:
        """Return the next line's whole numbers, None at the end of a block (a row of stars)."""
        while self.at < len(self.lines):
            line = self.lines[self.at].strip()
            self.at += 1
            if not line or set(line) == {"-"}:
                continue
            if line.startswith("*"):
                return None
            try:
                return [int(word) for word in line.split()]
            except ValueError:
                raise self.fault(f'expected whole numbers, found "{line[:40]}"') from None
        return None


def _count(lines: _Lines, heading: str) -> int:
    found = re.search(r":\s*(\d+)", lines.seek(heading))
    if not found:
        raise lines.fault(f'"{heading}" gives no number')
    return int(found.group(1))


def _precedences(lines: _Lines, jobs: int) -> list[Precedence]:
    lines.seek("PRECEDENCE RELATIONS")
    lines.seek("JOBNR")
    links: list[Precedence] = []
    for job in range(1, jobs + 1):
        row = lines.numbers()
        if row is None or len(row) < 3 or row[0] != job:
            raise lines.fault(f"expected the successors of job {job}")
        if row[1] != 1:
            raise lines.fault(f"job {job} has {row[1]} modes; only single-mode files can be solved")
        if len(row) != 3 + row[2]:
            raise lines.fault(f"job {job} says {row[2]} successors and lists {len(row) - 3}")
        for successor in row[3:]:
            if not 1 <= successor <= jobs:
                raise lines.fault(f"job {job} is followed by job {successor}, which is not there")
            links.append(Precedence(str(job), str(successor)))
    return links


def _activities(lines: _Lines, jobs: int, names: list[str]) -> list[Activity]:
    lines.seek("REQUESTS/DURATIONS")
    lines.seek("JOBNR")
    activities: list[Activity] = []
    for job in range(1, jobs + 1):
        row = lines.numbers()
        if row is None or len(row) != 3 + len(names) or row[0] != job:
            raise lines.fault(f"expected the duration and {len(names)} requests of job {job}")
        if min(row) < 0:
            raise lines.fault(f"job {job} has a negative number")
        needs = {name: units for name, units in zip(names, row[3:], strict=True) if units}
        activities.append(Activity(str(job), row[2], needs))
    return activities


def read_psplib(text: str, name: str = "the file") -> Problem:
    """Return the problem in ``text``; BadInput names the line that is wrong."""
    lines = _Lines(text, name)
    jobs = _count(lines, "JOBS")
    renewable = _count(lines, "- RENEWABLE")
    if _count(lines, "- NONRENEWABLE"):
        raise lines.fault("it has nonrenewable resources; only renewable ones can be solved")
    names = [f"R{r}" for r in range(1, renewable + 1)]
    links = _precedences(lines, jobs)
    activities = _activities(lines, jobs, names)
    lines.seek("RESOURCEAVAILABILITIES")
    lines.at += 1  # the resources' names
    have = lines.numbers()
    if have is None or len(have) != renewable:
        raise lines.fault(f"expected {renewable} availabilities")
    return Problem(tuple(activities), tuple(links), dict(zip(names, have, strict=True)))


def solve_psplib(text: str, name: str = "the file", budget: int = BUDGET) -> Answer:
    """Return the makespan and the starts of all jobs, dummies included, by job number."""
    problem = read_psplib(text, name)
    project, order = project_from(problem.activities, problem.precedences, problem.capacities)
    solution = solve(project, budget)
    starts = dict(zip(order, solution.starts, strict=True))
    return {"makespan": solution.makespan, "starts": [starts[a.id] for a in problem.activities]}
