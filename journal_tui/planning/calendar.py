"""The work calendar: when work runs, and waits that run on the clock whatever day it is.

Instants are whole minutes since 1970-01-01T00:00Z, so that adding a wait is adding minutes, also
across nights, weekends and a change of the clocks; the zone only says where a shift begins.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day

#: The unit work is planned in.
SLOT_MINUTES = 15
#: A calendar without a working day for this long has none: it is refused, not searched further.
MOST_IDLE_DAYS = 400

EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)
DAY_NAMES = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class NoWorkingDay(BadInput):
    """The calendar has no day left on which work could go on."""


def to_minutes(moment: dt.datetime) -> int:
    """Return an aware datetime as whole minutes since the epoch, seconds cut."""
    if moment.tzinfo is None:
        raise ValueError("a moment needs its zone")
    return int((moment - EPOCH).total_seconds() // 60)


def from_minutes(minutes: int, zone: ZoneInfo | dt.timezone = dt.UTC) -> dt.datetime:
    """Return minutes since the epoch as a datetime in ``zone``."""
    return (EPOCH + dt.timedelta(minutes=minutes)).astimezone(zone)


@lru_cache(maxsize=32)
def zone_named(name: str) -> ZoneInfo:
    """Return the IANA zone, or raise BadInput naming it."""
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise BadInput(
            "No such time zone", f'"{one_line(name)}"; give one like "America/Chicago" or "UTC"'
        ) from None


@dataclass(frozen=True)
class WorkCalendar:
    """When the crew works.

    ``weekdays`` 0 is Monday. A shift begins at ``begins`` (local time) and lasts ``hours`` (a
    multiple of a quarter hour) by the clock. ``days_off`` and ``holidays`` map dates to why.
    ``extra_days`` are worked although they are no weekday or a holiday; a day off wins over it.
    Raises BadInput for hours out of range and NoWorkingDay when no weekday is worked.
    """

    zone: str = "UTC"
    weekdays: frozenset[int] = frozenset(range(5))
    begins: dt.time = dt.time(8, 0)
    hours: float = 8.0
    holidays: Mapping[dt.date, str] = field(default_factory=dict)
    days_off: Mapping[dt.date, str] = field(default_factory=dict)
    extra_days: frozenset[dt.date] = frozenset()

    def __post_init__(self) -> None:
        zone_named(self.zone)
        if not 0 < self.hours <= 24 or self.hours * 60 % SLOT_MINUTES:
            raise BadInput(
                "Hours a day cannot be used", f"{self.hours:g}; give quarter hours between 0.25 and 24"
            )
        minutes = self.begins.hour * 60 + self.begins.minute + self.hours * 60
        if minutes > 24 * 60:
            raise BadInput("The working day runs past midnight", f"{self.hours:g} h from {self.begins:%H:%M}")
        if not self.weekdays <= frozenset(range(7)):
            raise BadInput("A weekday is out of range", "0 is Monday, 6 is Sunday")
        if not self.weekdays and not self.extra_days:
            raise NoWorkingDay("No working day", "no day of the week is worked; choose at least one")

    @property
    def tz(self) -> ZoneInfo:
        """The job's zone."""
        return zone_named(self.zone)

    @property
    def day_slots(self) -> int:
        """Quarter hours in a working day."""
        return int(self.hours * 60) // SLOT_MINUTES

    def why_off(self, day: dt.date) -> str | None:
        """Return why nobody works on ``day``, None when it is worked."""
        if day in self.days_off:
            return self.days_off[day] or "day off"
        if day in self.extra_days:
            return None
        if day in self.holidays:
            return self.holidays[day] or "holiday"
        return None if day.weekday() in self.weekdays else DAY_NAMES[day.weekday()]

    def is_workday(self, day: dt.date) -> bool:
        """True when work runs on ``day``."""
        return self.why_off(day) is None

    def shift(self, day: dt.date) -> tuple[int, int]:
        """Return when work begins and ends on ``day``, in minutes since the epoch."""
        begin = to_minutes(dt.datetime.combine(day, self.begins, tzinfo=self.tz))
        return begin, begin + self.day_slots * SLOT_MINUTES

    def day_of(self, minutes: int) -> dt.date:
        """Return the local date at an instant."""
        return from_minutes(minutes, self.tz).date()

    def next_workday(self, day: dt.date) -> dt.date:
        """Return ``day`` or the first worked day after it; NoWorkingDay when there is none."""
        for ahead in range(MOST_IDLE_DAYS):
            try:
                candidate = day + dt.timedelta(days=ahead)
            except OverflowError:
                break
            if self.is_workday(candidate):
                return candidate
        raise NoWorkingDay(
            "No working day left",
            f"from {short_day(day)} {day.year} the calendar has no working day in {MOST_IDLE_DAYS} days;"
            " look at the work week, the holidays and the days off",
        )

    def work_minutes(self, begin: int, end: int) -> int:
        """Return how many minutes of work lie between two instants (0 when ``end`` is earlier)."""
        total = 0
        day, last = self.day_of(begin), self.day_of(end)
        while day <= last:
            if self.is_workday(day):
                opens, closes = self.shift(day)
                total += max(0, min(end, closes) - max(begin, opens))
            day += dt.timedelta(days=1)
        return total

    def add_work(self, begin: int, minutes: int) -> int:
        """Return when ``minutes`` of work begun at ``begin`` are done; off time stretches it."""
        day = self.day_of(begin)
        while True:
            day = self.next_workday(day)
            opens, closes = self.shift(day)
            here = max(begin, opens)
            if here < closes or (minutes == 0 and here == closes):
                if here + minutes <= closes:
                    return here + minutes
                minutes -= closes - here
            day += dt.timedelta(days=1)


def public_holidays(country: str, subdivision: str | None, years: Iterable[int]) -> dict[dt.date, str]:
    """Return the public holidays of a country (ISO 3166-1 code) and part of it, by the holidays library.

    Raises BadInput for a country or subdivision the library does not know.
    """
    import holidays

    try:
        found = holidays.country_holidays(country, subdiv=subdivision, years=list(years))
    except (NotImplementedError, KeyError, AttributeError, ValueError):
        place = f"{country} {subdivision}" if subdivision else country
        raise BadInput(
            "No holidays known for that place",
            f'"{one_line(place)}"; give a country code such as US and a state such as OH',
        ) from None
    return {day: str(name) for day, name in sorted(found.items())}
