"""The next visit of a job, and freezing it as a crew sheet."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from journal_tui.domain.crew_sheet import CrewLine, CrewPicture, CrewSheet
from journal_tui.domain.document import DocumentKind, SentDocument
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Hazard, Kind
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.reading import CrewText, crew_heading, for_crew, name_parts
from journal_tui.domain.text import storable
from journal_tui.domain.times import short_day
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan import PlanInputs, plan_inputs
from journal_tui.journal.private_rows import unquoted
from journal_tui.journal.typed import recall, remember
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.needs import Needs, age_cautions, needs_of
from journal_tui.planning.visit import VisitItem, VisitList, Wish, plan_visit
from journal_tui.store import queries, record_queries

_KIND = DocumentKind.CREW_SHEET
_PLACE = "next-visit/{}"
#: Two rows of three on paper; more would push the list off its page.
MOST_PICTURES = 6


def next_visit(
    journal: Journal,
    job: Job,
    day: dt.date,
    hours: float | None = None,
    people: int | None = None,
    wish: Wish | None = None,
) -> tuple[VisitList, PlanInputs]:
    """Return what fits into a visit, and what it was chosen from.

    Hours and people are the job's own day and crew unless given. Raises what planning raises.
    """
    inputs = plan_inputs(journal, job)
    days = inputs.days
    found = plan_visit(
        inputs.items,
        inputs.links,
        job.phases,
        days.calendar,
        day,
        days.calendar.hours if hours is None else hours,
        days.means.crew if people is None else people,
        days.means,
        job.year_built,
        wish,
    )
    return _with_materials(journal, job, _discreet(found, inputs)), inputs


def _discreet(visit: VisitList, inputs: PlanInputs) -> VisitList:
    """Return a visit where what may be read by others quotes nothing private as its reason."""
    names = [i.name for i in inputs.items if i.private]
    not_yet = tuple(n if n.item.private else replace(n, why=unquoted(n.why, names)) for n in visit.not_yet)
    return replace(visit, not_yet=not_yet, notices=tuple(unquoted(n, names) for n in visit.notices))


def _with_materials(journal: Journal, job: Job, visit: VisitList) -> VisitList:
    """Return a visit with what the take-offs of its phases bring, and a notice of what is not there yet."""
    from journal_tui.journal.job_measures import load_on, load_words

    phases = tuple(dict.fromkeys(v.item.phase for v in visit.items))
    load = load_on(journal, job.id, phases, visit.day)
    late = tuple(f"{words}: its work waits for it" for words in load_words(load.held))
    return replace(visit, materials=load_words(load.bring), notices=(*visit.notices, *late))


def next_day(journal: Journal, job: Job) -> dt.date:
    """Return the first working day after today. Raises ``NoWorkingDay``."""
    days = plan_inputs(journal, job).days
    return days.calendar.next_workday(journal.today() + dt.timedelta(days=1))


def crew_sheet(journal: Journal, visit: VisitList, inputs: PlanInputs) -> CrewSheet:
    """Return a visit as the crew may read it: nothing private, no codes; pictures of what it is about."""
    roles = dict.fromkeys(name_parts([inputs.job.client]), "the client")
    tz = inputs.days.calendar.tz

    def crew(text: str) -> CrewText:
        shown = for_crew(text, Audience.CREW, roles)
        assert shown is not None  # only private text is kept from the crew
        return shown

    told = [(v.item.id, _line(v, inputs.punch[v.item.id], roles, tz)) for v in visit.items]
    lines, pictures, more = _with_pictures(
        journal, inputs, [(item_id, line) for item_id, line in told if line is not None]
    )
    needs = needs_of([v.item for v in visit.items if not v.item.private], inputs.job.year_built)
    return CrewSheet(
        crew_heading(inputs.job.name, inputs.job.client),
        crew(inputs.job.address),
        visit.day,
        from_minutes(visit.begins, tz).time(),
        from_minutes(visit.ends, tz).time(),
        visit.people,
        lines,
        _told(crew(m) for m in (*needs.load, *visit.materials)),
        needs.tools,
        _cautions(visit, inputs, needs, roles),
        _told(crew(p) for p in needs.photos),
        _told(_holds(visit, inputs, roles)),
        pictures,
        more,
    )


def _with_pictures(
    journal: Journal, inputs: PlanInputs, told: Sequence[tuple[str, CrewLine]]
) -> tuple[tuple[CrewLine, ...], tuple[CrewPicture, ...], int]:
    """Return the lines with the numbers of their pictures, the pictures, and how many are left out."""
    of_entry = record_queries.pictures_for_crew(journal.store, inputs.job.id)
    pictures: dict[str, CrewPicture] = {}
    lines, left_out = [], set[str]()
    for item_id, line in told:
        hashes = of_entry.get(inputs.punch[item_id].entry_id or "", [])
        for sha256 in hashes:
            if sha256 not in pictures and len(pictures) < MOST_PICTURES:
                pictures[sha256] = CrewPicture(sha256, line.area, line.text)
        shown = [sha256 for sha256 in hashes if sha256 in pictures]
        left_out |= set(hashes) - set(shown)
        numbers = list(pictures)
        lines.append(replace(line, pictures=tuple(numbers.index(sha256) + 1 for sha256 in shown)))
    return tuple(lines), tuple(pictures.values()), len(left_out)


def _cautions(
    visit: VisitList, inputs: PlanInputs, needs: Needs, roles: Mapping[str, str]
) -> tuple[str, ...]:
    """Return what the house's year, the work itself, and dangers seen and not settled call for."""
    from journal_tui.documents.cautions import crew_caution

    year = inputs.job.year_built
    on_visit = {v.item.id for v in visit.items}
    seen: dict[Hazard, list[str]] = {}
    for item in inputs.punch.values():
        if item.state is not PunchState.OPEN or not (item.kind is Kind.OBSERVATION or item.id in on_visit):
            continue
        area = for_crew(item.area, item.audience, roles)
        for hazard in item.hazards if area is not None else ():
            seen.setdefault(hazard, []).append(area or "")
    dangers = [crew_caution(hazard, seen[hazard]) for hazard in Hazard if hazard in seen]
    of_age = age_cautions(year) if year is not None else []
    return tuple(dict.fromkeys([*of_age, *needs.cautions, *dangers]))


def _told(texts: Iterable[CrewText | None]) -> tuple[CrewText, ...]:
    return tuple(dict.fromkeys(t for t in texts if t))


def _line(v: VisitItem, item: PunchItem, roles: dict[str, str], tz: dt.tzinfo) -> CrewLine | None:
    text, area = for_crew(item.text, item.audience, roles), for_crew(item.area, item.audience, roles)
    if text is None or area is None:
        return None
    wait = v.item.wait
    then = f"then {wait.hours:g} h by the clock ({wait.source}: {wait.note})" if wait.hours else ""
    then = for_crew(then, Audience.CREW, roles) or ""
    begins, ends = (dt.datetime.fromtimestamp(m * 60, tz).time() for m in (v.start, v.finish))
    heading = for_crew(v.heading, item.audience, roles) or ""
    return CrewLine(heading, area, text, begins, ends, v.item.people, v.left_hours, then)


def _holds(visit: VisitList, inputs: PlanInputs, roles: dict[str, str]) -> Iterable[CrewText | None]:
    """Return the open inspections and tests, which nothing may be closed over."""
    for item in inputs.items:
        if item.hold is None or item.released or not item.hold.kind.strict:
            continue
        punch = inputs.punch[item.id]
        booked = f", booked {short_day(item.hold.booked)}" if item.hold.booked else ", not booked"
        text = f"{punch.text}: {item.hold.kind.value}{booked}, no pass recorded"
        yield for_crew(text, punch.audience, roles)


def sheet_markdown(journal: Journal, visit: VisitList, inputs: PlanInputs) -> str:
    """Return the crew sheet of a visit as Markdown."""
    from journal_tui.documents.crew_sheet import crew_sheet_markdown

    return crew_sheet_markdown(crew_sheet(journal, visit, inputs))


def freeze(journal: Journal, visit: VisitList, inputs: PlanInputs) -> SentDocument:
    """Freeze a visit as a crew sheet: this exact text, with the date; the same one only once a day."""
    markdown = storable(sheet_markdown(journal, visit, inputs))
    before = next(iter(frozen_sheets(journal, inputs.job.id)), None)
    if before and (before.markdown, before.sent_on) == (markdown, journal.today()):
        return before
    # No job on the action: what was handed out cannot be taken back by undo.
    with journal.store.write(f"freeze the crew sheet for {short_day(visit.day)}") as w:
        sheet_id = w.insert(
            "documents",
            {
                "job_id": inputs.job.id,
                "kind": _KIND.value,
                "sent_on": journal.today().isoformat(),
                "markdown": markdown,
                "sha256": hashlib.sha256(markdown.encode()).hexdigest(),
            },
        )
    return next(d for d in frozen_sheets(journal, inputs.job.id) if d.id == sheet_id)


def frozen_sheets(journal: Journal, job_id: str) -> list[SentDocument]:
    """Return the crew sheets frozen for a job, newest first."""
    return queries.documents(journal.store, job_id, _KIND)


# The visit being put together ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class VisitPlan:
    """A visit being put together: kept as it is changed, until it is frozen."""

    day: dt.date
    hours: float | None = None
    people: int | None = None
    wish: Wish = field(default_factory=Wish)


def visit_plan(journal: Journal, job: Job) -> VisitPlan:
    """Return the visit being put together for a job, else one on the next working day."""
    kept = recall(journal, _PLACE.format(job.id))
    if kept:
        day, hours, people, without, first = json.loads(kept)
        plan = VisitPlan(dt.date.fromisoformat(day), hours, people, Wish(frozenset(without), tuple(first)))
        if plan.day >= journal.today():
            return plan
    return VisitPlan(next_day(journal, job))


def keep_visit_plan(journal: Journal, job: Job, plan: VisitPlan | None) -> None:
    """Keep the visit being put together; None forgets it."""
    text = ""
    if plan is not None:
        wish = [sorted(plan.wish.leave_out), list(plan.wish.first)]
        text = json.dumps([plan.day.isoformat(), plan.hours, plan.people, *wish])
    remember(journal, _PLACE.format(job.id), text)


def left_out(plan: VisitPlan, item_id: str) -> VisitPlan:
    """Return the visit without an item, or with it again when it was left out."""
    wish = plan.wish
    out = wish.leave_out - {item_id} if item_id in wish.leave_out else wish.leave_out | {item_id}
    return replace(plan, wish=Wish(out, tuple(i for i in wish.first if i != item_id)))


def taken_first(plan: VisitPlan, item_id: str) -> VisitPlan:
    """Return the visit with an item at its front."""
    rest = tuple(i for i in plan.wish.first if i != item_id)
    return replace(plan, wish=Wish(plan.wish.leave_out - {item_id}, (item_id, *rest)))
