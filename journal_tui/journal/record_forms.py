"""The record of a house as it is typed into forms: every field a line of text."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from journal_tui.domain.change_order import Channel
from journal_tui.domain.errors import BadInput, about
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.days import day_typed
from journal_tui.journal.entries import find_entry, get_entry
from journal_tui.journal.house_record import (
    FinishWords,
    WorkWords,
    add_finish,
    add_test,
    add_work,
    cover,
    get_finish,
    get_test,
    get_work,
    sign_off,
)
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.record_changes import change_finish, change_test, change_work
from journal_tui.journal.typed import MOST_TYPED
from journal_tui.store import queries
from journal_tui.store.store import Row

Values = Mapping[str, str]

_WORK = ("surface", "what", "size", "from_a", "length_a", "from_b", "length_b", "seen", "covered")
_TEST = ("what", "outcome", "found", "by", "day")
_FINISH = ("area", "what", "description", "lot", "care", "placed", "warranty")


def fields_of_work(journal: Journal, work_id: str | None, entry_id: str | None = None) -> dict[str, str]:
    """Return a hidden work as its form holds it; of a new one, what its entry says when it rests on one."""
    if work_id is not None:
        row = get_work(journal, work_id)
        entry = queries.entry(journal.store, row["entry_id"]) if row["entry_id"] else None
        return {**_held(row, _WORK), "entry": entry.text[:MOST_TYPED] if entry else ""}
    fields = dict.fromkeys((*_WORK, "entry"), "")
    if entry_id is not None:
        entry = get_entry(journal, entry_id)
        what = entry.text[:MOST_TYPED].rstrip(".")
        fields |= {"surface": entry.area, "what": what, "seen": entry.day.isoformat()}
    return fields


def save_work(
    journal: Journal, job_id: str, work_id: str | None, values: Values, entry_id: str | None = None
) -> str:
    """Put the hidden work a form holds on record, or set one right; return its id.

    ``entry_id`` is the entry it rests on; without it the form's own words name one. Raises ``BadInput``
    about the field that is wrong.
    """
    entry_id = entry_id or _entry_named(journal, job_id, work_id, values.get("entry", ""))
    pairs = ((values["from_a"], values["length_a"]), (values["from_b"], values["length_b"]))
    # Only the second left out: the first keeps its place, so that what is wrong is said beside it.
    points = pairs if _any(*pairs[1]) else pairs[:1] if _any(*pairs[0]) else ()
    seen = _day(journal, values, "seen")
    if seen is None and entry_id is not None:
        seen = get_entry(journal, entry_id).day
    words = WorkWords(
        values["surface"],
        values["what"],
        values["size"],
        points,
        seen,
        _day(journal, values, "covered"),
        entry_id,
    )
    if work_id is None:
        return add_work(journal, job_id, words)
    change_work(journal, work_id, words)
    return work_id


def _entry_named(journal: Journal, job_id: str, work_id: str | None, words: str) -> str | None:
    if not words.strip():
        return None
    if work_id is not None and words == fields_of_work(journal, work_id)["entry"]:
        # Left as it was: the same one, also where others say the same.
        kept: str = get_work(journal, work_id)["entry_id"]
        return kept
    with about("entry"):
        return find_entry(journal, get_job(journal, job_id), words).id


def _any(*texts: str) -> bool:
    return any(text.strip() for text in texts)


def fields_of_test(journal: Journal, test_id: str | None) -> dict[str, str]:
    """Return a test as its form holds it."""
    if test_id is None:
        return dict.fromkeys(_TEST, "")
    row = get_test(journal, test_id)
    outcome = "passed" if row["passed"] else "failed"
    return {
        "what": row["what"],
        "outcome": outcome,
        "found": row["result"],
        "by": row["by"],
        "day": row["day"],
    }


def save_test(journal: Journal, work_id: str, test_id: str | None, values: Values) -> str:
    """Put the test a form holds on record, or set one right; return its id.

    Raises ``BadInput`` about the field that is wrong.
    """
    with about("outcome"):
        word = folded(values["outcome"])
        if not word or not any(full.startswith(word) for full in ("passed", "failed")):
            raise BadInput("passed or failed?", "Write one of the two; p or f will do.")
    passed, day = word.startswith("p"), _day(journal, values, "day")
    what, found, by = values["what"], values["found"], values["by"]
    if test_id is None:
        return add_test(journal, get_work(journal, work_id), what, found, passed=passed, by=by, day=day)
    change_test(journal, test_id, what, found, passed=passed, by=by, day=day)
    return test_id


def save_cover(journal: Journal, work_id: str, text: str) -> dt.date:
    """Say as typed when a hidden work was covered, today for an empty line; return the day."""
    day = day_typed(text, journal.today()) if text.strip() else journal.today()
    cover(journal, get_work(journal, work_id), day)
    return day


def fields_of_finish(journal: Journal, finish_id: str | None) -> dict[str, str]:
    """Return a finish as its form holds it."""
    return dict.fromkeys(_FINISH, "") if finish_id is None else _held(get_finish(journal, finish_id), _FINISH)


def save_finish(journal: Journal, job_id: str, finish_id: str | None, values: Values) -> str:
    """Put the finish a form holds on record, or set one right; return its id.

    Raises ``BadInput`` about the field that is wrong.
    """
    placed = _day(journal, values, "placed")
    with about("warranty"):
        warranty = last_day(values["warranty"]) if values["warranty"].strip() else None
    words = FinishWords(
        values["area"], values["what"], values["description"], values["lot"], values["care"], placed, warranty
    )
    if finish_id is None:
        return add_finish(journal, job_id, words)
    change_finish(journal, finish_id, words)
    return finish_id


def save_sign_off(journal: Journal, job_id: str, values: Values) -> None:
    """Record the acceptance a form holds. Raises ``BadInput`` about the field that is wrong."""
    with about("how"):
        wanted = folded(values["how"]) or Channel.SIGNED.value
        found = [how for how in Channel if how.value.startswith(wanted)]
        if len(found) != 1:
            known = ", ".join(how.value for how in Channel)
            raise BadInput(f'how it was said: "{one_line(values["how"])[:20]}"', f"One of: {known}.")
    sign_off(journal, job_id, values["by"], found[0], day=_day(journal, values, "day"), note=values["note"])


def last_day(text: str) -> dt.date:
    """Return the last day of a warranty as typed, years ahead: ``2036-03-12``. Raises ``BadInput``."""
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise BadInput(f'"{one_line(text)[:20]}" is no date', "Write it like 2036-03-12.") from None


def _held(row: Row, fields: tuple[str, ...]) -> dict[str, str]:
    return {field: row[field] or "" for field in fields}


def _day(journal: Journal, values: Values, field: str) -> dt.date | None:
    with about(field):
        return day_typed(values[field], journal.today()) if values[field].strip() else None
