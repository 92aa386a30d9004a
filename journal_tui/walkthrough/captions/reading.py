"""A caption file's bytes → ``Captions``: what form it has is told from what stands in it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.recording import Captions
from journal_tui.domain.text import one_line, storable
from journal_tui.walkthrough.captions import plain, subrip, webvtt
from journal_tui.walkthrough.captions.decoding import decode, what_else
from journal_tui.walkthrough.captions.found import Found
from journal_tui.walkthrough.captions.rolling import unrolled

#: Near a day and a night of talk without a pause: an hour of it is about 9,000 words (150 a minute,
#: common practice). More is no walk-through, and drafting from it would take minutes.
MOST_WORDS = 200_000
EXPORT = "Export its captions as .vtt, .srt or .txt and load that file."


def read_text(name: str, data: bytes) -> Captions:
    """Return the captions in ``data``, the bytes of a file called ``name``.

    Raises CannotRead when the bytes are no text, or hold no usable caption.
    """
    shown = one_line(name) or "the file"
    if not data:
        raise CannotRead(f"{shown} is empty", EXPORT)
    if other := what_else(data):
        raise CannotRead(f"{shown} is {other}", EXPORT)
    text, doubt = decode(data)
    found = Found()
    if doubt:
        found.note(0, doubt)
    # W3C WebVTT section 6.1 steps 1 and 2; the other forms have no rule of their own.
    lines = text.replace("\x00", "\ufffd").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    form, read = _form(lines)
    if form == "subrip" and name.lower().endswith(".vtt"):
        found.note(0, "no WEBVTT header; read as SubRip")
    read(lines, found)
    if not found.cues:
        raise CannotRead(f"{shown} has no usable captions in it", _why(form, found))
    timed = form != "untimed text"
    cues = unrolled(found.cues) if timed else found.cues
    if cues is not found.cues:
        found.note(0, "each caption repeats the line before it; every line is taken once")
    digest = hashlib.sha256(data).hexdigest()
    return Captions(storable(name), form, tuple(cues), text, digest, found.notices, timed)


def _form(lines: list[str]) -> tuple[str, Callable[[list[str], Found], None]]:
    if webvtt.begins(lines):
        return "webvtt", webvtt.read
    if subrip.begins(lines):
        return "subrip", subrip.read
    if plain.begins_timed(lines):
        return "timed text", plain.read_timed
    return "untimed text", plain.read_untimed


def _why(form: str, found: Found) -> str:
    faults = [notice for notice in found.notices if notice.line]
    if not faults:
        return f"No words were found. {EXPORT}"
    more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
    return f"Read as {form}, {faults[0]}{more}. Correct it or export the captions again."


def refuse_endless(captions: Captions) -> None:
    """Raise CannotRead for more than 200,000 words, which no walk-through has."""
    words = sum(len(cue.text.split()) for cue in captions.cues)
    if words > MOST_WORDS:
        raise CannotRead(
            f"{one_line(captions.name)} has {words:,} words (one recording may have {MOST_WORDS:,})",
            "An hour of talk is about 9,000. Split it into one file a visit and load each.",
        )
