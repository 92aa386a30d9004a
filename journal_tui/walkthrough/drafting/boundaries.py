"""Where unpunctuated talk may be cut: what stands on both sides of a gap between two words."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.words import Word

#: Model labels: talk runs on across the gap, or is cut there.
RUNS_ON, CUT = "on", "cut"

_RULES = vocabulary.data("joints.toml")
SUBJECTS = frozenset(_RULES["subjects"])
JOINTS = frozenset(_RULES["joints"])
VERBS = frozenset(_RULES["verbs"])
CANNOT_END = frozenset(_RULES["cannot_end"])
NEVER_LAST = frozenset(_RULES["never_last"])
AGAIN = tuple(tuple(phrase.split()) for phrase in _RULES["again"])
_AGAIN_FIRST = frozenset(phrase[0] for phrase in AGAIN)
_AGAIN_LONGEST = max(map(len, AGAIN))
_GAPS = ((0.15, "none"), (0.4, "short"), (0.9, "long"), (1e9, "pause"))
_NOWHERE = "#"


def says_again(words: Sequence[Word], at: int) -> bool:
    """True where "same for ..." begins with word ``at``."""
    if words[at].key not in _AGAIN_FIRST or (at and words[at - 1].key in ("and", "the", "its", "is")):
        return False
    begun = tuple([w.key for w in words[at : at + _AGAIN_LONGEST]])
    return any(begun[: len(phrase)] == phrase for phrase in AGAIN)


def _silence(seconds: float) -> str:
    for most, name in _GAPS:
        if seconds < most:
            return name
    return _GAPS[-1][1]


def _ending(key: str) -> str:
    return key[-3:] if len(key) > 4 else key if len(key) < 3 else "short"


def gap_features(words: Sequence[Word], at: int, since: int) -> list[str]:
    """Return what shows at the gap after word ``at``, ``since`` words after the last cut."""
    word, following = words[at], words[at + 1]
    before = words[at - 1].key if at else _NOWHERE
    left, right = word.key, following.key
    beyond = words[at + 2].key if at + 2 < len(words) else _NOWHERE
    silence = following.start - word.end
    joint = "subject" if right in SUBJECTS else "joint" if right in JOINTS else "other"
    then = "verb" if beyond in VERBS else "subject" if beyond in SUBJECTS else "other"
    verb_held = not VERBS.isdisjoint([w.key for w in words[max(0, at - since + 1) : at + 1]])
    return [
        "bias",
        f"left:{left}",
        f"right:{right}",
        f"before:{before}",
        f"beyond:{beyond}",
        f"across:{left}_{right}",
        f"after:{right}_{beyond}",
        f"up to:{before}_{left}",
        f"since:{min(since, 12)}",
        "silence:" + _silence(silence),
        "cue ends" if word.cue != following.cue else "within cue",
        f"{joint} then {then}",
        f"{joint} then {then} since {min(since, 5)}",
        "cannot end" if left in CANNOT_END else "can end",
        f"ending:{_ending(left)}",
        f"next endings:{_ending(right)}_{_ending(beyond)}",
        f"{'a' if verb_held else 'no'} verb so far, {joint}",
    ]
