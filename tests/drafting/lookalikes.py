"""Rewrite the list of real English words that must never be taken for a misheard trade word.

    pip install pyspellchecker && python -m tests.drafting.lookalikes

Run after adding trade words. The English words are those of pyspellchecker (MIT licence,
copyright 2018-2026 Tyler Barrus) that occur at least ``LEAST`` times in its corpus; kept are the
few that sound and look nearly like one of our trade words.
"""

from __future__ import annotations

import gzip
import importlib.util
import json
from pathlib import Path

import journal_tui.walkthrough.drafting as drafting
from journal_tui.walkthrough.drafting.repair import nearest_trade_word

LEAST = 50
LIST = Path(drafting.__file__).parent / "data" / "lookalikes.txt"
_HEAD = """# Real English words that sound nearly like a trade word: never taken for a mishearing of it.
# Chosen by tests/drafting/lookalikes.py from the word list of pyspellchecker (MIT licence,
# copyright 2018-2026 Tyler Barrus).
"""


def main() -> None:
    """Write the list."""
    found = importlib.util.find_spec("spellchecker")
    if found is None or found.origin is None:
        raise SystemExit("pip install pyspellchecker first")
    source = Path(found.origin).parent / "resources" / "en.json.gz"
    counts: dict[str, int] = json.loads(gzip.decompress(source.read_bytes()))
    words = sorted(w for w, n in counts.items() if n >= LEAST and w.isalpha() and w.isascii() and len(w) >= 5)
    alike = [w for w in words if nearest_trade_word(w) not in (None, w)]
    LIST.write_text(_HEAD + "\n".join(alike) + "\n", encoding="utf-8")
    print(f"{len(alike)} of {len(words)} words")


if __name__ == "__main__":
    main()
