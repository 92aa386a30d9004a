"""Where unpunctuated talk may be cut: what stands on both sides of a gap between two words."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import repeat
from typing import Any

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.linear import Linear
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


def _of_left(key: str) -> tuple[str, ...]:
    return "bias", f"left:{key}", "cannot end" if key in CANNOT_END else "can end", f"ending:{_ending(key)}"


def _of_right(key: str) -> tuple[str, ...]:
    return (f"right:{key}",)


def _of_before(key: str) -> tuple[str, ...]:
    return (f"before:{key}",)


def _of_beyond(key: str) -> tuple[str, ...]:
    return (f"beyond:{key}",)


def _of_endings(right: str, beyond: str) -> tuple[str, ...]:
    return (f"next endings:{right}_{beyond}",)


def _of_joint(
    joint: str, then: str, since: int, silence: str, verb_held: bool, cue_ends: bool
) -> tuple[str, ...]:
    return (
        f"since:{since}",
        "silence:" + silence,
        "cue ends" if cue_ends else "within cue",
        f"{joint} then {then}",
        f"{joint} then {then} since {min(since, 5)}",
        f"{'a' if verb_held else 'no'} verb so far, {joint}",
    )


#: What makes features of a part of a gap, and the part itself.
Part = tuple[Any, ...]


def _gap(words: Sequence[Word], at: int, since: int) -> tuple[tuple[Part, ...], tuple[str, str, str]]:
    """Return the parts of a gap that come again and again, and the features of its pairs of words."""
    word, following = words[at], words[at + 1]
    before = words[at - 1].key if at else _NOWHERE
    left, right = word.key, following.key
    beyond = words[at + 2].key if at + 2 < len(words) else _NOWHERE
    joint = "subject" if right in SUBJECTS else "joint" if right in JOINTS else "other"
    then = "verb" if beyond in VERBS else "subject" if beyond in SUBJECTS else "other"
    verb_held = not VERBS.isdisjoint([w.key for w in words[max(0, at - since + 1) : at + 1]])
    silence = _silence(following.start - word.end)
    parts = (
        (_of_left, left),
        (_of_right, right),
        (_of_before, before),
        (_of_beyond, beyond),
        (_of_endings, _ending(right), _ending(beyond)),
        (_of_joint, joint, then, min(since, 12), silence, verb_held, word.cue != following.cue),
    )
    return parts, (f"across:{left}_{right}", f"after:{right}_{beyond}", f"up to:{before}_{left}")


def gap_features(words: Sequence[Word], at: int, since: int) -> list[str]:
    """Return what shows at the gap after word ``at``, ``since`` words after the last cut."""
    parts, pairs = _gap(words, at, since)
    return [name for features, *of in parts for name in features(*of)] + list(pairs)


class Pulls(dict[Part, int]):
    """How strongly a gap pulls towards being cut, what each of its parts pulls being remembered."""

    def __init__(self, model: Linear) -> None:
        super().__init__()
        on, cut = model.labels.index(RUNS_ON), model.labels.index(CUT)
        self._leans = {name: row[cut] - row[on] for name, row in model.features.items()}

    def __missing__(self, part: Part) -> int:
        features, *of = part
        self[part] = pull = sum(map(self._leans.get, features(*of), repeat(0)))
        return pull

    def of(self, words: Sequence[Word], at: int, since: int) -> int:
        """Return the pull of the gap after word ``at``, ``since`` words after the last cut: the weights of
        its features for a cut over those for running on."""
        parts, pairs = _gap(words, at, since)
        return sum(map(self.__getitem__, parts)) + sum(map(self._leans.get, pairs, repeat(0)))


@lru_cache(4)
def pulls_of(model: Linear) -> Pulls:
    """Return what the gaps of talk pull by ``model``, with what is remembered of talk before."""
    return Pulls(model)
