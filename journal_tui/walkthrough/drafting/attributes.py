"""What shows of an entry's phase, of work still owed on it, of whose move it is, of danger.

One set of features serves all four models: the trade things named and how, the words, the person,
the signs, and what was in hand before.
"""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.features import clause_of
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Utterances before an entry that say what is in hand.
LOOK_BACK = 4

_OUT_OF_ENTRY = ("w:", "b:", "first", "len:")


def entry_features(
    utterances: Sequence[Utterance], first: int, last: int, kind: Kind, phase_before: str
) -> list[str]:
    """Return the features of the entry said in ``utterances[first]`` to ``[last]``.

    ``phase_before`` is the phase of the entry before it, "" for the first.
    """
    inside = [clause_of(u) for u in utterances[first : last + 1]]
    keys = [key for clause in inside for key in clause.keys]
    found = ["bias", f"kind:{kind.value}", f"before:{phase_before}", f"before:{phase_before}+{kind.value}"]
    found += _things(keys, "")
    for clause in inside:
        found += [n for n in clause.own if not n.startswith(("b:", "first", "len:"))]
        found += [f"{kind.value}+s:{sign}" for sign in clause.signs]
    found += [f"{kind.value}+{n}" for n in inside[0].own if n.startswith(("st:", "head:", "g:"))]
    for a, b in zip(keys, keys[1:], strict=False):
        found.append(f"two:{vocabulary.singular(a)}_{vocabulary.singular(b)}")
    for party in {name for _a, _b, name in vocabulary.parties().found(keys)}:
        found += [f"party:{party}", f"{kind.value}+party:{party}"]
    for danger in {name for _a, _b, name in vocabulary.hazards().found(keys)}:
        found.append(f"danger:{danger}")
    found += _around(utterances, first, last, bool(vocabulary.things().longest(keys)))
    return found


def _things(keys: Sequence[str], prefix: str) -> list[str]:
    spans = vocabulary.things().longest(keys)
    begins = {start for start, _end, _phase in spans}
    found: list[str] = []
    for start, end, phase in spans:
        # In "vanity drain" the drain is the thing, the vanity only says which.
        role = "of" if end in begins else "thing"
        found.append(f"{prefix}{role}:{phase}")
        found.append(f"{prefix}{role}:{' '.join(map(vocabulary.singular, keys[start:end]))}")
    heads = {phase for start, end, phase in spans if end not in begins}
    if len(heads) == 1:
        found.append(f"{prefix}only:{heads.pop()}")
    return found


def _around(utterances: Sequence[Utterance], first: int, last: int, named: bool) -> list[str]:
    found: list[str] = []
    for at in range(max(0, first - LOOK_BACK), first):
        near = "just before " if at == first - 1 else "before "
        found += _things(utterances[at].keys, near)
        if not named:
            found += _things(utterances[at].keys, "in hand ")
    if last + 1 < len(utterances):
        after = utterances[last + 1]
        found += _things(after.keys, "after ")
        found += [f"then s:{sign}" for sign in clause_of(after).signs]
    if first:
        found += [f"prior s:{sign}" for sign in clause_of(utterances[first - 1]).signs]
    return found
