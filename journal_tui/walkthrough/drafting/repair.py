"""Misheard trade words set right, in context; what was heard stays with the word.

Three ways, the surest first: words and pairs of words known to be mishearings; real words that
stand where only a trade word makes sense; and words the drafter has never met that sound like,
and are spelled nearly like, a trade word, in talk where other trade words stand near.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.soundalike import metaphone
from journal_tui.walkthrough.drafting.words import Word, key_of

#: Words on either side that count as near.
_NEAR = 9
#: Spelling likeness (0 to 100) needed beside the same sound, and beside a sound one step off.
_LIKE, _VERY_LIKE = 65.0, 84.0
_SHORTEST = 5
_NUMBERS = frozenset({"three", "seven", "eight", "quarter"})


def repaired(words: Sequence[Word]) -> list[Word]:
    """Return ``words`` with misheard trade words set right; each changed word keeps what was heard."""
    joined = _joined(words)
    keys = [word.key for word in joined]
    return [word if _stays(word.key) else _one(word, at, keys) for at, word in enumerate(joined)]


@cache
def _rules() -> dict[str, Any]:
    rules = vocabulary.data("misheard.toml")
    joined = {tuple(key_of(heard).split()): shown for heard, shown in rules["joined"].items()}
    return {
        "always": {key_of(heard): shown for heard, shown in rules["always"].items()},
        "joined": joined,
        "joined_first": frozenset(heard[0] for heard in joined),
        "near": {key_of(heard): rule for heard, rule in rules["noun_near"].items()},
    }


@cache
def _look_alikes() -> frozenset[str]:
    """Real English words that sound nearly like a trade word; they are never taken for one."""
    text = (files(__package__) / "data" / "lookalikes.txt").read_text(encoding="utf-8")
    return frozenset(line for line in text.split("\n") if line and not line.startswith("#"))


@cache
def _trade_words() -> frozenset[str]:
    trade = vocabulary.data("trade.toml")
    phrases = [p for table in trade["phases"].values() for p in table["things"] + table["weak"]]
    phrases += [p for names in trade["areas"].values() for p in names]
    return frozenset(word for phrase in phrases for word in key_of(phrase).replace("-", " ").split())


@cache
def _by_sound() -> dict[str, frozenset[str]]:
    """Return the sounds of the trade words, by themselves and by what is left of each when a letter is
    left out: two sounds at most one letter apart have a spelling of these in common."""
    table: dict[str, set[str]] = {}
    for sound in _sounds():
        for form in _forms(sound):
            table.setdefault(form, set()).add(sound)
    return {form: frozenset(sounds) for form, sounds in table.items()}


@cache
def _sounds() -> dict[str, list[str]]:
    """Return the trade words by their sound."""
    table: dict[str, list[str]] = {}
    for word in sorted(_trade_words()):
        if len(word) >= _SHORTEST and word not in _NUMBERS:
            table.setdefault(metaphone(word), []).append(word)
    return table


def _forms(sound: str) -> list[str]:
    return [sound, *(sound[:at] + sound[at + 1 :] for at in range(len(sound)))]


def _joined(words: Sequence[Word]) -> list[Word]:
    rules: dict[tuple[str, ...], str] = _rules()["joined"]
    firsts: frozenset[str] = _rules()["joined_first"]
    out: list[Word] = []
    at = 0
    while at < len(words):
        for size in (3, 2) if words[at].key in firsts else ():
            run = words[at : at + size]
            shown = rules.get(tuple(w.key for w in run)) if len(run) == size else None
            if shown and not any(w.mark for w in run[:-1]) and not _verb_pair(run, words, at):
                heard = " ".join(w.text for w in run)
                out.append(run[-1]._replace(text=shown, key=key_of(shown), heard=heard, start=run[0].start))
                at += size
                break
        else:
            out.append(words[at])
            at += 1
    return out


def _verb_pair(run: Sequence[Word], words: Sequence[Word], at: int) -> bool:
    """True where "shut off", "clean out", "block in" or "knock out" is said as a verb, not a thing."""
    if run[-1].key not in ("off", "out", "in"):
        return False
    before = words[at - 1].key if at else ""
    return before not in ("the", "a", "that", "this", "each", "every", "your", "main", "old", "new", "thats")


@lru_cache(16384)
def _stays(key: str) -> bool:
    """True for a word that is taken for no other, wherever it stands."""
    rules = _rules()
    if key in rules["always"] or key in rules["near"]:
        return False
    return key[:1].isdigit() or len(key) < _SHORTEST or _known(key) or nearest_trade_word(key) is None


def _one(word: Word, at: int, keys: Sequence[str]) -> Word:
    if word.heard or word.key[:1].isdigit():
        return word
    rules = _rules()
    shown = rules["always"].get(word.key)
    if shown is None and word.key in rules["near"]:
        shown = _in_place(rules["near"][word.key], at, keys)
    elif shown is None and len(word.key) >= _SHORTEST and word.text.isalpha():
        shown = _sounds_like(word.key, at, keys)
    if shown is None or key_of(shown) == word.key:
        return word
    if word.text[:1].isupper():
        shown = shown[:1].upper() + shown[1:]
    return word._replace(text=shown, key=key_of(shown), heard=word.text)


def _in_place(rule: dict[str, Any], at: int, keys: Sequence[str]) -> str | None:
    before = keys[at - 1] if at else ""
    after = keys[at + 1] if at + 1 < len(keys) else ""
    if "after" in rule and before not in rule["after"]:
        return None
    if after in rule.get("before_not", ()):
        return None
    if "near" in rule:
        near = map(vocabulary.singular, keys[max(0, at - _NEAR) : at + _NEAR + 1])
        if not set(near) & {vocabulary.singular(k) for k in rule["near"]}:
            return None
    return str(rule["shown"])


def _sounds_like(key: str, at: int, keys: Sequence[str]) -> str | None:
    nearest = nearest_trade_word(key)
    if nearest is None:
        return None
    near = [*keys[max(0, at - _NEAR) : at], *keys[at + 1 : at + _NEAR + 1]]
    return nearest if any(vocabulary.singular(k) in _trade_words() for k in near) else None


@lru_cache(16384)
def _known(key: str) -> bool:
    """True for a word the lists hold, or whose singular they hold."""
    # "sistered" and "floating" are forms of words the lists hold, not strangers.
    return key.endswith(("ed", "ing")) or any(
        form in _trade_words() or form in _look_alikes() for form in (key, vocabulary.singular(key))
    )


@lru_cache(16384)
def nearest_trade_word(key: str) -> str | None:
    """Return the trade word that sounds like ``key`` (at most one sound off) and is spelled most like
    it, None when none is near enough."""
    sound = metaphone(key)
    sounds = {near for form in _forms(sound) for near in _by_sound().get(form, ()) if near[:1] == sound[:1]}
    close = [
        (steps, word)
        for near in sorted(sounds, key=lambda near: (len(near), _sounds()[near]))
        for steps in (_steps(near, sound),)
        if steps <= 1
        for word in _sounds()[near]
    ]
    if not close:
        return None
    from rapidfuzz import fuzz  # loaded only when a strange word turns up

    best: tuple[float, str] | None = None
    for steps, word in close:
        like = fuzz.ratio(key, word)
        if like >= (_LIKE if steps == 0 else _VERY_LIKE) and (best is None or like > best[0]):
            best = (like, word)
    return best[1] if best else None


def _steps(one: str, other: str) -> int:
    """Return 0 for equal keys, 1 for keys one letter changed, added or left out apart, else 2."""
    if one == other:
        return 0
    short, long = sorted((one, other), key=len)
    if len(short) == len(long):
        return 1 if sum(a != b for a, b in zip(short, long, strict=True)) == 1 else 2
    if len(long) - len(short) > 1:
        return 2
    return 1 if any(long[:i] + long[i + 1 :] == short for i in range(len(long))) else 2
