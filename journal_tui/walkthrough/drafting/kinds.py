"""Which utterances say something found, chosen or owed, and which say nothing to record."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting.features import SHORT_TALK, clause_of, features_of
from journal_tui.walkthrough.drafting.linear import Linear
from journal_tui.walkthrough.drafting.utterances import Utterance

NOTHING = "nothing"
#: Labels of an utterance: nothing; or the first, or a later, utterance of an entry of a kind.
LABELS = (NOTHING, *(f"{place} {kind.value}" for kind in Kind for place in ("first", "more")))
_SPACE = range(len(LABELS))
#: The labels that may stand before each.
BEFORE = tuple(
    tuple(p for p in _SPACE if not name.startswith("more ") or LABELS[p].partition(" ")[2] == name[5:])
    for name in LABELS
)
_CANNOT = -(10**9)
#: In short talk, saying nothing counts for less by so much, in the weights' own units.
_TO_THE_POINT = 300
#: Families of features that show how a line begins.
_BEGINNINGS = ("st:", "head:", "next:", "g:", "s:")


@dataclass(frozen=True, slots=True)
class Span:
    """Utterances ``first`` to ``last`` (inclusive) say one thing of this kind.

    ``signs`` are the features that weighed most for the kind against saying nothing. ``like`` is the
    first utterance of the span this one says the same as, of another thing.
    """

    first: int
    last: int
    kind: Kind
    signs: tuple[str, ...]
    like: int | None = None


def best_labels(rows: Sequence[Sequence[int]], pairs: Sequence[Sequence[int]]) -> list[int]:
    """Return the label sequence with the greatest sum of ``rows`` and ``pairs`` (Viterbi's algorithm)."""
    if not rows:
        return []
    current = [score if 0 in BEFORE[n] else _CANNOT for n, score in enumerate(rows[0])]
    back: list[list[int]] = []
    for row in rows[1:]:
        links: list[int] = []
        following: list[int] = []
        for n in _SPACE:
            best_at, best = 0, 2 * _CANNOT
            for p in BEFORE[n]:
                total = current[p] + pairs[p][n]
                if total > best:
                    best_at, best = p, total
            links.append(best_at)
            following.append(best + row[n])
        back.append(links)
        current = following
    at = max(_SPACE, key=lambda n: current[n])
    path = [at]
    for links in reversed(back):
        at = links[at]
        path.append(at)
    return path[::-1]


@dataclass(frozen=True, slots=True)
class Leaning:
    """How far an utterance leans to each kind rather than to saying nothing, in the weights' units."""

    found: int
    chosen: int
    owed: int


def leanings_of(rows: Sequence[Sequence[int]]) -> list[Leaning]:
    """Return what each utterance leans to by the scores of its labels."""
    return [Leaning(max(row[1:3]) - row[0], max(row[3:5]) - row[0], max(row[5:7]) - row[0]) for row in rows]


def weighed(utterances: Sequence[Utterance], model: Linear) -> tuple[list[tuple[str, ...]], list[list[int]]]:
    """Return each utterance's features and the scores of its labels."""
    features = features_of(utterances)
    return features, [model.scores(names) for names in features]


def spans_of(features: Sequence[Sequence[str]], rows: Sequence[Sequence[int]], model: Linear) -> list[Span]:
    """Return the entries found among utterances with these features and scores, in order."""
    if len(rows) <= SHORT_TALK:
        rows = [[row[0] - _TO_THE_POINT, *row[1:]] for row in rows]
    path = best_labels(rows, model.pairs)
    found: list[Span] = []
    for at, label in enumerate(path):
        place, _, kind = LABELS[label].partition(" ")
        if place == "more" and found and found[-1].last == at - 1:
            found[-1] = Span(found[-1].first, at, found[-1].kind, found[-1].signs)
        elif place != NOTHING:
            signs = model.reasons(features[at], LABELS[label], NOTHING)
            found.append(Span(at, at, Kind(kind), tuple(signs)))
    return found


def line_features(utterances: Sequence[Utterance]) -> list[str]:
    """Return what shows of the kind of utterances known to say one thing; how it begins counts twice."""
    found = ["bias"]
    for at, utterance in enumerate(utterances):
        own = clause_of(utterance).own
        found += own
        if at == 0:
            found += [f"begins {name}" for name in own if name.startswith(_BEGINNINGS)]
    return found


def likeliest_kind(utterances: Sequence[Utterance], model: Linear) -> Span:
    """Return all of ``utterances`` as one entry of the kind that weighs most (for a typed line)."""
    features = line_features(utterances)
    weight = dict(zip(model.labels, model.scores(features), strict=True))
    kinds = sorted(Kind, key=lambda kind: -weight[kind.value])
    return Span(
        0, len(utterances) - 1, kinds[0], tuple(model.reasons(features, kinds[0].value, kinds[1].value))
    )
