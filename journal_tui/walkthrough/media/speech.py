"""From sound to timed words, block by block: told how far it is, stopped at will, taken up again."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from journal_tui.walkthrough.media.blocks import blocks, silent
from journal_tui.walkthrough.media.engine import SpeechEngine
from journal_tui.walkthrough.media.sound import RATE, Damage, Sound

#: Told (seconds heard, seconds in all; 0.0 when not known) after each block; may raise to stop.
Told = Callable[[float, float], None]

_BYTES = 2


@dataclass(slots=True)
class Transcript:
    """What was heard of a recording so far: (start, end, words), and up to which second."""

    engine: str
    heard_to: float = 0.0
    lines: list[tuple[float, float, str]] = field(default_factory=list)
    whole: bool = False

    def as_text(self) -> str:
        """Return it as text to keep while the work is not done."""
        return json.dumps([self.engine, self.heard_to, self.lines], ensure_ascii=False)

    @classmethod
    def from_text(cls, text: str, engine: str) -> Transcript:
        """Return what was kept of the same engine's work; an empty one when it is not that."""
        try:
            kept: Any = json.loads(text)
            if kept[0] == engine:
                lines = [(float(a), float(b), str(words)) for a, b, words in kept[2]]
                return cls(engine, float(kept[1]), lines)
        except (ValueError, TypeError, LookupError):
            pass
        return cls(engine)


def transcribe(
    path: Path,
    engine: SpeechEngine,
    seconds: float,
    *,
    kept: str = "",
    keep: Callable[[str], None] | None = None,
    told: Told | None = None,
) -> tuple[Transcript, Damage]:
    """Return what is said in a recording of ``seconds``, and what of it could not be read.

    ``kept`` is what an earlier, stopped run gave to ``keep``: the work goes on from there. ``keep`` is
    called after each block, before ``told``, so that whatever ``told`` raises loses nothing.
    """
    made = Transcript.from_text(kept, engine.name)
    sound = Sound(path, made.heard_to)
    for start, samples in blocks(sound.pieces(), made.heard_to):
        if not silent(samples):
            made.lines += [(start + h.start, start + h.end, h.text) for h in engine.hear(samples) if h.text]
        made.heard_to = start + len(samples) / _BYTES / RATE
        if keep:
            keep(made.as_text())
        if told:
            told(made.heard_to, seconds)
    made.whole = True
    return made, sound.damage
