"""Clause features: what an utterance shows of tense, modality, negation, request, choice and trade.

Each is a short readable name; the weights file gives every name its pull towards each label.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.remembered import of_one_talk
from journal_tui.walkthrough.drafting.senses import senses_in
from journal_tui.walkthrough.drafting.utterances import Utterance

#: A recording of so few utterances was made to say something: no time for greetings and stories.
SHORT_TALK = 5
_SIZES = ((1, "1"), (3, "2-3"), (6, "4-6"), (12, "7-12"), (10**9, "long"))


@dataclass(frozen=True, slots=True)
class Clause:
    """What is known of one utterance before its neighbours are looked at."""

    keys: tuple[str, ...]
    signs: frozenset[str]
    phases: frozenset[str]
    things: frozenset[str]
    senses: tuple[str, ...]
    own: tuple[str, ...]


@of_one_talk
def clause_of(utterance: Utterance) -> Clause:
    """Return the clause features of one utterance by itself."""
    keys = utterance.keys
    signs = frozenset(name for _a, _b, name in vocabulary.signs().longest(keys))
    spans = vocabulary.things().longest(keys)
    things = frozenset(" ".join(map(vocabulary.singular, keys[a:b])) for a, b, _name in spans)
    phases = frozenset(name for _a, _b, name in spans)
    own = [f"s:{name}" for name in signs]
    own += [f"ph:{name}" for name in phases]
    own.append(f"things:{min(3, len(things))}")
    starts = vocabulary.starts().get(keys[0], frozenset())
    own += [f"st:{name}" for name in starts]
    own += [f"st:{start}+s:{sign}" for start in starts for sign in signs]
    own += _words(keys)
    own += _grammar(keys)
    own += _form(utterance, keys)
    senses = tuple(senses_in(keys))
    own += [f"se:{name}" for name in senses]
    return Clause(keys, signs, phases, things, senses, tuple(own))


def _words(keys: Sequence[str]) -> list[str]:
    found = [f"w:{vocabulary.singular(key)}" for key in dict.fromkeys(keys) if not key[:1].isdigit()]
    found += [f"b:{a}_{b}" for a, b in pairwise(map(vocabulary.stem, keys))]
    found.append("first:" + keys[0])
    if len(keys) > 1:
        found.append(f"first2:{keys[0]}_{keys[1]}")
    return found


@lru_cache(16384)
def _grammar_of(key: str) -> tuple[str, ...]:
    """Return what a word by itself shows of grammar."""
    found = [f"g:{name}" for name, group in vocabulary.grammar().items() if key in group]
    found += ["g:ed"] if key.endswith("ed") and len(key) > 4 else []
    found += ["g:ing"] if key.endswith("ing") and len(key) > 5 else []
    return (*found, "g:number") if key[:1].isdigit() else tuple(found)


def _grammar(keys: Sequence[str]) -> list[str]:
    words = vocabulary.grammar()
    found = {name for key in keys for name in _grammar_of(key)}
    at = 0
    while at < len(keys) - 1 and keys[at] in words["openers"]:
        at += 1
    head = keys[at]
    if head in words["bare_verbs"]:
        found.add("g:imperative")
    for name in ("modal", "being", "past", "i_we", "you", "they", "pointing"):
        if head in words[name]:
            found.add(f"head:{name}")
    if len(keys) > at + 1:
        for name in ("modal", "being", "past", "bare_verbs"):
            if keys[at + 1] in words[name]:
                found.add(f"next:{name}")
    return sorted(found)


@lru_cache(16384)
def _capital(text: str) -> bool:
    return text[:1].isupper() and text not in ("I", "I'm", "I'll", "I've", "I'd")


def _form(utterance: Utterance, keys: Sequence[str]) -> list[str]:
    size = len(keys)
    found = [next(f"len:{name}" for most, name in _SIZES if size <= most)]
    last = utterance.words[-1].mark
    found.append("opens" if utterance.opens else "goes on")
    if "?" in last:
        found.append("asked")
    elif "," in last:
        found.append("comma after")
    elif any(c in ".!;" for c in last):
        found.append("stop after")
    if utterance.pause > 0.9:
        found.append("after a pause")
    if any(map(_capital, [word.text for word in utterance.words[1:]])):
        found.append("a name")
    return found


def features_of(utterances: Sequence[Utterance]) -> list[tuple[str, ...]]:
    """Return the feature names of each utterance, its neighbours' signs among them."""
    clauses = [clause_of(u) for u in utterances]
    main = _main_speaker(utterances)
    out: list[tuple[str, ...]] = []
    for at, (utterance, clause) in enumerate(zip(utterances, clauses, strict=True)):
        found = ["bias", *clause.own]
        if utterance.speaker != main:
            found.append("other speaker")
            found += [f"other speaker+s:{sign}" for sign in clause.signs]
        for step, name in ((-2, "pp"), (-1, "p"), (1, "n"), (2, "nn")):
            if 0 <= at + step < len(clauses):
                near = clauses[at + step]
                found += [f"{name}:{sign}" for sign in near.signs]
                found.append(f"{name}:things{min(2, len(near.things))}")
                if abs(step) == 1:
                    found.append(f"{name}:{'opens' if utterances[at + step].opens else 'goes on'}")
                    found += [f"{name}:st:{s}" for s in vocabulary.starts().get(near.keys[0], ())]
        if at and clause.things & clauses[at - 1].things:
            found.append("same thing as before")
        if clause.things and not any(clause.things & c.things for c in clauses[max(0, at - 6) : at]):
            found.append("new thing")
        if at < 3 and len(clauses) > SHORT_TALK:
            found.append("at the beginning")
        if at >= len(clauses) - 4 and len(clauses) > SHORT_TALK:
            found.append("at the end")
        # Tuples of strings, unlike lists, are nothing the collector of garbage has to look through.
        out.append(tuple(found))
    return out


def _main_speaker(utterances: Sequence[Utterance]) -> str | None:
    said: dict[str | None, int] = {}
    for utterance in utterances:
        said[utterance.speaker] = said.get(utterance.speaker, 0) + len(utterance.words)
    return max(said, key=lambda s: said[s]) if said else None
