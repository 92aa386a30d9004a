"""A recording's words: what readers give and drafting takes."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Cue:
    """One caption: words said between ``start`` and ``end`` (seconds from the beginning).

    ``line`` is the 1-based line of the file the cue begins on; ``speaker`` is a name the file
    gives (a WebVTT voice span), if any. ``text`` is plain: tags gone, character references
    resolved, line breaks kept as ``\\n``.
    """

    start: float
    end: float
    text: str
    speaker: str | None = None
    line: int = 0


@dataclass(frozen=True, slots=True)
class Notice:
    """Something in a file that was set right or skipped, with the line it stands on."""

    line: int
    message: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.message}" if self.line else self.message


@dataclass(frozen=True, slots=True)
class Captions:
    """A whole caption file, read.

    ``form`` is ``webvtt``, ``subrip``, ``timed text`` or ``untimed text``. Untimed text has
    every cue at 0.0 and ``timed`` False. ``verbatim`` is the file's own text as decoded and
    ``sha256`` the hash (hex) of the bytes it was decoded from.
    """

    name: str
    form: str
    cues: tuple[Cue, ...]
    verbatim: str
    sha256: str
    notices: tuple[Notice, ...] = field(default=())
    timed: bool = True

    @property
    def length(self) -> float:
        """Seconds from the beginning to the end of the last cue."""
        return max((cue.end for cue in self.cues), default=0.0)
