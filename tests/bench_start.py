"""Time from process start to the first useful paint, against a bare Textual app. A script, not a test.

    python tests/bench_start.py [ROUNDS]

Both programs run on a pseudo-terminal of 80 by 24, by turns, in the same run. The clock starts before
the process does and stops when the text a person looks for has come out of the terminal: a job's name
and its open count for the journal, the title and the footer's key for the bare app. The journal is made
first: ten jobs and 20,000 entries over ten years.
"""

from __future__ import annotations

import datetime as dt
import os
import pty
import re
import select
import signal
import statistics
import sys
import tempfile
import time
from pathlib import Path

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Kind, Party
from journal_tui.journal.jobs import add_job
from journal_tui.journal.keeping import keep_draft
from journal_tui.journal.opening import Journal, open_journal

_JOBS, _VISITS, _ENTRIES = 10, 100, 20
_LIMIT = 20.0
_ESCAPES = re.compile(rb"\x1b(?:\[[0-9;?<>=]*[a-zA-Z]|[()][A-Z0-9]|[=>]|P[^\x1b]*\x1b\\|\][^\x07]*\x07)")

_BARE = """
from textual.app import App
from textual.widgets import Footer, Header


class Bare(App):
    TITLE = "Bare app"
    BINDINGS = [("q", "quit", "Leave it")]

    def compose(self):
        yield Header()
        yield Footer()


Bare().run()
"""

_OURS = "from journal_tui.cli import main; main([])"


def fill(journal: Journal) -> None:
    """Fill a journal with years of visits."""
    first = dt.date(2016, 1, 4)
    for number in range(_JOBS):
        job = add_job(journal, f"House {number + 1}, bath", address=f"{number + 1} Example Street")
        for visit in range(_VISITS):
            day = first + dt.timedelta(days=number * 365 + visit * 3)
            with journal.store.write("log a visit", job.id) as w:
                row = {"job_id": job.id, "day": day.isoformat(), "people": "Rui", "summary": "walk"}
                visit_id = w.insert("visits", row)
                for entry in range(_ENTRIES):
                    keep_draft(w, _draft(entry, job.phases, visit), job.id, visit_id, day, timed=True)


def _draft(number: int, phases: tuple[str, ...], visit: int) -> Draft:
    kind = (Kind.OBSERVATION, Kind.OBSERVATION, Kind.DECISION, Kind.NEXT_STEP)[number % 4]
    open_still = kind is Kind.NEXT_STEP and visit > _VISITS - 4
    text = f"strap the supply at stud {number} and check the joint behind it, walk {visit}"
    phase = phases[number % len(phases)]
    return Draft(
        number * 10.0, number * 10.0 + 8, kind, phase, "tub wall", text, open_still, Party.CREW, (), "", text
    )


def seconds_to_paint(code: str, wanted: tuple[bytes, ...], environ: dict[str, str]) -> float:
    """Return the seconds from starting Python on ``code`` until every wanted text is on the terminal."""
    started = time.perf_counter()
    pid, terminal = pty.fork()
    if pid == 0:
        os.execvpe(sys.executable, [sys.executable, "-c", code], environ)
    seen = b""
    try:
        while time.perf_counter() - started < _LIMIT:
            if not select.select([terminal], [], [], 0.5)[0]:
                continue
            seen += os.read(terminal, 1 << 16)
            plain = _ESCAPES.sub(b"", seen)
            if all(text in plain for text in wanted):
                return time.perf_counter() - started
        raise SystemExit(f"{wanted} did not come within {_LIMIT} s; the terminal shows:\n{plain[-2000:]!r}")
    finally:
        os.kill(pid, signal.SIGKILL)
        os.waitpid(pid, 0)
        os.close(terminal)


def main() -> None:
    """Run both by turns and print medians and their ratio."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "journal.db"
        journal = open_journal(path)
        fill(journal)
        journal.close()
        environ = {
            **os.environ,
            "JOURNAL_TUI_PATH": str(path),
            "TERM": "xterm-256color",
            "COLUMNS": "80",
            "LINES": "24",
            "PYTHONPATH": os.pathsep.join(sys.path[1:]),
        }
        ours: list[float] = []
        bare: list[float] = []
        for turn in range(rounds + 1):
            bare_one = seconds_to_paint(_BARE, (b"Bare app", b"Leave it"), environ)
            ours_one = seconds_to_paint(_OURS, (b"House 10", b"open"), environ)
            if turn:  # the first of each only warms the disk's cache
                bare.append(bare_one)
                ours.append(ours_one)
    print(f"journal: {_JOBS} jobs, {_JOBS * _VISITS * _ENTRIES} entries; {rounds} rounds by turns")
    print(f"bare app with header and footer: median {statistics.median(bare) * 1000:.0f} ms")
    print(f"journal to the list of jobs:     median {statistics.median(ours) * 1000:.0f} ms")
    print(f"ratio of medians: {statistics.median(ours) / statistics.median(bare):.2f}")


if __name__ == "__main__":
    main()
