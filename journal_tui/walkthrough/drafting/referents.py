"""What "it" and "they" stand for, where the talk just before leaves no doubt."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.clauses import Clause, fixtures_at, is_verb, things_at
from journal_tui.walkthrough.drafting.cleaning import lowered, rules, trade_words
from journal_tui.walkthrough.drafting.words import Word, key_of

#: Words before a thing's name that may belong to it.
_MOST_BEFORE = 3
_ARTICLES = frozenset(["a", "an", "another", "this", "that", "these", "those", "one", "some"])
_DETERMINERS = frozenset(["the", "your", "my", "our", "his", "her", "their", *_ARTICLES])
_UNREAL = frozenset(["no", "any", "every", "each", "not", "nothing", "without", "if", "theres"])
_PLURAL_VERBS = frozenset(["are", "were", "have"])


def named_last(before: Iterable[Sequence[Word]]) -> list[Word] | None:
    """Return the one thing the nearest of ``before`` (nearest first) is about, as it was said; None when
    it is about none, about several, about a person, or about one that is not there."""
    for words in before:
        keys = [w.key for w in words]
        spans = fixtures_at(keys)
        if spans:
            names = {tuple(map(vocabulary.singular, keys[a:b])) for a, b in spans}
            person = any(True for _ in vocabulary.parties().found(keys[slice(*spans[0])]))
            return _noun_phrase(words, *spans[0]) if len(names) == 1 and not person else None
    return None


def _noun_phrase(words: Sequence[Word], start: int, end: int) -> list[Word] | None:
    first = start
    while (
        first > 0
        and start - first < _MOST_BEFORE
        and not words[first - 1].mark
        and _describes(words[first - 1])
    ):
        first -= 1
    before = words[first - 1] if first and not words[first - 1].mark else None
    if before is not None and before.key in _UNREAL:
        return None
    if any(is_verb(w) and w is not words[end - 1] for w in words[start:end]):
        return None
    phrase = [w._replace(mark="") for w in words[first:end]]
    last = phrase[-1].text
    for ending in ("'s", "’s"):
        last = last.removesuffix(ending)
    phrase[-1] = phrase[-1]._replace(text=last, key=key_of(last))
    if first and (before is None or before.key not in _DETERMINERS):
        return None
    if before is not None and before.key in _DETERMINERS:
        shown = "the" if before.key in _ARTICLES else before.text.casefold()
        phrase.insert(0, before._replace(text=shown, key=shown, heard="", mark=""))
    else:
        # Named at the head of a line, as in a list: "Toilet. Moved it over."
        phrase.insert(0, phrase[0]._replace(text="the", key="the", heard="", mark=""))
    phrase[1] = lowered(phrase[1], surely=True)
    return phrase


def _describes(word: Word) -> bool:
    words = vocabulary.grammar()
    closed = any(
        word.key in group for name, group in words.items() if name not in ("being", "past", "determiners")
    )
    if word.key in trade_words() or word.key in ("old", "new", "first", "second"):
        return True
    common = word.key in vocabulary.common_words()
    return not (
        closed or common or is_verb(word) or word.key in _DETERMINERS | _UNREAL or word.key[:1].isdigit()
    )


def is_plural(phrase: Sequence[Word]) -> bool:
    """True when "they" would stand for ``phrase``."""
    key = phrase[-1].key
    return vocabulary.singular(key) != key


def may_refer(clause: Clause) -> bool:
    """True when the subject of ``clause``, or an object, might stand for something named before."""
    objects: frozenset[str] = rules()["objects"]
    return clause.words[0].key in _subjects() or not objects.isdisjoint(w.key for w in clause.words[1:])


@cache
def _subjects() -> frozenset[str]:
    table = rules()
    return frozenset(table["singular_it"] | table["plural_they"] | table["pointing_that"])


def with_subject_named(clause: Clause, before: Iterable[Sequence[Word]]) -> Clause:
    """Return ``clause`` with a leading "it" or "they" replaced by what was named just before."""
    table, words = rules(), clause.words
    key = words[0].key
    after = words[1].key if len(words) > 1 else ""
    plain = key in ("it", "they", "this", "that")
    if len(words) < 2 or words[0].mark or (plain and not _verb_like(words[1])):
        return clause
    if key in table["singular_it"]:
        if after in table["empty_it"] or (plain and words[2:3] and words[2].key in table["empty_it"]):
            return clause
    elif key in table["pointing_that"]:
        said = vocabulary.signs().longest([w.key for w in words[1:4]])
        if not any(name in ("fault", "done") for _a, _b, name in said) or things_at(clause.keys):
            return clause
    elif key not in table["plural_they"]:
        return clause
    phrase = named_last(before)
    if phrase is None or is_plural(phrase) != (key in table["plural_they"]):
        return clause
    if phrase[-1].key in clause.keys:
        return clause
    full = table["in_full"].get(key)
    if full == "is" and _perfect(words):
        full = "has"
    verb = [words[0]._replace(text=full, key=full, heard="", mark="")] if full else []
    return Clause((*phrase, *verb, *words[1:]), clause.opens)


def _verb_like(word: Word) -> bool:
    return is_verb(word) or (word.key.endswith("s") and len(word.key) > 3)


def _perfect(words: Sequence[Word]) -> bool:
    return words[1].key in ("been", "got", "had")


def _handles(word: Word) -> bool:
    """True for a verb that has an object of its own: "cut it back", "cutting it back"."""
    verbs = vocabulary.grammar()["bare_verbs"] | vocabulary.grammar()["past"]
    stem = word.key.removesuffix("ing")
    if word.key in verbs or stem == word.key or len(stem) < 2:
        return word.key in verbs
    return not verbs.isdisjoint((stem, stem + "e", stem[:-1] if stem[-1] == stem[-2] else stem))


def with_object_named(clause: Clause, before: Iterable[Sequence[Word]]) -> Clause:
    """Return ``clause``, which names nothing, with its first "it" or "them" after the verb named."""
    table, words = rules(), clause.words
    for at in range(1, len(words)):
        if words[at].key not in table["objects"]:
            continue
        after = words[at + 1] if at + 1 < len(words) else None
        if after is not None and not words[at].mark and is_verb(after):
            return clause
        # "Take it down" handles a thing; "live in it" may be about anything.
        if not _handles(words[at - 1]):
            return clause
        phrase = named_last(before)
        plural = words[at].key != "it"
        if phrase is None or is_plural(phrase) != plural:
            return clause
        named = [*phrase[:-1], phrase[-1]._replace(mark=words[at].mark)]
        return Clause((*words[:at], *named, *words[at + 1 :]), clause.opens)
    return clause
