"""What shows of an entry's phase, of work still owed on it, of whose move it is, of danger.

The models over these features start from what the word lists say outright and learn from
labelled walk-throughs where that has to be bent.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from journal_tui.domain.kinds import OTHER_PHASE, STANDARD_PHASES, Kind, Party
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.features import Clause, clause_of
from journal_tui.walkthrough.drafting.kinds import Leaning
from journal_tui.walkthrough.drafting.linear import Models, beside
from journal_tui.walkthrough.drafting.remembered import of_one_talk
from journal_tui.walkthrough.drafting.senses import senses_of
from journal_tui.walkthrough.drafting.things import things_in, topic_before
from journal_tui.walkthrough.drafting.utterances import Utterance

PHASES = (*STANDARD_PHASES, OTHER_PHASE)
NOBODY = "nobody"
PARTIES = (NOBODY, *(party.value for party in Party))
YES, NO = "yes", "no"
#: Who can stand against an entry of each kind.
POSSIBLE = {
    Kind.OBSERVATION: (NOBODY, Party.INSPECTOR.value),
    Kind.DECISION: (Party.CREW.value, Party.CLIENT.value, Party.INSPECTOR.value),
    Kind.NEXT_STEP: tuple(party.value for party in Party),
}


@dataclass(frozen=True)
class Stretch:
    """One entry in its talk: utterances ``first`` to ``last`` of ``utterances``, and its kind."""

    utterances: Sequence[Utterance]
    first: int
    last: int
    kind: Kind

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """Look-up forms of all its words."""
        if self.first == self.last:
            return self.utterances[self.first].keys
        return tuple(key for u in self.utterances[self.first : self.last + 1] for key in u.keys)


def phase_features(stretch: Stretch, before: str, talk: Iterable[str]) -> list[str]:
    """Return what shows of the phase; ``before`` is the phase of the entry before ("" for none) and
    ``talk`` the phases much of the recording is about."""
    keys = stretch.keys
    things = things_in(keys)
    leading = [t for t in things if t.leads]
    phases = list(dict.fromkeys(t.phase for t in leading))
    own = str(min(2, len(phases)))
    found = ["bias", f"kind:{stretch.kind.value}"]
    for thing in things:
        part = ("sure" if thing.sure else "weak") if thing.leads else "aside"
        found += [f"{part}:{thing.phase}", f"{part} name:{thing.name}"]
    if leading:
        found += [f"first:{leading[0].phase}", f"last:{leading[-1].phase}"]
    if len(phases) == 1:
        found.append(f"only:{phases[0]}")
    found += [f"before:{before}, own {own}", f"before:{before}, {stretch.kind.value}, own {own}"]
    topic = topic_before(stretch.utterances, stretch.first)
    if topic:
        thing, back = topic
        if not any(t.sure for t in leading):
            found.append(f"topic {'sure' if thing.sure else 'weak'}:{thing.phase}")
        near = "near" if back == 1 else "far"
        found += [f"topic:{thing.phase}, own {own}", f"topic {near}:{thing.phase}, own {own}"]
        found.append(f"topic name:{thing.name}, {'none' if own == '0' else 'some'} own")
    found += [f"talk:{phase}, own {own}" for phase in talk]
    found += _around(stretch)
    found += [f"danger:{name}" for _a, _b, name in vocabulary.hazards().found(keys)]
    found += [f"party:{name}" for _a, _b, name in vocabulary.parties().found(keys)]
    plain = vocabulary.singulars(keys)
    found += [f"w:{key}" for key in plain]
    found += [f"two:{a}_{b}" for a, b in pairwise(plain)]
    found += _senses(stretch)
    found += _pairs(keys)
    common = vocabulary.common_words()
    for a, b in pairwise(keys):
        found += [f"{a}_se:{name}" for name in senses_of(b)] if a in common else []
        found += [f"se:{name}_{b}" for name in senses_of(a)] if b in common else []
    return list(dict.fromkeys(found))


#: How far off things still tell what is being talked about: utterances back or on, and what that is called.
_BACK = {1: "near", 2: "near", 3: "off", 4: "off", 5: "far", 6: "far", 7: "far", 8: "far"}
_ON = {1: "near", 2: "near", 3: "off", 4: "off", 5: "off"}


def _around(stretch: Stretch) -> list[str]:
    """Return the phases of the things named before and after an entry."""
    found: list[str] = []
    sides = (("past", stretch.first, -1, _BACK), ("next", stretch.last, 1, _ON))
    for side, edge, step, distances in sides:
        for apart, distance in distances.items():
            at = edge + step * apart
            if not 0 <= at < len(stretch.utterances):
                break
            leading = [t.phase for t in things_in(stretch.utterances[at].keys) if t.leads]
            found += [f"{side} {distance}:{phase}" for phase in leading]
            if side == "next" and apart == 1:
                found += [f"after:{phase}" for phase in leading]
    return found


#: Utterances back and on whose senses tell what is being talked about, and what that is called.
_NEAR = {-3: "long past", -2: "long past", -1: "past", 1: "next", 2: "long next"}


def _senses(stretch: Stretch) -> list[str]:
    """Return the senses of an entry's own words and of those said around it."""
    inside = stretch.utterances[stretch.first : stretch.last + 1]
    found = [f"se:{name}" for u in inside for name in clause_of(u).senses]
    for step, side in _NEAR.items():
        at = (stretch.first if step < 0 else stretch.last) + step
        if 0 <= at < len(stretch.utterances):
            found += [f"se {side}:{name}" for name in clause_of(stretch.utterances[at]).senses]
    return found


@of_one_talk
def _pairs(keys: tuple[str, ...]) -> list[str]:
    """Return the senses of each two words said one after the other: "loose" and what is loose."""
    return [
        f"senses:{first}_{second}"
        for a, b in pairwise(keys)
        for first in senses_of(a)
        for second in senses_of(b)
    ]


#: What the word lists say outright: the pull of a feature towards its own phase before training, in
#: hundredths.
OUTRIGHT = {"sure": 200, "weak": 70, "aside": 30, "topic sure": 100, "topic weak": 40}


def phase_start() -> dict[str, list[int]]:
    """Return the phase weights training starts from."""
    return {
        f"{part}:{phase}": [pull if phase == other else 0 for other in PHASES]
        for part, pull in OUTRIGHT.items()
        for phase in PHASES
    }


@dataclass(frozen=True, slots=True)
class Place:
    """An entry's neighbours: the kind of the one before and of the one after, "" for none, and whether
    each stands close by (two utterances or fewer away); and what its words, and those said next, lean to."""

    before: str
    after: str
    leans: tuple[str, ...] = ()


#: Leanings are told apart in steps of so many of the weights' units, as many each way.
_STEP, _STEPS = 600, 4
#: How many utterances after an entry may still say what is to be done about it.
_AHEAD = 3
#: How many words at the head of what is said next may tell it.
_NEXT_WORDS = 4
#: How many words after a "no" or "not" it denies.
_REACH = 4


def place_between(
    stretch: Stretch, before: Stretch | None, after: Stretch | None, leanings: Sequence[Leaning] = ()
) -> Place:
    """Return how ``stretch`` stands between the entries around it, and in the ``leanings`` of its talk."""

    def seen(other: Stretch | None) -> str:
        if other is None:
            return ""
        apart = max(stretch.first - other.last, other.first - stretch.last) - 1
        return f"{other.kind.value} {'close' if apart <= 2 else 'off'}"

    return Place(seen(before), seen(after), _leans(stretch, leanings) if leanings else ())


def _leans(stretch: Stretch, leanings: Sequence[Leaning]) -> tuple[str, ...]:
    def step(units: int) -> int:
        return max(-_STEPS, min(_STEPS, units // _STEP))

    inside = leanings[stretch.first : stretch.last + 1]
    seen = max(one.found for one in inside)
    found = [
        f"inside leans owed:{step(max(one.owed for one in inside) - seen)}",
        f"inside leans chosen:{step(max(one.chosen for one in inside) - seen)}",
    ]
    ahead = leanings[stretch.last + 1 : stretch.last + 1 + _AHEAD]
    if ahead:
        found += [
            f"ahead leans owed:{step(max(one.owed for one in ahead))}",
            f"ahead leans chosen:{step(max(one.chosen for one in ahead))}",
            f"next leans owed:{step(ahead[0].owed)}",
            f"next leans found:{step(ahead[0].found)}",
        ]
    return tuple(found)


def entry_features(stretch: Stretch, place: Place) -> list[str]:
    """Return what shows of work still owed, of whose move it is and of danger."""
    inside: list[Clause] = [clause_of(u) for u in stretch.utterances[stretch.first : stretch.last + 1]]
    keys, kind = stretch.keys, stretch.kind.value
    found = ["bias", f"kind:{kind}", f"after:{place.after}", f"before:{place.before}"]
    found += [f"{kind}, after:{place.after}", f"{kind}, before:{place.before}"]
    for clause in inside:
        found += [f"after:{place.after}, s:{sign}" for sign in clause.signs]
    for thing in things_in(keys):
        found += [f"thing:{thing.phase}", f"name:{thing.name}"]
    for clause in inside:
        found += [name for name in clause.own if not name.startswith(("first", "len:"))]
        found += [f"{kind}, s:{sign}" for sign in clause.signs]
    found += [f"{kind}, {name}" for name in inside[0].own if name.startswith(("st:", "head:", "g:"))]
    found += _pairs(keys)
    found += _denied(keys)
    for party in sorted({name for _a, _b, name in vocabulary.parties().found(keys)}):
        found += [f"party:{party}", f"{kind}, party:{party}"]
    found += [f"danger:{name}" for _a, _b, name in vocabulary.hazards().found(keys)]
    found += place.leans
    found += _said_next(stretch)
    if stretch.first:
        found += [f"prior s:{sign}" for sign in clause_of(stretch.utterances[stretch.first - 1]).signs]
    return list(dict.fromkeys(found))


def _denied(keys: Sequence[str]) -> list[str]:
    """Return what stands within reach of a "no" or "not": no rot is good news, no blocking is not."""
    negation = vocabulary.grammar()["negation"]
    found: list[str] = []
    left = 0
    for key in keys:
        if key in negation:
            left = _REACH
        elif left:
            left -= 1
            found += [f"no {vocabulary.stem(key)}", *(f"no se:{name}" for name in senses_of(key))]
    return found


def _said_next(stretch: Stretch) -> list[str]:
    """Return what shows of the utterances after an entry: often what is to be done about it."""
    own = {thing.name for thing in things_in(stretch.keys)}
    found: list[str] = []
    after = stretch.utterances[stretch.last + 1 : stretch.last + 1 + _AHEAD]
    for step, clause in enumerate(map(clause_of, after), 1):
        found += [f"{'then' if step == 1 else 'later'} s:{sign}" for sign in clause.signs]
        if step == 1:
            found += [f"then:{vocabulary.stem(key)}" for key in clause.keys[:_NEXT_WORDS]]
        found.append(f"then {step} {'same' if own & clause.things else 'other'} thing")
        found += [f"ahead {name}" for name in clause.own if name in ("g:imperative", "head:i_we")]
    return found


def phase_of(stretch: Stretch, before: str, talk: Iterable[str], models: Models) -> str:
    """Return the likeliest of the standard phases, or "other"."""
    return models["phase"].best(phase_features(stretch, before, talk))


class Judged(NamedTuple):
    """What is made of an entry: work or an answer is still owed, whose move it is (whose choice it was,
    whose finding), and whether it is likely about danger to people or to the structure."""

    open: bool
    who: Party | None
    dangerous: bool


def judged(features: Iterable[str], kind: Kind, models: Models) -> Judged:
    """Return what ``models`` make of an entry of ``kind``. A next step is always open, a decision never."""
    model = beside(models["open"], models["who"], models["danger"])
    scores = dict(zip(model.labels, model.scores(features), strict=True))
    owed = scores[f"0 {YES}"] > scores[f"0 {NO}"] if kind is Kind.OBSERVATION else kind is Kind.NEXT_STEP
    name = max(POSSIBLE[kind], key=lambda party: scores[f"1 {party}"])
    danger = scores[f"2 {YES}"] > scores[f"2 {NO}"]
    return Judged(owed, None if name == NOBODY else Party(name), danger)
