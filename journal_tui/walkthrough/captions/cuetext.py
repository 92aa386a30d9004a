"""The words of a WebVTT cue: tags gone, character references resolved, voices told apart.

W3C WebVTT section 6.4 (cue text parsing rules and tokenizer): a tag runs to the next ``>`` or,
when there is none, to the end of the cue.
"""

from __future__ import annotations

import html
import re

_TOKEN = re.compile(r"([^<]+)|<([^>]*)(>?)")
_REFERENCE_TOO_LONG = re.compile(r"&#(?:[0-9]{9,}|[xX][0-9a-fA-F]{9,});?")
_TAGS = frozenset({"c", "i", "b", "u", "ruby", "rt", "v", "lang"})
_SPACE = re.compile(r"[\t\n\f\r ]+")


def resolved(text: str) -> str:
    """Return ``text`` with HTML character references resolved; numbers past Unicode are U+FFFD."""
    if "&" not in text:
        return text
    return html.unescape(_REFERENCE_TOO_LONG.sub("\ufffd", text))


def spoken(text: str) -> tuple[list[tuple[str | None, str]], bool]:
    """Return the (speaker, words) of a cue in order, and whether a tag was left unclosed."""
    parts: list[tuple[str | None, list[str]]] = []
    # Each open tag carries the voice in force inside it, so that depth costs nothing.
    stack: list[tuple[str, str | None]] = []
    unclosed = False
    for words, tag, close in _TOKEN.findall(text):
        if words:
            voice = stack[-1][1] if stack else None
            if not parts or parts[-1][0] != voice:
                parts.append((voice, []))
            parts[-1][1].append(resolved(words))
        elif tag.startswith("/"):
            _close(stack, tag[1:])
        else:
            _open(stack, tag)
        unclosed = unclosed or not (words or close)
    return [(voice, "".join(pieces)) for voice, pieces in parts], unclosed


def _open(stack: list[tuple[str, str | None]], tag: str) -> None:
    name, *annotation = _SPACE.split(tag, maxsplit=1)
    name = name.partition(".")[0]
    if name not in _TAGS or (name == "rt" and not (stack and stack[-1][0] == "ruby")):
        return
    voice = stack[-1][1] if stack else None
    if name == "v":
        voice = _SPACE.sub(" ", resolved("".join(annotation))).strip(" ") or None
    stack.append((name, voice))


def _close(stack: list[tuple[str, str | None]], name: str) -> None:
    if stack and stack[-1][0] == name:
        stack.pop()
    elif name == "ruby" and stack and stack[-1][0] == "rt":
        del stack[-2:]
