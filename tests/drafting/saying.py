"""Talk for tests of wording: utterances from plain lines, one line an utterance."""

from __future__ import annotations

from journal_tui.domain.kinds import Kind
from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting.attributes import Stretch
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.utterances import Utterance
from journal_tui.walkthrough.drafting.words import words_of


def said(*lines: str) -> list[Utterance]:
    """Return one utterance a line, four seconds each; "Name: " at the head names the speaker."""
    cues = tuple(Cue(n * 4.0, n * 4.0 + 3.8, line) for n, line in enumerate(lines))
    words = repaired(words_of(Captions("t.vtt", "webvtt", cues, "", "")))
    lines_of = [[w for w in words if w.cue == n] for n in range(len(lines))]
    return [Utterance(tuple(line), True, 0.2) for line in lines_of]


def stretch(line: str, *, before: tuple[str, ...] = (), after: tuple[str, ...] = (), kind: Kind) -> Stretch:
    """Return the entry that ``line`` is, between the lines ``before`` and ``after`` it."""
    return Stretch(said(*before, line, *after), len(before), len(before), kind)
