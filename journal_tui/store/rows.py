"""Rows to things and things to rows: the only place that knows how each is spelled in the file."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from journal_tui.domain.draft import Draft, OwnWord, Repair
from journal_tui.domain.entry import Entry
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Audience, Hazard, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.store.store import Row

if TYPE_CHECKING:
    from journal_tui.domain.document import SentDocument


def _party(value: str | None) -> Party | None:
    return Party(value) if value else None


def _day(value: str | None) -> dt.date | None:
    return dt.date.fromisoformat(value) if value else None


def hazards_in(value: str) -> tuple[Hazard, ...]:
    """Return the hazards a row lists."""
    return tuple(Hazard(h) for h in json.loads(value))


def listed(values: Iterable[object]) -> str:
    """Return a list of words as a row keeps it."""
    return json.dumps([str(v) for v in values], ensure_ascii=False)


def job(row: Row) -> Job:
    """Return the job a row holds."""
    return Job(
        id=row["id"],
        name=row["name"],
        client=row["client"],
        address=row["address"],
        scope=row["scope"],
        year_built=row["year_built"],
        private_note=row["private_note"],
        phases=tuple(json.loads(row["phases"])),
        created_at=row["created_at"],
    )


def visit(row: Row) -> Visit:
    """Return the visit a row holds, joined with its recording's name and length."""
    return Visit(
        id=row["id"],
        job_id=row["job_id"],
        day=dt.date.fromisoformat(row["day"]),
        people=row["people"],
        summary=row["summary"],
        recording_id=row["recording_id"],
        recording_name=row["recording_name"] or "",
        length=row["length"] or 0.0,
    )


def entry(row: Row) -> Entry:
    """Return the entry a row holds, joined with its visit's day and whether it is still open."""
    return Entry(
        id=row["id"],
        job_id=row["job_id"],
        visit_id=row["visit_id"],
        day=dt.date.fromisoformat(row["day"]),
        kind=Kind(row["kind"]),
        phase=row["phase"],
        area=row["area"],
        text=row["text"],
        who=_party(row["who"]),
        hazards=hazards_in(row["hazards"]),
        audience=Audience(row["audience"]),
        start=row["start"],
        end=row["end"],
        open=bool(row["open"]),
    )


def draft(row: Row) -> Draft:
    """Return the draft a row holds."""
    return Draft(
        start=row["start"],
        end=row["end"],
        kind=Kind(row["kind"]),
        phase=row["phase"],
        area=row["area"],
        text=row["text"],
        open=bool(row["open"]),
        who=_party(row["who"]),
        hazards=hazards_in(row["hazards"]),
        why=row["why"],
        heard=row["heard"],
        measures=tuple(json.loads(row["measures"] or "[]")),
        repairs=tuple(Repair(*pair) for pair in json.loads(row["repairs"] or "[]")),
        learned=tuple(json.loads(row["learned"] or "[]")),
        audience=Audience(row["audience"]),
    )


def draft_row(thing: Draft, visit_id: str) -> dict[str, Any]:
    """Return a new draft as a row waiting for review."""
    return {
        "visit_id": visit_id,
        "kind": thing.kind.value,
        "phase": thing.phase,
        "area": thing.area,
        "text": thing.text,
        "open": int(thing.open),
        "who": thing.who.value if thing.who else None,
        "hazards": listed(thing.hazards),
        "audience": thing.audience.value,
        "start": float(thing.start),
        "end": float(thing.end),
        "why": thing.why,
        "heard": thing.heard,
        "measures": listed(thing.measures),
        "repairs": json.dumps([[r.heard, r.shown] for r in thing.repairs], ensure_ascii=False),
        "learned": listed(thing.learned),
        "state": "waiting",
        "entry_id": None,
        "joined_into": None,
    }


def entry_row(thing: Draft, job_id: str, visit_id: str, *, timed: bool) -> dict[str, Any]:
    """Return a kept draft as an entry's row; ``timed`` False leaves out when it was said."""
    return {
        "job_id": job_id,
        "visit_id": visit_id,
        "kind": thing.kind.value,
        "phase": thing.phase,
        "area": thing.area,
        "text": thing.text,
        "who": thing.who.value if thing.who else None,
        "hazards": listed(thing.hazards),
        "audience": thing.audience.value,
        "start": float(thing.start) if timed else None,
        "end": float(thing.end) if timed else None,
    }


def punch_row(thing: Draft, job_id: str, entry_id: str | None, since: dt.date) -> dict[str, Any]:
    """Return what a draft leaves open as a punch item's row."""
    return {
        "job_id": job_id,
        "entry_id": entry_id,
        "kind": thing.kind.value,
        "phase": thing.phase,
        "area": thing.area,
        "text": thing.text,
        "who": (thing.who or Party.CREW).value,
        "hazards": listed(thing.hazards),
        "audience": thing.audience.value,
        "state": PunchState.OPEN.value,
        "since": since.isoformat(),
        "closed": None,
    }


def punch_item(row: Row) -> PunchItem:
    """Return the punch item a row holds, joined with where it came from."""
    return PunchItem(
        id=row["id"],
        job_id=row["job_id"],
        phase=row["phase"],
        area=row["area"],
        text=row["text"],
        since=dt.date.fromisoformat(row["since"]),
        who=_party(row["who"]),
        kind=Kind(row["kind"]),
        state=PunchState(row["state"]),
        closed=_day(row["closed"]),
        hazards=hazards_in(row["hazards"]),
        audience=Audience(row["audience"]),
        entry_id=row["entry_id"],
        visit_day=_day(row["visit_day"]),
        said_at=row["said_at"],
    )


def own_word(row: Row) -> OwnWord:
    """Return the learned word a row holds."""
    return OwnWord(row["phrase"], row["area"], row["phase"])


def document(row: Row) -> SentDocument:
    """Return the sent document a row holds."""
    # Loaded when a document is: opening the screens does not wait for it.
    from journal_tui.domain.document import DocumentKind, SentDocument

    return SentDocument(
        id=row["id"],
        job_id=row["job_id"],
        kind=DocumentKind(row["kind"]),
        sent_on=dt.date.fromisoformat(row["sent_on"]),
        markdown=row["markdown"],
        sha256=row["sha256"],
        frozen_at=dt.datetime.fromisoformat(row["created_at"]),
    )


def still_row(draft_id: str, sha256: str, moment: float, width: int, height: int) -> dict[str, Any]:
    """Return a draft's still as its row."""
    return {
        "draft_id": draft_id,
        "sha256": sha256,
        "moment": float(moment),
        "width": width,
        "height": height,
    }
