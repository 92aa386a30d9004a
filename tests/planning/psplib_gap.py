"""Solve a folder of PSPLIB single-mode files and print how far from the best known lengths.

    python -m tests.planning.psplib_gap FOLDER [BEST.json]

BEST.json maps file names to best known makespans; by default ``optima.json`` in FOLDER or above
it. Every schedule is verified by ``faults`` below, which shares nothing with the solver. Ends
with 1 when a schedule is wrong, the mean gap is above 1 % (3 % for 60 jobs and more) or a file
takes a second of processor time or longer.
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

from journal_tui.planning.psplib import solve_psplib


def faults(text: str, starts: list[int], makespan: int) -> list[str]:
    """Return what is wrong with a schedule, reading the file anew, by its columns alone."""
    blocks = [b.strip("\n").splitlines() for b in text.split("*" * 72) if b.strip()]
    order = next(b for b in blocks if b[0].startswith("PRECEDENCE"))[2:]
    requests = next(b for b in blocks if b[0].startswith("REQUESTS"))[3:]
    have = [int(w) for w in next(b for b in blocks if b[0].startswith("RESOURCEAVAIL"))[2].split()]
    rows = [[int(w) for w in line.split()] for line in requests]
    duration = {row[0]: row[2] for row in rows}
    wrong = [] if len(starts) == len(rows) else [f"{len(starts)} starts for {len(rows)} jobs"]
    start = dict(enumerate(starts, 1))
    for line in order:
        job, _, _, *successors = (int(w) for w in line.split())
        wrong += [f"{job} before {s}" for s in successors if start[s] < start[job] + duration[job]]
    if any(s < 0 for s in starts) or max(start[j] + duration[j] for j in start) != makespan:
        wrong.append("the makespan is not the last finish")
    for t in range(makespan):
        running = [row for row in rows if start[row[0]] <= t < start[row[0]] + row[2]]
        for r, units in enumerate(have):
            used = sum(row[3 + r] for row in running)
            if used > units:
                wrong.append(f"at {t}: {used} of {units} R{r + 1}")
    return wrong


def main(folder: Path, best_file: Path | None) -> int:
    """Print one line for the folder, and a line for each file that is off; return the exit code."""
    where = best_file or next(
        p for p in (folder / "optima.json", folder.parent / "optima.json") if p.exists()
    )
    best: dict[str, int] = json.loads(where.read_text())
    gaps: list[float] = []
    seconds: list[float] = []
    bad = 0
    goal = 0.01
    for path in sorted(folder.glob("*.sm")):
        text = path.read_text()
        began = time.process_time()
        answer = solve_psplib(text, path.name)
        seconds.append(time.process_time() - began)
        wrong = faults(text, answer["starts"], answer["makespan"])
        bad += bool(wrong)
        gap = answer["makespan"] / best[path.name] - 1
        gaps.append(gap)
        if len(answer["starts"]) > 50:
            goal = 0.03
        if wrong or gap:
            print(f"{path.name}: {answer['makespan']}, best {best[path.name]}", *wrong[:3], sep="  ")
    if not gaps:
        print(f"no .sm files in {folder}")
        return 2
    mean = sum(gaps) / len(gaps)
    print(
        f"{len(gaps)} files, {bad} infeasible; gap mean {mean:.2%}, worst {max(gaps):.2%};"
        f" seconds mean {sum(seconds) / len(seconds):.2f}, worst {max(seconds):.2f}"
    )
    return int(bad > 0 or mean > goal or max(seconds) >= 1)


if __name__ == "__main__":
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    sys.exit(main(Path(sys.argv[1]), Path(sys.argv[2]) if len(sys.argv) == 3 else None))
