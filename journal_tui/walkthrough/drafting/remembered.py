"""What is remembered of one talk while it is drafted, and let go when that is done."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import TypeVar

_Made = TypeVar("_Made")
_FORGET: list[Callable[[], None]] = []


def of_one_talk(make: Callable[..., _Made]) -> Callable[..., _Made]:
    """Return ``make``, what it made last remembered until ``forget_talk``: most is asked for again."""
    kept = lru_cache(4096)(make)
    _FORGET.append(kept.cache_clear)
    return kept


def forget_talk() -> None:
    """Let go what is remembered of the words of a talk; it is of no use to another."""
    for forget in _FORGET:
        forget()
