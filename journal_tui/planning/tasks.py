"""The common tasks of a bathroom taken back to the frame: read from data, matched by an item's words.

The package's own data file can be added to and overridden by a file of the user's in the same form.
"""

from __future__ import annotations

import heapq
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.kinds import STANDARD_PHASES
from journal_tui.domain.text import folded, one_line

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
    look: str | None = None


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


@dataclass(frozen=True, eq=False)
class TaskBook:
    """Common tasks by name, and the words that say nothing of what an item is about."""

    tasks: Mapping[str, Task]
    common: frozenset[str]
    _matched: dict[tuple[str, str], Task | None] = field(default_factory=dict, repr=False)

    @cached_property
    def before(self) -> dict[str, frozenset[str]]:
        """For each task all tasks that usually go before it, near and far.

        The keys stand in one order that fits: what goes before stands before, else as in the file.
        """
        number = {name: n for n, name in enumerate(self.tasks)}
        names = list(self.tasks)
        waiting = {name: set(task.after) for name, task in self.tasks.items()}
        closure: dict[str, frozenset[str]] = {}
        ready = [number[name] for name, before in waiting.items() if not before]
        while ready:
            name = names[heapq.heappop(ready)]
            near = self.tasks[name].after
            closure[name] = frozenset(near).union(*(closure[b] for b in near))
            for other, before in waiting.items():
                if name in before:
                    before.discard(name)
                    if not before:
                        heapq.heappush(ready, number[other])
        return closure

    @cached_property
    def places(self) -> dict[str, int]:
        """Each task's place in that order."""
        return {name: n for n, name in enumerate(self.before)}

    @cached_property
    def after_closing(self) -> frozenset[str]:
        """The tasks that usually come after something has been closed in."""
        tasks = self.tasks
        return frozenset(n for n, before in self.before.items() if any(tasks[b].closes for b in before))

    def match(self, text: str, phase: str) -> Task | None:
        """Return the task an item's words speak of, None when none does.

        The most words found near each other win, words of a task of the item's own phase weighing
        more, and what is to be asked, ordered or booked more than what it is about; a tie goes to
        the first in the file.
        """
        key = (text, phase)
        if key not in self._matched:
            self._matched[key] = self._match(text, phase)
        return self._matched[key]

    def _match(self, text: str, phase: str) -> Task | None:
        said = _words_of(text)
        there = frozenset(said)
        verbs = _verbs(said)
        best, best_weight = None, 0.0
        for task in self.tasks.values():
            if any(_near(group, said, there) for group in task.unless):
                continue
            groups = [g for g in task.words if _near(g, said, there)]
            if task.office:  # one word makes a call of it only as what is to be done: not "until they call"
                groups = [g for g in groups if len(g) > 1 or g <= verbs]
            if not groups:
                continue
            weight = float(max(map(len, groups)))
            if task.office:
                weight += _PHASE_BONUS + (_OFFICE_BONUS if any(g <= verbs for g in groups) else 0.0)
            elif folded(task.phase) == folded(phase):
                weight += _PHASE_BONUS
            if weight > best_weight:
                best, best_weight = task, weight
        return best


def built_in_text() -> str:
    """Return the package's own data file, comments and all, to be edited."""
    return files("journal_tui.planning").joinpath("data", "tasks.toml").read_text(encoding="utf-8")


@lru_cache(maxsize=1)
def built_in() -> TaskBook:
    """Return the package's own common tasks."""
    return read_tasks(built_in_text(), "the package's own tasks")


def read_tasks(text: str, name: str, base: TaskBook | None = None) -> TaskBook:
    """Return the tasks written in ``text``, over those of ``base``: one of the same name replaces it.

    Raises BadInput naming the file, and the task or line that is wrong.
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(f"{one_line(name)} is not TOML", f"{error}.") from None
    tasks: dict[str, Task] = {}
    for number, row in enumerate(_rows(table, name), 1):
        try:
            task = _task(row)
        except (KeyError, TypeError, ValueError, AttributeError) as error:
            who = row.get("name", f"number {number}") if isinstance(row, dict) else f"number {number}"
            raise BadInput(f"{one_line(name)}: task {one_line(str(who))}", _fault(error)) from None
        tasks[task.name] = task
    if base:  # after the user's own, so that those win a tie
        tasks |= {n: t for n, t in base.tasks.items() if n not in tasks}
    common = base.common if base else frozenset()
    book = TaskBook(tasks, common | stems(" ".join(map(str, table.get("common_words", ())))))
    _check(book, name)
    return book


def _rows(table: dict[str, Any], name: str) -> list[Any]:
    rows = table.get("task", [])
    if not isinstance(rows, list) or not isinstance(table.get("common_words", []), list):
        raise BadInput(f"{one_line(name)} has no tasks", "Begin each with a line [[task]].")
    return rows


def _fault(error: Exception) -> str:
    if isinstance(error, KeyError):
        return f"it has no {error.args[0]}; a task has a name, words and hours"
    return f"one of its values cannot be used ({error})"


def _check(book: TaskBook, name: str) -> None:
    for task in book.tasks.values():
        unknown = next(
            (t for t in (*task.after, *((task.look,) if task.look else ())) if t not in book.tasks), None
        )
        if unknown is not None:
            raise BadInput(
                f"{one_line(name)}: task {one_line(task.name)}", f'there is no task "{one_line(unknown)}"'
            )
    if len(book.before) < len(book.tasks):
        lost = next(n for n in book.tasks if n not in book.before)
        raise BadInput(f"{one_line(name)}: task {one_line(lost)}", 'its "after" goes round in a circle')


def _task(row: dict[str, Any]) -> Task:
    wait = row.get("wait", {})
    hours, wait_hours, people = float(row["hours"]), float(wait.get("hours", 0)), int(row.get("people", 1))
    if not (0 < hours <= 400 and 0 <= wait_hours <= 2000 and 1 <= people <= 20):
        raise ValueError("hours above 0 to 400, a wait of 0 to 2000, 1 to 20 people")
    if row.get("hold") not in (None, "inspection", "decision", "delivery", "test"):
        raise ValueError("a hold is inspection, decision, delivery or test")
    if row.get("phase", "") not in ("", *STANDARD_PHASES) and not isinstance(row["phase"], str):
        raise ValueError("a phase is a word or two")
    words = tuple(stems(w) for w in _texts(row, "words"))
    if not words or not all(words):
        raise ValueError("words must hold a word each")
    return Task(
        name=str(row["name"]),
        phase=str(row.get("phase", "")),
        words=words,
        unless=tuple(stems(w) for w in _texts(row, "not")),
        hours=hours,
        people=people,
        after=_texts(row, "after"),
        wait_hours=wait_hours,
        wait_source=str(wait.get("source", "practice")),
        wait_note=str(wait.get("note", "")),
        hold=row.get("hold"),
        trade=row.get("trade"),
        office=bool(row.get("office", False)),
        closes=bool(row.get("closes", False)),
        one_go=bool(row.get("one_go", False)),
        disturbs=bool(row.get("disturbs", False)),
        materials=_texts(row, "materials"),
        tools=_texts(row, "tools"),
        photos=_texts(row, "photos"),
        cautions=_texts(row, "cautions"),
        look=row.get("look"),
    )


def _texts(row: dict[str, Any], key: str) -> tuple[str, ...]:
    """Return a list of texts; a single text in its place is a slip that would split into letters."""
    values = row.get(key, [])
    if not isinstance(values, list) or not all(isinstance(v, str) for v in values):
        raise TypeError(f"{key} must be a list of texts")
    return tuple(values)


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


def _verbs(said: tuple[str, ...]) -> frozenset[str]:
    """Return the words that may say what is to be done: those at the beginning, and after "to"."""
    return frozenset({*said[:3], *(b for a, b in pairwise(said) if a in _BEFORE_VERBS)})
