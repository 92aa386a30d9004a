"""What is typed about an item of the plan, one answer at a time."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import one_line
from journal_tui.journal.days import day_typed
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan_items import link, record_result
from journal_tui.journal.punch import find_item
from journal_tui.planning.items import HoldResult, check_hours, check_people, check_wait


def _number(text: str) -> float | None:
    """Return the number typed, None for nothing. Raises ``BadInput``."""
    if not text.strip():
        return None
    try:
        return float(text.strip().lower().removesuffix("h").strip())
    except ValueError:
        raise BadInput(f'"{one_line(text)[:20]}" is no number', "Give hours such as 2 or 1.5.") from None


def hours_typed(text: str) -> float | None:
    """Return crew-hours as typed, None for nothing."""
    hours = _number(text)
    return None if hours is None else check_hours(hours)


def hours_wanted(text: str) -> float | None:
    """Return the hours of a wait as typed, None for nothing."""
    hours = _number(text)
    return None if hours is None else check_wait(hours)


def people_typed(text: str) -> int | None:
    """Return a number of people as typed, None for nothing."""
    people = _number(text)
    if people is None:
        return None
    if people != int(people):
        raise BadInput(f"{people:g} people", "Give a whole number.")
    return check_people(int(people))


def link_typed(journal: Journal, job: Job, after_id: str, words: str) -> PunchItem:
    """Make an item wait for the one that ``words`` name; return that one."""
    before = find_item(journal, job, words, states=(PunchState.OPEN, PunchState.DONE))
    link(journal, before.id, after_id)
    return before


def result_typed(
    journal: Journal, item_id: str, outcome: str, by: str, shown: str, found: str, day: str
) -> str:
    """Record a hold's result from the lines of a form; return what came of it in words.

    ``outcome`` is passed or failed (their first letters do); ``found`` lists what failed, with
    semicolons between; ``day`` is today when empty.
    """
    word = outcome.strip().lower()
    if not word or not any(full.startswith(word) for full in ("passed", "failed")):
        raise BadInput("passed or failed?", "Write passed, or failed and what was found.")
    passed = word.startswith("p")
    when: dt.date = day_typed(day, journal.today()) if day.strip() else journal.today()
    things = () if passed else tuple(f.strip() for f in found.split(";") if f.strip())
    recorded = record_result(journal, item_id, HoldResult(when, by.strip(), passed, things, shown.strip()))
    if passed:
        return "Passed. What waited for it may go on."
    count = len(recorded.corrections)
    made = "1 correction" if count == 1 else f"{count} corrections"
    return f"Failed. {made} and another look are on the punch list."
