"""The punch list of a job: reading it, closing, dropping, reopening and adding items."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from journal_tui.domain.draft import Draft
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.punch import PunchItem, PunchList, PunchState, in_punch_order, punch_list
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import visit_day_fault
from journal_tui.journal.jobs import get_job
from journal_tui.journal.keeping import add_item, record_state, refuse_answer_item
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.journal.visits import job_words
from journal_tui.store import change_queries, queries

#: How much of an item's identifier is shown and asked for; its end is the random part.
HANDLE_LENGTH = 5


def handle(item: PunchItem) -> str:
    """Return the short name an item is called by on the command line."""
    return item.id[-HANDLE_LENGTH:]


def open_list(journal: Journal, job: Job) -> PunchList:
    """Return a job's open items in phase order, those waiting on others set apart, holds marked."""
    items = queries.punch_items(journal.store, job.id, PunchState.OPEN.value)
    holds = change_queries.on_hold(journal.store, job.id)
    return punch_list((replace(i, on_hold=holds.get(i.id, ())) for i in items), job.phases)


def closed_items(journal: Journal, job: Job) -> list[PunchItem]:
    """Return a job's done and dropped items in punch order."""
    items = queries.punch_items(journal.store, job.id, None)
    return in_punch_order((i for i in items if i.state is not PunchState.OPEN), job.phases)


def get_item(journal: Journal, item_id: str) -> PunchItem:
    """Return the item with this id. Raises ``NothingFound``."""
    found = queries.punch_item(journal.store, item_id)
    if found is None:
        raise NothingFound(
            "no such punch item", "It may have been taken out by undo, here or in another copy."
        )
    return found


def find_item(journal: Journal, job: Job, words: str, *, states: tuple[PunchState, ...]) -> PunchItem:
    """Return the one item of a job in ``states`` that ``words`` names: its handle, or words of it.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    items = [i for i in queries.punch_items(journal.store, job.id, None) if i.state in states]
    wanted = folded(words)
    named = [i for i in items if wanted and (handle(i) == wanted or i.id == wanted)]
    spoken = [i for i in items if wanted and all(w in folded(f"{i.area} {i.text}") for w in wanted.split())]
    for found in (named, spoken):
        if len(found) == 1:
            return found[0]
        if found:
            some = "; ".join(f"{handle(i)} {one_line(i.text)}" for i in found[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(found)} items', f"Say which: {some}.")
    raise NothingFound(
        f'no {" or ".join(states)} item fits "{one_line(words)}"',
        "See them with: journal-tui punch JOB --all",
    )


def finish(journal: Journal, item_id: str, *, day: dt.date | None = None, note: str = "") -> PunchItem:
    """Mark an item done."""
    return _set(journal, item_id, PunchState.DONE, day, note)


def drop(journal: Journal, item_id: str, *, day: dt.date | None = None, note: str = "") -> PunchItem:
    """Decide against an item: it is off the list, and kept in the history."""
    return _set(journal, item_id, PunchState.DROPPED, day, note)


def reopen(journal: Journal, item_id: str, *, day: dt.date | None = None, note: str = "") -> PunchItem:
    """Put a done or dropped item back on the list; since when it was owed stays."""
    return _set(journal, item_id, PunchState.OPEN, day, note)


_VERBS = {PunchState.DONE: "finish", PunchState.DROPPED: "drop", PunchState.OPEN: "reopen"}


def _set(journal: Journal, item_id: str, state: PunchState, day: dt.date | None, note: str) -> PunchItem:
    item = get_item(journal, item_id)
    if item.state is state:
        return item
    refuse_answer_item(journal.store, item)
    day = _checked(journal, day)
    closed = None if state is PunchState.OPEN else day.isoformat()
    with journal.store.write(f"{_VERBS[state]} a punch item", item.job_id) as w:
        w.change("punch_items", item.id, state=state.value, closed=closed)
        record_state(w, item.id, state, day, None, note)
    return get_item(journal, item_id)


def preview(journal: Journal, job: Job, text: str) -> Draft | None:
    """Return what a typed line would put on the list, saving nothing; None for a blank one."""
    from journal_tui.walkthrough.drafting import draft_note

    text = measured(text, "the item").strip()
    drafts = draft_note(text, job_words(journal, job)) if text else ()
    if not drafts:
        return None
    return replace(
        drafts[0],
        kind=Kind.NEXT_STEP,
        open=True,
        text=text,
        who=drafts[0].who or Party.CREW,
        hazards=tuple(dict.fromkeys(h for d in drafts for h in d.hazards)),
    )


def add(
    journal: Journal,
    job_id: str,
    text: str,
    *,
    phase: str | None = None,
    area: str | None = None,
    who: Party | None = None,
    day: dt.date | None = None,
) -> PunchItem:
    """Type an item straight onto the list; what is not said comes from the drafter reading the words."""
    job = get_job(journal, job_id)
    first = preview(journal, job, text)
    if first is None:
        raise BadInput("an empty punch item", "Say what is owed, such as: strap the new supply.")
    draft = replace(
        first,
        phase=" ".join((phase or first.phase).split()).lower(),
        area=" ".join(measured(area if area is not None else first.area, "the area").split()),
        who=who or first.who,
    )
    day = _checked(journal, day)
    with journal.store.write("add a punch item", job.id) as w:
        item_id = add_item(w, draft, job.id, None, day, None)
    return get_item(journal, item_id)


def hand_to(journal: Journal, item_id: str, who: Party) -> PunchItem:
    """Say whose move an item is; the entry it came from, and its draft, say the same."""
    item = get_item(journal, item_id)
    if item.who is who:
        return item
    with journal.store.write(f"hand a punch item to the {who.value}", item.job_id) as w:
        w.change("punch_items", item.id, who=who.value)
        if item.entry_id:
            w.change("entries", item.entry_id, who=who.value)
            for draft in queries.drafts_of_entry(journal.store, item.entry_id):
                w.change("drafts", draft["id"], who=who.value)
    return get_item(journal, item_id)


def _checked(journal: Journal, day: dt.date | None) -> dt.date:
    day = day or journal.today()
    fault = visit_day_fault(day, journal.today())
    if fault:
        raise BadInput("the date", f"{fault}.")
    return day
