"""Labelled walk-throughs: loading them, a machine-captioned copy of clean ones, labels of utterances."""

from __future__ import annotations

import random
import re
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from journal_tui.domain.recording import Cue
from journal_tui.walkthrough.captions import read_captions
from journal_tui.walkthrough.drafting.boundaries import CUT, RUNS_ON
from journal_tui.walkthrough.drafting.kinds import LABELS
from journal_tui.walkthrough.drafting.linear import Linear
from journal_tui.walkthrough.drafting.utterances import Utterance, punctuated, utterances_of
from journal_tui.walkthrough.drafting.words import Word, words_of
from tests.drafting.score import Gold, Walk, gold_of

HERE = Path(__file__).parent
WALKS = HERE / "walkthroughs"
#: Punctuated talk is cut by its marks; no model is asked.
_NO_MODEL = Linear((RUNS_ON, CUT), {})
_FORMS = (".vtt", ".srt", ".txt")


def walks_in(folder: Path = WALKS) -> list[Walk]:
    """Return the labelled walk-throughs of a folder, by name."""
    found: list[Walk] = []
    for gold in sorted(folder.glob("*.gold.json")):
        name = gold.name.removesuffix(".gold.json")
        captions = next(p for form in _FORMS if (p := folder / (name + form)).exists())
        job, entries = gold_of(gold)
        found.append(Walk(name, job, read_captions(captions), entries))
    return found


@dataclass(frozen=True, slots=True)
class Note:
    """One labelled line by itself."""

    text: str
    kind: str
    phase: str
    who: str | None
    open: bool
    hazard: bool


def notes() -> list[Note]:
    """Return the labelled single lines as they are typed or said in short."""
    return _lines_of(HERE / "notes.txt")


def spoken_lines() -> list[Note]:
    """Return the labelled single lines said by many people, taken from no talk."""
    return [note for path in sorted((HERE / "lines").glob("*.txt")) for note in _lines_of(path)]


def _lines_of(path: Path) -> list[Note]:
    kinds = {"o": "observation", "d": "decision", "n": "next_step"}
    found: list[Note] = []
    for line in path.read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            phase, kind, who, flags, text = (part.strip() for part in line.split("|"))
            found.append(
                Note(text, kinds[kind], phase, None if who == "-" else who, "O" in flags, "H" in flags)
            )
    return found


@cache
def voices() -> dict[str, str]:
    """Return the shared voice of each walk-through that shares one."""
    table = tomllib.loads((WALKS / "voices.toml").read_text(encoding="utf-8"))
    return {name: voice for voice, names in table.items() for name in names}


def is_machine(walk: Walk) -> bool:
    """True when the walk-through's captions have no dependable punctuation."""
    return not punctuated(words_of(walk.captions))


@cache
def _mishearing() -> dict[str, dict[str, str]]:
    return tomllib.loads((HERE / "machine.toml").read_text(encoding="utf-8"))


def _as_heard(text: str, chance: random.Random) -> list[str]:
    rules = _mishearing()
    out: list[str] = []
    whole = text.lower().replace("’", "'")
    for part in [whole] if whole in rules["heard_as"] else whole.split("-"):
        if part in rules["heard_as"] and chance.random() < 0.55:
            out += rules["heard_as"][part].split()
        elif part in rules["run_together"] and chance.random() < 0.35:
            out.append(rules["run_together"][part])
        elif part:
            out.append(rules["figures"].get(part, part))
    return out


@dataclass(frozen=True, slots=True)
class MachineCopy:
    """A clean walk-through as a machine would caption it; ``cut_after`` tells, for each word, whether
    the clean captions' punctuation ends an utterance there."""

    walk: Walk
    words: tuple[Word, ...]
    cut_after: tuple[bool, ...]


def machine_copy(walk: Walk) -> MachineCopy:
    """Return ``walk`` in lower case, without punctuation, with words misheard and cues cut anywhere."""
    chance = random.Random(walk.name)
    said = words_of(walk.captions)
    ends: set[int] = set()
    count = 0
    for utterance in utterances_of(said, _NO_MODEL):
        count += len(utterance.words)
        ends.add(count - 1)
    cues: list[Cue] = []
    held: list[tuple[str, float, float]] = []
    cut_after: list[bool] = []
    most, speaker = chance.randint(6, 13), said[0].speaker

    def close() -> None:
        if held:
            text = " ".join(word for word, _s, _e in held)
            cues.append(Cue(held[0][1], held[-1][2], text, speaker))
            held.clear()

    for at, word in enumerate(said):
        heard = [t for t in _as_heard(word.text, chance) if re.search(r"\w", t)]
        silence = word.start - held[-1][2] if held else 0.0
        if (
            word.speaker != speaker
            or len(held) >= most
            or silence > 0.9
            or (silence > 0.35 and chance.random() < 0.6)
        ):
            close()
            most, speaker = chance.randint(6, 13), word.speaker
        step = (word.end - word.start) / max(1, len(heard))
        for n, token in enumerate(heard):
            held.append((token, word.start + n * step, word.start + (n + 1) * step))
            cut_after.append(n == len(heard) - 1 and at in ends)
    close()
    captions = replace(walk.captions, cues=tuple(cues))
    copy = Walk(walk.name, walk.job, captions, walk.gold)
    words = tuple(words_of(captions))
    if len(words) != len(cut_after):
        raise ValueError(f"{walk.name}: {len(words)} words heard, {len(cut_after)} marked")
    return MachineCopy(copy, words, tuple(cut_after))


def owners(utterances: Sequence[Utterance], gold: Sequence[Gold]) -> list[int | None]:
    """Return the labelled entry each utterance belongs to: the one it shares most time with, if that
    is half of the utterance or most of the entry."""
    found: list[int | None] = []
    for utterance in utterances:
        best: tuple[float, int] | None = None
        for number, entry in enumerate(gold):
            shared = min(utterance.end, entry.end) - max(utterance.start, entry.start)
            if shared <= 0:
                continue
            enough = shared >= 0.5 * max(0.1, utterance.end - utterance.start)
            if (enough or shared >= 0.6 * max(0.1, entry.end - entry.start)) and (
                best is None or shared > best[0]
            ):
                best = (shared, number)
        found.append(best[1] if best else None)
    for number, entry in enumerate(gold):
        if number not in found:
            shared, at = max(
                (min(u.end, entry.end) - max(u.start, entry.start), i) for i, u in enumerate(utterances)
            )
            if shared > 0 and found[at] is None:
                found[at] = number
    return found


def labels_of(utterances: Sequence[Utterance], gold: Sequence[Gold]) -> list[int]:
    """Return the label (index into ``LABELS``) of each utterance."""
    labels: list[int] = []
    begun: set[int] = set()
    before: int | None = None
    for owner in owners(utterances, gold):
        if owner is None:
            labels.append(0)
        elif owner == before:
            labels.append(LABELS.index(f"more {gold[owner].kind}"))
        elif owner in begun:
            labels.append(0)
            owner = None
        else:
            labels.append(LABELS.index(f"first {gold[owner].kind}"))
            begun.add(owner)
        before = owner
    return labels
