"""What a house should remember: what is behind each surface, and what it was finished with."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from journal_tui.domain.reading import ClientText


@dataclass(frozen=True, slots=True)
class Distance:
    """How far something is from a fixed point that will still be there: "the door jamb", ``34 1/2 in``."""

    point: ClientText
    length: str


@dataclass(frozen=True, slots=True)
class HiddenTest:
    """A test or inspection: what it was, what was read at it, whether it passed, and on which day.

    ``result`` is None where only passing or not is known; ``stills`` are the hashes of its pictures.
    """

    what: ClientText
    result: ClientText | None
    passed: bool
    day: dt.date
    stills: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class HiddenWork:
    """One thing behind a surface: what, its size, where it is, when it was seen and when covered.

    ``place`` is none, one or two distances; with two, and the surface, a thing can be found again.
    ``stills`` are the hashes of its pictures.
    """

    surface: ClientText
    what: ClientText
    size: ClientText
    place: tuple[Distance, ...]
    seen: dt.date
    covered: dt.date | None = None
    tests: tuple[HiddenTest, ...] = ()
    stills: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Finish:
    """Something the house was finished with, told without its maker: what to buy again and how to keep it."""

    area: ClientText
    what: ClientText
    description: ClientText
    lot: ClientText
    care: ClientText
    placed: dt.date | None = None
    warranty: dt.date | None = None


@dataclass(frozen=True, slots=True)
class SignOff:
    """Who accepted the finished job, how it was said, and on which day."""

    by: ClientText
    how: str
    day: dt.date
    note: ClientText


@dataclass(frozen=True, slots=True)
class HouseRecord:
    """All a house's record is made from. ``passed`` are inspections and tests of the job as a whole.

    ``open_items`` is how many punch items were open; ``closing`` adds finishes and the sign-off.
    """

    title: ClientText
    address: ClientText
    day: dt.date
    works: tuple[HiddenWork, ...] = ()
    passed: tuple[HiddenTest, ...] = ()
    finishes: tuple[Finish, ...] = ()
    sign_off: SignOff | None = None
    open_items: int = 0
    closing: bool = False
