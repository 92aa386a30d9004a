"""What a letter tells, in the words it tells it in, and what it leaves out with the reason for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import tells_of_done_work, told_to_reader
from journal_tui.documents.news import unclear, warns, without_talk
from journal_tui.documents.plain_speech import plainly
from journal_tui.documents.tone import calmed
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import WHOLE_ROOM, Hazard, Kind, Party
from journal_tui.domain.text import folded, one_line

NOT_NEWS = "talk, not news for the client"
TONE = "blames, alarms or swears, and no rule says it another way"
SUMMED_UP = "summed up: less than the rest weighs"


@dataclass(frozen=True, slots=True)
class Told:
    """A fact and the ``text`` it is told in; ``danger`` when it warns of something not yet put right."""

    fact: ClientFact
    text: str
    danger: bool = False

    @property
    def area(self) -> str:
        """Where it is."""
        return self.fact.area

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
    itself in a letter; ``finished`` the facts (by ``id``) seen as found that tell of work done.
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

    @property
    def bare(self) -> bool:
        """True when there is nothing to tell but what cannot stand by itself."""
        told = (*self.parts, self.needed, self.waiting, self.facts.changes)
        return not any(told)

    @property
    def parts(self) -> tuple[list[Told], ...]:
        """The parts of which a standard letter may sum up some."""
        return (self.found, self.decided, self.done, self.settled, self.next)


def story_of(facts: UpdateFacts) -> Story:
    """Return what a letter of ``facts`` may tell, nothing twice, each in plain words."""
    story = Story(facts)
    # What the reader or others have to move is told there, not twice.
    elsewhere = {_key(fact) for fact in (*facts.needed, *facts.waiting)}
    found = [fact for fact in told_once(facts.found) if _key(fact) not in elsewhere]
    finished = [fact for fact in found if tells_of_done_work(fact.text)]
    story.finished = frozenset(map(id, finished))
    for fact in found:
        if fact not in finished:
            _take(story, story.found, fact)
    for fact in told_once(facts.decided):
        _take(story, story.decided, fact)
    for fact in told_once([*finished, *facts.done]):
        work = fact.kind is Kind.NEXT_STEP or fact in finished or tells_of_done_work(fact.text)
        _take(story, story.done if work else story.settled, fact, done=True)
    for fact in told_once(facts.next):
        _take(story, story.next, fact, ahead=True)
    for fact in told_once(facts.needed):
        # Whom a request speaks to, it says itself: "client to pick" is told as "please pick".
        story.needed.append(_always(story, fact, plainly(fact, facts.as_of, ahead=True)))
    for fact in told_once(facts.waiting):
        story.waiting.append(_always(story, fact, plainly(fact, facts.as_of, ahead=True)))
    return story


def told_once(facts: Iterable[ClientFact]) -> list[ClientFact]:
    """Return ``facts`` without those that say in the same place what an earlier one said."""
    seen: dict[tuple[str, str], ClientFact] = {}
    for fact in facts:
        if one_line(fact.text):
            seen.setdefault(_key(fact), fact)
    return list(seen.values())


def _key(fact: ClientFact) -> tuple[str, str]:
    return folded(fact.area), folded(fact.text).rstrip(".! ")


def _take(
    story: Story, part: list[Told], fact: ClientFact, *, ahead: bool = False, done: bool = False
) -> None:
    """Put a fact where it is told, and what of it is not told among what is left out."""
    danger = (bool(fact.hazards) or warns(fact.text)) and not done
    whole = plainly(fact, story.facts.as_of, ahead=ahead, done=done)
    if not done:
        whole = told_to_reader(whole)
    text, talk = without_talk(whole)
    if not text and warns(whole):
        text, talk = whole, []
    calm, loud = calmed(text)
    told = Told(fact, calm, danger)
    why = calm and unclear(calm, work=ahead or fact.kind is Kind.NEXT_STEP, named=_names_its_place(fact))
    known = bool(conditions_in(fact.text, fact.area)) and not done and "run together" not in why
    if why and (danger or known or warns(fact.text) or fact.held):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    elif why:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why))
        story.notes.append(told)
        return
    _note(story, fact, talk, NOT_NEWS)
    _note(story, fact, loud, TONE)
    if calm:
        part.append(told)


def _always(story: Story, fact: ClientFact, text: str) -> Told:
    calm, loud = calmed(text)
    _note(story, fact, loud, TONE)
    why = unclear(calm, work=True, named=_names_its_place(fact))
    if why and not why.startswith("it is a question"):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    return Told(fact, calm or text, bool(fact.hazards))


def _names_its_place(fact: ClientFact) -> bool:
    """True when a note was typed under the name of a thing: its "it" is that."""
    return not fact.spoken and folded(fact.area) not in ("", WHOLE_ROOM)


def _note(story: Story, fact: ClientFact, words: Sequence[str], why: str) -> None:
    story.left_out += [LeftOut(fact.area, part, why) for part in words if part]


def by_place(told: Iterable[Told]) -> list[list[Told]]:
    """Return what is told in groups of one place, in order of the first of each."""
    return in_groups(told, lambda one: folded(one.area))


def in_groups(told: Iterable[Told], key: Callable[[Told], str]) -> list[list[Told]]:
    """Return what is told in groups of one key, in order of the first of each."""
    groups: dict[str, list[Told]] = {}
    for one in told:
        groups.setdefault(key(one), []).append(one)
    return list(groups.values())
