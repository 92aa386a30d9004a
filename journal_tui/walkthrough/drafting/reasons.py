"""Why a draft is what it is, in one line a remodeler can follow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from journal_tui.domain.draft import OwnWord
from journal_tui.domain.kinds import WHOLE_ROOM
from journal_tui.domain.times import clock
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.attributes import Stretch
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.senses import senses_of
from journal_tui.walkthrough.drafting.things import things_in, topic_before
from journal_tui.walkthrough.drafting.utterances import Utterance

#: Reasons, and quoted words for each, at most.
_MOST, _QUOTED = 3, 2
_NEXT_TO = {"pp": -2, "p": -1, "n": 1, "nn": 2}


@dataclass(frozen=True, slots=True)
class InHand:
    """The area last named, and at which second (0.0 before any was, and in untimed text)."""

    area: str = WHOLE_ROOM
    since: float = 0.0


def why(
    stretch: Stretch,
    span: Span,
    phase: str,
    area: str,
    in_hand: InHand,
    learned: Sequence[OwnWord],
    here: bool,
) -> str:
    """Return what made an entry its kind, its phase and its area, in plain words and quoting what was said.

    ``here`` is True when its own words name the area; ``in_hand`` is the area named before them.
    """
    parts = [f"{span.kind.plain}: {_kind(stretch, span)}"]
    own = [word.phrase for word in learned if word.phase or word.area]
    if own:
        parts.append(f"your own word {_quoted(own)}: {phase}, {area}")
    if not any(word.phase for word in learned):
        parts.append(f"{phase}: {_phase(stretch, phase)}")
    if not any(word.area for word in learned):
        parts.append(f"{area}: {_area(area, in_hand, here)}")
    return "; ".join(parts)


def _kind(stretch: Stretch, span: Span) -> str:
    table = vocabulary.data("reasons.toml")
    found: dict[str, None] = {}
    for sign in (*span.signs, *(f"s:{name}" for name in table["telling"][span.kind.value])):
        own_signs = len(found) < _MOST if sign in span.signs else not found
        plain = _plain(sign, stretch, table) if own_signs else ""
        if plain:
            found[plain] = None
    return ", ".join(found) or "the run of the talk"


def _plain(sign: str, stretch: Stretch, table: dict[str, Any]) -> str:
    """Return a model's sign in plain words, "" for one that says nothing to a reader."""
    if sign in table["about"]:
        return str(table["about"][sign])
    first, _, second = sign.partition("+")
    family, _, name = first.partition(":")
    first_utterance = stretch.utterances[stretch.first]
    if second:
        return _plain(second, stretch, table) or _plain(first, stretch, table)
    if family in table["near"]:
        return _near(family, name.removeprefix("s:"), stretch, table)
    if family == "s":
        meaning = table["signs"].get(name)
        quoted = _quoted(_said_as(name, first_utterance))
        return f"{meaning} ({quoted})" if meaning and quoted else ""
    if family in ("g", "head", "next"):
        return str(table["grammar"].get(name, ""))
    if family == "st":
        return str(table["starts"].get(name, ""))
    if family == "ph":
        return (
            f"a thing of {name} ({_quoted(_named(stretch.keys, name))})" if _named(stretch.keys, name) else ""
        )
    if family == "se":
        shown = zip(first_utterance.keys, _shown(first_utterance), strict=False)
        return _quoted([said for key, said in shown if name in senses_of(key)])
    return _word(family, name, first_utterance)


def _near(family: str, name: str, stretch: Stretch, table: dict[str, Any]) -> str:
    at = stretch.first + _NEXT_TO[family]
    meaning = table["signs"].get(name)
    if not meaning or not 0 <= at < len(stretch.utterances):
        return ""
    quoted = _quoted(_said_as(name, stretch.utterances[at]))
    return f"{meaning} {table['near'][family]} ({quoted})" if quoted else ""


def _word(family: str, name: str, utterance: Utterance) -> str:
    """Return a sign that is a word itself, or two, quoted; words that are in every sentence tell nothing."""
    if family not in ("w", "b", "first", "first2"):
        return ""
    keys, shown = utterance.keys, list(_shown(utterance))
    form = vocabulary.stem if family == "b" else vocabulary.singular if family == "w" else str
    words = name.split("_")
    forms = list(map(form, keys))
    at = next((n for n in range(len(keys)) if forms[n : n + len(words)] == words), None)
    common = vocabulary.common_words()
    if at is None or all(key in common or len(key) < 3 for key in keys[at : at + len(words)]):
        return ""
    return _quoted([" ".join(shown[at : at + len(words)])])


def _said_as(name: str, utterance: Utterance) -> list[str]:
    """Return the words of ``utterance`` that are the sign of speech ``name``, as shown."""
    keys = utterance.keys
    shown = list(_shown(utterance))
    spans = [(a, b) for a, b, found in vocabulary.signs().longest(keys) if found == name]
    return [" ".join(shown[a:b]) for a, b in spans]


def _shown(utterance: Utterance) -> Iterator[str]:
    for word in utterance.words:
        yield from word.text.split("-") if "-" in word.key else (word.text,)


def _named(keys: Sequence[str], phase: str) -> list[str]:
    return [thing.name for thing in things_in(keys) if thing.phase == phase]


def _phase(stretch: Stretch, phase: str) -> str:
    named = _named(stretch.keys, phase)
    if named:
        return _quoted(named)
    topic = topic_before(stretch.utterances, stretch.first)
    if topic and topic[0].phase == phase:
        return f"{_quoted([topic[0].name])} named before it"
    return "no trade word of its own" if phase == "other" else "what the talk around it is about"


def _area(area: str, in_hand: InHand, here: bool) -> str:
    if here:
        return "named here"
    if area == WHOLE_ROOM and not in_hand.since:
        return "no place named"
    return f"last place named at {clock(in_hand.since)}" if in_hand.since else "last place named"


def _quoted(words: Sequence[str]) -> str:
    plain = dict.fromkeys(word.strip() for word in words if word.strip())
    return ", ".join(f'"{word}"' for word in list(plain)[:_QUOTED])
