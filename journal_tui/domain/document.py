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


@dataclass(frozen=True, slots=True)
class ClientFact:
    """One entry or punch item as the client may read it."""

    kind: Kind
    phase: str
    area: ClientText
    text: ClientText
    day: dt.date
    who: Party | None = None
    hazards: tuple[Hazard, ...] = ()


@dataclass(frozen=True, slots=True)
class UpdateFacts:
    """All a client update is made from. ``since`` is the date of the last one sent, if any.

    ``next`` is in punch order; ``needed`` is what waits on the client; ``waiting`` on others.
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

    @property
    def empty(self) -> bool:
        """True when there is nothing to tell."""
        return not (self.found or self.decided or self.done or self.next or self.needed or self.waiting)


@dataclass(frozen=True, slots=True)
class SentDocument:
    """A document as it was sent: its exact text and date, never changed again."""

    id: str
    job_id: str
    kind: DocumentKind
    sent_on: dt.date
    markdown: str
    sha256: str


@dataclass(frozen=True, slots=True)
class Run:
    """Words of a document in one weight: plain, strong or with emphasis."""

    text: str
    strong: bool = False
    emphasis: bool = False


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
