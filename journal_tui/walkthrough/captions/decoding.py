"""From a file's bytes to its text, and what the bytes are when they are no text at all."""

from __future__ import annotations

import codecs
import re

RECORDING = "a recording, not captions"
_PACKED = "a packed or office file, not captions"
_DOCUMENT = "a formatted document, not captions"

#: How files begin that people mistake for captions. The marks are each format's own signature;
#: written from memory of the formats' documentation.
_SIGNATURES: tuple[tuple[re.Pattern[bytes], str], ...] = tuple(
    (re.compile(mark, re.DOTALL), what)
    for mark, what in (
        (rb"\x00...(?:ftyp|moov|mdat|free|wide)", RECORDING),
        (rb"\x1a\x45\xdf\xa3", RECORDING),
        (rb"RIFF....(?:WAVE|AVI )", RECORDING),
        (rb"FORM....AIF[FC]", RECORDING),
        (rb"ID3[\x02-\x04]|\xff[\xe2-\xfb](?!\x00)[\x10-\xef]", RECORDING),
        (rb"OggS\x00|fLaC\x00|caff\x00|#!AMR|\x00\x00\x01[\xba\xb3]", RECORDING),
        (rb"PK\x03\x04|\x1f\x8b\x08|7z\xbc\xaf|\xd0\xcf\x11\xe0", _PACKED),
        (rb"%PDF-", _DOCUMENT),
        (rb"\{\\rtf", _DOCUMENT),
        (rb"\x89PNG\r\n|\xff\xd8\xff|GIF8[79]a", "a picture, not captions"),
        (rb"SQLite format 3\x00", "a database, not captions"),
        (rb"(?:\xef\xbb\xbf)?\s{0,200}(?i:<(?:\?xml|!doctype|html|tt[ >]))", "marked-up text (XML or HTML)"),
        (rb"(?:\xef\xbb\xbf)?\s{0,200}(?:\{\s{0,200}[\"}]|\[\s{0,200}\{)", "data (JSON), not captions"),
    )
)
_UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_CONTROLS = bytes([*range(0x09), *range(0x0E, 0x20), 0x7F])
#: More control bytes than this, and than this share of a file, and it was never written as text.
#: Evenly spread bytes hold 11 in 100; a stray escape sequence in a short note is a handful.
_SOME_CONTROLS = 8
_MOST_CONTROLS = 0.08


def what_else(data: bytes) -> str | None:
    """Return what ``data`` is when it is plainly not text to read, else None."""
    head = data[:512]
    for mark, what in _SIGNATURES:
        if mark.match(head):
            return what
    if data.startswith(_UTF16) or re.match(rb"(?:\xef\xbb\xbf)?WEBVTT[\s]", head):
        return None
    controls = len(data) - len(data.translate(None, _CONTROLS))
    return "not text" if controls > max(_SOME_CONTROLS, _MOST_CONTROLS * len(data)) else None


def decode(data: bytes) -> tuple[str, str | None]:
    """Return the text of ``data`` without its byte order mark, and a notice if it was doubtful.

    UTF-8 with or without a mark, UTF-16 with one, else Windows-1252. A file that is mostly
    good UTF-8 stays UTF-8: one torn character must not garble all the others.
    """
    if data.startswith(_UTF16):
        text = data.decode("utf-16", "replace")
        doubtful = "\ufffd" in text
        return text, "some characters could not be read as UTF-16 and show as \ufffd" if doubtful else None
    try:
        return data.decode("utf-8-sig"), None
    except UnicodeDecodeError:
        pass
    text = data.decode("utf-8-sig", "replace")
    torn = len(re.findall("\ufffd+", text))
    good = len(text) - len(text.encode("ascii", "ignore")) - text.count("\ufffd")
    if good > torn or data.startswith(codecs.BOM_UTF8):
        return text, f"{torn} places could not be read as UTF-8 and show as \ufffd"
    text = data.decode("cp1252", "replace")
    return text, "not UTF-8; read as Windows-1252, so accented letters may be wrong"
