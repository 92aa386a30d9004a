"""SubRip files. There is no standard: common practice, no source."""

from __future__ import annotations

import pytest

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.captions import read_text


def read(text: str, name: str = "walk.srt") -> Captions:
    return read_text(name, text.encode())


TWO = "1\n00:00:01,000 --> 00:00:02,500\nthe vent is\nflat\n\n2\n00:00:03,000 --> 00:00:04,000\nrepitch it\n"


@pytest.mark.parametrize(
    "text",
    [
        TWO,
        "\ufeff" + TWO,
        TWO.replace("\n", "\r\n"),
        TWO.replace("\n", "\r"),
        TWO.replace(",000", ".000").replace(",500", ".500"),
        TWO.replace("1\n00", "00").replace("2\n00", "00"),  # no index
        TWO.replace("00:00:0", "0:00:0"),
        TWO.replace("00:00:0", "00:0"),  # no hours
        TWO.replace(" --> ", "-->"),
        TWO.replace("\n\n", "\n"),  # no blank line between
        TWO.replace("\n\n", "\n\n\n\n"),
        TWO.replace("02,500", "02,500 X1:100 X2:200 Y1:1 Y2:2"),
        TWO.replace("2\n", "17\n"),
    ],
)
def test_the_usual_ways_of_writing_it(text: str) -> None:
    captions = read(text)
    assert captions.form == "subrip"
    assert [(c.start, c.end, c.text) for c in captions.cues] == [
        (1.0, 2.5, "the vent is\nflat"),
        (3.0, 4.0, "repitch it"),
    ]
    assert captions.notices == ()


def test_a_blank_line_inside_a_caption_keeps_both_halves() -> None:
    captions = read(TWO.replace("the vent is\n", "the vent is\n\n"))
    assert [cue.text for cue in captions.cues] == ["the vent is\nflat", "repitch it"]


def test_a_number_that_was_said_stays() -> None:
    captions = read(TWO.replace("flat", "36"))
    assert captions.cues[0].text == "the vent is\n36"
    assert read("1\n00:00:01,000 --> 00:00:02,000\n36").cues[0].text == "36"


def test_simple_tags_and_positions_are_stripped_and_other_brackets_stay() -> None:
    captions = read(
        TWO.replace("the vent is", '{\\an8}<i>the</i> <font color="#ffffff">vent</font> <B>is</B>').replace(
            "repitch", "{sic} <a> & 3 < 4"
        )
    )
    assert [cue.text for cue in captions.cues] == ["the vent is\nflat", "{sic} <a> & 3 < 4 it"]


@pytest.mark.parametrize("words", ["left --> right", "3.5 --> 4.5 in", "--> here", "36 --> 34"])
def test_an_arrow_in_the_words_is_words(words: str) -> None:
    assert read(TWO.replace("flat", words)).cues[0].text == f"the vent is\n{words}"
    assert read(words).form == "untimed text"


@pytest.mark.parametrize(
    "timings",
    [
        "00:00:03,000 --> 00:00:03,000",
        "00:00:03,000 --> 00:00:01,000",
        "00:60:03,000 --> 00:61:04,000",
        "00:00:73,000 --> 00:00:74,000",
        "00:00:03,000 --> ",
        "00:00:03,0000 --> 00:00:04,000",
        "-00:00:03,000 --> 00:00:04,000",
        "3:00 -->",
        "00.00.03,000 --> 00.00.04,000",
        "--> 00:00:04,000",
    ],
)
def test_a_bad_caption_is_skipped_with_its_line_and_the_rest_kept(timings: str) -> None:
    captions = read(
        TWO.replace("00:00:03,000 --> 00:00:04,000", timings) + "\n3\n00:00:05,000 --> 00:00:06,000\nthen\n"
    )
    assert [cue.text for cue in captions.cues] == ["the vent is\nflat", "then"]
    assert [notice.line for notice in captions.notices] == [7]


def test_lines_are_those_of_the_times() -> None:
    assert [cue.line for cue in read(TWO).cues] == [2, 7]


def test_words_before_the_first_time_are_noticed() -> None:
    captions = read("Hall bath\n\n" + TWO)
    assert len(captions.cues) == 2
    assert [(n.line, n.message) for n in captions.notices] == [
        (1, "words before the first time are left out")
    ]


def test_a_vtt_name_without_the_header_is_read_and_said() -> None:
    captions = read("00:00:01.000 --> 00:00:02.000\nwords\n", "walk.vtt")
    assert captions.form == "subrip"
    assert [str(notice) for notice in captions.notices] == ["no WEBVTT header; read as SubRip"]


def test_no_usable_caption_says_what_is_wrong_with_the_first() -> None:
    with pytest.raises(CannotRead) as caught:
        read("1\n00:00:99,000 --> 00:00:99,500\nlost\n")
    assert "walk.srt" in str(caught.value)
    assert "line 2" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_only_so_many_notices_and_then_a_count() -> None:
    bad = "".join(f"{n}\n00:00:99,000 --> 00:00:99,500\nlost\n\n" for n in range(1, 121))
    captions = read(bad + TWO)
    assert len(captions.cues) == 2
    assert len(captions.notices) == 51
    assert str(captions.notices[-1]) == "and 70 more notices like these"


def test_rolling_captions_say_each_line_once() -> None:
    lines = ["so the valve", "is an inch", "too deep", "in the wall", "and it has to", "come out"]
    cues = [
        f"00:00:0{n},000 --> 00:00:0{n + 1},000\n" + "\n".join(lines[max(0, n - 1) : n + 1])
        for n in range(len(lines))
    ]
    captions = read("\n\n".join(cues))
    assert [cue.text for cue in captions.cues] == lines
    assert [notice.line for notice in captions.notices] == [0]


def test_a_line_said_twice_is_kept_twice() -> None:
    captions = read(TWO.replace("repitch it", "flat\nrepitch it"))
    assert [cue.text for cue in captions.cues] == ["the vent is\nflat", "flat\nrepitch it"]
