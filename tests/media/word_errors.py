"""Word error rate: the fewest words put in, left out or changed, per word of what was said.

The measure of NIST's speech evaluations. ``python -m tests.media.word_errors MODEL`` prints it with
and without the hint for a model's folder.
"""

from __future__ import annotations

import re
import sys
import tempfile
import time
import tomllib
from collections.abc import Sequence
from pathlib import Path

#: Numbers an engine writes as figures, as they are said; hyphens part words on both sides.
_FIGURES = {"2": "two", "3": "three", "50": "fifty"}


def words_of(text: str) -> list[str]:
    """Return the words of ``text`` for comparing: lower case, no punctuation, small figures spelled out."""
    plain = re.sub(r"[^\w\s']", " ", text.lower().replace("-", " "))
    return [_FIGURES.get(word, word) for word in plain.split()]


def errors(reference: Sequence[str], heard: Sequence[str]) -> int:
    """Return the least number of words inserted, left out or changed (Levenshtein distance)."""
    row = list(range(len(heard) + 1))
    for i, said in enumerate(reference, 1):
        before, row[0] = row[0], i
        for j, word in enumerate(heard, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (said != word))
    return row[-1]


def main(model: Path) -> None:
    """Print the word error rate and the time taken, without and with the hint."""
    from journal_tui.walkthrough.media.hints import hint

    table = tomllib.loads((Path(__file__).parent / "sentences.toml").read_text())
    for label, text in (("no hint", ""), ("hint of the trade's words", hint([]))):
        _measure(label, model, text, table["said"])
    for label, own in (("hint of the trade's words", []), ("and of the job's own", table["own"])):
        _measure(f"a job's own words, {label}", model, hint(own), table["own_said"])


def _measure(label: str, model: Path, text: str, said: Sequence[str]) -> None:
    from journal_tui.walkthrough.media.engine import WhisperEngine
    from journal_tui.walkthrough.media.sound import RATE
    from journal_tui.walkthrough.media.speech import transcribe
    from tests.media.making import silence, speech, write_wav

    samples = b"".join(sentence + silence(0.8) for sentence in speech(*said))
    reference = words_of(" ".join(said))
    engine = WhisperEngine(model, text)
    with tempfile.TemporaryDirectory() as folder:
        path = write_wav(Path(folder) / "said.wav", samples)
        began = time.perf_counter()
        made, _damage = transcribe(path, engine, 0.0)
        took = time.perf_counter() - began
    wrong = errors(reference, words_of(" ".join(line[2] for line in made.lines)))
    minutes = len(samples) / 2 / RATE / 60
    print(
        f"{label}: {wrong} of {len(reference)} words wrong, {wrong / len(reference):.1%}; "
        f"{took / minutes:.1f} s per minute of sound ({len(said)} sentences)"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
