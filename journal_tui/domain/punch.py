"""The punch list: open work and open answers, and the one order they are shown in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from journal_tui.domain.kinds import WHOLE_ROOM, Audience, Hazard, Kind, Party
from journal_tui.domain.text import folded
from journal_tui.domain.times import short_day


class PunchState(StrEnum):
    """Where an item stands. ``dropped`` is decided against, not done."""

    OPEN = "open"
    DONE = "done"
    DROPPED = "dropped"


@dataclass(frozen=True, slots=True)
class OnHold:
    """What an item waits for: the client's answer to the change order ``number``, sent on the day ``since``.

    ``by`` is the day the answer is asked for by.
    """

    number: int
    since: dt.date
    by: dt.date | None = None

    def words(self, as_of: dt.date) -> str:
        """Return in words what is waited for, since when, and how long that is on ``as_of``."""
        days = (as_of - self.since).days
        age = "" if days < 1 else " (1 day)" if days == 1 else f" ({days} days)"
        asked = f", asked for by {short_day(self.by)}" if self.by else ""
        return (
            f"on hold for the client's answer to change order {self.number}, "
            f"sent {short_day(self.since)}{age}{asked}"
        )


@dataclass(frozen=True, slots=True)
class PunchItem:
    """Open work or an open answer, born from an entry or typed straight onto the list.

    ``since`` is the day it was first owed, ``closed`` the day it was done or dropped. ``visit_day``
    and ``said_at`` (seconds) say where in which recording it came from, when it did. ``on_hold`` is what
    the plan lets it wait for of change orders not answered yet.
    """

    id: str
    job_id: str
    phase: str
    area: str
    text: str
    since: dt.date
    who: Party | None = Party.CREW
    kind: Kind = Kind.NEXT_STEP
    state: PunchState = PunchState.OPEN
    closed: dt.date | None = None
    hazards: tuple[Hazard, ...] = ()
    audience: Audience = Audience.CLIENT
    entry_id: str | None = None
    visit_day: dt.date | None = None
    said_at: float | None = None
    on_hold: tuple[OnHold, ...] = ()

    @property
    def waits_elsewhere(self) -> bool:
        """True when the next move is the client's, the inspector's or a supplier's."""
        return self.who not in (None, Party.CREW)


@dataclass(frozen=True, slots=True)
class PunchPhase:
    """The open items of one phase, in order."""

    phase: str
    items: tuple[PunchItem, ...]


@dataclass(frozen=True, slots=True)
class PunchList:
    """A job's open items: what the crew can move, by phase, and what waits on somebody else."""

    phases: tuple[PunchPhase, ...]
    waiting: tuple[PunchItem, ...]

    @property
    def count(self) -> int:
        """How many items are open in all."""
        return sum(len(group.items) for group in self.phases) + len(self.waiting)

    @property
    def on_hold(self) -> int:
        """How many of them wait for the answer to a change order."""
        items = (item for group in self.phases for item in group.items)
        return sum(bool(item.on_hold) for item in (*items, *self.waiting))


def phase_rank(phase: str, phases: Sequence[str]) -> tuple[int, str]:
    """Return the sort key of a phase: the job's own order, unknown ones after, by name."""
    try:
        return (phases.index(phase), "")
    except ValueError:
        return (len(phases), folded(phase))


def _key(item: PunchItem, phases: Sequence[str]) -> tuple[object, ...]:
    whole = folded(item.area) != WHOLE_ROOM
    said = item.said_at if item.said_at is not None else -1.0
    return (phase_rank(item.phase, phases), whole, folded(item.area), item.since, said, item.id)


def in_punch_order(items: Iterable[PunchItem], phases: Sequence[str]) -> list[PunchItem]:
    """Return items by phase, then area (the whole room first), then age; a pure function of them."""
    return sorted(items, key=lambda item: _key(item, phases))


def punch_list(items: Iterable[PunchItem], phases: Sequence[str]) -> PunchList:
    """Return the open ones of ``items`` as a punch list over the job's ``phases``.

    Items waiting on the client, the inspector or a supplier are set apart, longest wait first
    within each party.
    """
    ordered = in_punch_order((i for i in items if i.state is PunchState.OPEN), phases)
    ours = [item for item in ordered if not item.waits_elsewhere]
    waiting = [item for item in ordered if item.waits_elsewhere]
    parties = list(Party)
    waiting.sort(key=lambda i: (parties.index(i.who or Party.CREW), i.since))
    names = sorted({item.phase for item in ours}, key=lambda p: phase_rank(p, phases))
    groups = tuple(PunchPhase(n, tuple(i for i in ours if i.phase == n)) for n in names)
    return PunchList(groups, tuple(waiting))
