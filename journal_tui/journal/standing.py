"""Where a job stands: what waits on others, what waits for review, where the crew's work is."""

from __future__ import annotations

from dataclasses import dataclass

from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchItem
from journal_tui.journal import punch
from journal_tui.journal.opening import Journal
from journal_tui.store import queries


@dataclass(frozen=True, slots=True)
class Waiting:
    """What waits on one party: the item that has waited longest, and how many there are in all."""

    party: Party
    longest: PunchItem
    count: int


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a job stands.

    ``waiting`` has one for each party that somebody waits on. ``next_item`` is the first of the
    crew's open items in punch order. ``to_review`` is the visit whose drafts wait, and ``drafts`` how
    many of the whole job do.
    """

    waiting: tuple[Waiting, ...]
    next_item: PunchItem | None
    to_review: Visit | None
    drafts: int


def standing(journal: Journal, job: Job) -> Standing:
    """Return where a job stands now."""
    listed = punch.open_list(journal, job)
    waiting = []
    for party in (Party.INSPECTOR, Party.CLIENT, Party.SUPPLIER):
        items = [item for item in listed.waiting if item.who is party]
        if items:
            waiting.append(Waiting(party, items[0], len(items)))
    first = next((group.items[0] for group in listed.phases), None)
    drafted = queries.visits_to_review(journal.store, job.id)
    visit = drafted[0][0] if drafted else None
    return Standing(tuple(waiting), first, visit, sum(count for _visit, count in drafted))
