"""Showing a screen in a test, and reading what stands on it."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import TypeVar

from textual.pilot import Pilot
from textual.screen import Screen

from journal_tui.journal.opening import Journal
from journal_tui.screens.app import JournalApp
from tests.screens.seeing import seen_on, worked

S = TypeVar("S", bound=Screen[object])

#: Texts that crash, vanish or act where text from people is taken for anything but text.
NASTY = (
    "need [/] here",
    "[/b] wall",
    "[red]door[/red]",
    "[@click=app.quit]sill[/]",
    "[/",
    "\x1b[31mred\x1b[0m \x07bell",
    "\u202emirrored\u202c \u200bzero",
    "石膏ボード e\u0301\u0323 \U0001f9f1",
    "# not a heading <script>alert(1)</script> `x` **y** | z",
)


@asynccontextmanager
async def shown(
    journal: Journal, screen: S, size: tuple[int, int] = (80, 24)
) -> AsyncIterator[tuple[Pilot[None], S]]:
    """Run the app with ``screen`` in front, over the jobs."""
    app = JournalApp(journal)
    async with app.run_test(size=size) as pilot:
        app.push_screen(screen)
        await worked(pilot)
        yield pilot, screen
    app.autosave.close()


def text_of(pilot: Pilot[None]) -> str:
    """Return what stands on the screen, runs of blanks as one."""
    return " ".join(seen_on(pilot).split())


def front(pilot: Pilot[None], kind: type[S]) -> S:
    """Return the screen in front, which must be a ``kind``."""
    screen = pilot.app.screen
    assert isinstance(screen, kind), f"{screen} is in front"
    return screen
