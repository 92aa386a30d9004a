"""The drafter's word lists, read once from the data files beside this module."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

_NO_PLURAL = frozenset(
    {"this", "is", "its", "was", "has", "us", "gas", "yes", "abs", "does", "plus", "always"}
)


def singular(key: str) -> str:
    """Return a thing's name without its plural or possessive ending."""
    if key in _NO_PLURAL or len(key) < 4 or not key.endswith("s") or key.endswith("ss"):
        return key
    if key.endswith("ies") and len(key) > 4:
        return key[:-3] + "y"
    if key.endswith(("shes", "ches", "xes", "sses")):
        return key[:-2]
    return key[:-1]


class Phrases:
    """Phrases of one or more words, each standing for one or more classes, found in running text.

    ``singulars`` also finds plurals. A final ``*`` on a word stands for any ending.
    """

    def __init__(self, classes: Mapping[str, Iterable[str]], *, singulars: bool = False) -> None:
        self._singulars = singulars
        self._by_first: dict[str, list[tuple[tuple[str, ...], str]]] = {}
        self._stems: list[tuple[str, tuple[str, ...], str]] = []
        for name, phrases in classes.items():
            for phrase in phrases:
                tokens = tuple(phrase.casefold().replace("'", "").replace("-", " ").split())
                if not tokens:
                    continue
                if tokens[0].endswith("*"):
                    self._stems.append((tokens[0][:-1], tokens, name))
                else:
                    first = singular(tokens[0]) if singulars else tokens[0]
                    self._by_first.setdefault(first, []).append((tokens, name))

    def found(self, keys: Sequence[str]) -> Iterator[tuple[int, int, str]]:
        """Yield (first, past the last, class) of every phrase in ``keys``."""
        for at, key in enumerate(keys):
            first = singular(key) if self._singulars else key
            for tokens, name in self._by_first.get(first, ()):
                if self._match(tokens, keys, at, 1):
                    yield at, at + len(tokens), name
            for stem, tokens, name in self._stems:
                if key.startswith(stem) and self._match(tokens, keys, at, 1):
                    yield at, at + len(tokens), name

    def _match(self, tokens: tuple[str, ...], keys: Sequence[str], at: int, skip: int) -> bool:
        if at + len(tokens) > len(keys):
            return False
        for offset in range(skip, len(tokens)):
            token, key = tokens[offset], keys[at + offset]
            if token.startswith("*"):
                if not key.endswith(token[1:]):
                    return False
            elif token.endswith("*"):
                if not key.startswith(token[:-1]):
                    return False
            elif key != token and not (self._singulars and singular(key) == singular(token)):
                return False
        return True

    def longest(self, keys: Sequence[str]) -> list[tuple[int, int, str]]:
        """Return the found phrases, those lying wholly inside a longer one left out."""
        spans = sorted(self.found(keys), key=lambda s: (s[0] - s[1], s[0]))
        kept: list[tuple[int, int, str]] = []
        for start, end, name in spans:
            inside = any(a <= start and end <= b and (b - a) > (end - start) for a, b, _ in kept)
            if not inside:
                kept.append((start, end, name))
        return sorted(kept)


@cache
def data(name: str) -> dict[str, Any]:
    """Return one of this package's TOML data files."""
    return tomllib.loads((files(__package__) / "data" / name).read_text(encoding="utf-8"))


@cache
def signs() -> Phrases:
    """Signs of speech: what tells found, chosen, owed and nothing apart."""
    return Phrases(data("speech.toml")["signs"])


@cache
def starts() -> dict[str, frozenset[str]]:
    """First words of an utterance, word -> classes."""
    out: dict[str, set[str]] = {}
    for name, words in data("speech.toml")["starts"].items():
        for word in words:
            out.setdefault(word, set()).add(name)
    return {word: frozenset(names) for word, names in out.items()}


@cache
def parties() -> Phrases:
    """Names by which people speak of client, inspector, supplier and crew."""
    return Phrases(data("speech.toml")["parties"], singulars=True)


@cache
def things() -> Phrases:
    """Things of the trade, by phase."""
    phases = data("trade.toml")["phases"]
    return Phrases(
        {phase: table["things"] + table["weak"] for phase, table in phases.items()}, singulars=True
    )


@cache
def weak_things() -> frozenset[tuple[str, ...]]:
    """Names of things that say little of the phase, as singular words."""
    phases = data("trade.toml")["phases"].values()
    return frozenset(tuple(map(singular, name.split())) for table in phases for name in table["weak"])


@cache
def hazards() -> Phrases:
    """Words that name a danger, by hazard."""
    return Phrases(data("trade.toml")["hazards"], singulars=True)


@cache
def areas() -> Phrases:
    """Names of places, by the area they are shown as."""
    return Phrases(data("trade.toml")["areas"], singulars=True)
