"""What a reader has found so far: cues that count, and what was skipped or set right."""

from __future__ import annotations

from journal_tui.domain.recording import Cue, Notice
from journal_tui.domain.text import one_line, storable
from journal_tui.domain.times import clock

#: A file with ten thousand bad cues has one fault, not ten thousand; the rest are counted.
MOST_NOTICES = 50


class Found:
    """Collects the cues and notices of one file, in file order."""

    def __init__(self) -> None:
        self.cues: list[Cue] = []
        self._notices: list[Notice] = []
        self._unlisted = 0

    def note(self, line: int, message: str) -> None:
        """Add a notice about ``line`` (1-based; 0 for the file as a whole)."""
        if len(self._notices) < MOST_NOTICES:
            self._notices.append(Notice(line, message))
        else:
            self._unlisted += 1

    def skip(self, line: int, fault: str, shown: str = "") -> None:
        """Note a cue that is left out because of ``fault``; ``shown`` quotes the bad line."""
        quoted = one_line(shown[:200])
        if quoted:
            fault = f"{fault} ({quoted if len(quoted) <= 60 else quoted[:59] + '…'})"
        self.note(line, f"caption skipped: {fault}")

    def timed(self, line: int, start: float, end: float, text: str, speaker: str | None = None) -> None:
        """Add a cue of ``text`` between ``start`` and ``end`` seconds unless it is empty or bad."""
        words = _tidied(text)
        if not words:
            return
        if end <= start:
            self.skip(line, f"it ends at {clock(end)}, not after it starts at {clock(start)}")
            return
        if self.cues and start < self.cues[-1].start:
            before = clock(self.cues[-1].start)
            self.note(line, f"time goes back from {before} to {clock(start)}; kept in the file's order")
        self.cues.append(Cue(start, end, words, _tidied(speaker or "") or None, line))

    def untimed(self, line: int, text: str) -> None:
        """Add a cue that has no time."""
        words = _tidied(text)
        if words:
            self.cues.append(Cue(0.0, 0.0, words, None, line))

    @property
    def notices(self) -> tuple[Notice, ...]:
        """The first notices, and how many more there were."""
        if not self._unlisted:
            return tuple(self._notices)
        return (*self._notices, Notice(0, f"and {self._unlisted} more notices like these"))


def _tidied(text: str) -> str:
    if "\n" not in text and "\r" not in text:
        return storable(text.strip())
    lines = (line.strip() for line in text.replace("\r", "\n").split("\n"))
    return storable("\n".join(line for line in lines if line))
