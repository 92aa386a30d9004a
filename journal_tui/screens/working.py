"""Long work: done by a thread with a journal of its own, told to the screen in messages."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, TypeVar

from textual.message import Message
from textual.worker import Worker, get_current_worker

from journal_tui.domain.errors import JournalError
from journal_tui.journal.opening import Journal

if TYPE_CHECKING:
    from journal_tui.screens.telling import TellingScreen

T = TypeVar("T")
#: Told how far work is: what is being done, and the share done from 0 to 1 (None: not known).
Progress = Callable[[str, float | None], None]


class Stopped(Exception):
    """The person stopped the work."""


class WorkMoved(Message):
    """Work has come this far."""

    def __init__(self, name: str, what: str, share: float | None) -> None:
        super().__init__()
        self.name, self.what, self.share = name, what, share


class WorkDone(Message):
    """Work ended; ``result`` is what it returned."""

    def __init__(self, name: str, result: object) -> None:
        super().__init__()
        self.name, self.result = name, result


class WorkFailed(Message):
    """Work could not be done."""

    def __init__(self, name: str, error: JournalError) -> None:
        super().__init__()
        self.name, self.error = name, error


def begin(screen: TellingScreen, name: str, do: Callable[[Journal, Progress], object]) -> Worker[None]:
    """Run ``do(journal, progress)`` in a thread; an earlier run of the same ``name`` is dropped.

    Its result comes to the screen as ``WorkDone``, a failure as ``WorkFailed``; after it was stopped
    neither comes. ``progress`` raises ``Stopped`` once it was.
    """

    def run() -> None:
        worker = get_current_worker()

        def progress(what: str, share: float | None = None) -> None:
            if worker.is_cancelled:
                raise Stopped
            screen.post_message(WorkMoved(name, what, share))

        message: Message | None
        try:
            journal = screen.journal.another()
            try:
                message = WorkDone(name, do(journal, progress))
            finally:
                journal.close()
        except Stopped:
            return
        except JournalError as error:
            message = WorkFailed(name, error)
        except Exception as error:
            message = WorkFailed(name, fault_of_ours(error))
        if not worker.is_cancelled:
            screen.post_message(message)

    return screen.run_worker(run, name=name, group=name, exclusive=True, thread=True, exit_on_error=False)


def fault_of_ours(error: Exception) -> JournalError:
    """Write an unforeseen failure to the log and return it in words a person can pass on."""
    from journal_tui.journal.faults import record_fault

    log = record_fault(error)
    where = f" What happened is written in {log}." if log else ""
    return JournalError("this went wrong inside the program", f"Nothing was half-saved.{where}")
