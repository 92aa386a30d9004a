"""Talk made clean: fillers, restarts, corrections, asides, tags, calls by name and coarse words gone.

Every step leaves words out, or swaps a number for the one that corrects it; none adds a word.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache, lru_cache
from typing import Any

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.words import Word, key_of

_STOPS = ".?!;…"
_LONGEST_REPEAT = 4
#: Words back in which a corrected number or day is looked for.
_LOOK_BACK = 16
_SUBJECT_FORMS = {
    form: base
    for base, forms in {
        "i": "i im ive ill id",
        "we": "we weve were",
        "it": "it its itll",
        "he": "he hes",
        "she": "she shes",
        "they": "they theyre theyve",
        "you": "you youre youve",
        "that": "that thats",
        "there": "there theres",
    }.items()
    for form in forms.split()
}
_AUXILIARIES = frozenset(["is", "was", "are", "were", "has", "have", "had", "will", "would", "can"])


@cache
def rules() -> dict[str, Any]:
    """Return the lists of ``wording.toml``, plain lists as sets."""
    table = vocabulary.data("wording.toml")
    return {name: frozenset(value) if isinstance(value, list) else value for name, value in table.items()}


@cache
def _phrases(name: str) -> vocabulary.Phrases:
    return vocabulary.Phrases({name: vocabulary.data("wording.toml")[name]})


@cache
def trade_words() -> frozenset[str]:
    """Return every single word of the trade and of its places."""
    trade = vocabulary.data("trade.toml")
    phrases = [p for table in trade["phases"].values() for p in table["things"] + table["weak"]]
    phrases += [p for names in trade["areas"].values() for p in names]
    words = {part for phrase in phrases for part in key_of(phrase).replace("-", " ").split()}
    return frozenset(words.difference(vocabulary.common_words()))


@cache
def _coarse() -> vocabulary.Phrases:
    return vocabulary.Phrases({"": vocabulary.data("wording.toml")["coarse"]["phrases"]})


def stops(word: Word) -> bool:
    """True when a full stop or its like follows ``word``."""
    return bool(word.mark) and any(c in _STOPS for c in word.mark)


def cleaned(words: Sequence[Word], marked: bool = True) -> list[Word]:
    """Return ``words`` of one stretch of talk with all that is no part of the message left out.

    ``marked`` is False where the captions' punctuation is a machine's guess.
    """
    kept = _marks_believed(words, marked)
    steps = (without_coarse, _no_fillers, _no_restarts, _corrected, _no_asides, _no_address, _no_tags)
    for step in steps:
        kept = step(kept)
    return spelled(_no_restarts(kept))


def _cut(words: list[Word], first: int, size: int) -> list[Word]:
    """Return ``words`` without ``size`` of them; a full stop after the last passes to the word before."""
    left, gone, right = words[:first], words[first : first + size], words[first + size :]
    if left and stops(gone[-1]) and not stops(left[-1]):
        left = [*left[:-1], left[-1]._replace(mark=gone[-1].mark)]
    return left + right


def _cut_all(words: list[Word], spans: Callable[[list[str]], list[tuple[int, int]]]) -> list[Word]:
    for start, end in sorted(spans([w.key for w in words]), reverse=True):
        words = _cut(_joined(words, start, end), start, end - start)
    return words


def _joined(words: list[Word], start: int, end: int) -> list[Word]:
    """Return ``words`` without the comma before ``start`` if another closes what stands up to ``end``."""
    if start and words[start - 1].mark == "," and words[end - 1].mark == ",":
        return [*words[: start - 1], words[start - 1]._replace(mark=""), *words[start:]]
    return words


def without_coarse(words: list[Word]) -> list[Word]:
    """Return ``words`` without coarse ones. "Hell" alone stays: captions write "he'll" so."""
    table = rules()["coarse"]
    spans = _coarse().longest([w.key for w in words])
    gone = {at for start, end, _name in spans for at in range(start, end)}
    for at, word in enumerate(words):
        how = _coarseness(word.key)
        after = words[at + 1].key if how and at + 1 < len(words) else ""
        if how == "always" or (how and after not in table["kept_before"]):
            gone.add(at)
    for at in sorted(gone, reverse=True):
        words = _cut(words, at, 1)
    return words


@lru_cache(16384)
def _coarseness(key: str) -> str:
    """Return whether a word is coarse "always", or "mostly": not before some words."""
    table = rules()["coarse"]
    if key.startswith(tuple(table["stems"])):
        return "always"
    return "" if set(key.split("-")).isdisjoint(table["words"]) else "mostly"


def _marks_believed(words: Sequence[Word], marked: bool) -> list[Word]:
    """Return ``words`` without the marks no speaker means ("to look at the. Back and")."""
    out: list[Word] = []
    for word in words:
        guessed = out and out[-1].mark not in ("", "-")
        if guessed and not (marked and out[-1].key not in rules()["no_mark_after"]):
            out[-1] = out[-1]._replace(mark="")
            word = lowered(word)
        out.append(word)
    return out


def lowered(word: Word, *, surely: bool = False) -> Word:
    """Return ``word`` without a capital that only opened a sentence; ``surely`` if it is no name."""
    text = word.text
    if not text[:1].isupper() or text == "I" or text.startswith(("I'", "I’")):
        return word
    if word.key in rules()["names"] or not (surely or is_everyday(word)):
        return word
    return word if len(text) > 1 and not text[1].islower() else word._replace(text=text[0].lower() + text[1:])


def _no_fillers(words: list[Word]) -> list[Word]:
    fillers = rules()["fillers"]
    if fillers.isdisjoint([w.key for w in words]):
        return words
    for at in range(len(words) - 1, -1, -1):
        if words[at].key in fillers:
            words = _cut(words, at, 1)
    return words


def _class_of(word: Word) -> str:
    table = rules()
    if word.key in table["days"]:
        return "day"
    return "number" if word.key[:1].isdigit() or word.key.split("-")[0] in table["numbers"] else ""


def _corrected(words: list[Word]) -> list[Word]:
    words = _measures_swapped(words)
    keys = [w.key for w in words]
    for _start, end, _name in sorted(_phrases("taken_back").longest(keys), reverse=True):
        if len(words) - end >= 3:
            return words[end:]
    return words


def _measures_swapped(words: list[Word]) -> list[Word]:
    """Swap a number or day for the one that corrects it: "by Thursday, no, Friday"."""
    keys = [w.key for w in words]
    for start, end, _name in _phrases("measure_swapped").longest(keys):
        kind = _class_of(words[end]) if end < len(words) and start else ""
        back = range(start - 1, max(-1, start - 1 - _LOOK_BACK), -1)
        old = next((at for at in back if kind and _class_of(words[at]) == kind), None)
        if old is None or any(stops(w) for w in words[old : start - 1]):
            continue
        unit = words[end + 1].key if end + 1 < len(words) else ""
        follows = words[old + 1].key if old + 1 < start else ""
        alike = vocabulary.singular(unit) == vocabulary.singular(follows) and unit in rules()["units"]
        if kind == "day" or old + 1 == start or alike:
            last = end + 1 + alike
            return [*words[:old], *_joined(words, last, start)[end:last], *words[last:]]
        return [*words[:old], words[end], *words[old + 1 : start], *words[end + 1 :]]
    return words


def _no_restarts(words: list[Word]) -> list[Word]:
    """Drop what is said again at once ("the the", "it was, it's"); the second saying stays."""
    keys = [w.key for w in words]
    at = 0
    while at < len(words) - 1:
        may_be = keys[at] in keys[at + 1 : at + 1 + _LONGEST_REPEAT] or keys[at] in _SUBJECT_FORMS
        size = _said_again(words, at) if may_be else 0
        if size:
            words, keys = words[:at] + words[at + size :], keys[:at] + keys[at + size :]
        at = max(0, at - 1) if size else at + 1
    return words


def _said_again(words: Sequence[Word], at: int) -> int:
    keys = [w.key for w in words[at : at + 2 * _LONGEST_REPEAT]]
    for size in range(min(_LONGEST_REPEAT, len(keys) // 2), 0, -1):
        again = keys[:size] == keys[size : 2 * size] and not any(stops(w) for w in words[at : at + size])
        # "Two two by tens" are two, and "2 by 2 by 8" has three sides: figures said twice are no restart.
        if again and not all(_class_of(w) == "number" or w.key in ("by", "x") for w in words[at : at + size]):
            return size
    base = _SUBJECT_FORMS.get(keys[0])
    if base is None or stops(words[at]):
        return 0
    if _SUBJECT_FORMS.get(keys[1]) == base and keys[1] != "were":
        return 1
    again = len(keys) > 2 and keys[1] in _AUXILIARIES and _SUBJECT_FORMS.get(keys[2]) == base
    return 2 if again and not stops(words[at + 1]) else 0


def _no_asides(words: list[Word]) -> list[Word]:
    table = rules()

    def always(keys: list[str]) -> list[tuple[int, int]]:
        spans = _phrases("asides").longest(keys)
        return [(a, b) for a, b, _n in spans if not a or keys[a - 1] not in table["asides_kept_after"]]

    def apart(keys: list[str]) -> list[tuple[int, int]]:
        spans = _phrases("set_off").longest(keys)
        return [(a, b) for a, b, _n in spans if (not a or words[a - 1].mark) and words[b - 1].mark]

    words = _cut_all(words, always)
    return _cut_all(words, apart)


def _no_address(words: list[Word]) -> list[Word]:
    """Drop a name or "folks" set off by a comma from what is said to them."""
    table, at = rules(), 0
    if not any(w.mark for w in words):
        return words
    while at < len(words):
        head = not at or bool(words[at - 1].mark)
        size = 2 if words[at].key in table["titles"] and at + 1 < len(words) else 1
        last = words[at + size - 1]
        closed = bool(last.mark) or at + size == len(words)
        called = words[at].key in table["address"] or size == 2 or _is_called(words, at)
        if head and closed and called and len(words) > size and (at or "," in last.mark):
            words = _cut(_joined(words, at, at + size), at, size)
        else:
            at += 1
    return words


def _is_called(words: Sequence[Word], at: int) -> bool:
    word = words[at]
    if not word.text[:1].isupper() or not word.text.isalpha() or "," not in word.mark or _known(word.key):
        return False
    after = words[at + 1].key if at + 1 < len(words) else ""
    return after in rules()["address_before"] or after in vocabulary.grammar()["bare_verbs"]


@cache
def _known_words() -> frozenset[str]:
    common = vocabulary.common_words()
    joints = [word for group in vocabulary.data("joints.toml").values() for word in group]
    said = [
        part
        for group in vocabulary.data("speech.toml")["signs"].values()
        for p in group
        for part in p.split()
    ]
    closed = [word for group in vocabulary.grammar().values() for word in group]
    return trade_words().union(common, joints, said, closed, rules()["numbers"], rules()["everyday"])


def _known(key: str) -> bool:
    return key in _known_words() or vocabulary.singular(key) in _known_words()


def is_everyday(word: Word) -> bool:
    """True when ``word`` is one of the lists' own, so that a capital on it only opened a sentence."""
    return all(_known(part) for part in word.key.split("-"))


def _no_tags(words: list[Word]) -> list[Word]:
    """Drop "right", "see", "isn't it" at the end of what is stated."""
    table = rules()
    for at in range(len(words) - 1, 0, -1):
        if at >= len(words) or (at != len(words) - 1 and not words[at].mark):
            continue
        for size in (3, 2, 1):
            first = at + 1 - size
            if first < 3:
                continue
            keys = [w.key for w in words[first : at + 1]]
            asked = size == 2 and keys[0] in table["tag_auxiliaries"] and keys[1] in table["tag_pronouns"]
            asked = asked and "," in words[first - 1].mark
            said = " ".join(keys) in table["tags"] and words[first - 1].key not in table["tags_kept_after"]
            if asked or (said and (words[first - 1].mark or at == len(words) - 1)):
                words = _cut(words, first, size)
                break
    return words


@lru_cache(16384)
def _spelled_so(folded: str, key: str) -> bool:
    """True for a word that is spelled as it should be, whatever stands around it."""
    table = rules()
    changed = folded in table["apostrophes"] or folded in table["apostrophes_before"]
    return not (changed or folded[:2] in ("i'", "i’") or key in table["names"] or key in table["capitals"])


def spelled(words: list[Word]) -> list[Word]:
    """Return ``words`` with the apostrophes captions left out, where the word can be no other."""
    table = rules()
    out: list[Word] = []
    for at, word in enumerate(words):
        folded = word.text.casefold()
        if _spelled_so(folded, word.key):
            out.append(word)
            continue
        shown = table["apostrophes"].get(folded)
        rule = table["apostrophes_before"].get(folded)
        if rule is not None and at + 1 < len(words) and not word.mark:
            before = words[at - 1] if at else None
            head = before is None or bool(before.mark) or before.key in table["openers"] | table["days"]
            after = words[at + 1].key
            fits = after in rule["before"] or (word.key == "its" and bool(_class_of(words[at + 1])))
            fits = fits or (word.key == "were" and after.endswith("ing"))
            shown = rule["shown"] if fits and (head or not rule["head"]) else None
        if shown is not None and word.text[:1].isupper():
            shown = shown[:1].upper() + shown[1:]
        if shown is None and word.key in table["names"]:
            shown = word.text[:1].upper() + word.text[1:]
        elif shown is None and word.text.startswith(("i'", "i’")):
            shown = "I" + word.text[1:]
        elif shown is None and word.key in table["capitals"]:
            shown = word.text.upper()
        out.append(word._replace(text=shown) if shown else word)
    return out
