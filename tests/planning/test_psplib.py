"""PSPLIB single-mode files: a small one of our own in that form, and faults named by line."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.errors import BadInput
from journal_tui.planning.psplib import read_psplib, solve_psplib
from tests.planning.psplib_gap import faults, main

STARS = "*" * 72
#: Five jobs and two dummies by hand: both long ones need the one machine, so 3 + 4 + 2 = 9.
SMALL = f"""{STARS}
file with basedata            : own
{STARS}
projects                      :  1
jobs (incl. supersource/sink ):  6
horizon                       :  12
RESOURCES
  - renewable                 :  2   R
  - nonrenewable              :  0   N
  - doubly constrained        :  0   D
{STARS}
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          3           2   3   4
   2        1          1           5
   3        1          1           5
   4        1          1           6
   5        1          1           6
   6        1          0
{STARS}
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     3       1    1
  3      1     4       1    0
  4      1     5       0    2
  5      1     2       0    1
  6      1     0       0    0
{STARS}
RESOURCEAVAILABILITIES:
  R 1  R 2
    1    2
{STARS}
"""


def test_reads_and_solves_a_small_file() -> None:
    problem = read_psplib(SMALL)
    assert [a.duration for a in problem.activities] == [0, 3, 4, 5, 2, 0]
    assert problem.capacities == {"R1": 1, "R2": 2}
    answer = solve_psplib(SMALL)
    assert faults(SMALL, answer["starts"], answer["makespan"]) == []
    assert len(answer["starts"]) == 6
    # Job 2 and job 4 cannot run together (R2), nor 4 and 5, nor 2 and 3 (R1): at best 2, then
    # 4 beside 3, then 5: 3 + 5 + 2.
    assert answer["makespan"] == 10


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("   2        1          1           5", "   2        3          1           5", "3 modes"),
        ("   2        1          1           5", "   2        1          2           5", "says 2 successors"),
        ("   2        1          1           5", "   2        1          1           9", "job 9"),
        ("  2      1     3       1    1", "  2      1    -3       1    1", "negative"),
        ("  2      1     3       1    1", "  2      1     3       1", "job 2"),
        ("  2      1     3       1    1", "  2      1     three   1    1", "whole numbers"),
        ("- nonrenewable              :  0", "- nonrenewable              :  2", "nonrenewable"),
        ("RESOURCEAVAILABILITIES:", "", "RESOURCEAVAILABILITIES"),
        ("jobs (incl. supersource/sink ):  6", "jobs (incl. supersource/sink ):", "JOBS"),
    ],
)
def test_faults_name_the_line(old: str, new: str, words: str) -> None:
    assert old in SMALL
    with pytest.raises(BadInput) as caught:
        solve_psplib(SMALL.replace(old, new), "own.sm")
    assert "own.sm" in caught.value.title
    assert "line" in caught.value.body
    assert words in caught.value.body


@pytest.mark.parametrize("text", ["", "WEBVTT\n\n", "\x00\x01", SMALL[:600]])
def test_what_is_no_such_file_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        read_psplib(text)


def test_a_loop_and_too_great_a_need_are_refused() -> None:
    with pytest.raises(BadInput):
        solve_psplib(SMALL.replace("5        1          1           6", "5        1          1           2"))
    with pytest.raises(BadInput) as caught:
        solve_psplib(SMALL.replace("  4      1     5       0    2", "  4      1     5       0    3"))
    assert "needs 3" in caught.value.body


def test_the_checker_finds_what_is_wrong() -> None:
    answer = solve_psplib(SMALL)
    early = [0, *answer["starts"][1:4], 0, answer["makespan"]]
    assert faults(SMALL, early, answer["makespan"])
    assert faults(SMALL, [0] * 6, 5)
    assert faults(SMALL, answer["starts"], answer["makespan"] - 1)


def test_the_folder_script(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "own.sm").write_text(SMALL)
    (tmp_path / "optima.json").write_text('{"own.sm": 10}')
    assert main(tmp_path, None) == 0
    assert "1 files, 0 infeasible; gap mean 0.00%" in capsys.readouterr().out
    (tmp_path / "optima.json").write_text('{"own.sm": 8}')
    assert main(tmp_path, None) == 1
