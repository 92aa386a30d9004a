"""Readers of recordings' captions: WebVTT, SubRip, timed text and untimed text.

``read_captions`` takes a file, ``read_text`` its bytes. Both give ``Captions`` or raise
``CannotRead`` with one clear line, whatever they are handed.
"""

from journal_tui.walkthrough.captions.files import MOST_BYTES, read_captions
from journal_tui.walkthrough.captions.reading import read_text, refuse_endless

__all__ = ["MOST_BYTES", "read_captions", "read_text", "refuse_endless"]
