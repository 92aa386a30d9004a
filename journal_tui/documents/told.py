"""What a letter tells, in the words it tells it in, and what it leaves out with the reason for it."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field, replace

from journal_tui.documents.asking import NO_ASK, Ask, ask_in, asks_reader, without_past_days
from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import (
    deed_in,
    tells_of_done_work,
    tells_what_we_did,
    tells_what_we_only_did,
    told_result,
    told_to_reader,
)
from journal_tui.documents.news import has_verb, unclear, warns, without_talk
from journal_tui.documents.plain_speech import plain_words, plainly, without_place
from journal_tui.documents.sentences import parts_of
from journal_tui.documents.settled import told_as_past
from journal_tui.documents.tone import calmed
from journal_tui.documents.wording import listed
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import WHOLE_ROOM, Hazard, Kind, Party
from journal_tui.domain.text import folded, one_line

NOT_NEWS = "talk, not news for the client"
TONE = "blames, alarms or swears, and no rule says it another way"
OVER = "asks for a day that is over: ask again, or close it"
NO_REQUEST = "waits on the client, but asks for nothing; say what is needed"
NO_CLEAR_REQUEST = "no rule makes a clear request of it, so its own words are told; say what is needed"
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
    today = facts.as_of
    asked = [fact for fact in told_once(facts.next) if asks_reader(fact.text)]
    needed = [fact for fact in told_once([*facts.needed, *asked]) if _asks(story, fact)]
    noted = [fact for fact in facts.needed if fact.kind is Kind.OBSERVATION and not _is_request(fact, today)]
    # What the reader or others have to move is told there, not twice.
    elsewhere = {_key(fact) for fact in (*facts.needed, *facts.waiting)} - {_key(fact) for fact in noted}
    # How an inspection came out, or what we did, was nobody's choice.
    results = [fact for fact in facts.decided if told_result(fact.text) or _only_done(fact)]
    found = [fact for fact in told_once([*facts.found, *noted, *results]) if _key(fact) not in elsewhere]
    finished = [fact for fact in found if tells_of_done_work(fact.text) or _only_done(fact)]
    story.finished = frozenset(map(id, finished))
    for fact in found:
        if fact not in finished:
            _take(story, story.found, fact)
    for fact in told_once(facts.decided):
        if fact not in results:
            _take(story, story.decided, fact)
    for fact in told_once([*finished, *facts.done]):
        _take(story, story.done if _is_told_as_done(fact, finished) else story.settled, fact, done=True)
    for fact in told_once(facts.next):
        if fact not in asked:
            _take(story, story.next, fact, ahead=True)
    _need(story, needed)
    for fact in told_once(facts.waiting):
        _wait(story, fact)
    return story


def _only_done(fact: ClientFact) -> bool:
    return fact.kind is Kind.DECISION and tells_what_we_only_did(plain_words(fact.text))


def _is_told_as_done(fact: ClientFact, finished: Sequence[ClientFact]) -> bool:
    """True when what is done can be told as work that was done, by its own words."""
    words = plain_words(without_place(fact))
    return (
        any(fact is one for one in finished)
        or tells_of_done_work(fact.text)
        or (fact.kind is Kind.NEXT_STEP and (deed_in(words) is not None or tells_what_we_did(words)))
    )


# What is asked ---------------------------------------------------------------------------------------------


def _ask(fact: ClientFact, today: dt.date) -> tuple[str, list[str], Ask]:
    """Return a request in a letter's words, what its tone left out of it, and how it is asked."""
    # Whom a request speaks to, it says itself: "client to pick" is told as "please pick".
    calm, loud = calmed(plainly(fact, today, ahead=True))
    said_on = fact.said_on or fact.day
    return calm, loud, ask_in(calm, said_on, today, named=_names_its_place(fact))


def _is_request(fact: ClientFact, today: dt.date) -> bool:
    ask = _ask(fact, today)[2]
    return bool(ask.over or (ask.lines and not ask.quoted))


def _asks(story: Story, fact: ClientFact) -> bool:
    """True when there is something left to ask for; what there is not is named to the remodeler."""
    today = story.facts.as_of
    if fact.kind is Kind.OBSERVATION and not _is_request(fact, today):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), NO_REQUEST, kept=True))
        return False
    ask = _ask(fact, today)[2]
    if ask.over and not ask.lines:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), OVER))
        return False
    return True


def _need(story: Story, needed: Sequence[ClientFact]) -> None:
    """Put each request where requests are told, one made in the same words on the same day only once."""
    merged: dict[tuple[object, ...], Told] = {}
    for number, fact in enumerate(needed):
        text, loud, ask = _ask(fact, story.facts.as_of)
        _note(story, fact, loud, TONE)
        _note(story, fact, ask.over, OVER)
        if ask.quoted:
            story.left_out.append(LeftOut(fact.area, one_line(fact.text), NO_CLEAR_REQUEST, kept=True))
        told = Told(fact, " ".join(ask.lines) or text, bool(fact.hazards), ask)
        # What was typed stands as often as it was typed; talk is drafted twice where it names two places.
        once = ask.lines if fact.spoken and ask.lines else number
        key = (once, fact.said_on or fact.day, fact.by, fact.held)
        same = merged.get(key)
        if same is not None:
            by = max(filter(None, (same.ask.asked_by, ask.asked_by)), default=None)
            told = replace(same, ask=replace(same.ask, asked_by=by), places=(*same.places, fact.area))
        merged[key] = told
    story.needed += merged.values()


_WILL = re.compile(r"\bwill\b", re.IGNORECASE)
#: "He wants" behind the name of a party: he is that party.
_HE = re.compile(r"^(?:he|she)(?=['’ ])", re.IGNORECASE)
_PARTY = {Party.INSPECTOR: "The inspector", Party.SUPPLIER: "The supplier"}


def _wait(story: Story, fact: ClientFact) -> None:
    calm, loud = calmed(plainly(fact, story.facts.as_of, ahead=True))
    _note(story, fact, loud, TONE)
    if fact.who in _PARTY:
        calm = _HE.sub(_PARTY[fact.who], calm)
    told = Told(fact, calm or one_line(fact.text), bool(fact.hazards))
    why = unclear(calm, named=_names_its_place(fact))
    if why:
        # What others owe may carry the only word of a day: better told as noted than not told.
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    story.waiting.append(told)


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
    # Work to come is a danger by its words; what it may hurt is warned of under its place all the same.
    danger = (warns(fact.text) or (bool(fact.hazards) and not ahead)) and not done
    whole = plainly(fact, story.facts.as_of, ahead=ahead, done=done)
    if not done:
        whole = told_to_reader(whole)
    if ahead or (fact.kind is Kind.DECISION and (deed_in(whole) or _WILL.search(whole))):
        whole = without_past_days(whole, fact.said_on or fact.day, story.facts.as_of)
    text, talk = without_talk(whole)
    if not text and warns(whole):
        text, talk = whole, []
    calm, loud = calmed(text)
    named = _names_its_place(fact)
    why = calm and unclear(calm, named=named)
    # Of work to come the part behind may be what it hangs on: "nothing goes on it until he signs".
    if why and not (done or danger or ahead):
        calm, rest = _clear_part(calm, named=named)
        story.left_out += [LeftOut(fact.area, part, why) for part in rest if calm]
        calm, why = (calm, "") if calm else (" ".join(rest), why)
    told = Told(fact, calm, danger)
    known = bool(conditions_in(fact.text, fact.area)) and not ahead and "run together" not in why
    if why and not done and (danger or known or fact.held or fact.hazards):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    elif why:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why))
        story.notes.append(told)
        return
    if part is story.settled and calm:
        past = told_as_past(calm, fact)
        told = replace(told, text=past or calm, quoted=past is None)
    _note(story, fact, talk, NOT_NEWS)
    _note(story, fact, loud, TONE)
    if calm:
        part.append(told)


def _clear_part(text: str, *, named: bool) -> tuple[str, list[str]]:
    """Return as much of a note from its front as can stand by itself, and the parts behind."""
    parts = parts_of(text)
    for end in range(len(parts) - 1, 0, -1):
        front = "; ".join(parts[:end])
        if has_verb(front) and not unclear(front, named=named):
            return front, parts[end:]
    return "", [text]


def _names_its_place(fact: ClientFact) -> bool:
    """True when a note was typed under the name of a thing: its "it" is that.

    A place the note itself names is where the thing is: "it's in the garage".
    """
    area = folded(fact.area)
    return not fact.spoken and area not in ("", WHOLE_ROOM) and area not in folded(without_place(fact))


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
