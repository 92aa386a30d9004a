"""Train the drafter's linear models from the labelled walk-throughs beside this file.

python -m tests.drafting.train            write the package's weights file
python -m tests.drafting.train --check    say whether a fresh training gives the same bytes
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from itertools import accumulate
from pathlib import Path

import journal_tui.walkthrough.drafting as drafting
from journal_tui.domain.kinds import Kind
from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting.attributes import (
    NO,
    NOBODY,
    PARTIES,
    PHASES,
    YES,
    Place,
    Stretch,
    entry_features,
    phase_features,
    phase_start,
    place_between,
)
from journal_tui.walkthrough.drafting.boundaries import CUT, RUNS_ON, gap_features
from journal_tui.walkthrough.drafting.drafter import entries_in
from journal_tui.walkthrough.drafting.features import clause_of, features_of
from journal_tui.walkthrough.drafting.kinds import BEFORE, LABELS, line_features
from journal_tui.walkthrough.drafting.linear import WEIGHTS_FILE, Linear
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.things import subjects_of_talk
from journal_tui.walkthrough.drafting.utterances import Utterance, utterances_of
from journal_tui.walkthrough.drafting.words import words_of
from tests.drafting.field import Chain, train_field
from tests.drafting.labelled import (
    MachineCopy,
    Note,
    is_machine,
    labels_of,
    machine_copy,
    notes,
    owners,
    spoken_lines,
    walks_in,
)
from tests.drafting.logistic import Example, Regression, train_regression
from tests.drafting.perceptron import Recipe, train_labels
from tests.drafting.score import Gold, Walk

WEIGHTS = Path(drafting.__file__).parent / "data" / WEIGHTS_FILE

BOUNDARY = Recipe(passes=4, margin=10, least=3)
KIND = Regression(passes=10, step=0.1, prior=5.0, least=3)
PHASE = Regression(passes=12, step=0.1, prior=6.0, least=2)
ENTRY = Regression(passes=12, step=0.1, prior=10.0, least=2)
OPEN = Regression(passes=12, step=0.1, prior=8.0, least=2)
#: How much a line said by nobody in no talk counts, against an entry of a talk.
SPOKEN = 0.4
#: How much each of the two ways an entry is learned counts.
TWICE = 0.6
#: The kind weights' units to one of a logarithm of chances.
KIND_UNIT = 300
#: How much less sure than even the model may be that something is worth an entry, in those units: it is
#: quicker to drop a draft than to write a missing one.
READINESS = 50
#: How much a machine-captioned copy of a walk-through, and a line said in no talk, teach of kinds.
COPIED, LINE = 0.5, 0.5
#: Copies of clean walk-throughs are cut by a boundary model that has not seen them.
_PARTS = 4
#: Into so many parts the walk-throughs are dealt to be drafted by models that have not seen them.
_UNSEEN = 3
#: Features that tell how a line stands in its talk, which a line by itself does not.
_OF_NO_LINE = ("len:", "opens", "goes on")


@dataclass(frozen=True, slots=True)
class Heard:
    """A walk-through as it is trained on: cut into utterances, each with its label."""

    walk: Walk
    utterances: tuple[Utterance, ...]
    labels: tuple[int, ...]
    copied: bool = False


def boundary_model(copies: Sequence[MachineCopy]) -> Linear:
    """Return the model of where unpunctuated talk is cut, from machine copies of punctuated talk."""
    examples: list[tuple[list[str], str]] = []
    for copy in copies:
        words = repaired(copy.words)
        ends = accumulate(len(word.said.split()) for word in words)
        since = 1
        for at, end in zip(range(len(words) - 1), ends, strict=False):
            cut = copy.cut_after[end - 1]
            examples.append((gap_features(words, at, since), CUT if cut else RUNS_ON))
            since = 1 if cut else since + 1
    return train_labels(examples, (RUNS_ON, CUT), BOUNDARY)


def heard(walk: Walk, model: Linear) -> Heard:
    """Return ``walk`` cut into utterances by ``model`` and labelled."""
    utterances = utterances_of(repaired(words_of(walk.captions)), model)
    return Heard(walk, tuple(utterances), tuple(labels_of(utterances, walk.gold)))


def heard_all(walks: Sequence[Walk]) -> tuple[Linear, list[Heard]]:
    """Return the boundary model of ``walks`` and all of them as trained on, machine copies among them."""
    clean = [walk for walk in walks if not is_machine(walk)]
    copies = [machine_copy(walk) for walk in clean]
    model = boundary_model(copies)
    found = [heard(walk, model) for walk in walks]
    for part in range(min(_PARTS, len(copies))):
        unseen = copies[part::_PARTS]
        others = (
            boundary_model([c for c in copies if c not in unseen]) if len(copies) > len(unseen) else model
        )
        found += [replace(heard(copy.walk, others), copied=True) for copy in unseen]
    return model, found


def kind_model(heard_walks: Sequence[Heard]) -> Linear:
    """Return the model of what is found, chosen, owed or nothing."""
    chains = [
        Chain(features_of(h.utterances), h.labels, COPIED if h.copied else 1.0) for h in heard_walks
    ] + _line_chains()
    model = train_field(chains, LABELS, BEFORE, KIND, unit=KIND_UNIT)
    bias = list(model.features["bias"])
    bias[0] -= READINESS
    return replace(model, features={**model.features, "bias": bias})


def _line_chains() -> list[Chain]:
    """Return the lines said in no talk, each an entry's first utterance: they teach one kind from
    another, not what is worth an entry, nor how long one is."""
    firsts = [at for at, label in enumerate(LABELS) if label.startswith("first ")]
    found: list[Chain] = []
    for note in spoken_lines():
        names = [n for n in clause_of(_noted(note).utterances[0]).own if not n.startswith(_OF_NO_LINE)]
        found.append(Chain([names], [LABELS.index(f"first {note.kind}")], LINE, firsts))
    return found


def stretches_of(one: Heard, owner: Sequence[int | None]) -> list[tuple[Gold, Stretch]]:
    """Return the labelled entries of ``one`` with the utterances that say them."""
    found: list[tuple[Gold, Stretch]] = []
    for number, gold in enumerate(one.walk.gold):
        inside = [at for at, n in enumerate(owner) if n == number]
        if inside:
            found.append((gold, Stretch(one.utterances, inside[0], inside[-1], Kind(gold.kind))))
    return found


@dataclass(frozen=True, slots=True)
class Met:
    """A labelled entry as it is met in drafting: the words that say it, between the drafts around it."""

    gold: Gold
    stretch: Stretch
    place: Place


def drafted_unseen(heard_walks: Sequence[Heard]) -> list[tuple[list[Met], list[Met]]]:
    """Return, for each walk-through, its labelled entries and the drafts that tell them, both as a kind
    model that has not seen it makes them."""
    names = sorted({one.walk.name for one in heard_walks})
    parts = [frozenset(names[part::_UNSEEN]) for part in range(_UNSEEN)]
    with ProcessPoolExecutor() as workers:
        done = list(workers.map(_drafted_by_others, [heard_walks] * _UNSEEN, parts))
    found = [iter(met) for met in done]
    return [next(found[names.index(one.walk.name) % _UNSEEN]) for one in heard_walks]


def _drafted_by_others(
    heard_walks: Sequence[Heard], unseen: frozenset[str]
) -> list[tuple[list[Met], list[Met]]]:
    """Return the entries of the walk-throughs named ``unseen``, as a model of all others makes them."""
    others = [one for one in heard_walks if one.walk.name not in unseen]
    model = kind_model(others or heard_walks)
    return [_met(one, model) for one in heard_walks if one.walk.name in unseen]


def _met(one: Heard, model: Linear) -> tuple[list[Met], list[Met]]:
    owner = owners(one.utterances, one.walk.gold)
    spans, leanings = entries_in(one.utterances, model)
    drafts = [Stretch(one.utterances, span.first, span.last, span.kind) for span in spans]

    def met(gold: Gold, stretch: Stretch) -> Met:
        before = [draft for draft in drafts if draft.last < stretch.first]
        after = [draft for draft in drafts if draft.first > stretch.last]
        place = place_between(stretch, before[-1] if before else None, after[0] if after else None, leanings)
        return Met(gold, stretch, place)

    labelled = [met(gold, stretch) for gold, stretch in stretches_of(one, owner)]
    told: dict[int, int] = {}
    for number in range(len(one.walk.gold)):
        shared = [owner[draft.first : draft.last + 1].count(number) for draft in drafts]
        most = max(range(len(drafts)), key=lambda at: shared[at], default=None)
        if most is not None and shared[most] and most not in told:
            told[most] = number
    return labelled, [met(one.walk.gold[told[at]], drafts[at]) for at in sorted(told)]


def line_model(heard_walks: Sequence[Heard]) -> Linear:
    """Return the model of the kind of a line known to say one thing, as a typed note is."""
    examples: list[Example] = []
    for one in heard_walks:
        for gold, stretch in stretches_of(one, owners(one.utterances, one.walk.gold)):
            inside = stretch.utterances[stretch.first : stretch.last + 1]
            examples.append(Example(line_features(inside), gold.kind))
    examples += [Example(line_features(s.utterances), note.kind, much) for note, s, much in _single_lines()]
    return train_regression(examples, [kind.value for kind in Kind], ENTRY)


def _single_lines() -> list[tuple[Note, Stretch, float]]:
    """Return the labelled single lines, each with how much it counts."""
    lines = [(note, 1.0) for note in notes()] + [(note, SPOKEN) for note in spoken_lines()]
    return [(note, _noted(note), much) for note, much in lines]


def _noted(note: Note) -> Stretch:
    words = tuple(words_of(Captions("", "", (Cue(0.0, 0.0, note.text),), "", "")))
    return Stretch((Utterance(words, True, 0.0),), 0, 0, Kind(note.kind))


def attribute_models(heard_walks: Sequence[Heard]) -> dict[str, Linear]:
    """Return the models of phase, of work still owed, of whose move it is and of danger.

    Every entry is learned twice: as it was labelled, and as the drafter makes it of talk it has not
    seen. Both times its neighbours are drafts, for that is what it is met among.
    """
    phase: list[Example] = []
    owed: list[Example] = []
    who: list[Example] = []
    danger: list[Example] = []

    def learn(right: Gold | Note, stretch: Stretch, place: Place, much: float) -> None:
        features = entry_features(stretch, place)
        if stretch.kind is Kind.OBSERVATION:
            owed.append(Example(features, YES if right.open else NO, much))
        if stretch.kind == right.kind:
            who.append(Example(features, right.who or NOBODY, much))
        danger.append(Example(features, YES if right.hazard else NO, much))

    for one, unseen in zip(heard_walks, drafted_unseen(heard_walks), strict=True):
        talk = subjects_of_talk(one.utterances)
        for entries in unseen:
            before = ""
            for met in entries:
                features = phase_features(met.stretch, before, talk)
                phase.append(Example(features, met.gold.phase, TWICE))
                before = met.gold.phase
                learn(met.gold, met.stretch, met.place, TWICE)
    for note, stretch, much in _single_lines():
        phase.append(Example(phase_features(stretch, "", ()), note.phase, much))
        learn(note, stretch, place_between(stretch, None, None), much)
    return {
        "phase": train_regression(phase, PHASES, PHASE, phase_start()),
        "open": train_regression(owed, (NO, YES), OPEN),
        "who": train_regression(who, PARTIES, ENTRY),
        "danger": train_regression(danger, (NO, YES), ENTRY),
    }


def train(walks: Sequence[Walk]) -> dict[str, Linear]:
    """Return all models trained on ``walks``."""
    boundary, heard_walks = heard_all(walks)
    with ProcessPoolExecutor(1) as beside:
        kind, line = beside.submit(kind_model, heard_walks), beside.submit(line_model, heard_walks)
        attributes = attribute_models(heard_walks)
        return {"boundary": boundary, "kind": kind.result(), "line": line.result(), **attributes}


def written(models: dict[str, Linear]) -> str:
    """Return the weights file's text: JSON, one feature a line, sorted."""
    parts: list[str] = []
    for name, model in models.items():
        rows = ",\n".join(
            f"  {json.dumps(feature)}: {json.dumps(list(row), separators=(',', ':'))}"
            for feature, row in sorted(model.features.items())
        )
        pairs = json.dumps([list(row) for row in model.pairs], separators=(",", ":"))
        parts.append(
            f'{json.dumps(name)}: {{"labels": {json.dumps(list(model.labels))},\n'
            f' "pairs": {pairs},\n "features": {{\n{rows}\n }}}}'
        )
    return "{" + ",\n".join(parts) + "}\n"


def main(arguments: Sequence[str]) -> int:
    """Train and write, or check; return the exit code."""
    text = written(train(walks_in()))
    if "--check" in arguments:
        same = WEIGHTS.read_text(encoding="utf-8") == text
        print("same bytes" if same else "the weights file differs from a fresh training")
        return 0 if same else 1
    WEIGHTS.write_text(text, encoding="utf-8")
    print(f"wrote {WEIGHTS} ({len(text)} bytes)")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
