"""Half-typed text, saved at every key by a thread of its own, so that typing never waits for the disk."""

from __future__ import annotations

import threading
from collections.abc import Callable

from journal_tui.domain.errors import JournalError
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import recall, remember


class Autosave:
    """Saves the newest text of each place, in order; older text of the same place is skipped.

    ``failed`` is called (in the saving thread) with what went wrong.
    """

    def __init__(self, journal: Journal, failed: Callable[[JournalError], None]) -> None:
        self._journal = journal
        self._failed = failed
        self._pending: dict[str, str] = {}
        self._changed = threading.Condition()
        self._thread: threading.Thread | None = None
        self._busy = False
        self._closing = False

    def keep(self, place: str, text: str) -> None:
        """Save ``text`` as what stands half typed in ``place``; empty text forgets it."""
        with self._changed:
            self._pending[place] = text
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, name="autosave", daemon=True)
                self._thread.start()
            self._changed.notify_all()

    def recall(self, place: str) -> str:
        """Return what stands half typed in ``place``, saved or just about to be."""
        with self._changed:
            if place in self._pending:
                return self._pending[place]
        return recall(self._journal, place)

    def flush(self, seconds: float = 5.0) -> bool:
        """Wait until everything is on the disk; False when it is not within ``seconds``, or cannot be."""
        with self._changed:
            self._changed.wait_for(lambda: self._thread is None or self._all_saved(), seconds)
            return self._all_saved()

    def _all_saved(self) -> bool:
        return not self._pending and not self._busy

    def close(self) -> None:
        """Save what is left and stop."""
        self.flush()
        with self._changed:
            self._closing = True
            self._changed.notify_all()
        if self._thread is not None:
            self._thread.join(5.0)

    def _run(self) -> None:
        try:
            journal = self._journal.another()
        except JournalError as error:
            self._failed(error)
            with self._changed:
                self._thread = None
                self._changed.notify_all()
            return
        try:
            while (job := self._next()) is not None:
                self._save(journal, *job)
        finally:
            journal.close()

    def _next(self) -> tuple[str, str] | None:
        with self._changed:
            self._busy = False
            self._changed.notify_all()
            self._changed.wait_for(lambda: self._pending or self._closing)
            if not self._pending:
                return None
            place = next(iter(self._pending))
            self._busy = True
            return place, self._pending[place]

    def _save(self, journal: Journal, place: str, text: str) -> None:
        try:
            remember(journal, place, text)
        except JournalError as error:
            self._failed(error)
        with self._changed:
            # Newer text that came in meanwhile stays to be saved.
            if self._pending.get(place) == text:
                del self._pending[place]
