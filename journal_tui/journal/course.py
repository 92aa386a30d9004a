"""How far each phase of a job has come, by what is still open in it."""

from __future__ import annotations

from dataclasses import dataclass

from journal_tui.domain.job import Job
from journal_tui.domain.punch import phase_rank
from journal_tui.journal.opening import Journal
from journal_tui.store import queries
from journal_tui.store.store import Row


@dataclass(frozen=True, slots=True)
class PhaseCount:
    """A phase with its counts of punch items.

    ``open`` are owed still, ``waiting`` those of them that wait on the client, the inspector or a supplier,
    ``closed`` are done or dropped.
    """

    phase: str
    open: int
    waiting: int
    closed: int

    @property
    def share_closed(self) -> float:
        """The share of all its items that is closed, from 0 to 1; 0 when it has none yet."""
        total = self.open + self.closed
        return self.closed / total if total else 0.0


def course(journal: Journal, job: Job) -> list[PhaseCount]:
    """Return every phase of a job in the order the work goes, then phases met only in its items."""
    counted = {row["phase"]: row for row in queries.phase_counts(journal.store, job.id)}
    met = sorted(set(counted) - set(job.phases), key=lambda phase: phase_rank(phase, job.phases))
    return [_count(phase, counted.get(phase)) for phase in (*job.phases, *met)]


def _count(phase: str, row: Row | None) -> PhaseCount:
    if row is None:
        return PhaseCount(phase, 0, 0, 0)
    return PhaseCount(phase, row["open"], row["waiting"], row["closed"])
