"""What can go wrong, said in a title and a body; exit codes for the command line."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager


class JournalError(Exception):
    """A failure a person can act on.

    ``title`` names the thing that is wrong in a few words; ``body`` says where and what to do. ``field``
    names which of several things given is wrong, "" when that is not known (see ``about``).
    """

    exit_code = 2

    def __init__(self, title: str, body: str = "") -> None:
        super().__init__(f"{title}: {body}" if body else title)
        self.title = title
        self.body = body
        self.field = ""


@contextmanager
def about(field: str) -> Iterator[None]:
    """Say of a ``JournalError`` raised inside that it is about ``field``, unless that is said already."""
    try:
        yield
    except JournalError as error:
        error.field = error.field or field
        raise


class BadInput(JournalError):
    """What was given cannot be used: a file, a date, a name, an option."""


class NothingFound(JournalError):
    """The question was sound and the answer is empty."""

    exit_code = 1


class AlreadyLogged(BadInput):
    """The same recording is already in the journal; the caller may ask and insist."""


class JournalFileError(JournalError):
    """The journal file itself cannot be opened, read or written."""


class CannotRead(BadInput):
    """A recording's text cannot be read at all; nothing was saved."""
