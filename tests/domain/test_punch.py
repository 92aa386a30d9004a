"""The punch list's order is a pure function of the facts."""

from __future__ import annotations

import datetime as dt
import random

from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.kinds import STANDARD_PHASES, Party
from journal_tui.domain.punch import PunchItem, PunchState, in_punch_order, punch_list

days = st.dates(dt.date(2026, 1, 1), dt.date(2026, 12, 31))
items = st.lists(
    st.builds(
        PunchItem,
        id=st.uuids().map(str),
        job_id=st.just("job"),
        phase=st.sampled_from([*STANDARD_PHASES, "other", "rough electrical"]),
        area=st.sampled_from(["floor", "Tub", "tub", "whole room", "", "vanity"]),
        text=st.text(max_size=8),
        since=days,
        who=st.sampled_from([None, *Party]),
        state=st.sampled_from(list(PunchState)),
        said_at=st.none() | st.floats(0, 500),
    ),
    max_size=25,
    unique_by=lambda item: item.id,
)


@given(items, st.randoms())
def test_order_does_not_depend_on_the_order_given(found: list[PunchItem], rng: random.Random) -> None:
    shuffled = list(found)
    rng.shuffle(shuffled)
    assert punch_list(found, STANDARD_PHASES) == punch_list(shuffled, STANDARD_PHASES)


@given(items)
def test_every_open_item_is_listed_once_and_no_other(found: list[PunchItem]) -> None:
    made = punch_list(found, STANDARD_PHASES)
    listed = [i.id for group in made.phases for i in group.items] + [i.id for i in made.waiting]
    assert sorted(listed) == sorted(i.id for i in found if i.state is PunchState.OPEN)
    assert made.count == len(listed)
    assert all(i.waits_elsewhere for i in made.waiting)
    assert not any(i.waits_elsewhere for group in made.phases for i in group.items)


@given(items)
def test_phases_come_in_the_jobs_order_unknown_ones_last(found: list[PunchItem]) -> None:
    order = [i.phase for i in in_punch_order(found, STANDARD_PHASES)]
    known = [p for p in order if p in STANDARD_PHASES]
    assert known == sorted(known, key=STANDARD_PHASES.index)
    assert order[: len(known)] == known


def test_a_jobs_own_phase_stands_where_it_is_put() -> None:
    phases = ("demo", "rough plumbing", "rough electrical", "subfloor")
    day = dt.date(2026, 3, 1)
    made = punch_list(
        [
            PunchItem("1", "j", "subfloor", "floor", "b", day),
            PunchItem("2", "j", "rough electrical", "fan", "a", day),
            PunchItem("3", "j", "demo", "tub", "c", day),
        ],
        phases,
    )
    assert [group.phase for group in made.phases] == ["demo", "rough electrical", "subfloor"]


def test_the_whole_room_comes_first_then_areas_then_age() -> None:
    old, new = dt.date(2026, 3, 1), dt.date(2026, 3, 9)
    made = in_punch_order(
        [
            PunchItem("1", "j", "tile", "wall", "new", new),
            PunchItem("2", "j", "tile", "wall", "old", old),
            PunchItem("3", "j", "tile", "whole room", "room", new),
            PunchItem("4", "j", "tile", "floor", "floor", new),
        ],
        STANDARD_PHASES,
    )
    assert [i.text for i in made] == ["room", "floor", "old", "new"]


def test_the_longest_wait_on_a_party_comes_first() -> None:
    made = punch_list(
        [
            PunchItem("1", "j", "tile", "a", "late", dt.date(2026, 3, 9), Party.CLIENT),
            PunchItem("2", "j", "trim", "a", "early", dt.date(2026, 3, 1), Party.CLIENT),
            PunchItem("3", "j", "demo", "a", "permit", dt.date(2026, 3, 9), Party.INSPECTOR),
        ],
        STANDARD_PHASES,
    )
    assert [i.text for i in made.waiting] == ["early", "late", "permit"]
