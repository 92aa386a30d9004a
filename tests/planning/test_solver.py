"""Schedules under limited resources: against a constraint solver, feasible, reproducible."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from journal_tui.domain.errors import BadInput
from journal_tui.planning.network import Activity, Precedence
from journal_tui.planning.project import Project, project_from
from journal_tui.planning.schedule import schedule
from journal_tui.planning.sgs import Generator
from journal_tui.planning.solver import lower_bound, priority_rules, ranked_list, solve
from journal_tui.planning.timeline import Resource


def random_project(seed: int, count: int = 9) -> Project:
    """Return a small tight project with lags: three resources, every one scarce somewhere."""
    rng = random.Random(seed)
    durations = tuple(rng.randint(0, 6) for _ in range(count))
    capacities = (4, 3, 5)
    needs = tuple(tuple(rng.choice((0, 0, rng.randint(1, c))) for c in capacities) for _ in range(count))
    pairs = {(rng.randrange(b), b) for b in range(1, count) for _ in range(2) if rng.random() < 0.6}
    return Project(
        durations, needs, capacities, tuple((a, b, rng.choice((0, 0, 2))) for a, b in sorted(pairs))
    )


def wrong(project: Project, starts: tuple[int, ...] | list[int], makespan: int) -> list[str]:
    """Return what breaks a rule in a schedule, unit of time by unit of time."""
    d = project.durations
    said = [f"{a}>{b}" for a, b, lag in project.links if starts[b] < starts[a] + d[a] + lag]
    if max(s + n for s, n in zip(starts, d, strict=True)) != makespan or min(starts) < 0:
        said.append("makespan")
    for t in range(makespan):
        on = [j for j in range(len(d)) if starts[j] <= t < starts[j] + d[j]]
        said += [
            f"R{r}@{t}" for r, c in enumerate(project.capacities) if sum(project.needs[j][r] for j in on) > c
        ]
    return said


def optimum(project: Project) -> int:
    """Return the least makespan, proven by OR-tools CP-SAT."""
    model = cp_model.CpModel()
    most = sum(project.durations) + sum(lag for _, _, lag in project.links)
    starts = [model.new_int_var(0, most, f"s{j}") for j in range(len(project.durations))]
    spans = [
        model.new_fixed_size_interval_var(starts[j], d, f"i{j}") for j, d in enumerate(project.durations)
    ]
    for a, b, lag in project.links:
        model.add(starts[b] >= starts[a] + project.durations[a] + lag)
    for r, capacity in enumerate(project.capacities):
        model.add_cumulative(spans, [row[r] for row in project.needs], capacity)
    end = model.new_int_var(0, most, "end")
    for j, d in enumerate(project.durations):
        model.add(end >= starts[j] + d)
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return int(solver.objective_value)


@pytest.mark.parametrize("seed", range(25))
def test_small_projects_are_solved_to_optimality(seed: int) -> None:
    project = random_project(seed)
    found = solve(project)
    assert wrong(project, found.starts, found.makespan) == []
    assert found.makespan == optimum(project)
    assert found.lower_bound <= found.makespan
    assert found.proven == (found.makespan == found.lower_bound)


@pytest.mark.parametrize("seed", range(25, 33))
def test_the_schedule_function_agrees_without_a_calendar(seed: int) -> None:
    project = random_project(seed)
    names = [f"R{r}" for r in range(3)]
    activities = [
        Activity(str(j), d, {n: u for n, u in zip(names, row, strict=True) if u})
        for j, (d, row) in enumerate(zip(project.durations, project.needs, strict=True))
    ]
    links = [Precedence(str(a), str(b), lag) for a, b, lag in project.links]
    resources = [Resource(n, c) for n, c in zip(names, project.capacities, strict=True)]
    made = schedule(activities, links, resources)
    starts = [made.rows[str(j)].start for j in range(len(activities))]
    assert wrong(project, starts, made.end) == []
    assert made.end == optimum(project)


@given(st.integers(0, 10_000), st.integers(1, 40))
@settings(max_examples=40, deadline=None)
def test_every_way_of_building_is_feasible(seed: int, count: int) -> None:
    project = random_project(seed, count)
    g = Generator(project)
    for rank in priority_rules(g):
        for starts in (g.serial(ranked_list(g, rank)), g.parallel(rank)):
            assert wrong(project, starts, g.makespan(starts)) == []
            better = g.justified(starts)
            assert wrong(project, better, g.makespan(better)) == []
            assert g.makespan(better) <= g.makespan(starts)
            assert g.makespan(better) >= lower_bound(project, g)


def test_same_answer_every_time_and_more_effort_is_no_worse() -> None:
    project = random_project(77, 40)
    first = solve(project, 400)
    assert solve(project, 400) == first
    assert first.schedules <= 400 + 4 or first.proven
    assert solve(project, 2000).makespan <= first.makespan


def test_who_is_not_there_cannot_be_planned() -> None:
    with pytest.raises(BadInput) as caught:
        project_from([Activity("lift the tub", 2, {"crew": 4})], [], {"crew": 2})
    assert "lift the tub" in str(caught.value)
    with pytest.raises(BadInput):
        project_from([Activity("a", 10**9)], [], {})


def test_an_empty_project() -> None:
    assert solve(Project((), (), (), ())).makespan == 0
