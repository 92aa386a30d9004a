"""Text from people: what is stored, and how it is shown literally.

Stored text is what was given, with two exceptions that SQLite, WebVTT and CommonMark all make:
U+0000 and lone surrogates become U+FFFD. Shown text never lets a control character act.
"""

from __future__ import annotations

import re
import unicodedata

REPLACEMENT = "\N{REPLACEMENT CHARACTER}"

_UNSTORABLE = re.compile("[\x00\ud800-\udfff]")
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f]")
#: Characters that turn, hide or override the direction of what follows them (UAX #9), and
#: the line separators a terminal or browser may treat as a break.
_DIRECTION = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\u2028\u2029\ufeff]")
_SPACE = re.compile(r"\s+")


def storable(text: str) -> str:
    """Return ``text`` as it can be kept: U+0000 and lone surrogates replaced by U+FFFD."""
    return _UNSTORABLE.sub(REPLACEMENT, text)


def visible(text: str) -> str:
    """Return ``text`` so that no control or direction character in it acts when shown.

    C0 controls become their control pictures (ESC is shown as U+241B), C1 controls and
    direction marks become U+FFFD; newline and tab are kept.
    """

    def picture(match: re.Match[str]) -> str:
        code = ord(match.group())
        if code < 0x20:
            return chr(0x2400 + code)
        return "\N{SYMBOL FOR DELETE}" if code == 0x7F else REPLACEMENT

    return _DIRECTION.sub(REPLACEMENT, _CONTROL.sub(picture, storable(text)))


def one_line(text: str) -> str:
    """Return ``text`` shown on one line: controls visible, every run of white space one blank."""
    return visible(_SPACE.sub(" ", text).strip())


def folded(text: str) -> str:
    """Return ``text`` for comparing: compatibility-composed, case-folded, blanks collapsed."""
    return _SPACE.sub(" ", unicodedata.normalize("NFKC", text).casefold()).strip()


def plain_letters(text: str) -> str:
    """Return ``text`` with the letters a pattern that ignores case takes for each other made one."""
    # The dotless i is the one that folding keeps apart and such a pattern does not.
    return text.casefold().replace("ı", "i")
