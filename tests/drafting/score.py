"""How drafts are scored against labelled entries.

A pair of draft and entry is possible when their times come within ``TOLERANCE`` seconds of each
other and enough content stems of the draft's text are shared with the entry's text or with what
was said in its window. Matching is one to one, greedy by score; kind plays no part in finding,
and the figures per kind repeat the matching with kinds forced equal.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

from journal_tui.domain.draft import Draft
from journal_tui.domain.recording import Captions

KINDS = ("observation", "decision", "next_step")
TOLERANCE = 6.0
LEAST_SHARED = 0.25
_SLACK = 0.8

_STOP = frozenset(
    """
    a an and are as at be been being but by can could did do does done for from get gets got had has
    have he her here him his how i if in into is it its just know let like lot make may me mean might
    more my need needs no not now of off oh ok okay on one or other our out over really right said say
    see she should so some still than that the their them then there these they thing things this those
    though to too uh um until up us very was way we well went were what when where which who will with
    would yeah yes you your going gonna gotta goes go come comes s t re ll ve m d dont doesnt isnt thats
    theres im youre hes shes were well ill youll cant wont didnt because cause before after also all any
    only about
    """.split()
)
_ENDINGS = (
    ("ing", 4), ("edly", 4), ("ied", 3), ("ies", 3), ("ed", 3), ("es", 4), ("ly", 4), ("s", 3),
)  # fmt: skip
_UNITS = {
    word: value
    for value, word in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
        "fifteen sixteen seventeen eighteen nineteen".split()
    )
}
_TENS = {
    word: 10 * value
    for value, word in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)
}
_PARTS = {"quarter": 4, "quarters": 4, "eighth": 8, "eighths": 8, "sixteenth": 16, "sixteenths": 16}


@dataclass(frozen=True, slots=True)
class Gold:
    """One labelled entry."""

    start: float
    end: float
    kind: str
    phase: str
    area: str
    text: str
    hazard: bool
    open: bool
    who: str | None


@dataclass(frozen=True, slots=True)
class Walk:
    """A labelled walk-through."""

    name: str
    job: str
    captions: Captions
    gold: tuple[Gold, ...]


def gold_of(path: Path) -> tuple[str, tuple[Gold, ...]]:
    """Return the job's name and the labelled entries of a ``.gold.json`` file."""
    table: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return str(table["job"]), tuple(Gold(**entry) for entry in table["entries"])


def stem(word: str) -> str:
    """Return ``word`` without its commonest endings."""
    for ending, keep in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= keep - 1 and not word.endswith("ss"):
            word = word[: -len(ending)] + ("y" if ending in ("ied", "ies") else "")
            break
    if len(word) > 4 and word.endswith("e"):
        word = word[:-1]
    if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "ls":
        word = word[:-1]
    return word


def plain_words(text: str) -> list[str]:
    """Return lower-case words, spelled numbers as figures ("five eighths" is 5/8)."""
    folded = text.lower().replace("’", "'").replace("'", "")
    for sign, plain in (("½", " 1/2"), ("¼", " 1/4"), ("¾", " 3/4")):
        folded = folded.replace(sign, plain)
    raw = re.findall(r"[a-z]+|\d+(?:[/.]\d+)*", unicodedata.normalize("NFKC", folded))
    out: list[str] = []
    at = 0
    while at < len(raw):
        word, after = raw[at], raw[at + 1] if at + 1 < len(raw) else ""
        number = _UNITS.get(word, _TENS.get(word))
        if number is not None and word in _TENS and 0 < _UNITS.get(after, 0) < 10:
            number, at = number + _UNITS[after], at + 1
        elif word.isdigit() and len(word) < 3:
            number = int(word)
        after = raw[at + 1] if at + 1 < len(raw) else ""
        parts = _PARTS.get(after)
        if number is not None and parts and number < parts:
            out.append(f"{number}/{parts}")
            at += 1
        else:
            out.append(str(number) if number is not None and word != "one" else word)
        at += 1
    return out


def stems(words: Sequence[str], *, joined: bool = False) -> frozenset[str]:
    """Return the content stems of ``words``; ``joined`` lets "sub floor" meet "subfloor"."""
    out = {stem(word) for word in words if word not in _STOP}
    if joined:
        out |= {
            stem(a + b) for a, b in pairwise(words) if a.isalpha() and b.isalpha() and len(a) + len(b) >= 6
        }
    return frozenset(out)


def said_in(captions: Captions, start: float, end: float) -> list[str]:
    """Return the plain words said from ``start`` to ``end`` seconds, a little slack on both sides."""
    out: list[str] = []
    for cue in captions.cues:
        if cue.end < start - _SLACK or cue.start > end + _SLACK:
            continue
        words = plain_words(cue.text)
        for at, word in enumerate(words):
            when = cue.start + (cue.end - cue.start) * (at + 0.5) / max(1, len(words))
            if start - _SLACK <= when <= end + _SLACK:
                out.append(word)
    return out


@dataclass(frozen=True, slots=True)
class _Target:
    gold: Gold
    stems: frozenset[str]
    joined: frozenset[str]
    window: frozenset[str]


def _likeness(draft: frozenset[str], target: _Target) -> float:
    if not draft:
        return 0.0
    best = 0.0
    shared = len(draft & target.joined)
    small = min(len(draft), len(target.stems)) or 1
    if shared >= min(2, small):
        best = min(1.0, shared / small)
    shared = len(draft & target.window)
    if target.window and shared >= min(2, len(draft)):
        best = max(best, shared / len(draft))
    return best


def _pair_score(draft: Draft, own: frozenset[str], target: _Target) -> float | None:
    gold = target.gold
    if max(draft.start, gold.start) - min(draft.end, gold.end) > TOLERANCE:
        return None
    likeness = _likeness(own, target)
    if likeness < LEAST_SHARED:
        return None
    inter = max(0.0, min(draft.end, gold.end) - max(draft.start, gold.start))
    union = max(draft.end, gold.end) - min(draft.start, gold.start)
    return likeness + 0.5 * (inter / union if union > 0 else 1.0)


def matched(drafts: Sequence[Draft], walk: Walk, *, same_kind: bool = False) -> list[tuple[int, int]]:
    """Return the (draft, entry) pairs, one to one, best first."""
    targets = [
        _Target(
            g,
            stems(plain_words(g.text)),
            stems(plain_words(g.text), joined=True),
            stems(said_in(walk.captions, g.start, g.end), joined=True),
        )
        for g in walk.gold
    ]
    candidates = []
    for i, draft in enumerate(drafts):
        own = stems(plain_words(draft.text))
        for j, target in enumerate(targets):
            if same_kind and draft.kind.value != target.gold.kind:
                continue
            score = _pair_score(draft, own, target)
            if score is not None:
                candidates.append((-score, abs(draft.start - target.gold.start), i, j))
    pairs: list[tuple[int, int]] = []
    used_draft: set[int] = set()
    used_gold: set[int] = set()
    for _score, _off, i, j in sorted(candidates):
        if i not in used_draft and j not in used_gold:
            used_draft.add(i)
            used_gold.add(j)
            pairs.append((i, j))
    return pairs


def counted(drafts: Sequence[Draft], walk: Walk) -> Counter[str]:
    """Return the counts from which all figures are made."""
    pairs = matched(drafts, walk)
    count: Counter[str] = Counter(tp=len(pairs), nd=len(drafts), ng=len(walk.gold))
    for i, j in pairs:
        draft, gold = drafts[i], walk.gold[j]
        count["kind_ok"] += draft.kind.value == gold.kind
        count["phase_ok"] += draft.phase == gold.phase
        count["open_ok"] += draft.open == gold.open
        count["who_ok"] += (draft.who.value if draft.who else None) == gold.who
        count["hazard_ok"] += draft.hazard == gold.hazard
        count["start_ok"] += abs(draft.start - gold.start) <= 2.0
        count["end_ok"] += abs(draft.end - gold.end) <= 2.0
    strict = matched(drafts, walk, same_kind=True)
    count["strict_tp"] = len(strict)
    for kind in KINDS:
        count["tp_" + kind] = sum(walk.gold[j].kind == kind for _i, j in strict)
        count["nd_" + kind] = sum(d.kind.value == kind for d in drafts)
        count["ng_" + kind] = sum(g.kind == kind for g in walk.gold)
    return count


def f_score(hits: int, drafted: int, wanted: int) -> tuple[float, float, float]:
    """Return precision, recall and their harmonic mean."""
    precision = hits / drafted if drafted else 0.0
    recall = hits / wanted if wanted else 0.0
    both = precision + recall
    return precision, recall, 2 * precision * recall / both if both else 0.0


def figures(count: Counter[str]) -> dict[str, float]:
    """Return the named figures of summed counts."""
    precision, recall, f1 = f_score(count["tp"], count["nd"], count["ng"])
    out = {"precision": precision, "recall": recall, "f1": f1}
    out["f1_kind"] = f_score(count["strict_tp"], count["nd"], count["ng"])[2]
    for kind in KINDS:
        out["f1_" + kind] = f_score(count["tp_" + kind], count["nd_" + kind], count["ng_" + kind])[2]
    for key in ("kind", "phase", "open", "who", "hazard", "start", "end"):
        out[key] = count[key + "_ok"] / count["tp"] if count["tp"] else 0.0
    return out


def total(counts: Iterable[Counter[str]]) -> Counter[str]:
    """Return the sum of counts."""
    out: Counter[str] = Counter()
    for count in counts:
        out.update(count)
    return out
