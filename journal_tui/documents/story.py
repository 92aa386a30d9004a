"""What a letter tells and what it leaves out, as it is kept while the letter is written."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from journal_tui.documents.asking import NO_ASK, Ask
from journal_tui.documents.wording import listed
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import Hazard, Kind, Party
from journal_tui.domain.text import folded

NOT_NEWS = "talk, not news for the client"
TONE = "blames, alarms or swears, and no rule says it another way"
OVER = "asks for a day that is over: ask again, or close it"
NO_REQUEST = "waits on the client, but asks for nothing; say what is needed"
NO_CLEAR_REQUEST = "no rule makes a clear request of it, so its own words are told; say what is needed"
SAYS_NOTHING = "says nothing to somebody who was not there"
BEHIND = (
    "open on the list, but it tells what is behind us, so it is told as done; close it, or say what is left"
)
NOT_ON_LIST = "told as work to come, but it was noted as seen: set its kind right, so that it is on the list"
SEEN_DONE = "its end was seen, and that is told"
TWICE = "told in the same words in another place"
SUMMED_UP = "summed up: less than the rest weighs"


@dataclass(frozen=True, slots=True)
class Told:
    """A fact and the ``text`` it is told in; ``danger`` when it warns of something not yet put right.

    ``ask`` is how it asks the reader for something; ``places`` are others where the same is asked;
    ``quoted`` when it can only be told in the words it was noted in.
    """

    fact: ClientFact
    text: str
    danger: bool = False
    ask: Ask = NO_ASK
    places: tuple[str, ...] = ()
    quoted: bool = False

    @property
    def area(self) -> str:
        """Where it is."""
        return listed([self.fact.area, *self.places])

    @property
    def phase(self) -> str:
        """The phase of work it belongs to."""
        return self.fact.phase

    @property
    def kind(self) -> Kind:
        """What it is."""
        return self.fact.kind

    @property
    def who(self) -> Party | None:
        """Whose move it is, or whose choice it was."""
        return self.fact.who

    @property
    def hazards(self) -> tuple[Hazard, ...]:
        """How it can hurt someone."""
        return self.fact.hazards

    @property
    def held(self) -> str | None:
        """What it waits for."""
        return self.fact.held


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Words of a note that a letter does not tell: where, the words themselves, and why.

    ``kept`` when they are told all the same, because they warn of a danger or ask for something.
    """

    area: str
    words: str
    why: str
    kept: bool = False


@dataclass(slots=True)
class Story:
    """All that a letter may tell, in its order.

    ``settled`` is what was found or chosen earlier and is dealt with; ``notes`` what cannot stand by
    itself in a letter; ``finished`` the facts (by ``id``) seen as found, or still on the list, that tell
    of work done; ``relieved`` those whose danger was dealt with by those who may.
    """

    facts: UpdateFacts
    found: list[Told] = field(default_factory=list)
    decided: list[Told] = field(default_factory=list)
    done: list[Told] = field(default_factory=list)
    settled: list[Told] = field(default_factory=list)
    next: list[Told] = field(default_factory=list)
    needed: list[Told] = field(default_factory=list)
    waiting: list[Told] = field(default_factory=list)
    notes: list[Told] = field(default_factory=list)
    left_out: list[LeftOut] = field(default_factory=list)
    finished: frozenset[int] = frozenset()
    relieved: frozenset[int] = frozenset()

    @property
    def bare(self) -> bool:
        """True when there is nothing to tell but what cannot stand by itself."""
        told = (*self.parts, self.needed, self.waiting, self.facts.changes)
        return not any(told)

    @property
    def parts(self) -> tuple[list[Told], ...]:
        """The parts of which a standard letter may sum up some."""
        return (self.found, self.decided, self.done, self.settled, self.next)


def by_place(told: Iterable[Told]) -> list[list[Told]]:
    """Return what is told in groups of one place, in order of the first of each."""
    return in_groups(told, lambda one: folded(one.area))


def in_groups(told: Iterable[Told], key: Callable[[Told], str]) -> list[list[Told]]:
    """Return what is told in groups of one key, in order of the first of each."""
    groups: dict[str, list[Told]] = {}
    for one in told:
        groups.setdefault(key(one), []).append(one)
    return list(groups.values())
