"""What is typed about an item of the plan, one answer at a time."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.days import day_typed
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.plan_items import book, link, planned_item, record_result, state, stated_of
from journal_tui.journal.punch import find_item, get_item
from journal_tui.journal.work_days import WeekChange, set_day, set_sub, set_week, usual_day, work_days
from journal_tui.planning.calendar import DAY_NAMES
from journal_tui.planning.dates import date_ahead
from journal_tui.planning.items import HoldResult, Stated, check_hours, check_people, check_wait


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


def link_typed(journal: Journal, after_id: str, words: str) -> str:
    """Make an item wait for the one that ``words`` name; say so."""
    job = get_job(journal, get_item(journal, after_id).job_id)
    before = find_item(journal, job, words, states=(PunchState.OPEN, PunchState.DONE))
    link(journal, before.id, after_id)
    return f"It waits for “{one_line(before.text)}”."


def booking_typed(journal: Journal, item_id: str, text: str) -> str:
    """Book the day of a hold as typed; "none" takes the booking back. Say what that means."""
    day = None if text.strip().lower() == "none" else date_ahead(text, journal.today())
    book(journal, item_id, day)
    return "Booked. Only a recorded result releases what follows." if day else "No longer booked."


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


# What an item takes, in lines ---------------------------------------------------------------------

#: The lines of the form of an item: their names and labels.
ITEM_FIELDS = (
    ("hours", "crew-hours"),
    ("people", "at once"),
    ("wait", "then wait h"),
    ("note", "wait from"),
    ("who", "who"),
    ("task", "common task"),
    ("order", "order"),
    ("closes", "covers work"),
    ("load", "load"),
)


def item_values(journal: Journal, job: Job, item_id: str) -> dict[str, tuple[str, str]]:
    """Return for each line what is stated of an item and, as its hint, what is assumed of it."""
    item = planned_item(journal, job, item_id)
    stated = stated_of(journal, job.id, item_id)

    def number(value: float | None) -> str:
        return "" if value is None else f"{value:g}"

    def word(value: bool | None, yes: str, no: str) -> str:
        return "" if value is None else yes if value else no

    who = "" if stated.sub is None else stated.sub or "crew"
    return {
        "hours": (number(stated.crew_hours), f"{item.crew_hours:g} by common practice"),
        "people": (number(stated.people), f"{item.people} by common practice"),
        "wait": (number(stated.wait_hours), f"{item.wait.hours:g} h by the clock ({item.wait.source})"),
        "note": (stated.wait_note or "", item.wait.note or "the label, or who said so"),
        "who": (who, item.sub or "crew"),
        "task": (stated.task or "", item.task or "none fits its words"),
        "order": (word(stated.free, "free", "in order"), "in order; or free of the order of phases"),
        "closes": (word(stated.closes, "yes", "no"), "yes" if item.closes else "no"),
        "load": (
            "; ".join(stated.materials or ()),
            "; ".join(item.materials) or "what to load, with ; between",
        ),
    }


def item_typed(journal: Journal, item_id: str, values: dict[str, str]) -> str:
    """State what the lines of an item's form say; an empty line is common practice again."""
    who = values["who"].strip()
    load = tuple(t.strip() for t in values["load"].split(";") if t.strip())
    wanted = Stated(
        crew_hours=hours_typed(values["hours"]),
        people=people_typed(values["people"]),
        wait_hours=hours_wanted(values["wait"]),
        wait_note=values["note"].strip() or None,
        sub=None if not who else "" if who.lower() == "crew" else who,
        task=values["task"].strip() or None,
        free=_either(values["order"], "free", "in order"),
        closes=_either(values["closes"], "yes", "no"),
        materials=load or None,
    )
    item = state(journal, item_id, wanted)
    count = len(item.stated)
    return "All of it common practice." if not count else f"{count} stated, the rest common practice."


def _either(text: str, yes: str, no: str) -> bool | None:
    word = text.strip().lower()
    if not word:
        return None
    for full, value in ((yes, True), (no, False)):
        if full.startswith(word):
            return value
    raise BadInput(f'"{one_line(text)[:20]}" is neither', f"Write {yes} or {no}, or nothing.")


# When and by whom, in lines -----------------------------------------------------------------------


def week_values(journal: Journal, job_id: str) -> list[tuple[str, str, str, str]]:
    """Return the lines of the form of a job's week: name, label, what it is now, a hint."""
    days = work_days(journal, job_id)
    calendar, means = days.calendar, days.means
    worked = ", ".join(DAY_NAMES[n][:3].lower() for n in sorted(calendar.weekdays))
    place = f"{days.country} {days.subdivision}".strip() or "none"
    return [
        ("weekdays", "days worked", worked, "mon-fri"),
        ("begins", "from", f"{calendar.begins.hour}:{calendar.begins.minute:02d}", "7:30"),
        ("hours", "hours a day", f"{calendar.hours:g}", "8"),
        ("crew", "people", str(means.crew), "2"),
        ("room", "room holds", str(means.room), "3"),
        ("holidays", "holidays", place, "US OH, or none"),
        ("zone", "time zone", calendar.zone, "America/Chicago"),
    ]


def week_typed(journal: Journal, job_id: str, values: dict[str, str]) -> str:
    """Set a job's week from the lines of its form; an empty line leaves things as they are."""
    change = WeekChange(
        zone=values["zone"].strip() or None,
        weekdays=values["weekdays"].strip() or None,
        begins=values["begins"].strip() or None,
        hours=hours_typed(values["hours"]),
        holidays=values["holidays"].strip() or None,
        crew=people_typed(values["crew"]),
        room=people_typed(values["room"]),
    )
    set_week(journal, job_id, change)
    return "The work week is set."


def day_off_typed(journal: Journal, job_id: str, text: str) -> str:
    """Take a day off, or with "worked" or "usual" before it work it, or leave it to the week again."""
    first, _, rest = text.strip().partition(" ")
    word = first.lower() if first.lower() in ("worked", "usual") else ""
    day = date_ahead(rest if word else text, journal.today())
    if word == "usual":
        usual_day(journal, job_id, day)
    else:
        set_day(journal, job_id, day, worked=word == "worked")
    told = {"worked": "is worked", "usual": "is as the week says"}.get(word, "is off")
    return f"{short_day(day)} {told}."


def sub_days_typed(journal: Journal, job_id: str, text: str) -> str:
    """Set the days of a sub from one line: ``electrician: tue, thu``; no days are any working day."""
    trade, _, days = text.partition(":")
    sub = set_sub(journal, job_id, trade, weekdays=days.strip() or None)
    if not sub.weekdays:
        return f"{sub.trade}: any working day."
    return f"{sub.trade}: {', '.join(DAY_NAMES[n] for n in sorted(sub.weekdays))}."
