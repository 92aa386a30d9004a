"""What a standard update tells in full, and what it sums up, so that it is read in two or three minutes.

What warns of a danger is told whatever the length, and so is all that is asked of the reader, every
change of price or days, and what waits on others: those are no parts of what is chosen from here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import deed_in, is_errand, tells_of_done_work, told_result
from journal_tui.documents.news import has_verb, relieves, tells_fault, weighty
from journal_tui.documents.story import SUMMED_UP, LeftOut, Story, Told
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.text import one_line

#: A letter of more words than this is condensed: about three minutes at the 238 words a minute that adults
#: read silently (Brysbaert, "How many words do we read per minute?", J. of Memory and Language 109, 2019).
MOST_WORDS = 700
#: Words each part may take when a letter is condensed; what is summed up takes one sentence more.
_ROOM = {"found": 110, "decided": 100, "done": 100, "settled": 70, "next": 90}
#: How much of that room they are given: the most that keeps the letter short enough, else the least.
SHARES = tuple(n / 20 for n in range(2, 41))
#: A note longer than this says more than a standard letter has room for.
_LONG = 30


#: So many reasons a condensed letter gives at most, and so many when there is hardly room.
_REASONS, _FEW_REASONS, _HARDLY = 4, 2, 0.45


@dataclass(frozen=True, slots=True)
class Chosen:
    """A story with only what is told in full.

    ``rest`` is what is summed up, by part; ``reasons`` how many reasons are given, None for all.
    """

    story: Story
    rest: dict[str, list[Told]] = field(default_factory=dict)
    reasons: int | None = None

    @property
    def summed_up(self) -> list[LeftOut]:
        """What is summed up, for the remodeler to see."""
        return [
            LeftOut(one.area, one_line(one.fact.text), SUMMED_UP)
            for part in self.rest.values()
            for one in part
        ]


def without_errands(story: Story) -> Chosen:
    """Return a story that only counts what was fetched or asked for, and what has to be quoted as settled.

    A letter of nothing else tells it all the same.
    """
    rest = {
        "done": [one for one in story.done if _is_errand(one)],
        "settled": [one for one in story.settled if one.quoted],
    }
    if len(rest["done"]) == len(story.done):
        rest["done"] = []
    if not story.done and len(rest["settled"]) == len(story.settled):
        rest["settled"] = []
    out = {id(one) for part in rest.values() for one in part}
    told = replace(story)
    for name in rest:
        setattr(told, name, [one for one in getattr(story, name) if id(one) not in out])
    return Chosen(told, rest)


def _is_errand(one: Told) -> bool:
    """True for work that is little news: what was fetched or asked, and what the reader did themselves."""
    if one.who is Party.CLIENT and one.kind is Kind.NEXT_STEP:
        return not one.fact.held
    deed = deed_in(one.text)
    return (
        deed is not None and is_errand(deed) and one.kind is Kind.NEXT_STEP and not (one.held or one.danger)
    )


def choose(story: Story, share: float) -> Chosen:
    """Return what of a story is told when each part has only a ``share`` (0 to 1) of its room."""
    told_story = replace(story)
    rest: dict[str, list[Told]] = {}
    for name, room in _ROOM.items():
        part: Sequence[Told] = getattr(story, name)
        told = _heaviest(part, room * share)
        setattr(told_story, name, [one for one in part if id(one) in told])
        rest[name] = [one for one in part if id(one) not in told]
    return Chosen(told_story, rest, _FEW_REASONS if share < _HARDLY else _REASONS)


def _heaviest(part: Sequence[Told], room: float) -> set[int]:
    """Return which of a part are told: all dangers, then what weighs most while there is room."""
    told: set[int] = set()
    # Of two that weigh alike the newer is more news.
    order = sorted(part, key=lambda one: (-weight(one), -one.fact.day.toordinal()))
    for one in order:
        words = len(one.text.split())
        if one.danger or one.held:
            told.add(id(one))
        elif words <= room and weight(one) >= 0:
            told.add(id(one))
            room -= words
    return told


@lru_cache(4096)
def weight(one: Told) -> int:
    """Return how much something weighs with a home owner, more is more."""
    if one.quoted:
        return -1
    words = one.text.split()
    clear = (1 if has_verb(one.text) else -1) - (1 if len(words) > _LONG else 0)
    if _is_errand(one):
        clear -= 2
    if one.danger or (one.kind is Kind.OBSERVATION and relieves(one.text)):
        return 5 + clear
    # What is finished or passed is news before the chores that led there; why a fault matters is told of
    # what is found only.
    finished = one.kind is Kind.OBSERVATION and tells_of_done_work(one.text)
    found = one.kind is Kind.OBSERVATION and not finished
    known = 2 if found and conditions_in(one.fact.text, one.area) else 0
    known = known or (1 if found and tells_fault(one.text) else 0)
    news = (2 if weighty(one.text) else 0) + (2 if told_result(one.text) else 1 if finished else 0)
    # Their own choices, and what their move hangs on.
    chosen = 2 if one.kind is not Kind.NEXT_STEP and one.who is Party.CLIENT else 0
    shown = 2 if one.hazards else 1 if one.fact.still or one.fact.begins else 0
    return known + news + chosen + shown + clear
