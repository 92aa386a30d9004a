"""What a client may be told: entries and items that pass ``domain.reading``, with dates from the plan."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from journal_tui.domain.change_order import ChangeState
from journal_tui.domain.document import ChangeFact, ClientFact, DocumentKind, TermsFact, UpdateFacts
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchState, in_punch_order
from journal_tui.domain.reading import SOMEONE, client_heading, for_client, name_parts
from journal_tui.domain.times import visit_day_fault
from journal_tui.journal.opening import Journal
from journal_tui.store import change_queries, queries, record_queries

_KIND = DocumentKind.CLIENT_UPDATE
_ROLE = re.compile(r"(?:the|an?|our) [a-z]")


@dataclass(frozen=True, slots=True)
class _Dates:
    """Days the plan has work for, answers are needed by, and the work ends; all empty without a plan.

    ``stills`` are the pictures that show entries, by entry.
    """

    work: Mapping[str, tuple[dt.date, dt.date]] = field(default_factory=dict)
    answers: Mapping[str, dt.date] = field(default_factory=dict)
    finish: dt.date | None = None
    held: Mapping[str, int] = field(default_factory=dict)
    stills: Mapping[str, str] = field(default_factory=dict)


def update_facts(journal: Journal, job: Job, as_of: dt.date | None = None) -> UpdateFacts:
    """Return what the client may be told since the last update: nothing private, no names, no codes."""
    day = as_of or journal.today()
    fault = visit_day_fault(day, journal.today())
    if fault:
        raise BadInput("the date of the update", f"{fault}.")
    sent = queries.documents(journal.store, job.id, _KIND)
    since = queries.last_sent_at(journal.store, job.id, _KIND)
    roles = client_roles(journal, job)
    entries = [e for e in queries.entries_since(journal.store, job.id, since) if e.day <= day]
    done = [i for i in queries.items_done_since(journal.store, job.id, since) if (i.closed or day) <= day]
    opened = queries.punch_items(journal.store, job.id, PunchState.OPEN.value)
    ordered = in_punch_order((i for i in opened if i.since <= day), job.phases)
    finished = {item.entry_id for item in done}
    kinds = {kind: [e for e in entries if e.kind is kind] for kind in Kind}
    photos = record_queries.photos_of_job(journal.store, job.id, client_only=True)
    stills = queries.stills_of_entries(journal.store, list({e.visit_id for e in entries}))
    # A picture somebody chose says more than one out of the recording.
    stills |= {entry_id: hashes[0] for entry_id, hashes in photos.items()}
    shown = _Dates(stills=stills)
    changes = _Changes(journal, job)
    planned = _dates(journal, job)
    dates = replace(planned, answers={**planned.answers, **changes.answer_by}, held=changes.waiting)
    return UpdateFacts(
        title=client_heading(job.name),
        address=client_heading(job.address),
        as_of=day,
        since=sent[0].sent_on if sent else None,
        visits=tuple(dict.fromkeys(e.day for e in entries)),
        found=_facts((e for e in kinds[Kind.OBSERVATION] if e.id not in finished), roles, shown),
        decided=_facts(kinds[Kind.DECISION], roles, shown),
        done=_facts(done, roles),
        next=_facts((i for i in ordered if i.kind is Kind.NEXT_STEP and not i.waits_elsewhere), roles, dates),
        needed=_facts((i for i in ordered if i.who is Party.CLIENT), roles, dates),
        waiting=_facts((i for i in ordered if i.who in (Party.INSPECTOR, Party.SUPPLIER)), roles),
        changes=changes.told(since, roles),
        terms=changes.terms(),
        finish=dates.finish,
    )


class _Changes:
    """A job's change orders, for an update."""

    def __init__(self, journal: Journal, job: Job) -> None:
        self.journal, self.job = journal, job
        self.orders = change_queries.change_orders(journal.store, job.id)
        self.waiting = change_queries.waiting_for(journal.store, job.id)

    @property
    def answer_by(self) -> dict[str, dt.date]:
        """The day an answer is asked by, by the punch item that stands for it."""
        return {o.item_id: o.answer_by for o in self.orders if o.item_id and o.answer_by}

    def told(self, since: str, roles: Mapping[str, str]) -> tuple[ChangeFact, ...]:
        """Return the orders that wait, and those answered since the last update."""
        moved = set(change_queries.moved_since(self.journal.store, self.job.id, since))
        facts = []
        for order in self.orders:
            title = for_client(order.title, Audience.CLIENT, roles)
            if order.id not in moved or order.number is None or title is None:
                continue
            answer = None if order.answer is None else order.state is ChangeState.ACCEPTED
            day = order.answer.day if order.answer else order.sent_on or order.drafted_on
            facts.append(ChangeFact(order.number, title, order.price.total, order.days, day, answer))
        return tuple(facts)

    def terms(self) -> TermsFact | None:
        """Return the contract as it stands, None while no first sum is set."""
        from journal_tui.journal.contracts import contract_view

        view = contract_view(self.journal, self.job.id)
        cents = view.standing.cents
        return None if cents is None else TermsFact(cents, view.finish)


def _facts(
    things: Iterable[Entry | PunchItem], roles: Mapping[str, str], dates: _Dates = _Dates()
) -> tuple[ClientFact, ...]:
    facts = []
    for thing in things:
        text = for_client(thing.text, thing.audience, roles)
        area = for_client(thing.area, thing.audience, roles)
        if text is None or area is None:
            continue
        day = thing.day if isinstance(thing, Entry) else thing.closed or thing.since
        phase = for_client(thing.phase, thing.audience, roles) or ""
        fact = ClientFact(thing.kind, phase, area, text, day, thing.who, thing.hazards)
        said_on, at = (thing.day, thing.start) if isinstance(thing, Entry) else (thing.since, thing.said_at)
        fact = replace(fact, said_on=said_on, spoken=at is not None)
        begins, ends = dates.work.get(thing.id, (None, None))
        by, still = dates.answers.get(thing.id), dates.stills.get(thing.id)
        number = dates.held.get(thing.id)
        waits = for_client(f"your answer to change order {number}", Audience.CLIENT, {}) if number else None
        facts.append(replace(fact, begins=begins, ends=ends, by=by, still=still, held=waits))
    return tuple(facts)


def _dates(journal: Journal, job: Job) -> _Dates:
    """Return the plan's dates, none until somebody has set the days the job is worked.

    A date from figures nobody stated would be a promise nobody made.
    """
    from journal_tui.journal.work_days import work_days

    if not work_days(journal, job.id).stated:
        return _Dates()
    from journal_tui.journal.plan import plan_inputs
    from journal_tui.planning.jobplan import plan_job

    inputs = plan_inputs(journal, job)
    days = inputs.days
    try:
        plan = plan_job(inputs.items, inputs.links, job.phases, days.means, days.calendar, inputs.now)
    except BadInput:
        # Nothing that can be planned: the update tells what there is, without dates.
        return _Dates()
    day_of = days.calendar.day_of
    work = {r.item.id: (day_of(r.row.start), day_of(r.row.finish)) for r in plan.rows if not r.is_hold}
    answers = {
        r.item.id: r.item.hold.booked if r.item.hold and r.item.hold.booked else day_of(r.row.late_finish)
        for r in plan.rows
        if r.item.who is Party.CLIENT
    }
    return _Dates(work, answers, plan.end_day if plan.rows else None)


def client_roles(journal: Journal, job: Job) -> dict[str, str]:
    """Return what a client document prints for each name: the journal's people, then any given name."""
    from journal_tui.documents.wording import given_names

    people = [
        name
        for line in queries.people_of(journal.store, job.id)
        for name in line.replace("&", ",").split(",")
    ]
    named = (name.strip() for people in people for name in people.split(" and "))
    # "The inspector" among the people of a visit is nobody's name.
    crew = dict.fromkeys(name_parts(name for name in named if not _ROLE.match(name)), "the crew")
    return {
        **dict.fromkeys(given_names(), SOMEONE),
        **crew,
        **dict.fromkeys(name_parts([job.client]), "you"),
    }
