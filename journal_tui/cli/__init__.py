"""The plain command line: every capability as text in and text out, no screens needed.

Importing this loads nothing heavy: each command imports what it uses when it runs.
"""

from __future__ import annotations

import sys

# What only the type checker reads is not worth loading: Ctrl-C in these first moments should find
# ``main`` at work, and so no traceback.
TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence
    from typing import NoReturn


def main(argv: Sequence[str] | None = None) -> NoReturn:
    """Run one command and leave with its exit code: 0 done, 1 nothing found, 2 bad input."""
    try:
        from journal_tui.cli.program import run

        code = run(sys.argv[1:] if argv is None else argv)
    except KeyboardInterrupt:  # pressed while the program was still loading or already leaving
        code = 130
    raise SystemExit(code)
