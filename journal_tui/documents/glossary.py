"""Trade words and what they mean to a home owner, from an editable data file."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from journal_tui.documents.wording import data_text
from journal_tui.domain.text import folded


@dataclass(frozen=True, slots=True)
class Term:
    """A trade word: the forms it is written in and the sentence that explains it."""

    forms: tuple[str, ...]
    say: str


class Glossary:
    """Terms that can be found in running text, the longest form first."""

    def __init__(self, terms: Iterable[Term]) -> None:
        self.terms = tuple(terms)
        self._by_form = {_key(form): term for term in self.terms for form in term.forms}
        written = {" ".join(re.split(r"[\s\-]+", form)) for term in self.terms for form in term.forms}
        forms = sorted(written, key=lambda form: (-len(form), form))
        choices = "|".join(map(_pattern, forms))
        self._pattern = re.compile(rf"(?<![\w])(?:{choices})(?:e?s)?(?![\w])", re.IGNORECASE)

    def used_in(self, text: str) -> list[Term]:
        """Return the terms ``text`` uses, in order of first use, each once."""
        if not self.terms:
            return []
        found: dict[Term, None] = {}
        for match in self._pattern.finditer(text):
            found.setdefault(self._term(match.group()), None)
        return list(found)

    def _term(self, written: str) -> Term:
        key = _key(written)
        return next(self._by_form[form] for form in (key, key[:-1], key[:-2]) if form in self._by_form)


def _pattern(form: str) -> str:
    """Return the pattern of a form: a blank is a blank, a hyphen or nothing ("thin-set", "thinset"), but
    never nothing after a single letter, or "S trap" would be found in "strap".
    """
    first, *rest = form.split(" ")
    pattern = re.escape(first)
    for before, word in zip([first, *rest], rest, strict=False):
        pattern += rf"[\s\-‐‑]{'?' if len(before) > 1 else ''}{re.escape(word)}"
    return pattern


def _key(form: str) -> str:
    return folded(re.sub(r"[\s\-‐‑]+", "", form))


def read_glossary(toml: str) -> Glossary:
    """Return the glossary written in ``toml``: a ``[[term]]`` table each with ``forms`` and ``say``."""
    rows = tomllib.loads(toml).get("term", [])
    return Glossary(Term(tuple(row["forms"]), row["say"]) for row in rows)


@cache
def standard_glossary() -> Glossary:
    """Return the glossary that comes with the package, read once."""
    return read_glossary(data_text("glossary.toml"))
