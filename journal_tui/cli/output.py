"""Text out: nothing in it acts on the terminal, and an output that is gone is not a traceback."""

from __future__ import annotations

import contextlib
import io
import json
import os
import re
import sys
from collections.abc import Iterator
from typing import TextIO

from journal_tui.cli.command import PROGRAM
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line, visible

#: What a shell reports of a program that ended because nobody read on (128 + SIGPIPE).
NOBODY_READS = 141
#: And of one that was stopped by Ctrl-C (128 + SIGINT).
STOPPED = 130


_DONE_THOUGH = "What was asked is done; only its report is lost."


class OutputGone(BadInput):
    """Standard output takes nothing: it is closed, or its disk is full."""


def prepare_streams() -> None:
    """Make both outputs take any text: what they cannot encode is shown as ``?``."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace", newline="")
    if isinstance(sys.stdin, io.TextIOWrapper):
        sys.stdin.reconfigure(errors="replace")


def say(text: str = "") -> None:
    """Print lines of text, any control character in it made visible."""
    _write(visible(text) + "\n")


def put(text: str) -> None:
    """Print a document that ends in its own line break."""
    _write(visible_document(text))


def put_paper(markdown: str) -> None:
    """Print a document kept as Markdown: as it is into a file or pipe, as plain text on a terminal."""
    if read_by_eye():
        from journal_tui.journal.papers import PaperForm, paper_text

        markdown = paper_text(markdown, "", PaperForm.TEXT)
    put(markdown)


def put_object(thing: object) -> None:
    """Print ``thing`` as JSON (RFC 8259) in ASCII: it acts on no terminal and any output takes it."""
    _write(json.dumps(thing, indent=2) + "\n")


def put_json(text: str) -> None:
    """Print JSON; characters that standard output cannot encode are written as JSON escapes."""
    if not _encodes(sys.stdout, text):
        text = re.sub(r"[^\x00-\x7f]", _escaped, text)
    _write(text)


def put_html(text: str) -> None:
    """Print HTML; characters that standard output cannot encode as UTF-8 are written as references."""
    if not _is_utf8(sys.stdout):
        text = text.encode("ascii", "xmlcharrefreplace").decode("ascii")
    _write(text)


def visible_document(text: str) -> str:
    """Return ``text`` with control characters visible, its CRLF line ends (RFC 4180) kept."""
    return "\r\n".join(visible(line) for line in text.split("\r\n"))


def _escaped(match: re.Match[str]) -> str:
    units = match.group().encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[i] << 8 | units[i + 1]:04x}" for i in range(0, len(units), 2))


def _is_utf8(stream: TextIO | None) -> bool:
    return (getattr(stream, "encoding", None) or "utf-8").lower().replace("-", "") == "utf8"


def _encodes(stream: TextIO | None, text: str) -> bool:
    try:
        text.encode(getattr(stream, "encoding", None) or "utf-8")
    except UnicodeEncodeError:
        return False
    return True


def _write(text: str) -> None:
    if sys.stdout is None:
        raise OutputGone("standard output is closed", _DONE_THOUGH)
    with _losses():
        sys.stdout.write(text)


def finish() -> None:
    """Hand over all that was printed, so that a full disk is found out while it can be said."""
    if sys.stdout is not None:
        with _losses():
            sys.stdout.flush()


@contextlib.contextmanager
def _losses() -> Iterator[None]:
    try:
        yield
    except BrokenPipeError:
        raise
    except (OSError, ValueError) as error:
        abandon_output()
        reason = getattr(error, "strerror", None) or str(error)
        raise OutputGone(f"cannot write the output ({reason})", _DONE_THOUGH) from None


def abandon_output() -> None:
    """Give up standard output, so that leaving the program does not try to write to it again."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        null = os.open(os.devnull, os.O_WRONLY)
        os.dup2(null, sys.stdout.fileno())
        os.close(null)


def complain(title: str, body: str = "") -> None:
    """Print an error to standard error, in one line; what it quotes at length is cut."""
    note(": ".join(_cut(part) for part in (title, body) if part))


def _cut(text: str, longest: int = 400) -> str:
    line = one_line(text)
    return line if len(line) <= longest else f"{line[: longest // 2]} … {line[-longest // 2 :]}"


def note(text: str) -> None:
    """Print a remark to standard error, in one line, in the program's name."""
    if sys.stderr is None:
        return
    with contextlib.suppress(OSError, ValueError):
        sys.stderr.write(f"{PROGRAM}: {_cut(text, 850)}\n")
        sys.stderr.flush()


def read_by_eye() -> bool:
    """True when standard output is a terminal, where the escapes of Markdown only disturb."""
    return bool(sys.stdout and sys.stdout.isatty())


def on_terminal() -> bool:
    """True when a person is at both ends: keys in, text out."""
    return bool(sys.stdin and sys.stdin.isatty() and sys.stdout and sys.stdout.isatty())
