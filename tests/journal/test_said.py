"""Finding in the captions the words a draft rests on."""

from __future__ import annotations

import time

from hypothesis import given
from hypothesis import strategies as st

from journal_tui.journal.said import spans_heard


def _marked(captions: list[str], heard: str) -> list[list[str]]:
    return [
        [caption[low:high] for low, high in spans]
        for caption, spans in zip(captions, spans_heard(captions, heard), strict=True)
    ]


def test_words_over_two_captions_are_marked_in_both() -> None:
    captions = ["so this plank and the one", "next to it, the chisel goes in.", "okay, what else"]
    assert _marked(captions, "the one next to it the chisel goes in") == [
        ["the one"],
        ["next to it, the chisel goes in."],
        [],
    ]


def test_case_and_punctuation_do_not_matter_and_other_words_do() -> None:
    assert _marked(["Sister THAT one, full height."], "sister that one full height") == [
        ["Sister THAT one, full height."]
    ]
    assert _marked(["sister that one"], "sister this one") == [[]]


def test_joined_drafts_mark_two_stretches() -> None:
    assert _marked(["one two three four five"], "one two\nfour five") == [["one two", "four five"]]


def test_nothing_heard_marks_nothing() -> None:
    assert spans_heard(["a b", "c"], "") == [(), ()]
    assert spans_heard([], "a") == []
    assert spans_heard(["…", "a"], "…") == [(), ()]


def test_a_whole_file_in_one_line_does_not_stop_the_clock() -> None:
    line = "the wall is sound here " * 400_000 + "these two planks are soft " + "and so on " * 100_000
    began = time.perf_counter()
    assert _marked([line], "these two planks are soft") == [["these two planks are soft"]]
    assert time.perf_counter() - began < 2.0


_WORDS = st.lists(st.sampled_from("wall tile sill pan drain stud joist".split()), min_size=1, max_size=12)


@given(_WORDS, _WORDS, _WORDS, st.integers(1, 5))
def test_what_was_heard_is_found_however_the_captions_break(
    before: list[str], heard: list[str], after: list[str], width: int
) -> None:
    words = [*before, *heard, *after]
    captions = [" ".join(words[at : at + width]) for at in range(0, len(words), width)]
    marked = " ".join(piece for pieces in _marked(captions, " ".join(heard)) for piece in pieces)
    assert marked == " ".join(heard)
