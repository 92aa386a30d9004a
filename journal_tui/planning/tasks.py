"""The common tasks of a bathroom taken back to the frame: read from data, matched by an item's words."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

from journal_tui.domain.text import folded

_WORD = re.compile(r"[a-z]+")
_ENDINGS = ("ings", "ing", "ed", "es", "s")
#: A match in the item's own phase outweighs this many more words in another one.
_PHASE_BONUS = 1.5
_OFFICE_BONUS = 2.5
#: Words of a group may have so many others between them in all.
_BETWEEN = 3
_BEFORE_VERBS = frozenset({"to", "gonna", "ll", "must", "should", "pleas"})


@dataclass(frozen=True, slots=True)
class Task:
    """One common task. Hours are crew-hours, the wait clock hours; all common practice."""

    name: str
    phase: str
    words: tuple[frozenset[str], ...]
    unless: tuple[frozenset[str], ...]
    hours: float
    people: int
    after: tuple[str, ...]
    wait_hours: float
    wait_source: str
    wait_note: str
    hold: str | None
    trade: str | None
    office: bool
    closes: bool
    one_go: bool
    disturbs: bool
    materials: tuple[str, ...]
    tools: tuple[str, ...]
    photos: tuple[str, ...]
    cautions: tuple[str, ...]


def stem(word: str) -> str:
    """Return a word without its ending, roughly: tiles, tiled and tiling come out the same."""
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= 3 and not word.endswith("ss"):
            word = word[: -len(ending)]
            if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "ls":
                word = word[:-1]
            break
    return word[:-1] if word.endswith("e") and len(word) > 3 else word


@lru_cache(maxsize=4096)
def stems(text: str) -> frozenset[str]:
    """Return the stems of a text's words."""
    return frozenset(stem(w) for w in _WORD.findall(folded(text).replace("'", "")))


@lru_cache(maxsize=1)
def common_tasks() -> dict[str, Task]:
    """Return the tasks of the package's data file, by name, in its order."""
    text = files("journal_tui.planning").joinpath("data", "tasks.toml").read_text(encoding="utf-8")
    return {row["name"]: _task(row) for row in tomllib.loads(text)["task"]}


def _task(row: dict[str, Any]) -> Task:
    wait = row.get("wait", {})
    return Task(
        name=row["name"],
        phase=row.get("phase", ""),
        words=tuple(stems(w) for w in row["words"]),
        unless=tuple(stems(w) for w in row.get("not", ())),
        hours=float(row["hours"]),
        people=row.get("people", 1),
        after=tuple(row.get("after", ())),
        wait_hours=float(wait.get("hours", 0)),
        wait_source=wait.get("source", "practice"),
        wait_note=wait.get("note", ""),
        hold=row.get("hold"),
        trade=row.get("trade"),
        office=row.get("office", False),
        closes=row.get("closes", False),
        one_go=row.get("one_go", False),
        disturbs=row.get("disturbs", False),
        materials=tuple(row.get("materials", ())),
        tools=tuple(row.get("tools", ())),
        photos=tuple(row.get("photos", ())),
        cautions=tuple(row.get("cautions", ())),
    )


@lru_cache(maxsize=4096)
def match_task(text: str, phase: str, named: str | None = None) -> Task | None:
    """Return the common task an item's words speak of, None when none does.

    The most words found near each other win, words of a task of the item's own phase weighing more,
    and what is to be asked, ordered or booked more than what it is about; a tie goes to the first
    in the file. ``named`` is the user's own choice of task and overrides the words.
    """
    tasks = common_tasks()
    if named is not None:
        return tasks.get(named)
    said = _words_of(text)
    there = frozenset(said)
    best, best_weight = None, 0.0
    for task in tasks.values():
        if any(_near(group, said, there) for group in task.unless):
            continue
        found = max((len(group) for group in task.words if _near(group, said, there)), default=0)
        if not found:
            continue
        weight = float(found)
        if task.office:
            weight += _PHASE_BONUS + (_OFFICE_BONUS if _is_asked(said, task) else 0.0)
        elif folded(task.phase) == folded(phase):
            weight += _PHASE_BONUS
        if weight > best_weight:
            best, best_weight = task, weight
    return best


def _words_of(text: str) -> tuple[str, ...]:
    return tuple(stem(w) for w in _WORD.findall(folded(text)))


def _near(group: frozenset[str], said: tuple[str, ...], there: frozenset[str]) -> bool:
    """True when all words of a group stand within a few words of each other."""
    if not group <= there:
        return False
    if len(group) == 1:
        return True
    reach = len(group) + _BETWEEN
    return any(group <= frozenset(said[at : at + reach]) for at, w in enumerate(said) if w in group)


def _is_asked(said: tuple[str, ...], task: Task) -> bool:
    """True when a word of an office task is what is to be done: at the beginning, or after "to"."""
    verbs = {*said[:3], *(b for a, b in pairwise(said) if a in _BEFORE_VERBS)}
    return any(group <= verbs for group in task.words)


@lru_cache(maxsize=1)
def common_words() -> frozenset[str]:
    """Return stems of words that say nothing of what an item is about."""
    text = files("journal_tui.planning").joinpath("data", "tasks.toml").read_text(encoding="utf-8")
    return stems(" ".join(tomllib.loads(text)["common_words"]))
