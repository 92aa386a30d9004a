"""Runs of utterances that make one entry, and the first, rule-made way of finding them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.utterances import Utterance

_WEIGHTS: dict[Kind, dict[str, float]] = {
    Kind.NEXT_STEP: {"need": 2.0, "must_be_done": 1.5, "going_to": 1.0, "supposed": 1.2, "request": 1.2,
                     "ask_other": 0.8, "order_get": 0.7, "do_work": 0.5, "when_due": 0.6},
    Kind.DECISION: {"decide": 1.2, "instead": 1.4, "refuse": 1.0},
    Kind.OBSERVATION: {"look": 0.5, "measured": 0.6, "fault": 1.0, "sound": 0.6, "done": 0.9},
}  # fmt: skip
_AGAINST = {"if_then": 0.8, "general": 0.7, "story": 1.2, "greet": 0.5, "question": 0.4}


@dataclass(frozen=True, slots=True)
class Span:
    """Utterances ``first`` to ``last`` (inclusive) say one thing of this kind, for these signs."""

    first: int
    last: int
    kind: Kind
    signs: tuple[str, ...]
    weight: float


def spans_of(utterances: Sequence[Utterance]) -> list[Span]:
    """Return the entries found among ``utterances``."""
    found: list[Span] = []
    for at, utterance in enumerate(utterances):
        keys = utterance.keys
        signs = Counter(name for _a, _b, name in vocabulary.signs().longest(keys))
        named = sum(1 for _ in vocabulary.things().found(keys))
        against = sum(w * min(2, signs[n]) for n, w in _AGAINST.items())
        best = max(
            ((sum(w * min(2, signs[n]) for n, w in table.items()), kind) for kind, table in _WEIGHTS.items()),
            key=lambda pair: pair[0],
        )
        weight = best[0] + 0.3 * min(2, named) - against
        if len(keys) >= 4 and named and weight >= 1.2:
            why = tuple(n for n in _WEIGHTS[best[1]] if signs[n])
            found.append(Span(at, at, best[1], why, weight))
    return found
