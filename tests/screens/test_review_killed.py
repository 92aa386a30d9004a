"""What is being typed in review, on the punch list and in the update survives kill -9."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from journal_tui.journal import review, updates
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.review import keep_rest
from journal_tui.journal.typed import recall
from tests.screens.conftest import TODAY
from tests.screens.walks import walked_job

#: Types into a screen of the app and is killed half a second after the last key.
_VICTIM = """
import asyncio, datetime, importlib, os, signal, sys
from pathlib import Path
from journal_tui.journal.opening import open_journal
from journal_tui.screens.app import JournalApp

async def main(path, module, name, ids, keys):
    journal = open_journal(Path(path), lambda: datetime.date(2026, 3, 12))
    app = JournalApp(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(getattr(importlib.import_module(module), name)(*ids.split()))
        await pilot.pause()
        await app.workers.wait_for_complete()
        await pilot.pause()
        await pilot.press(*keys.split())
        await asyncio.sleep(0.5)
        os.kill(os.getpid(), signal.SIGKILL)

asyncio.run(main(*sys.argv[1:]))
"""


def _kill_while_typing(path: Path, module: str, name: str, ids: str, keys: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", _VICTIM, str(path), f"journal_tui.screens.{module}", name, ids, keys],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == -signal.SIGKILL, done.stderr


@pytest.mark.parametrize("place", ["review", "punch", "update"])
def test_typed_text_survives_kill_9(journal: Journal, place: str) -> None:
    job, visit = walked_job(journal)
    path = journal.path
    first = review.drafts(journal, visit.id)[0]
    if place != "review":
        keep_rest(journal, visit.id)
    if place == "review":
        _kill_while_typing(path, "review", "ReviewScreen", f"{job.id} {visit.id}", "e space z x q")
        kept = recall(journal, f"draft/{first.id}")
        assert kept == first.draft.text + " zxq"
    elif place == "punch":
        _kill_while_typing(path, "punch", "PunchScreen", job.id, "plus s t r a p")
        assert recall(journal, f"punch/{job.id}") == "strap"
    else:
        _kill_while_typing(path, "update", "UpdateScreen", job.id, "e H i space")
        again = open_journal(path, lambda: TODAY)
        assert updates.client_update(again, job.id).markdown.startswith("Hi # Alder Lane 14")
        again.close()
