"""What a speech engine is told to expect: this job's own words, then those of the trade."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterable
from importlib.resources import files

from journal_tui.domain.text import folded, one_line
from journal_tui.walkthrough.drafting import vocabulary

#: About 220 word pieces, which is all an engine reads of a hint; a piece is three to four letters.
MOST_LETTERS = 760
#: So much of it at most is the job's own, so that the trade's words are never crowded out.
_MOST_OWN = 300
_LEAD = "Walking the job: "


def trade_words() -> list[str]:
    """Return the words of the trade that are easily misheard, the likeliest first."""
    text = (files(__package__) / "data" / "hints.toml").read_text(encoding="utf-8")
    words: list[str] = tomllib.loads(text)["words"]
    return words


def hint(own: Iterable[str]) -> str:
    """Return the hint for a job: its ``own`` words first, each said once."""
    chosen: dict[str, str] = {}
    letters = 0
    for limit, words in ((_MOST_OWN, own), (MOST_LETTERS - len(_LEAD), trade_words())):
        for word in words:
            shown = one_line(word)
            key = folded(shown)
            if not key or key in chosen or letters + len(shown) + 2 > limit:
                continue
            chosen[key] = shown
            letters += len(shown) + 2
    return _LEAD + ", ".join(chosen.values()) + "."


#: Shorter words are rarely the name of a material, a maker's colour or a person.
_SHORTEST = 5
_MOST_UNUSUAL = 25


def unusual(texts: Iterable[str]) -> list[str]:
    """Return the words of ``texts`` that are neither everyday speech nor known to the trade, most used first.

    What is left are mostly names of materials, colours and people.
    """
    known = set(vocabulary.common_words())
    for phase in vocabulary.data("trade.toml")["phases"].values():
        known.update(word for thing in phase["things"] for word in thing.split())
    counts = Counter(
        word
        for text in texts
        for word in re.findall(rf"[^\W\d_]{{{_SHORTEST},}}", text.casefold())
        if word not in known and vocabulary.singular(word) not in known
    )
    return [word for word, _times in counts.most_common(_MOST_UNUSUAL)]
