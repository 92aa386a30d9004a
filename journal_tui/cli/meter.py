"""How far long work is: one line on the terminal, rewritten as it goes on, gone when it is done."""

from __future__ import annotations

import contextlib
import shutil
import sys
import time
from collections.abc import Callable, Iterator

from journal_tui.domain.text import one_line

#: Rewriting the line more often than this (seconds) only makes it flicker.
_OFTEN = 0.1


@contextlib.contextmanager
def meter() -> Iterator[Callable[[str, float | None], None]]:
    """Give a function that shows what is being done; it prints nothing where nobody watches."""
    shown = 0
    last = 0.0

    def tell(what: str, share: float | None) -> None:
        nonlocal shown, last
        if time.monotonic() - last < _OFTEN:
            return
        last = time.monotonic()
        percent = f"{share:4.0%} " if share is not None else ""
        text = f"{percent}{one_line(what)}"[: shutil.get_terminal_size().columns - 1]
        _write("\r" + text.ljust(shown))
        shown = len(text)

    watched = sys.stderr is not None and sys.stderr.isatty()
    try:
        yield tell if watched else lambda _what, _share: None
    finally:
        if shown:
            _write("\r" + " " * shown + "\r")


def _write(text: str) -> None:
    with contextlib.suppress(OSError, ValueError):
        sys.stderr.write(text)
        sys.stderr.flush()
