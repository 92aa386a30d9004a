"""The plan and the next visit as text for a terminal, and the plan in its other forms."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Sequence
from enum import StrEnum
from typing import Any

from journal_tui.domain.kinds import Audience, Party
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.reading import client_heading
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.formats import padded, wrapped
from journal_tui.journal.plan import PlanInputs, PlanView
from journal_tui.journal.private_rows import marked_private, to_give_away, without_private_words
from journal_tui.journal.punch import HANDLE_LENGTH
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.chart import Chart, chart
from journal_tui.planning.compare import Moved
from journal_tui.planning.ics import calendar_file
from journal_tui.planning.items import PlanItem
from journal_tui.planning.rows import plan_csv, plan_json
from journal_tui.planning.tasks import TaskBook
from journal_tui.planning.visit import NotYet, VisitItem, VisitList, by_reason

_AREA = 14
_MOST_NAMED = 3


class PlanFormat(StrEnum):
    """What a plan can be written as."""

    TEXT = "text"
    JSON = "json"
    CSV = "csv"
    ICS = "ics"


def plan_in_format(view: PlanView, form: PlanFormat, *, width: int = 80, first: dt.date | None = None) -> str:
    """Return a plan as a bar chart with what it assumes, as JSON or CSV, or as an iCalendar file.

    ``width`` (terminal cells) and ``first`` (the first day drawn) only shape the chart.
    """
    name = view.inputs.job.name
    if form is PlanFormat.JSON:
        return plan_json(view.plan, name, without_private_words(view.plan)) + "\n"
    if form is PlanFormat.CSV:
        return plan_csv(view.plan, without_private_words(view.plan))
    if form is PlanFormat.ICS:
        return calendar_file(
            to_give_away(view.plan, view.inputs.job.client),
            client_heading(name),
            view.inputs.job.id,
            dt.datetime.now(dt.UTC),
        )
    return "\n".join(plan_lines(view, width, first)) + "\n"


def plan_lines(view: PlanView, width: int, first: dt.date | None = None) -> list[str]:
    """Return the chart of a plan, when it ends, what moved, and what it assumes."""
    lines = wrapped(f"Schedule: {one_line(view.inputs.job.name)}", width)
    if not view.plan.rows:
        return [*lines, "", "Nothing is open."]
    drawn = chart(marked_private(view.plan), width, first)
    lines += [
        *wrapped(end_line(view), width),
        "",
        *drawn.head,
        *bar_lines(drawn),
        "",
        *wrapped(drawn.legend, width),
    ]
    for text in (*moved_lines(view), *view.notices):
        lines += ["", *wrapped(text, width)] if text.startswith("Since") else wrapped(text, width)
    return lines


def bar_lines(drawn: Chart) -> list[str]:
    """Return each bar with the item it is of before it, cut to the room there is."""
    lines = []
    for name, bar in zip(drawn.names, drawn.bars, strict=True):
        whole = wrapped(name, drawn.label) or [""]
        label = whole[0] if len(whole) == 1 else wrapped(name, drawn.label - 1)[0] + "…"
        lines.append(f"{padded(label, drawn.label)} {bar}".rstrip())
    return lines


def end_line(view: PlanView) -> str:
    """Return when the plan ends, in words."""
    count = len(view.plan.rows)
    things = "1 item in the plan" if count == 1 else f"{count} items in the plan"
    end = view.plan.end_day
    return f"{things}; forecast end {short_day(end)} {end.year}, as far as it is known today"


def moved_lines(view: PlanView, most: int = 5) -> list[str]:
    """Return what moved since the plan as of the last visit: the end, then the largest moves."""
    moved, since = view.moved, view.since
    if moved is None or since is None:
        return []
    lines = [f"Since the plan of {short_day(since)}: {_end_moved(moved)}"]
    for move in moved.moves[:most]:
        lines.append(f"  {_days(move.days)}: {one_line(move.text)}")
    if len(moved.moves) > most:
        lines.append(f"  and {len(moved.moves) - most} more moved")
    if moved.new:
        lines.append(f"  {len(moved.new)} new on the list")
    if moved.gone:
        lines.append(f"  {len(moved.gone)} done or dropped")
    return lines


def _end_moved(moved: Moved) -> str:
    return "the end has not moved" if not moved.end_days else f"the end is {_days(moved.end_days)}"


def _days(days: float) -> str:
    count = f"{abs(days):g} working day" + ("" if abs(days) == 1 else "s")
    return f"{count} {'later' if days > 0 else 'sooner'}"


# The next visit --------------------------------------------------------------------------------


def visit_head(visit: VisitList, inputs: PlanInputs) -> str:
    """Return when, how many and how much of the time is put to use."""
    tz = inputs.days.calendar.tz
    begins, ends = (from_minutes(m, tz) for m in (visit.begins, visit.ends))
    people = "1 person" if visit.people == 1 else f"{visit.people} people"
    clock = f"{begins.hour}:{begins.minute:02d} to {ends.hour}:{ends.minute:02d}"
    return f"{short_day(visit.day)}, {people}, {clock}: fits {visit.used:g} of {visit.offered:g} h"


def visit_text(visit: VisitList, inputs: PlanInputs, width: int = 80) -> str:
    """Return the next visit as text: what to do, then what is not ready and why, then what to bring."""
    lines = wrapped(f"Next visit: {one_line(inputs.job.name)}", width)
    lines += wrapped(visit_head(visit, inputs), width)
    heading = None
    for v in visit.items:
        if v.heading != heading:
            heading = v.heading
            lines += ["", one_line(heading)]
        lines += _visit_lines(v, inputs, width)
    if not visit.items:
        lines += ["", "Nothing is ready for this visit."]
    if visit.not_yet:
        lines += ["", "not on this visit"]
    for reason, items in by_reason(visit.not_yet):
        lines += _labelled(_whose(reason), f"{_named(items)}: {reason.why}{_since(reason)}", width)
    for label, things in (
        ("load", visit.load),
        ("tools", visit.needs.tools),
        ("ask", tuple(f"{_owners(i)} (since {short_day(i.since)})" for i in visit.questions)),
    ):
        if things:
            lines += [
                "",
                *_labelled(label, "; ".join(things) if label == "ask" else ", ".join(things), width),
            ]
    if inputs.unsettled:
        lines += [
            "",
            *_labelled("unsettled", f"seen, and not in the plan: {_named(inputs.unsettled)}", width),
        ]
    for label, things in (("care", visit.needs.cautions), ("photos", visit.needs.photos)):
        if things:
            lines += ["", *(row for t in things for row in _labelled(label, one_line(t), width))]
    for text in (*inputs.days.notices, *visit.notices):
        lines += ["", *wrapped(text, width)]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def _visit_lines(v: VisitItem, inputs: PlanInputs, width: int) -> list[str]:
    handle = v.item.id[-HANDLE_LENGTH:]
    hours = f"{v.item.crew_hours - v.left_hours:g} h"
    tz = inputs.days.calendar.tz
    start = from_minutes(v.start, tz)
    left = f"  [ ] {handle}  "
    room = width - len(left) - _AREA - 2 - 9
    notes = [f"{start.hour}:{start.minute:02d}"]
    if v.item.people > 1:
        notes.append(f"{v.item.people} at once")
    if v.left_hours:
        notes.append(f"begun; {v.left_hours:g} h stay")
    if "crew_hours" not in v.item.stated:
        notes.append("hours by common practice")
    if v.item.wait.hours:
        notes.append(f"then {v.item.wait.hours:g} h by the clock ({v.item.wait.source})")
    area = wrapped(one_line(v.item.area), _AREA)
    right = wrapped(_owners(v.item), room)
    lines = []
    notes_lines = wrapped("; ".join(notes), room)
    body = [*right, *notes_lines]
    for row in range(max(len(area), len(body))):
        head = left if row == 0 else " " * len(left)
        place = area[row] if row < len(area) else ""
        text = body[row] if row < len(body) else ""
        tail = f"{hours:>8}" if row == 0 else ""
        lines.append(f"{head}{padded(place, _AREA)}  {padded(text, room)} {tail}".rstrip())
    return lines


def _labelled(label: str, text: str, width: int) -> list[str]:
    rows = wrapped(text, width - 12)
    return [f"  {label if n == 0 else '':<10}{row}" for n, row in enumerate(rows)]


def _whose(reason: NotYet) -> str:
    return (reason.whose or Party.CREW).value


def _named(items: Sequence[PlanItem | PunchItem]) -> str:
    names = [_owners(i) for i in items[:_MOST_NAMED]]
    more = f" and {len(items) - _MOST_NAMED} more" if len(items) > _MOST_NAMED else ""
    return "; ".join(names) + more


def _owners(item: PlanItem | PunchItem) -> str:
    """Return an item's words for its owner, marked when nobody else may read them."""
    private = item.private if isinstance(item, PlanItem) else item.audience is Audience.PRIVATE
    return f"private · {one_line(item.text)}" if private else one_line(item.text)


def _since(reason: NotYet) -> str:
    return f", since {short_day(reason.since)}" if reason.since and reason.since > dt.date.min else ""


def visit_json(visit: VisitList, inputs: PlanInputs) -> str:
    """Return the next visit as one JSON object (RFC 8259)."""
    tz = inputs.days.calendar.tz

    def local(minutes: int) -> str:
        return from_minutes(minutes, tz).isoformat(timespec="minutes")

    whole: dict[str, Any] = {
        "job": one_line(inputs.job.name),
        "day": visit.day.isoformat(),
        "begins": local(visit.begins),
        "ends": local(visit.ends),
        "people": visit.people,
        "used_hours": visit.used,
        "offered_hours": visit.offered,
        "items": [
            {
                **_item_json(v.item),
                "start": local(v.start),
                "finish": local(v.finish),
                "left_hours": v.left_hours,
            }
            for v in visit.items
        ],
        "not_yet": [
            {
                **_item_json(n.item),
                "why": n.why,
                "whose": _whose(n),
                "since": n.since.isoformat() if n.since else None,
            }
            for n in visit.not_yet
        ],
        "load": list(visit.load),
        "tools": list(visit.needs.tools),
        "cautions": list(visit.needs.cautions),
        "photos": list(visit.needs.photos),
        "questions": [_item_json(i) for i in visit.questions],
        "notices": [*inputs.days.notices, *visit.notices],
    }
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _item_json(item: PlanItem) -> dict[str, Any]:
    return {
        "id": item.id,
        "item": one_line(item.text),
        "phase": item.phase,
        "area": one_line(item.area),
        "private": item.private,
        "crew_hours": item.crew_hours,
        "people": item.people,
        "stated": sorted(item.stated),
    }


# One item -------------------------------------------------------------------------------------


def item_lines(item: PlanItem, width: int = 80) -> list[str]:
    """Return what the plan takes an item to be, every figure marked as stated or common practice."""

    def by(name: str) -> str:
        return "stated" if name in item.stated else "common practice"

    lines = wrapped(one_line(item.text), width)
    lines += wrapped(f"  taken {item.taken_as}", width)
    if item.hold is not None:
        booked = f"booked {short_day(item.hold.booked)}" if item.hold.booked else "no date booked"
        last = item.hold.results[-1] if item.hold.results else None
        result = "no result recorded"
        if last is not None:
            result = f"{'passed' if last.passed else 'failed'} {short_day(last.day)}, {one_line(last.by)}"
        lines += _labelled("hold", f"{item.hold.kind.value}; {booked}; {result}", width)
    if not item.waits_elsewhere:
        lines += _labelled("work", f"{item.crew_hours:g} crew-hours ({by('crew_hours')})", width)
        lines += _labelled("people", f"{item.people} at once ({by('people')})", width)
        lines += _labelled("who", f"{item.sub or 'crew'} ({by('sub')})", width)
    if item.wait.hours:
        note = f": {one_line(item.wait.note)}" if item.wait.note else ""
        lines += _labelled("wait", f"{item.wait.hours:g} h by the clock ({item.wait.source}{note})", width)
    if item.closes:
        lines += _labelled("closes", f"covers other work ({by('closes')})", width)
    if item.office or item.free:
        lines += _labelled("order", "free of the order of phases", width)
    if item.materials:
        materials = ", ".join(map(one_line, item.materials))
        lines += _labelled("load", f"{materials} ({by('materials')})", width)
    return lines


def task_lines(book: TaskBook, width: int = 80) -> list[str]:
    """Return the common tasks, one after another: phase, hours, people, wait, hold, what goes before."""
    lines: list[str] = []
    for task in book.tasks.values():
        who = task.trade or ("from the phone or the truck" if task.office else f"{task.people} at once")
        said = [f"{task.phase or 'any phase'}", f"{task.hours:g} crew-hours", who]
        if task.wait_hours:
            said.append(f"then {task.wait_hours:g} h ({task.wait_source})")
        if task.hold:
            said.append(f"hold: {task.hold}")
        if task.closes:
            said.append("covers other work")
        if task.after:
            said.append(f"after {', '.join(task.after)}")
        lines += wrapped(one_line(task.name), width)
        lines += [f"  {row}" for row in wrapped(one_line("; ".join(said)), width - 2)]
    return lines


# For screens ----------------------------------------------------------------------------------


def short_end(view: PlanView) -> str:
    """Return how much is planned and when it ends, in few words: not all that is open is work yet."""
    return f"{len(view.plan.rows)} planned, ends {short_day(view.plan.end_day)}"


def short_head(visit: VisitList) -> str:
    """Return when a visit is, how many come and how much of the time is used, in few words."""
    people = "1 person" if visit.people == 1 else f"{visit.people} people"
    return f"{short_day(visit.day)}, {people}, {visit.used:g} of {visit.offered:g} h"


def visit_item_words(v: VisitItem, inputs: PlanInputs) -> str:
    """Return all about an item on the visit, on one line."""
    start, finish = (from_minutes(m, inputs.days.calendar.tz) for m in (v.start, v.finish))
    said = [one_line(v.item.text), f"{start.hour}:{start.minute:02d} to {finish.hour}:{finish.minute:02d}"]
    said.append(f"{v.item.people} at once")
    if v.left_hours:
        said.append(f"begun, {v.left_hours:g} h stay for another day")
    said.append("hours stated" if "crew_hours" in v.item.stated else "hours by common practice")
    if v.item.wait.hours:
        said.append(f"then {v.item.wait.hours:g} h by the clock ({v.item.wait.source})")
    return " · ".join(said)


def not_yet_words(n: NotYet) -> str:
    """Return why an item is not on the visit, whose move it is and since when, on one line."""
    return f"{one_line(n.item.text)}: {n.why} · {_whose(n)}{_since(n)}"


def bring_lines(visit: VisitList, inputs: PlanInputs) -> tuple[str, ...]:
    """Return what to ask, load, bring, heed and photograph, a line each kind, and what is assumed."""
    lines = []
    for label, things in (
        ("ask the client", tuple(one_line(i.text) for i in visit.questions)),
        ("load", visit.load),
        ("tools", visit.needs.tools),
        ("care", visit.needs.cautions),
        ("photograph", visit.needs.photos),
    ):
        if things:
            joined = " ".join(things) if label == "care" else "; ".join(things)
            lines.append(f"{label}: {joined}")
    if inputs.unsettled:
        lines.append(f"seen, not settled, and not in the plan: {_named(inputs.unsettled)}")
    return (*lines, *inputs.days.notices, *visit.notices)
