"""Finding by their words what a note speaks of: groups of forms that must all be there.

A form is a word or a phrase; a blank in it also stands for a hyphen, a star at its end for any ending.
A form does not count where "no", "not" or the like stands close before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from journal_tui.domain.text import folded

_NEGATED = re.compile(
    r"(?:\b(?:no|not|never|without|nothing|hardly|free of|free from|instead of|neither|nor)"
    r"|n't|\b(?:isnt|arent|wasnt))"
    r"(?:\W+\w+){0,2}\W+$"
)
#: Forms that begin so speak of what is not there.
_SAYS_NO = re.compile(
    r"^(?:no|not|never|without|none|nothing|isn't|isnt|won't|wont|doesn't|does not|will not|un\w+|missing)\b"
)


@dataclass(frozen=True, slots=True)
class Signs:
    """What shows that a note speaks of something: each pattern of ``groups`` found, ``unless`` not.

    ``of_absence``: what is spoken of is that something is not there, so that "no" denies nothing.
    """

    groups: tuple[re.Pattern[str], ...]
    unless: re.Pattern[str] | None = None
    of_absence: bool = False

    def fit(self, text: str, place: str = "") -> bool:
        """True when ``text`` (the name of its ``place`` counts as part of it) shows every sign."""
        return self.found_in(line_of(text, place))

    def found_in(self, line: str) -> bool:
        """True when a note, as ``line_of`` reads it, shows every sign."""
        if self.unless and self.unless.search(line):
            return False
        return all(
            any(self.of_absence or not _denied(line, m) for m in group.finditer(line))
            for group in self.groups
        )


def line_of(text: str, place: str = "") -> str:
    """Return a note and the name of its place as patterns read them."""
    return plain(f"{place}. {text}" if place else text)


def signs(groups: Sequence[Sequence[str]], unless: Sequence[str] = ()) -> Signs:
    """Return the signs written as lists of forms."""
    absence = any(_SAYS_NO.match(plain(form)) for group in groups for form in group)
    return Signs(tuple(any_of(group) for group in groups), any_of(unless) if unless else None, absence)


def one_of(words: Iterable[str]) -> str:
    """Return the part of a pattern that is any of ``words`` as they stand, the longest first."""
    written = sorted(words, key=lambda word: (-len(word), word))
    return "(?:" + "|".join(re.escape(word) for word in written) + ")"


def any_of(forms: Sequence[str]) -> re.Pattern[str]:
    """Return the pattern of any of ``forms``, the longest first, as whole words in ``plain`` text."""
    written = sorted({_form(form) for form in forms}, key=lambda form: (-len(form), form))
    return re.compile(rf"(?<!\w)(?:{'|'.join(written)})(?!\w)")


def plain(text: str) -> str:
    """Return ``text`` as the patterns read it: folded, with plain apostrophes."""
    return folded(text.replace("’", "'").replace("‘", "'"))


def _form(form: str) -> str:
    words = [re.escape(word) for word in re.split(r"[\s\-]+", plain(form).rstrip("*"))]
    return r"[\s\-‐‑]+".join(words) + (r"\w*" if form.endswith("*") else "")


def _denied(line: str, found: re.Match[str]) -> bool:
    return _NEGATED.search(line[max(0, found.start() - 40) : found.start()]) is not None
