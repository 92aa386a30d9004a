"""The work week of a job, days off, and the days of licensed subs."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from journal_tui.cli.command import DONE, Command, number, opened, takes_job, whole
from journal_tui.cli.output import say
from journal_tui.cli.tables import say_wrapped
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day

if TYPE_CHECKING:
    from journal_tui.journal.work_days import WorkDays


def _week(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.work_days import WeekChange, set_week, work_days

    change = WeekChange(args.zone, args.days, args.begins, args.hours, args.holidays, args.crew, args.room)
    with opened(args) as journal:
        job = find_job(journal, args.job)
        days = work_days(journal, job.id) if change == WeekChange() else set_week(journal, job.id, change)
        _show(days, journal.today().toordinal())
    return DONE


def _show(days: WorkDays, today: int) -> None:
    from journal_tui.planning.calendar import DAY_NAMES

    calendar, means = days.calendar, days.means
    worked = ", ".join(DAY_NAMES[n] for n in sorted(calendar.weekdays))
    place = f"{days.country} {days.subdivision}".strip() or "none"
    said = [
        f"{worked}; from {calendar.begins.hour}:{calendar.begins.minute:02d}, {calendar.hours:g} h a day",
        f"time zone {calendar.zone}; public holidays: {place}",
        f"crew of {means.crew}; room for {means.room} at once",
    ]
    if not days.stated:
        said.append("Nobody has set this yet: it is the usual week.")
    for name, list_of in (("off", calendar.days_off), ("holiday", calendar.holidays)):
        for day, why in sorted(list_of.items()):
            if today <= day.toordinal() < today + 120:
                said.append(f"{name} {short_day(day)} {day.year}{f': {one_line(why)}' if why else ''}")
    said += [f"worked {short_day(d)} {d.year}" for d in sorted(calendar.extra_days) if d.toordinal() >= today]
    for sub in means.subs:
        weekdays = ", ".join(DAY_NAMES[n] for n in sorted(sub.weekdays or ()))
        dates = ", ".join(short_day(d) for d in sorted(sub.days or ()))
        away = ", ".join(short_day(d) for d in sorted(sub.away))
        when = "; ".join(filter(None, (weekdays, dates))) or "any working day"
        said.append(f"{one_line(sub.trade)}: {when}{f'; not {away}' if away else ''}")
    for text in (*said, *days.notices):
        say_wrapped(text)


def _week_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("--days", metavar="DAYS", help='the days worked: "mon-fri", "mon-thu, sat"')
    parser.add_argument("--begins", metavar="TIME", help="when the day begins: 7:30")
    parser.add_argument("--hours", metavar="H", type=number, help="hours a day")
    parser.add_argument("--zone", metavar="ZONE", help="the time zone: America/Chicago")
    parser.add_argument("--holidays", metavar="PLACE", help='whose public holidays: "US OH", or none')
    parser.add_argument("--crew", metavar="N", type=whole, help="people in the crew")
    parser.add_argument("--room", metavar="N", type=whole, help="people the room holds at once")


def _off(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.work_days import set_day, usual_day
    from journal_tui.planning.dates import date_ahead

    with opened(args) as journal:
        job = find_job(journal, args.job)
        day = date_ahead(" ".join(args.date), journal.today())
        if args.usual:
            usual_day(journal, job.id, day)
        else:
            set_day(journal, job.id, day, worked=args.worked, why=args.why)
    what = "as the week says" if args.usual else "worked" if args.worked else "off"
    say(f"{short_day(day)} {day.year}: {what}")
    return DONE


def _off_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("date", metavar="DAY", nargs="+", help='the day: friday, "next thu", 12/3')
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--worked", action="store_true", help="it is worked although it usually is not")
    how.add_argument("--usual", action="store_true", help="take back what was said of it")
    parser.add_argument("--why", metavar="TEXT", default="", help="why")


def _sub(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.work_days import set_sub, work_days

    with opened(args) as journal:
        job = find_job(journal, args.job)
        set_sub(journal, job.id, args.trade, weekdays=args.days, days=args.on or (), away=args.away or ())
        _show(work_days(journal, job.id), journal.today().toordinal())
    return DONE


def _sub_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("trade", metavar="TRADE", help="such as electrician")
    parser.add_argument("--days", metavar="DAYS", help='days of the week it can be had: "tue, thu"')
    parser.add_argument("--on", metavar="DAY", action="append", help="a day it can be had; again for each")
    parser.add_argument("--away", metavar="DAY", action="append", help="a day it cannot; again for each")


COMMANDS = (
    Command(
        "week",
        "Show or set a job's work week, holidays, crew and room.",
        _week,
        'week elm\nweek elm --days mon-thu --hours 10 --holidays "US OH" --crew 2 --room 2',
        _week_arguments,
    ),
    Command(
        "day",
        "Take a day off, or work on one that usually is.",
        _off,
        'day elm friday --why "crew at another job"\nday elm 12/5 --worked',
        _off_arguments,
    ),
    Command(
        "sub",
        "Say on which days a licensed sub can be had.",
        _sub,
        'sub elm electrician --days "tue, thu" --away 12/3',
        _sub_arguments,
        "Given again, the days replace those given before. Without days: any working day.",
    ),
)
