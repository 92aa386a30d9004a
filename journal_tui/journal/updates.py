"""The client update: its facts, its working copy, and what was sent."""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from journal_tui.domain.document import ClientFact, DocumentKind, SentDocument, UpdateFacts
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.punch import PunchItem, PunchState, in_punch_order
from journal_tui.domain.reading import client_heading, for_client, name_parts
from journal_tui.domain.text import storable
from journal_tui.domain.times import visit_day_fault
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.store import queries

_KIND = DocumentKind.CLIENT_UPDATE


@dataclass(frozen=True, slots=True)
class UpdateDraft:
    """A client update not yet sent.

    ``made`` is what the facts say now; ``markdown`` is that with the writer's own edits kept;
    ``conflicts`` counts places where both changed and both stand in the text.
    """

    job: Job
    facts: UpdateFacts
    made: str
    markdown: str
    edited: bool
    conflicts: int


def client_update(journal: Journal, job_id: str, as_of: dt.date | None = None) -> UpdateDraft:
    """Return the update that would be sent now: everything saved since the last one that was."""
    from journal_tui.documents import update_markdown
    from journal_tui.documents.edits import merge_edits

    job = get_job(journal, job_id)
    facts = update_facts(journal, job, as_of)
    made = update_markdown(facts)
    working = queries.working_document(journal.store, job.id, _KIND)
    if working is None:
        return UpdateDraft(job, facts, made, made, False, 0)
    merged = merge_edits(working["made"], working["edited"], made)
    return UpdateDraft(job, facts, made, merged.text, merged.text != made, merged.conflicts)


def update_facts(journal: Journal, job: Job, as_of: dt.date | None = None) -> UpdateFacts:
    """Return what the client may be told: entries and items that pass ``domain.reading``, no others."""
    day = as_of or journal.today()
    fault = visit_day_fault(day, journal.today())
    if fault:
        raise BadInput("the date of the update", f"{fault}.")
    sent = queries.documents(journal.store, job.id, _KIND)
    since = queries.last_sent_at(journal.store, job.id, _KIND)
    roles = _roles(journal, job)
    entries = [e for e in queries.entries_since(journal.store, job.id, since) if e.day <= day]
    done = [i for i in queries.items_done_since(journal.store, job.id, since) if (i.closed or day) <= day]
    opened = queries.punch_items(journal.store, job.id, PunchState.OPEN.value)
    ordered = in_punch_order((i for i in opened if i.since <= day), job.phases)
    finished = {item.entry_id for item in done}
    kinds = {kind: [e for e in entries if e.kind is kind] for kind in Kind}
    return UpdateFacts(
        title=client_heading(job.name),
        address=client_heading(job.address),
        as_of=day,
        since=sent[0].sent_on if sent else None,
        visits=tuple(dict.fromkeys(e.day for e in entries)),
        found=_facts((e for e in kinds[Kind.OBSERVATION] if e.id not in finished), roles),
        decided=_facts(kinds[Kind.DECISION], roles),
        done=_facts(done, roles),
        next=_facts((i for i in ordered if i.kind is Kind.NEXT_STEP and not i.waits_elsewhere), roles),
        needed=_facts((i for i in ordered if i.who is Party.CLIENT), roles),
        waiting=_facts((i for i in ordered if i.who in (Party.INSPECTOR, Party.SUPPLIER)), roles),
    )


def _facts(things: Iterable[Entry | PunchItem], roles: dict[str, str]) -> tuple[ClientFact, ...]:
    facts = []
    for thing in things:
        text = for_client(thing.text, thing.audience, roles)
        area = for_client(thing.area, thing.audience, roles)
        if text is None or area is None:
            continue
        day = thing.day if isinstance(thing, Entry) else thing.closed or thing.since
        facts.append(ClientFact(thing.kind, thing.phase, area, text, day, thing.who, thing.hazards))
    return tuple(facts)


def _roles(journal: Journal, job: Job) -> dict[str, str]:
    people = [
        name
        for line in queries.people_of(journal.store, job.id)
        for name in line.replace("&", ",").split(",")
    ]
    crew = dict.fromkeys(name_parts(n for p in people for n in p.split(" and ")), "the crew")
    return {**crew, **dict.fromkeys(name_parts([job.client]), "you")}


def save_edit(journal: Journal, job_id: str, made: str, edited: str) -> None:
    """Keep the writer's version of the update; the one it was made from is kept with it."""
    job = get_job(journal, job_id)
    working = queries.working_document(journal.store, job.id, _KIND)
    if working and (working["made"], working["edited"]) == (made, edited):
        return
    # No job on the action: typing is not what undo on a job's lists should take back.
    with journal.store.write("edit the client update") as w:
        if working:
            w.change("working_documents", working["id"], made=made, edited=edited)
        else:
            w.insert(
                "working_documents",
                {"job_id": job.id, "kind": _KIND.value, "made": made, "edited": edited},
            )


def discard_edit(journal: Journal, job_id: str) -> None:
    """Go back to what the facts say; the edited text stays in the history."""
    working = queries.working_document(journal.store, job_id, _KIND)
    if working:
        with journal.store.write("set aside the edited client update") as w:
            w.remove("working_documents", working["id"])


def send(journal: Journal, job_id: str, markdown: str, sent_on: dt.date | None = None) -> SentDocument:
    """Freeze the update as sent: this exact text, this date. The next one starts from here."""
    job = get_job(journal, job_id)
    if not markdown.strip():
        raise BadInput("an empty update", "There is nothing to send.")
    working = queries.working_document(journal.store, job.id, _KIND)
    markdown = storable(markdown)
    day = sent_on or journal.today()
    # No job on the action: what was sent cannot be unsent by undo.
    with journal.store.write(f"send the client update of {day.isoformat()}") as w:
        document_id = w.insert(
            "documents",
            {
                "job_id": job.id,
                "kind": _KIND.value,
                "sent_on": day.isoformat(),
                "markdown": markdown,
                "sha256": hashlib.sha256(markdown.encode()).hexdigest(),
            },
        )
        if working:
            w.remove("working_documents", working["id"])
    return next(d for d in sent_updates(journal, job.id) if d.id == document_id)


def sent_updates(journal: Journal, job_id: str) -> list[SentDocument]:
    """Return the updates sent for a job, newest first."""
    return queries.documents(journal.store, job_id, _KIND)
