"""Documents and the facts they are made from. Text in them has already passed ``domain.reading``."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum

from journal_tui.domain.kinds import Hazard, Kind, Party
from journal_tui.domain.reading import ClientText


class DocumentKind(StrEnum):
    """What was sent."""

    CLIENT_UPDATE = "client update"
    CREW_SHEET = "crew sheet"
    CHANGE_ORDER = "change order"
    RECORD = "record"


class Length(StrEnum):
    """How much an update says: a message for a phone, what matters now, or all there is."""

    SHORT = "short"
    STANDARD = "standard"
    FULL = "full"


@dataclass(frozen=True, slots=True)
class ClientFact:
    """One entry or punch item as the client may read it.

    ``begins`` and ``ends`` are the days the plan has work for it, ``by`` the day an answer is needed
    by, each None while no plan says so; ``held`` is what it waits for, in words. ``still`` is the hash
    of a picture that shows it. ``said_on`` is the day it was said on when that is not ``day``;
    ``spoken`` when it was said in a recording, not typed under the name of its place.
    """

    kind: Kind
    phase: str
    area: ClientText
    text: ClientText
    day: dt.date
    who: Party | None = None
    hazards: tuple[Hazard, ...] = ()
    begins: dt.date | None = None
    ends: dt.date | None = None
    by: dt.date | None = None
    held: ClientText | None = None
    still: str | None = None
    said_on: dt.date | None = None
    spoken: bool = False


@dataclass(frozen=True, slots=True)
class ChangeFact:
    """A change order as an update tells of it: what it does to the price (cents) and the days of work.

    ``answer`` is None while none has come, then whether it was yes; ``day`` is when it was sent or
    answered.
    """

    number: int
    title: ClientText
    cents: int
    days: int
    day: dt.date
    answer: bool | None


@dataclass(frozen=True, slots=True)
class TermsFact:
    """The contract as it stands with every answered change: ``cents``, and the promised last day."""

    cents: int
    finish: dt.date | None = None


@dataclass(frozen=True, slots=True)
class UpdateFacts:
    """All a client update is made from. ``since`` is the date of the last one sent, if any.

    ``next`` is in punch order; ``needed`` is what waits on the client; ``waiting`` on others.
    ``changes`` are the change orders sent or answered since; ``terms`` the contract as it stands;
    ``finish`` the last day of work by the plan.
    """

    title: ClientText
    address: ClientText
    as_of: dt.date
    since: dt.date | None
    visits: tuple[dt.date, ...]
    found: tuple[ClientFact, ...] = ()
    decided: tuple[ClientFact, ...] = ()
    done: tuple[ClientFact, ...] = ()
    next: tuple[ClientFact, ...] = ()
    needed: tuple[ClientFact, ...] = ()
    waiting: tuple[ClientFact, ...] = ()
    changes: tuple[ChangeFact, ...] = ()
    terms: TermsFact | None = None
    finish: dt.date | None = None

    @property
    def empty(self) -> bool:
        """True when there is nothing to tell."""
        told = (self.found, self.decided, self.done, self.next, self.needed, self.waiting, self.changes)
        return not any(told)


@dataclass(frozen=True, slots=True)
class SentDocument:
    """A document as it was sent: its exact text and date, never changed again.

    ``frozen_at`` is the instant it was frozen (aware, UTC).
    """

    id: str
    job_id: str
    kind: DocumentKind
    sent_on: dt.date
    markdown: str
    sha256: str
    frozen_at: dt.datetime


@dataclass(frozen=True, slots=True)
class Run:
    """Words of a document in one weight: plain, strong or with emphasis.

    ``picture`` is the place of a picture that stands here instead, ``text`` then what it shows.
    """

    text: str
    strong: bool = False
    emphasis: bool = False
    picture: str = ""


class BlockKind(StrEnum):
    """What a stretch of a document is."""

    HEADING = "heading"
    PARAGRAPH = "paragraph"
    CODE = "code"
    RULE = "rule"


@dataclass(frozen=True, slots=True)
class Block:
    """A heading (``level`` 1 to 6), paragraph or the like of a document, as it reads.

    ``mark`` is the number or dash of the list item it begins; ``depth`` how many lists and quotes it
    stands in.
    """

    kind: BlockKind
    runs: tuple[Run, ...]
    level: int = 0
    mark: str = ""
    depth: int = 0


@dataclass(frozen=True, slots=True)
class MomentFact:
    """An entry as the client may read it, and the moment (seconds) of the recording it was said at."""

    start: float
    kind: Kind
    area: ClientText
    text: ClientText


@dataclass(frozen=True, slots=True)
class ChapterFacts:
    """All that the chapters of a visit's recording are made from; ``length`` in seconds."""

    title: ClientText
    day: dt.date
    length: float
    moments: tuple[MomentFact, ...]


@dataclass(frozen=True, slots=True)
class Chapter:
    """A stretch of a recording (seconds): a ``title`` to step to, and all ``lines`` that are told of it."""

    start: float
    end: float
    title: str
    lines: tuple[str, ...]
