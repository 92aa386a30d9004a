"""Critical path: published networks, an independent library, loops named."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.errors import BadInput
from journal_tui.planning.network import Activity, LoopFound, Precedence, critical_path, topological_order


def network(rows: str) -> tuple[list[Activity], list[Precedence]]:
    """Read "A 6; B 2 A; D 3 B,C" into activities and precedences."""
    activities, links = [], []
    for row in rows.split(";"):
        name, length, *before = row.split()
        activities.append(Activity(name, int(length)))
        links += [Precedence(b, name) for b in (before[0].split(",") if before else [])]
    return activities, links


# A study sheet's "Example 1" (hours), printed figures ES EF LS LF.
STUDY_SHEET = "A 6; B 2 A; C 2 A; D 3 B; F 2 C; E 4 D,F; G 1 E"
STUDY_TIMES = {
    "A": (0, 6, 0, 6),
    "B": (6, 8, 6, 8),
    "C": (6, 8, 7, 9),
    "D": (8, 11, 8, 11),
    "F": (8, 10, 9, 11),
    "E": (11, 15, 11, 15),
    "G": (15, 16, 15, 16),
}

# An operations-management slide set (weeks); predecessors inferred from its printed times.
SLIDES = "A 4; B 6 A; C 3 A; D 6 B; E 14 D; F 5 C; G 2 E,F; H 2 G; I 3 G; J 4 H,I; K 2 J"
SLIDES_TIMES = {
    "A": (0, 4, 0, 4),
    "B": (4, 10, 4, 10),
    "C": (4, 7, 22, 25),
    "D": (10, 16, 10, 16),
    "E": (16, 30, 16, 30),
    "F": (7, 12, 25, 30),
    "G": (30, 32, 30, 32),
    "H": (32, 34, 33, 35),
    "I": (32, 35, 32, 35),
    "J": (35, 39, 35, 39),
    "K": (39, 41, 39, 41),
}

# "An Introduction to Management Science", Cengage 2014, p. 384, table 9.4: weeks a, m, b per
# activity; t = (a + 4m + b) / 6. The times follow from the network by hand.
TEXTBOOK_WEEKS = {
    "A": (4, 5, 12),
    "B": (1, 1.5, 5),
    "C": (2, 3, 4),
    "D": (3, 4, 11),
    "E": (2, 3, 4),
    "F": (1.5, 2, 2.5),
    "G": (1.5, 3, 4.5),
    "H": (2.5, 3.5, 7.5),
    "I": (1.5, 2, 2.5),
    "J": (1, 2, 3),
}
TEXTBOOK = "A 6; B 2; C 3 A; D 5 A; E 3 A; F 2 C; G 3 D; H 4 B,E; I 2 H; J 2 F,G,I"
TEXTBOOK_TIMES = {
    "A": (0, 6, 0, 6),
    "B": (0, 2, 7, 9),
    "C": (6, 9, 10, 13),
    "D": (6, 11, 7, 12),
    "E": (6, 9, 6, 9),
    "F": (9, 11, 13, 15),
    "G": (11, 14, 12, 15),
    "H": (9, 13, 9, 13),
    "I": (13, 15, 13, 15),
    "J": (15, 17, 15, 17),
}


@pytest.mark.parametrize(
    ("rows", "times", "length", "path"),
    [
        (STUDY_SHEET, STUDY_TIMES, 16, "ABDEG"),
        (SLIDES, SLIDES_TIMES, 41, "ABDEGIJK"),
        (TEXTBOOK, TEXTBOOK_TIMES, 17, "AEHIJ"),
    ],
)
def test_published_networks(
    rows: str, times: dict[str, tuple[int, int, int, int]], length: int, path: str
) -> None:
    found = critical_path(*network(rows))
    assert {i: (t.es, t.ef, t.ls, t.lf) for i, t in found.timings.items()} == times
    assert found.duration == length
    assert "".join(found.path) == path
    for i, t in found.timings.items():
        assert t.total_float == times[i][2] - times[i][0]
        assert t.critical == (t.total_float == 0)


def test_floats_as_printed() -> None:
    study = critical_path(*network(STUDY_SHEET)).timings
    assert (study["C"].total_float, study["C"].free_float) == (1, 0)
    assert (study["F"].total_float, study["F"].free_float) == (1, 1)
    assert all(study[i].free_float == 0 for i in "ABDEG")


def test_expected_times_of_the_textbook() -> None:
    lengths = {a.id: a.duration for a in network(TEXTBOOK)[0]}
    assert {i: (a + 4 * m + b) / 6 for i, (a, m, b) in TEXTBOOK_WEEKS.items()} == pytest.approx(lengths)


@st.composite
def networks(draw: st.DrawFn) -> tuple[list[Activity], list[Precedence]]:
    count = draw(st.integers(1, 25))
    activities = [Activity(str(i), draw(st.integers(0, 9))) for i in range(count)]
    pairs = st.tuples(st.integers(0, count - 1), st.integers(0, count - 1), st.integers(0, 5))
    links = {(min(a, b), max(a, b)): lag for a, b, lag in draw(st.lists(pairs, max_size=60)) if a != b}
    shuffled = draw(st.permutations(activities))
    return list(shuffled), [Precedence(str(a), str(b), lag) for (a, b), lag in links.items()]


@given(networks())
@settings(max_examples=150, deadline=None)
def test_early_times_are_longest_paths(case: tuple[list[Activity], list[Precedence]]) -> None:
    """networkx's longest path on the same graph, durations and lags on the edges."""
    activities, links = case
    length = {a.id: a.duration for a in activities}
    graph: nx.DiGraph[str] = nx.DiGraph()
    for a in activities:
        graph.add_edge("begin", a.id, weight=0)
        graph.add_edge(a.id, "end", weight=a.duration)
    for p in links:
        graph.add_edge(p.before, p.after, weight=length[p.before] + p.lag)
    found = critical_path(activities, links)
    assert found.duration == nx.dag_longest_path_length(graph, weight="weight")
    for i, t in found.timings.items():
        before = graph.subgraph(nx.ancestors(graph, i) | {i})
        after = graph.subgraph(nx.descendants(graph, i) | {i})
        assert t.es == nx.dag_longest_path_length(before, weight="weight")
        assert found.duration - t.ls == nx.dag_longest_path_length(after, weight="weight")
        assert 0 <= t.free_float <= t.total_float
    assert all(found.timings[i].critical for i in found.path)


@pytest.mark.parametrize("length", [1, 2, 50])
def test_a_loop_is_named(length: int) -> None:
    ids = [f"i{n}" for n in range(length)]
    links = [Precedence(ids[n - 1], ids[n]) for n in range(length)]
    extra = [Precedence("before", ids[0]), Precedence(ids[-1], "after")]
    names = {i: f"hang board {i}" for i in ids}
    with pytest.raises(LoopFound) as caught:
        topological_order([*ids, "before", "after"], links + extra, names)
    assert sorted(caught.value.loop) == sorted(ids)
    pairs = {(p.before, p.after) for p in links}
    loop = caught.value.loop
    assert all((b, a) in pairs for a, b in zip(loop, [*loop[1:], loop[0]], strict=True))
    assert "hang board i0" in caught.value.body or length == 50
    assert '"before"' not in caught.value.body


def test_a_loop_of_two_in_words() -> None:
    names = {"a": "Grout", "b": "Tile"}
    with pytest.raises(LoopFound) as caught:
        topological_order(["a", "b"], [Precedence("a", "b"), Precedence("b", "a")], names)
    assert (
        caught.value.body
        == '"Grout" waits for "Tile"; "Tile" waits for "Grout". Take one of these links away.'
    )


def test_bad_networks_are_refused() -> None:
    for activities, links in (
        ([Activity("a", -1)], []),
        ([Activity("a", 1), Activity("a", 2)], []),
        ([Activity("a", 1)], [Precedence("a", "b")]),
        ([Activity("a", 1), Activity("b", 1)], [Precedence("a", "b", -1)]),
    ):
        with pytest.raises(BadInput):
            critical_path(activities, links)


def test_nothing_takes_no_time() -> None:
    found = critical_path([], [])
    assert found.duration == 0
    assert found.path == ()
