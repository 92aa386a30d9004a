"""The text of a draft: the speaker's own words as a short clean sentence."""

from __future__ import annotations

import re
from collections.abc import Sequence

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.attributes import Stretch
from journal_tui.walkthrough.drafting.words import Word

#: Words in a draft's text at most.
LONGEST_TEXT = 20

_LONE_I = re.compile(r"\bi\b")


def text_of(stretch: Stretch) -> str:
    """Return the entry as one clean sentence."""
    return clean([w for u in stretch.utterances[stretch.first : stretch.last + 1] for w in u.words])


def clean(words: Sequence[Word]) -> str:
    """Return ``words`` as one clean sentence of at most ``LONGEST_TEXT`` words."""
    rules = vocabulary.data("wording.toml")
    kept = [w for w in words if w.key not in rules["fillers"]]
    while kept and kept[0].key in rules["openers"]:
        kept = kept[1:]
    kept = [w for at, w in enumerate(kept) if at == 0 or w.key != kept[at - 1].key]
    shown = " ".join(
        w.text + ("," if "," in w.mark and at < len(kept) - 1 else "") for at, w in enumerate(kept)
    )
    shown = _LONE_I.sub("I", shown)
    tokens = shown.split()
    if len(tokens) > LONGEST_TEXT:
        shown = " ".join(tokens[:LONGEST_TEXT]).rstrip(",")
    return shown[:1].upper() + shown[1:]
