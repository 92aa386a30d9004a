"""The text of a draft: a short clean sentence in the speaker's own words and order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.attributes import Stretch
from journal_tui.walkthrough.drafting.clauses import (
    LONGEST_TEXT,
    Clause,
    begins_clause,
    chosen_of,
    clauses_of,
    is_verb,
    is_whole,
    things_at,
)
from journal_tui.walkthrough.drafting.cleaning import cleaned, lowered, rules, stops, without_coarse
from journal_tui.walkthrough.drafting.confidence import private_in
from journal_tui.walkthrough.drafting.referents import may_refer, with_object_named, with_subject_named
from journal_tui.walkthrough.drafting.remembered import of_one_talk
from journal_tui.walkthrough.drafting.utterances import Utterance
from journal_tui.walkthrough.drafting.words import Word, words_in

#: Stands for talk of which nothing can be shown.
NOTHING_LEFT = "…"
#: Utterances (or clauses) before an entry in which the thing it speaks of may be named.
_LOOK_BACK = 2
#: A text of at most so many words that names nothing is read with its neighbour, if that is no longer
#: than so many.
_SHORT, _NEIGHBOUR = 8, 12
#: Utterances on either side that tell whether the captions' marks can be believed.
_NEAR = 12
#: Words without a verb that head a list or name what the next sentence is about.
_HEADING = 4

Numbered = tuple[int, Clause]


@dataclass(frozen=True)
class _Talk:
    """The clauses of an entry and what its speaker says around it, private words left aside."""

    stretch: Stretch
    clauses: tuple[Clause, ...]
    marked: bool
    private: frozenset[int]

    def _told(self, at: int) -> bool:
        """True when the same speaker says utterance ``at`` and not in private."""
        said = self.stretch.utterances
        inside = 0 <= at < len(said) and said[at].speaker == said[self.stretch.first].speaker
        return inside and at not in self.private

    @cached_property
    def before(self) -> tuple[tuple[Word, ...], ...]:
        """What was said just before, nearest first."""
        first = self.stretch.first
        near = [at for at in range(first - 1, first - 1 - _LOOK_BACK, -1) if self._told(at)]
        said = self.stretch.utterances
        return tuple(words for at in near if (words := _said(said[at], self.marked)))

    @cached_property
    def follows(self) -> tuple[Word, ...]:
        """What is said just after."""
        after = self.stretch.last + 1
        return _said(self.stretch.utterances[after], self.marked) if self._told(after) else ()

    @property
    def goes_on(self) -> bool:
        """True when it is the rest of a sentence begun before."""
        first = self.stretch.first
        return self._told(first - 1) and not self.stretch.utterances[first].opens

    @property
    def runs_on(self) -> bool:
        """True when the sentence goes on after it."""
        last = self.stretch.last
        if not self.follows or stops(self.stretch.utterances[last].words[-1]):
            return False
        return self.clauses[-1].leans_forward or not self.stretch.utterances[last + 1].opens


def text_of(stretch: Stretch, private: frozenset[int] | None = None) -> str:
    """Return the entry as one clean sentence of at most ``LONGEST_TEXT`` words, without a full stop.

    ``private`` are the utterances of its talk nothing is borrowed from; None to look for them here.

    Every word is one that was said, save what was set right, what a pronoun stands for and a
    contraction in full. ``NOTHING_LEFT`` when nothing but fillers was said.
    """
    talk = _talk(stretch, private_in(stretch.utterances) if private is None else private)
    if not talk.clauses:
        return NOTHING_LEFT
    chosen = _named(talk, chosen_of(talk.clauses, stretch.kind))
    return _line(_borrowed(talk, chosen))


def without_coarse_words(text: str) -> str:
    """Return a typed line without its coarse words, else untouched; ``NOTHING_LEFT`` when that is all."""
    words = words_in(text)
    kept = without_coarse(words)
    if len(kept) == len(words):
        return text
    return " ".join(w.text + w.mark for w in kept) or NOTHING_LEFT


def _talk(stretch: Stretch, private: frozenset[int]) -> _Talk:
    clauses: list[Clause] = []
    marked = _marked_talk(stretch)
    for group in _sentences(stretch.utterances[stretch.first : stretch.last + 1]):
        said = _said(group[0], marked) if len(group) == 1 else cleaned(_words(group), marked)
        if said:
            follows_on = bool(clauses) and not stops(clauses[-1].words[-1])
            opens = not (follows_on and said[0].key in rules()["coordinators"])
            clauses += [c for c in map(_without_lead_in, clauses_of(said, opens)) if c.words]
    return _Talk(stretch, tuple(clauses), marked, private)


def _marked_talk(stretch: Stretch) -> bool:
    """True when most utterances around end where the captions have a mark."""
    near = stretch.utterances[max(0, stretch.first - _NEAR) : stretch.last + 1 + _NEAR]
    return 2 * sum(bool(utterance.words[-1].mark) for utterance in near) >= len(near)


@of_one_talk
def _said(utterance: Utterance, marked: bool) -> tuple[Word, ...]:
    """Return an utterance made clean; neighbours of one entry are often told in the next."""
    return tuple(cleaned(utterance.words, marked))


def _words(said: Sequence[Utterance]) -> list[Word]:
    return [word for utterance in said for word in utterance.words]


def _sentences(said: Sequence[Utterance]) -> Iterator[list[Utterance]]:
    """Yield ``said``, one sentence (as far as the captions tell) at a time."""
    held: list[Utterance] = []
    for utterance in said:
        if held and utterance.opens and not _unfinished(held[-1].words[-1]):
            yield held
            held = []
        held.append(utterance)
    if held:
        yield held


def _unfinished(last: Word) -> bool:
    """True when a machine cut talk off after ``last``, where no sentence ends."""
    return not last.mark and last.key in rules()["dangling"] and last.key not in rules()["particles"]


@cache
def _phrases(name: str) -> vocabulary.Phrases:
    return vocabulary.Phrases({name: vocabulary.data("wording.toml")[name]})


def _led(words: Sequence[Word], name: str) -> int:
    """Return how many words at the head are one of the phrases ``name``."""
    keys = [w.key for w in words[:8]]
    return _phrases(name).leading(keys)


def _without_lead_in(clause: Clause) -> Clause:
    words = clause.words
    while words:
        announced, led = _led(words, "announced"), _led(words, "lead_ins")
        if announced and words[announced - 1].mark:
            words = words[announced:]
        elif led and words[led:] and is_whole(words[led:]):
            words = words[led:]
        elif clause.opens and words[0].key in rules()["openers"] and not _stays(words):
            words = words[1:]
        else:
            break
    return Clause(words, clause.opens)


def _stays(words: Sequence[Word]) -> bool:
    """True for an opener that is a word of the sentence: "right side", "like new", "yes or no"."""
    if len(words) > 1 and words[1].key == "or":
        return True
    if len(words) < 2 or words[0].mark or words[0].key not in rules()["openers_kept"]:
        return False
    return not begins_clause(words, 1) and words[1].key not in rules()["openers"]


def _stripped(clause: Clause) -> Clause:
    words = clause.words
    while len(words) > 1 and words[0].key in rules()["openers"] and not _stays(words):
        words = words[1:]
    return Clause(words, clause.opens)


def _names(clause: Clause) -> bool:
    return bool(vocabulary.things().longest(clause.keys))


def _named(talk: _Talk, chosen: Sequence[int]) -> list[Numbered]:
    """Return the chosen clauses with their pronouns resolved, each with its number."""
    out: list[Numbered] = []
    for n, at in enumerate(chosen):
        clause = talk.clauses[at]
        if n == 0 or chosen[n - 1] != at - 1:
            clause = _stripped(clause)
            if not may_refer(clause):
                out.append((at, clause))
                continue
            if n == 0 or not _names(talk.clauses[chosen[n - 1]]):
                clause = with_subject_named(clause, _before(talk, at, _LOOK_BACK))
            if n == 0 and not any(_names(talk.clauses[other]) for other in chosen) and not _names(clause):
                clause = with_object_named(clause, _before(talk, at, 1))
        out.append((at, clause))
    return out


def _before(talk: _Talk, at: int, most: int) -> Iterator[Sequence[Word]]:
    """Yield up to ``most`` stretches of words said before clause ``at``, nearest first."""
    for clause in reversed(talk.clauses[max(0, at - most) : at]):
        yield clause.words
    if at < most:
        yield from talk.before[: most - at]


def _borrowed(talk: _Talk, chosen: list[Numbered]) -> list[Numbered]:
    """Return ``chosen`` with the neighbouring clause that says what it is about, where it does not."""
    size = sum(len(clause.words) for _at, clause in chosen)
    first, last = chosen[0][0], chosen[-1][0]
    if first == 0 and not _says_all(chosen[0][1]) and talk.goes_on and talk.before:
        head = clauses_of(talk.before[0])[-1]
        if len(head.words) + size <= LONGEST_TEXT:
            rest = Clause(chosen[0][1].words, opens=False)
            return [(-1, _stripped(_without_lead_in(head))), (0, rest), *chosen[1:]]
    if size > _SHORT or any(_names(clause) for _at, clause in chosen):
        return chosen
    beside = [(at, c) for at, c in enumerate(talk.clauses) if at in (first - 1, last + 1) and _fits(c, size)]
    if beside:
        at, clause = beside[0]
        return [(at, _stripped(clause)), *chosen] if at < first else [*chosen, (at, clause)]
    ends = last == len(talk.clauses) - 1
    after = clauses_of(talk.follows, not talk.runs_on)[0] if ends and talk.follows else None
    if after is not None and talk.runs_on and len(after.words) + size <= LONGEST_TEXT:
        return [*chosen, (last + 1, after)]
    heads = bool(_led(chosen[0][1].words, "list_heads"))
    for number, words in enumerate(talk.before if first == 0 and not heads else ()):
        near = clauses_of(words)
        fit = [c for c in near if _fits(c, size) and "?" not in c.words[-1].mark]
        if fit:
            adjoins = talk.goes_on and not number and fit[-1] is near[-1]
            return [(-1 if adjoins else -2, _stripped(_without_lead_in(fit[-1]))), *chosen]
    if after is not None and _fits(after, size) and (heads or is_whole(after.words)) and not after.leans_back:
        return [*chosen, (last + 2, _stripped(after))]
    return chosen


def _says_all(clause: Clause) -> bool:
    return is_whole(clause.words) or clause.words[0].key in rules()["subjects"]


def _fits(clause: Clause, size: int) -> bool:
    long = len(clause.words) > _NEIGHBOUR or len(clause.words) + size > LONGEST_TEXT
    placed = bool(vocabulary.areas().longest(clause.keys))
    heading = len(clause.words) <= _HEADING and stops(clause.words[-1]) and (placed or things_at(clause.keys))
    return not long and bool(
        heading or (_names(clause) and is_whole(clause.words) and not clause.leans_forward)
    )


def _line(chosen: Sequence[Numbered]) -> str:
    """Return clauses as one line: capital first, nothing dangling, statements apart by semicolons."""
    words: list[Word] = []
    # A neighbour that was nothing but its lead-in has no words left.
    chosen = [pair for pair in chosen if pair[1].words]
    if not chosen:
        return NOTHING_LEFT
    for n, (at, clause) in enumerate(chosen):
        part = list(clause.words)
        if n:
            number, before = chosen[n - 1]
            gap = at != number + 1
            mark = _mark_between(before, words[-1], clause, gap=gap, first=n == 1)
            if mark in (";", ":"):
                part = list(_stripped(clause).words) or part
                while len(words) > 2 and words[-1].key in ("and", "but", "so", "or"):
                    words.pop()
            words[-1] = words[-1]._replace(mark=mark)
            part[0] = lowered(part[0], surely=not _is_name(part))
        words += part
    words = _shortened(words)
    line = " ".join(_marked(w, at == len(words) - 1) for at, w in enumerate(words)).replace("- ", "-")
    return line[:1].upper() + line[1:]


def _mark_between(before: Clause, last: Word, clause: Clause, *, gap: bool, first: bool) -> str:
    apart = gap or clause.opens
    if not gap and not last.mark and last.key in rules()["holds_on"]:
        return ""
    if before.leans_forward and not stops(last):
        return ","
    if before.words[0].key in rules()["leans_back"] and not apart:
        return ","
    if not is_whole(before.words):
        size = len(before.words)
        heads = first and size <= _HEADING and before.words[0].key not in rules()["subjects"]
        heads = heads and (size <= 2 or _names(before))
        return (":" if heads else ";") if stops(last) else "," if last.mark else ""
    if apart or (clause.words[0].key not in rules()["openers"] and begins_clause(clause.words, 0)):
        return ";"
    return "," if any(c in ",–—:" for c in last.mark) else ""


def _is_name(words: Sequence[Word]) -> bool:
    """True for a strange word with a capital that does or has something: "Fern should", "Toby's"."""
    if "'" in words[0].text or "’" in words[0].text:
        return True
    return len(words) > 1 and not words[0].mark and _acts(words[1])


def _marked(word: Word, last: bool) -> str:
    if last or not word.mark:
        return word.text
    for marks, shown in (("?", "?"), (":", ":"), (".!;…", ";"), (",–—", ",")):
        if any(c in marks for c in word.mark):
            return word.text + shown
    return word.text + ("-" if word.mark == "-" else "")


def _shortened(words: list[Word]) -> list[Word]:
    """Return at most ``LONGEST_TEXT`` words, cut where a phrase begins, with nothing dangling."""
    if len(words) > LONGEST_TEXT:
        marks = [at for at in range(8, LONGEST_TEXT + 1) if any(c in ",;:.?" for c in words[at - 1].mark)]
        joints = [at for at in range(10, LONGEST_TEXT + 1) if words[at].key in rules()["joints"]]
        breaks = [at for at in range(10, LONGEST_TEXT + 1) if words[at].key in rules()["breaks"]]
        words = words[: max([*marks[-1:], *joints[-1:]], default=(breaks or [LONGEST_TEXT])[-1])]
        return _trimmed(words)
    return words if stops(words[-1]) else _trimmed(words)


def cut_to(text: str, most: int) -> str:
    """Return at most ``most`` words of ``text``, with nothing dangling at the end."""
    words = text.split()
    if len(words) <= most:
        return text
    kept = len(_trimmed(words_in(" ".join(words[:most]))))
    return " ".join(words[:kept]).rstrip(",;:")


def _trimmed(words: list[Word]) -> list[Word]:
    """Return ``words`` without what dangles at the end: "and put it on the" -> "and put it on"."""
    table, size = rules(), len(words)
    while size > 1 and words[size - 1].key in table["dangling"]:
        before = words[size - 2]
        key = words[size - 1].key
        if key in table["particles"] and (_acts(before) or before.key in table["objects"]):
            break
        if key in ("that", "this") and before.key in vocabulary.grammar()["prepositions"]:
            break
        if key in ("is", "are", "was") and any(
            w.key in ("where", "what", "how") for w in words[size - 5 : size]
        ):
            break
        size -= 1
    return words[:size]


def _acts(word: Word) -> bool:
    return is_verb(word) or word.key.endswith(("ing", "ed")) or word.key in vocabulary.grammar()["bare_verbs"]
