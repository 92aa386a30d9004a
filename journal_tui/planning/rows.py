"""The plan as plain rows, for tables, CSV (RFC 4180) and JSON (RFC 8259)."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

from journal_tui.domain.text import one_line
from journal_tui.planning.calendar import from_minutes
from journal_tui.planning.explain import why_not_sooner
from journal_tui.planning.jobplan import JobPlan, PlanRow

#: What a spreadsheet takes for a formula when a cell begins with it.
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def plan_rows(plan: JobPlan, told: JobPlan | None = None) -> list[dict[str, Any]]:
    """Return one row per open item, in order of start. Instants are ISO 8601 in the job's zone.

    Hours of float and slack are working hours (for an answer without a booked date too). ``told`` is
    the same plan in the words that the reasons of rows not private may use.
    """
    return [_row(plan, row, plan if told is None or row.item.private else told) for row in plan.rows]


def _row(plan: JobPlan, row: PlanRow, told: JobPlan) -> dict[str, Any]:
    item, made = row.item, row.row

    def local(minutes: int) -> str:
        return from_minutes(minutes, plan.calendar.tz).isoformat(timespec="minutes")

    return {
        "id": item.id,
        "item": one_line(item.text),
        "phase": item.phase,
        "area": one_line(item.area),
        "private": item.private,
        "who": item.sub or (str(item.who) if item.who else "crew"),
        "crew_hours": None if row.is_hold else item.crew_hours,
        "people": None if row.is_hold else item.people,
        "taken_as": item.task,
        "stated": sorted(item.stated),
        "start": local(made.start),
        "finish": local(made.finish),
        "clear": local(row.clear),
        "wait_hours": item.wait.hours,
        "wait_source": item.wait.source if item.wait.hours else None,
        "hold": item.hold.kind.value if item.hold else None,
        "assumed": row.assumed,
        "early_start": local(made.early_start),
        "early_finish": local(made.early_finish),
        "late_start": local(made.late_start),
        "late_finish": local(made.late_finish),
        "total_float_hours": made.total_float / 4,
        "free_float_hours": made.free_float / 4,
        "slack_hours": made.slack / 4,
        "critical": made.critical,
        "ready": row.ready.ready,
        "why_not_sooner": why_not_sooner(told, item.id),
    }


def plan_json(plan: JobPlan, job_name: str, told: JobPlan | None = None) -> str:
    """Return the plan as one JSON object: when it was made, when it ends, its rows and notices.

    Reasons of rows not private, and the notices, are worded as in ``told``.
    """
    tz = plan.calendar.tz
    whole = {
        "job": one_line(job_name),
        "zone": plan.calendar.zone,
        "as_of": from_minutes(plan.now, tz).isoformat(timespec="minutes"),
        "end": from_minutes(plan.end, tz).isoformat(timespec="minutes"),
        "items": plan_rows(plan, told),
        "notices": list((told or plan).notices),
    }
    return json.dumps(whole, ensure_ascii=False, indent=1)


def plan_csv(plan: JobPlan, told: JobPlan | None = None) -> str:
    """Return the plan as CSV with a header line; a cell that would act as a formula is quoted with '.

    Reasons of rows not private are worded as in ``told``.
    """
    rows = plan_rows(plan, told)
    out = io.StringIO()
    if rows:
        writer = csv.writer(out)  # CRLF, as RFC 4180 has it
        writer.writerow(rows[0])
        writer.writerows([[_cell(v) for v in row.values()] for row in rows])
    return out.getvalue()


def _cell(value: object) -> object:
    if isinstance(value, list):
        value = "; ".join(map(str, value))
    if isinstance(value, str) and value.startswith(_FORMULA):
        return "'" + value
    return "" if value is None else value
