"""Open items put on a punch list as they stand, so that tests of the plan do not hang on the drafter."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.draft import Draft
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.domain.punch import PunchItem
from journal_tui.journal.keeping import add_item
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import get_item


def owed(
    journal: Journal,
    job: Job,
    text: str,
    phase: str = "trim",
    area: str = "tub wall",
    who: Party = Party.CREW,
    *,
    audience: Audience = Audience.CLIENT,
    kind: Kind = Kind.NEXT_STEP,
    day: dt.date = dt.date(2026, 3, 6),
) -> PunchItem:
    """Put an item on a job's punch list and return it."""
    draft = Draft(0.0, 0.0, kind, phase, area, text, True, who, (), "", "", audience=audience)
    with journal.store.write("add a punch item", job.id) as w:
        item_id = add_item(w, draft, job.id, None, day, None)
    return get_item(journal, item_id)
