"""Looking at screens in tests: what stands on them, line by line, and waiting for what they do."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any

from textual import events
from textual.keys import _character_to_key
from textual.pilot import Pilot

from journal_tui.journal.opening import Journal
from journal_tui.screens.app import JournalApp
from journal_tui.screens.base import JournalScreen


def lines_of(app: JournalApp) -> list[str]:
    """Return the text of every line of the terminal as it stands."""
    return [strip.text for strip in app.screen._compositor.render_strips()]


def seen(app: JournalApp) -> str:
    """Return the whole terminal as text."""
    return "\n".join(lines_of(app))


def top(app: JournalApp) -> JournalScreen:
    """Return the screen on top, one of ours."""
    assert isinstance(app.screen, JournalScreen)
    return app.screen


async def until(pilot: Pilot[Any], holds: Callable[[], bool], seconds: float = 10.0) -> None:
    """Wait until ``holds()`` is true; fail when it is not within ``seconds``."""
    end = asyncio.get_running_loop().time() + seconds
    while not holds():
        assert asyncio.get_running_loop().time() < end, f"still not so:\n{seen_on(pilot)}"
        await pilot.pause(0.01)
    await pilot.pause()


def seen_on(pilot: Pilot[Any]) -> str:
    """Return the terminal of a pilot's app as text."""
    app = pilot.app
    return seen(app) if isinstance(app, JournalApp) else ""


async def worked(pilot: Pilot[Any]) -> None:
    """Wait for every worker, then for what its result changes."""
    await pilot.pause()
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


#: Keys without a character that ``typed`` knows by their name.
_NAMED = ("down", "up", "tab", "shift+tab", "f2", "escape")


async def typed(pilot: Pilot[Any], *texts: str) -> None:
    """Type texts, and keys by their names, as fast as they come from a terminal."""
    for text in texts:
        if text in _NAMED:
            pilot.app.post_message(events.Key(text, None))
            continue
        for character in text:
            pilot.app.post_message(events.Key(_character_to_key(character), character))
    await pilot.pause()


def app_on(journal: Journal, start: str | None = None) -> JournalApp:
    """Return the app on a journal."""
    return JournalApp(journal, start)
