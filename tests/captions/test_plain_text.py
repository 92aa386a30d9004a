"""Timed text (``[m:ss] words``) and untimed text. Our own rules; no outside standard."""

from __future__ import annotations

import pytest

from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.captions import read_text


def read(text: str) -> Captions:
    return read_text("walk.txt", text.encode())


def test_a_caption_ends_where_the_next_begins() -> None:
    captions = read("[0:05] vent first\n[0:15] then the drain\n\n[1:02:03] and the valve is deep today\n")
    assert captions.form == "timed text"
    assert captions.timed
    assert [(c.start, c.end, c.text, c.line) for c in captions.cues] == [
        (5.0, 15.0, "vent first", 1),
        (15.0, 3723.0, "then the drain", 2),
        # Six words at 0.4 seconds a word.
        (3723.0, pytest.approx(3725.4), "and the valve is deep today", 4),
    ]


def test_the_last_caption_is_at_least_a_second_long() -> None:
    assert read("[0:05] done").cues[0].end == 6.0


def test_lines_without_a_time_go_on_from_the_one_before() -> None:
    captions = read("[0:05] vent first\nit is flat\n\nand short\n[0:15] drain")
    assert captions.cues[0].text == "vent first\nit is flat\nand short"


def test_minutes_may_pass_an_hour_unless_hours_are_given() -> None:
    captions = read("[59:50] one\n[75:10] two\n[1:15:20] three\n[1:75:20] lost\n[1:16:00.5] four")
    assert [cue.start for cue in captions.cues] == [3590.0, 4510.0, 4520.0, 4560.5]
    assert [notice.line for notice in captions.notices] == [4]


@pytest.mark.parametrize("stamp", ["[0:75]", "[0:5:75]", "[1:2:3:4]", "[0:12 ,]", "[99999:01]"])
def test_a_bad_time_is_skipped_with_its_line_and_what_goes_on_from_it(stamp: str) -> None:
    captions = read(f"[0:01] one\n{stamp} lost\nlost too\n[0:20] two")
    assert [cue.text for cue in captions.cues] == ["one", "two"]
    assert [notice.line for notice in captions.notices] == [2]


def test_times_going_back_are_kept_and_noticed() -> None:
    captions = read("[0:30] one two three\n[0:10] four\n[0:10] five")
    assert [(c.start, c.end) for c in captions.cues] == [
        (30.0, pytest.approx(31.2)),
        (10.0, 11.0),
        (10.0, 11.0),
    ]
    assert [notice.line for notice in captions.notices] == [2]


def test_words_before_the_first_time_are_noticed_once() -> None:
    captions = read("Hall bath\nday two\n[0:05] vent")
    assert [cue.text for cue in captions.cues] == ["vent"]
    assert [notice.line for notice in captions.notices] == [1]


def test_brackets_that_hold_no_time_are_words() -> None:
    assert read("[0:05] [laughs] so\n[unclear] drain").cues[0].text == "[laughs] so\n[unclear] drain"


def test_untimed_text_is_a_caption_a_line() -> None:
    captions = read("move the vanity drain 3 in left\r\n\r\n[/] odd\r\ncall for the rough inspection")
    assert captions.form == "untimed text"
    assert not captions.timed
    assert captions.length == 0.0
    assert [(c.text, c.line, c.start, c.end) for c in captions.cues] == [
        ("move the vanity drain 3 in left", 1, 0.0, 0.0),
        ("[/] odd", 3, 0.0, 0.0),
        ("call for the rough inspection", 4, 0.0, 0.0),
    ]


def test_wrapped_text_is_a_caption_a_paragraph() -> None:
    captions = read(
        "So the floor in here is down to the boards\n"
        "and the boards are dry except by the tub,\n"
        "where there is a stain.\n\n"
        "The vent is fine, I put a level on it and\n"
        "it runs uphill all the way to the stack\n"
        "like it ought to."
    )
    assert [(cue.line, cue.text) for cue in captions.cues] == [
        (
            1,
            "So the floor in here is down to the boards and the boards are dry except by the tub, "
            "where there is a stain.",
        ),
        (
            5,
            "The vent is fine, I put a level on it and it runs uphill all the way to the stack "
            "like it ought to.",
        ),
    ]


def test_a_list_of_notes_is_never_joined() -> None:
    notes = [
        "cap the old tub line",
        "order two boxes of the white",
        "ask about the niche",
        "haul the cast tub",
    ]
    assert [cue.text for cue in read("\n".join(notes)).cues] == notes
