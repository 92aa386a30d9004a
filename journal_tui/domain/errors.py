"""What can go wrong, said in a title and a body; exit codes for the command line."""

from __future__ import annotations


class JournalError(Exception):
    """A failure a person can act on.

    ``title`` names the thing that is wrong in a few words; ``body`` says where and what to do.
    """

    exit_code = 2

    def __init__(self, title: str, body: str = "") -> None:
        super().__init__(f"{title}: {body}" if body else title)
        self.title = title
        self.body = body


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
