"""The recording itself: its words (beside it, inside it, or recognised) and its pictures.

Everything here needs an extra: ``video`` to open a recording, ``speech`` to recognise what is said
in it. Without them ``NotInstalled`` says in a line what to install for what.
"""

from journal_tui.walkthrough.media.beside import captions_beside
from journal_tui.walkthrough.media.container import MEDIA_ENDINGS, Facts, is_recording, look_at
from journal_tui.walkthrough.media.needs import NotInstalled
from journal_tui.walkthrough.media.tracks import text_track

__all__ = [
    "MEDIA_ENDINGS",
    "Facts",
    "NotInstalled",
    "captions_beside",
    "is_recording",
    "look_at",
    "text_track",
]
