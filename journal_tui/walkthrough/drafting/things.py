"""The trade things an utterance names, and the part each plays in it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.remembered import of_one_talk
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Utterances before an entry that may say what is in hand.
LOOK_BACK = 5
#: Share of a recording's things that makes a phase what the talk is about.
_SHARE = 0.22


@dataclass(frozen=True, slots=True)
class Thing:
    """A thing named: ``phase`` it belongs to, ``sure`` or not; ``leads`` is False where it only says
    where or which (the tub in "under the tub", the vanity in "the vanity drain")."""

    name: str
    phase: str
    sure: bool
    leads: bool


def things_in(keys: Sequence[str]) -> tuple[Thing, ...]:
    """Return the things ``keys`` name, in order. If none leads, all do."""
    return _things_in(tuple(keys))


@of_one_talk
def _things_in(keys: tuple[str, ...]) -> tuple[Thing, ...]:
    spans = vocabulary.things().longest(keys)
    begins = {start for start, _end, _phase in spans}
    held = {at for start, end, _phase in spans for at in range(start, end)}
    found: list[Thing] = []
    for start, end, phase in spans:
        name = tuple(map(vocabulary.singular, keys[start:end]))
        leads = end not in begins and not _subordinate(keys, start, held)
        found.append(Thing(" ".join(name), phase, name not in vocabulary.weak_things(), leads))
    if not any(thing.leads for thing in found):
        found = [Thing(t.name, t.phase, t.sure, True) for t in found]
    return tuple(found)


def is_aside(keys: Sequence[str], start: int) -> bool:
    """True when the name at ``start`` only says where or when ("under the tub", "before the tile")."""
    return _subordinate(keys, start, set())


def _subordinate(keys: Sequence[str], start: int, held: set[int]) -> bool:
    words = vocabulary.grammar()
    at = start - 1
    while at >= 0 and (keys[at] in words["determiners"] or at in held):
        at -= 1
    if at > 0 and keys[at] in words["prepositions"]:
        return True
    return any(key in words["subordinators"] for key in keys[2:start])


def topic_before(utterances: Sequence[Utterance], first: int) -> tuple[Thing, int] | None:
    """Return the thing last named before utterance ``first``, and how many utterances back."""
    for back in range(1, min(LOOK_BACK, first) + 1):
        leading = [t for t in things_in(utterances[first - back].keys) if t.leads]
        if leading:
            return leading[-1], back
    return None


def subjects_of_talk(utterances: Sequence[Utterance]) -> tuple[str, ...]:
    """Return the phases that much of the whole talk is about, sorted."""
    counts = Counter(t.phase for u in utterances for t in things_in(u.keys) if t.leads)
    whole = sum(counts.values())
    return tuple(sorted(phase for phase, count in counts.items() if count > _SHARE * whole))
