"""Clauses of clean talk: where they join, what each says, and which of them carry an entry."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, cached_property
from itertools import combinations, pairwise

from journal_tui.domain.kinds import Kind
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.cleaning import rules, stops
from journal_tui.walkthrough.drafting.words import Word

#: Words in a draft's text at most.
LONGEST_TEXT = 20
#: Clauses looked at for one text; talk with more is cut to the likeliest.
_MOST_CLAUSES = 10

_TELLING = {
    Kind.OBSERVATION: frozenset(["fault", "sound", "measured", "done", "look"]),
    Kind.DECISION: frozenset(["decide", "instead", "refuse", "going_to"]),
    Kind.NEXT_STEP: frozenset(
        ["need", "must_be_done", "going_to", "supposed", "request", "ask_other", "order_get", "do_work"]
    ),
}
#: What a clause is worth for having been said: where there is room, only what says nothing goes.
_KEPT = 1.0
_EMPTY = frozenset(["general", "story", "greet", "if_then"])


@dataclass(frozen=True)
class Clause:
    """Clean words that say one thing; ``opens`` is True where a sentence begins with them."""

    words: tuple[Word, ...]
    opens: bool

    @cached_property
    def keys(self) -> list[str]:
        """Look-up forms, hyphenated words taken apart."""
        return [part for word in self.words for part in word.key.split("-")]

    @cached_property
    def leans_back(self) -> bool:
        """True when it makes no sense without the clause before: "because ...", "and carry it out"."""
        key = self.words[0].key
        if key in rules()["coordinators"]:
            return not self.opens and not begins_clause(self.words, 1)
        return not self.leans_forward and (
            key in rules()["leans_back"] or not (self.opens or is_whole(self.words))
        )

    @cached_property
    def leans_forward(self) -> bool:
        """True when it only leads up to the clause after: "before we close that up, ..."."""
        head = 1 if self.words[0].key in rules()["coordinators"] and len(self.words) > 1 else 0
        if not (self.opens or head) or self.words[head].key not in rules()["leans_forward"]:
            return False
        return not any(begins_clause(self.words, at) for at in range(head + 3, len(self.words)))


def is_verb(word: Word) -> bool:
    """True when ``word`` can be the verb of a clause: an auxiliary, a past form, a contraction."""
    if word.key in _verbs():
        return True
    text = word.text.replace("’", "'")
    return "'" in text and not text.endswith("s'") and word.key != "oclock"


@cache
def _verbs() -> frozenset[str]:
    forms = (vocabulary.grammar()[name] for name in ("modal", "being", "having", "past"))
    return frozenset(vocabulary.data("joints.toml")["verbs"]).union(*forms)


def begins_clause(words: Sequence[Word], at: int) -> bool:
    """True when a subject and its verb begin at word ``at`` ("it's", "we had", "the plumber has")."""
    if at >= len(words):
        return False
    key, text = words[at].key, words[at].text.replace("’", "'")
    after = words[at + 1] if at + 1 < len(words) else None
    if "'" in text and key.rstrip("s") not in ("let",) and _base(text) in rules()["subjects"]:
        return True
    if key in ("lets", "dont"):
        return at == 0 or bool(words[at - 1].mark) or words[at - 1].key in rules()["coordinators"]
    if after is None or words[at].mark:
        return False
    if key in rules()["subjects"] and not _possessive(after):
        third_person = after.key.endswith(("ed", "s")) and after.key not in rules()["no_verbs"]
        return (
            third_person or is_verb(after) or (key in rules()["determiners"] and _noun_then_verb(words, at))
        )
    return key in rules()["determiners"] and _noun_then_verb(words, at)


def _noun_then_verb(words: Sequence[Word], at: int) -> bool:
    for word in words[at + 2 : at + 8]:
        if is_verb(word):
            return True
        if word.mark or word.key in rules()["coordinators"]:
            break
    return False


def _possessive(word: Word) -> bool:
    """True for "grout's": no pronoun stands before it as its subject."""
    return word.text.endswith(("'s", "’s")) and _base(word.text.replace("’", "'")) not in rules()["subjects"]


def _base(text: str) -> str:
    return text.casefold().partition("'")[0]


def is_whole(words: Sequence[Word]) -> bool:
    """True when ``words`` hold a verb, or begin with an order."""
    if any(is_verb(w) for w in words):
        return True
    told = len(words) > 1 and words[0].key in rules()["subjects"] and words[1].key.endswith("ed")
    return told or (len(words) > 1 and words[0].key in vocabulary.grammar()["bare_verbs"])


def clauses_of(words: Sequence[Word], opens: bool = True) -> list[Clause]:
    """Return clean ``words`` cut into clauses; where captions have no marks, also between statements that
    run on."""
    marked = bool(words) and bool(words[-1].mark)
    found: list[Clause] = []
    first = 0
    for at in range(len(words)):
        last = at == len(words) - 1
        if last or stops(words[at]) or _joint(words, first, at, marked):
            found.append(Clause(tuple(words[first : at + 1]), opens))
            first, opens = at + 1, stops(words[at]) or (not last and not marked and _run_on(words, at))
    return found


def _run_on(words: Sequence[Word], at: int) -> bool:
    """True where one statement follows another with nothing to join them."""
    return (
        not words[at].mark
        and words[at + 1].key not in rules()["coordinators"]
        and begins_clause(words, at + 1)
    )


def _joint(words: Sequence[Word], first: int, at: int, marked: bool) -> bool:
    word, after = words[at], words[at + 1]
    held = words[first : at + 1]
    comma = bool(word.mark) and any(c in ",:–—" for c in word.mark)
    if not comma and (word.key in rules()["holds_on"] or _inverted(word, after)):
        return False
    if not comma and (
        word.key in rules()["coordinators"] or word.key in vocabulary.grammar()["prepositions"]
    ):
        return False
    if after.key in rules()["coordinators"]:
        head = at + 2
        while head < len(words) - 1 and words[head].key in rules()["coordinators"]:
            head += 1
        joined = begins_clause(words, head) or (
            head < len(words)
            and (is_verb(words[head]) or words[head].key in vocabulary.grammar()["bare_verbs"])
        )
        return (is_whole(held) or comma) and (joined or comma) and len(held) > 1
    if comma:
        return begins_clause(words, at + 1) or after.key in rules()["leans_back"] or _orders(words, at + 1)
    if after.key in ("because", "cause", "unless"):
        return is_whole(held)
    if marked or is_being(word) or (at and words[at - 1].key in ("tell", "told", "how")):
        return False
    long_enough = len(held) > 3 or ("'" in after.text and after.key not in ("thats", "whats"))
    return (
        is_whole(held)
        and long_enough
        and begins_clause(words, at + 1)
        and after.key not in rules()["determiners"]
    )


def is_being(word: Word) -> bool:
    """True for "is" and its like: what follows completes it ("the trouble is they're short")."""
    return word.key in ("is", "are", "was", "were", "be")


def _inverted(word: Word, after: Word) -> bool:
    """True for a verb before its subject: "does she want", "is it"."""
    asks = word.key in vocabulary.grammar()["modal"] or word.key in (
        "do",
        "does",
        "did",
        "is",
        "are",
        "was",
        "has",
        "have",
    )
    return asks and "'" not in word.text and after.key in rules()["subjects"]


def _orders(words: Sequence[Word], at: int) -> bool:
    return words[at].key in vocabulary.grammar()["bare_verbs"] and at + 1 < len(words) and not words[at].mark


def things_at(keys: Sequence[str]) -> list[tuple[int, int]]:
    """Return where ``keys`` name things of the trade as what they are about, not as where it is."""
    spans = [(a, b) for a, b, _name in vocabulary.things().longest(keys)]
    begins = {a for a, _b in spans}
    return [(a, b) for a, b in dict.fromkeys(spans) if b not in begins and not _placed(keys, a)]


def fixtures_at(keys: Sequence[str]) -> list[tuple[int, int]]:
    """Return where ``keys`` name things, or areas that are things too ("the tub"), in order."""
    things = things_at(keys)
    begins = {a for a, _b, _name in vocabulary.things().longest(keys)}
    areas = [(a, b) for a, b, _name in vocabulary.areas().longest(keys)]
    taken = {at for a, b, _name in vocabulary.things().longest(keys) for at in range(a, b)}
    # In "the hall bath valve" the hall only says which valve.
    ends = {b for _a, b in areas if b in begins or (b + 1 in begins and not _joins(keys[b]))}
    free = [(a, b) for a, b in areas if taken.isdisjoint(range(a, b)) and b not in ends]
    return sorted({*things, *((a, b) for a, b in free if not _placed(keys, a))})


def _joins(key: str) -> bool:
    closed = ("prepositions", "determiners", "being", "having", "modal", "past")
    return key in rules()["coordinators"] or any(key in vocabulary.grammar()[name] for name in closed)


def _placed(keys: Sequence[str], at: int) -> bool:
    words = vocabulary.grammar()
    at -= 1
    while at > 0 and keys[at] in words["determiners"]:
        at -= 1
    return at >= 0 and keys[at] in words["prepositions"]


def worth(clause: Clause, kind: Kind) -> float:
    """Return how much ``clause`` says of an entry of ``kind``: its things, its verb, its measures.

    Below zero for one that is better left out.
    """
    keys = clause.keys
    signs = {name for _a, _b, name in vocabulary.signs().longest(keys)}
    named = len(vocabulary.things().longest(keys))
    value = 2.0 * min(2, len(things_at(keys))) + (1.0 if named else 0.0)
    value += 1.5 * min(2, len(signs & _TELLING[kind]))
    value += 1.0 if any(w.key[:1].isdigit() or w.key in rules()["numbers"] for w in clause.words) else 0.0
    value += 1.0 if "fault" in signs and kind is Kind.OBSERVATION else 0.0
    value += 1.0 if is_whole(clause.words) else 0.0
    value -= 1.0 * len(signs & _EMPTY)
    if clause.words[0].key in ("because", "cause", "since", "if", "like"):
        value -= 3.0
    if "?" in clause.words[-1].mark and kind is Kind.OBSERVATION:
        value -= 2.0
    if not named and len(keys) < 4:
        value -= 0.5
    return value - 0.04 * len(clause.words) - 0.2


def chosen_of(clauses: Sequence[Clause], kind: Kind) -> list[int]:
    """Return the numbers, in order, of the clauses that carry an entry in at most ``LONGEST_TEXT`` words.

    A clause that leans on its neighbour comes only with it. One clause at least is returned, however long.
    """
    if len(clauses) == 1:
        return [0]
    room = sum(len(clause.words) for clause in clauses) <= LONGEST_TEXT
    value = {at: worth(clause, kind) + (_KEPT if room else 0.0) for at, clause in enumerate(clauses)}
    if room and min(value.values()) > 0 and len(clauses) <= _MOST_CLAUSES:
        return list(value)
    likely = sorted(sorted(value, key=lambda at: (-value[at], at))[:_MOST_CLAUSES])
    best: tuple[float, tuple[int, ...]] | None = None
    for size in range(1, len(likely) + 1):
        for group in combinations(likely, size):
            if len(group) > 1 and sum(len(clauses[at].words) for at in group) > LONGEST_TEXT:
                continue
            if not _stands(clauses, group):
                continue
            gaps = sum(b != a + 1 for a, b in pairwise(group))
            total = sum(value[at] for at in group) - 0.6 * gaps
            if best is None or total > best[0]:
                best = (total, group)
    return list(best[1]) if best else [max(value, key=lambda at: (value[at], -at))]


def _stands(clauses: Sequence[Clause], group: tuple[int, ...]) -> bool:
    for at in group:
        if clauses[at].leans_back and at and at - 1 not in group:
            return False
        if clauses[at].leans_forward and at + 1 < len(clauses) and at + 1 not in group:
            return False
    return True
