"""The drafter's word lists, read once from the data files beside this module."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

_NO_PLURAL = frozenset(
    {"this", "is", "its", "was", "has", "us", "gas", "yes", "abs", "does", "plus", "always"}
)


@lru_cache(16384)
def singular(key: str) -> str:
    """Return a thing's name without its plural or possessive ending."""
    if key in _NO_PLURAL or len(key) < 4 or not key.endswith("s") or key.endswith("ss"):
        return key
    if key.endswith("ies") and len(key) > 4:
        return key[:-3] + "y"
    if key.endswith(("shes", "ches", "xes", "sses")):
        return key[:-2]
    return key[:-1]


#: How many words a phrase has, the words, and the class it stands for.
_Phrase = tuple[int, tuple[str, ...], str]
#: A phrase found: the number of its first word, of the word past its last, and its class.
Span = tuple[int, int, str]


_ENDINGS = ("ing", "ed", "ly", "er")


@lru_cache(16384)
def stem(key: str) -> str:
    """Return what the forms of a word have in common, near enough: "leaking", "leaked" and "leaks"."""
    plain = singular(key)
    for ending in _ENDINGS:
        left = plain.removesuffix(ending)
        if left != plain and len(left) >= 3:
            plain = left[:-1] if len(left) > 3 and left[-1] == left[-2] else left
            break
    return plain.rstrip("e")


@lru_cache(4096)
def singulars(keys: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words of a stretch of talk, each without its plural or possessive ending."""
    return tuple(map(singular, keys))


class Phrases:
    """Phrases of one or more words, each standing for one or more classes, found in running text.

    ``singulars`` also finds plurals. A word after the first that begins with ``*`` stands for any
    word with that ending.
    """

    def __init__(self, classes: Mapping[str, Iterable[str]], *, singulars: bool = False) -> None:
        self._singulars = singulars
        # The same words are looked at for their kind, their phase and their text.
        self._found = lru_cache(1024)(self._find)
        self._longest = lru_cache(1024)(self._find_longest)
        # Phrases wait under their first word, and there under their second where both are given.
        self._under: dict[str, tuple[list[_Phrase], dict[str, list[_Phrase]]]] = {}
        for name, phrases in classes.items():
            for phrase in phrases:
                tokens = tuple(phrase.casefold().replace("'", "").replace("-", " ").split())
                if singulars:
                    tokens = tuple(map(singular, tokens))
                if not tokens:
                    continue
                alone, followed = self._under.setdefault(tokens[0], ([], {}))
                two = len(tokens) > 1 and tokens[1][0] != "*"
                (followed.setdefault(tokens[1], []) if two else alone).append((len(tokens), tokens, name))

    def found(self, keys: Sequence[str]) -> Sequence[Span]:
        """Return (first, past the last, class) of every phrase in ``keys``, in order of the first."""
        if not self._singulars and self._under.keys().isdisjoint(keys):
            return ()
        return self._found(tuple(keys))

    def _find(self, keys: tuple[str, ...]) -> Sequence[Span]:
        plain = singulars(keys) if self._singulars else keys
        out: list[Span] = []
        for at, under in enumerate(map(self._under.get, plain)):
            if under is not None:
                out += self._beginning(plain, at, *under)
        return tuple(sorted(out)) if len(out) > 1 else tuple(out)

    def _beginning(
        self, plain: tuple[str, ...], at: int, alone: list[_Phrase], followed: dict[str, list[_Phrase]]
    ) -> list[Span]:
        out = [
            (at, at + size, name)
            for size, tokens, name in alone
            if size == 1 or self._match(tokens, plain, at, size)
        ]
        if followed and at + 1 < len(plain):
            for size, tokens, name in followed.get(plain[at + 1], ()):
                if size == 2 or self._match(tokens, plain, at, size):
                    out.append((at, at + size, name))
        return out

    def leading(self, keys: Sequence[str]) -> int:
        """Return how many words the longest phrase has that ``keys`` begin with; 0 for none."""
        plain = tuple(map(singular, keys)) if self._singulars else tuple(keys)
        under = self._under.get(plain[0]) if plain else None
        return max((end for _at, end, _name in self._beginning(plain, 0, *under)), default=0) if under else 0

    @staticmethod
    def _match(tokens: tuple[str, ...], keys: Sequence[str], at: int, size: int) -> bool:
        if at + size > len(keys):
            return False
        for offset in range(1, size):
            token = tokens[offset]
            if token != keys[at + offset] and not (token[0] == "*" and keys[at + offset].endswith(token[1:])):
                return False
        return True

    def longest(self, keys: Sequence[str]) -> Sequence[Span]:
        """Return the found phrases, those lying wholly inside a longer one left out."""
        if not self._singulars and self._under.keys().isdisjoint(keys):
            return ()
        return self._longest(tuple(keys))

    def _find_longest(self, keys: tuple[str, ...]) -> Sequence[Span]:
        spans = self._found(keys)
        longest = max((end - start for start, end, _name in spans), default=0)
        if len(spans) < 2 or longest == 1:
            return spans
        return tuple(
            (start, end, name)
            for start, end, name in spans
            if end - start == longest
            or not any(a <= start and end <= b and b - a > end - start for a, b, _name in spans)
        )


@cache
def data(name: str) -> dict[str, Any]:
    """Return one of this package's TOML data files."""
    return tomllib.loads((files(__package__) / "data" / name).read_text(encoding="utf-8"))


@cache
def common_words() -> frozenset[str]:
    """Return the words every sentence has."""
    return frozenset(data("common.toml")["words"])


@cache
def grammar() -> dict[str, frozenset[str]]:
    """Return the word classes of ``grammar.toml``."""
    return {name: frozenset(words) for name, words in data("grammar.toml")["words"].items()}


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
