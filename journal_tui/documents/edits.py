"""Keeping a remodeler's edits when the facts under a document change.

``base`` is the document as it was made when he began to edit, ``edited`` what he made of it, ``fresh``
the document as the facts would make it now. What only one side touched is taken from that side; where
both touched the same lines both are kept, marked, for him to choose from. Nothing he wrote is lost.

This is the three-way merge of Khanna, Kunal and Pierce, "A Formal Investigation of Diff3" (2007), with
one difference that suits prose: changes that only touch each other, or lines both sides put in at the
same place, are not in conflict; both are taken, his first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

#: Lines that set two wordings apart until one is chosen. No document is sent while one is in it.
YOURS_MARK = "[[ your wording ]]"
FRESH_MARK = "[[ what the journal says now ]]"
END_MARK = "[[ keep one wording, then take out these three lines ]]"


@dataclass(frozen=True, slots=True)
class Conflict:
    """One place both sides changed: the 0-based ``line`` in the merged text and the two wordings."""

    line: int
    yours: str
    fresh: str


@dataclass(frozen=True, slots=True)
class MergedText:
    """The merged document and where in it a wording is still to be chosen."""

    text: str
    conflicts: tuple[Conflict, ...] = ()


@dataclass(frozen=True, slots=True)
class Region:
    """Base lines ``low`` to ``high`` (not included) as the writer and as the journal have them now.

    ``by_you`` and ``by_journal`` say who changed them.
    """

    low: int
    high: int
    yours: list[str]
    fresh: list[str]
    by_you: bool
    by_journal: bool


@dataclass(slots=True)
class _Hunk:
    """A change: base lines ``low`` to ``high`` (not included) become ``lines``."""

    low: int
    high: int
    lines: list[str]


def unsettled(text: str) -> bool:
    """True while ``text`` still holds a mark that sets two wordings apart."""
    marks = {YOURS_MARK, FRESH_MARK, END_MARK}
    return any(line.strip() in marks for line in text.split("\n"))


def merge_edits(base: str, edited: str, fresh: str) -> MergedText:
    """Return ``fresh`` with the changes that led from ``base`` to ``edited`` kept in it.

    If ``fresh`` is ``base`` the result is ``edited``; if ``edited`` is ``base`` it is ``fresh``. Every
    line of ``edited`` that is not in ``base`` is in the result.
    """
    if edited == base:
        return MergedText(fresh)
    if fresh in (base, edited):
        return MergedText(edited)
    old = base.split("\n")
    out: list[str] = []
    conflicts: list[Conflict] = []
    at = 0
    for region in regions(old, edited, fresh):
        out += old[at : region.low]
        at = region.high
        if not region.by_journal or region.yours == region.fresh:
            out += region.yours
        elif not region.by_you:
            out += region.fresh
        else:
            conflicts.append(Conflict(len(out), "\n".join(region.yours), "\n".join(region.fresh)))
            yours, new = region.yours or [""], region.fresh or [""]
            out += [YOURS_MARK, "", *yours, "", FRESH_MARK, "", *new, "", END_MARK]
    return MergedText("\n".join(out + old[at:]), tuple(conflicts))


def regions(old: Sequence[str], edited: str, fresh: str) -> Iterator[Region]:
    """Yield the stretches of the lines ``old`` that either side changed, in order."""
    ours = _hunks(old, edited)
    # What both sides put in alike is put in once.
    journal = [hunk for hunk in _hunks(old, fresh) if hunk.low < hunk.high or hunk not in ours]
    for low, high, mine, theirs in _regions(ours, journal):
        yours, new = _applied(old, low, high, mine), _applied(old, low, high, theirs)
        yield Region(low, high, yours, new, bool(mine), bool(theirs))


def _hunks(old: Sequence[str], text: str) -> list[_Hunk]:
    new = text.split("\n")
    codes = SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    return [_Hunk(a, b, new[c:d]) for tag, a, b, c, d in codes if tag != "equal"]


def _regions(mine: list[_Hunk], theirs: list[_Hunk]) -> Iterator[tuple[int, int, list[_Hunk], list[_Hunk]]]:
    """Yield stretches of the base and the changes either side made inside them, in order."""
    sides = [(hunk, True) for hunk in mine] + [(hunk, False) for hunk in theirs]
    # At one place what is put in goes before what is replaced, and his before the journal's.
    sides.sort(key=lambda side: (side[0].low, side[0].high, not side[1]))
    group: list[tuple[_Hunk, bool]] = []
    high = 0
    for hunk, is_mine in sides:
        if group and hunk.low >= high:
            yield _region(group, high)
            group = []
        group.append((hunk, is_mine))
        high = max(high, hunk.high)
    if group:
        yield _region(group, high)


def _region(group: list[tuple[_Hunk, bool]], high: int) -> tuple[int, int, list[_Hunk], list[_Hunk]]:
    mine = [hunk for hunk, is_mine in group if is_mine]
    theirs = [hunk for hunk, is_mine in group if not is_mine]
    return group[0][0].low, high, mine, theirs


def _applied(old: Sequence[str], low: int, high: int, hunks: list[_Hunk]) -> list[str]:
    lines: list[str] = []
    for hunk in hunks:
        lines += [*old[low : hunk.low], *hunk.lines]
        low = hunk.high
    return lines + list(old[low:high])
