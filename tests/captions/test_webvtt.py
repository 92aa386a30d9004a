"""WebVTT files, against the W3C standard.

Sections are those of "WebVTT: The Web Video Text Tracks Format", W3C Candidate Recommendation.
Each case is written from the rule named beside it.
"""

from __future__ import annotations

import pytest

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.captions import read_text


def read(text: str) -> Captions:
    return read_text("walk.vtt", text.encode())


def said(text: str) -> list[str]:
    return [cue.text for cue in read(text).cues]


CUE = "00:01.000 --> 00:02.000\nthe subfloor is wet\n"


# Section 4.1: a file body is an optional BOM, "WEBVTT", optionally a space or tab and any text,
# two or more line terminators, then blocks.
@pytest.mark.parametrize(
    "start",
    [
        "WEBVTT\n\n",
        "\ufeffWEBVTT\n\n",
        "WEBVTT hall bath, first walk\n\n",
        "WEBVTT\tx\n\n",
        "WEBVTT \n\n\n\n",
    ],
)
def test_section_4_1_signature_lines(start: str) -> None:
    captions = read(start + CUE)
    assert captions.form == "webvtt"
    assert [cue.text for cue in captions.cues] == ["the subfloor is wet"]


# Section 6.1 step 6: a seventh character other than space, tab or line feed is another format.
@pytest.mark.parametrize("start", ["WEBVTTX\n\n", "WEBVTT:\n\n", "webvtt\n\n", " WEBVTT\n\n", "WEBVT\n\n"])
def test_section_6_1_wrong_signatures_are_not_webvtt(start: str) -> None:
    assert read(start + CUE).form != "webvtt"


# Section 6.1 steps 8 and 10: signature alone is a good file with nothing in it.
@pytest.mark.parametrize("text", ["WEBVTT", "WEBVTT\n", "WEBVTT\n\n", "WEBVTT\nKind: captions\n\n"])
def test_section_6_1_a_file_of_only_a_header_has_no_cues(text: str) -> None:
    with pytest.raises(CannotRead, match="no usable captions"):
        read(text)


# Section 6.1 step 2: CRLF, then CR, become LF.
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_section_6_1_line_terminators(end: str) -> None:
    text = "WEBVTT\n\nid\n00:01.000 --> 00:02.000\none\ntwo\n\n00:02.000 --> 00:03.000\nthree"
    assert said(text.replace("\n", end)) == ["one\ntwo", "three"]


# Section 6.1 step 1: U+0000 becomes U+FFFD.
def test_section_6_1_nul_becomes_the_replacement_character() -> None:
    assert said("WEBVTT\n\n00:01.000 --> 00:02.000\na\x00b") == ["a\ufffdb"]


# Section 6.1 step 11: the header block is collected and ignored; it ends at a blank line or
# before a line with an arrow.
@pytest.mark.parametrize(
    "header", ["WEBVTT\nKind: captions\nLanguage: en\n\n", "WEBVTT\nKind: captions\n", "WEBVTT\n"]
)
def test_section_6_1_header_text_is_no_cue(header: str) -> None:
    captions = read(header + CUE)
    assert [cue.text for cue in captions.cues] == ["the subfloor is wet"]
    assert captions.notices == ()


# Section 4.1: a cue block is an optional identifier line, timings, optional settings, payload.
def test_section_4_1_cue_identifiers_are_not_words() -> None:
    text = "WEBVTT\n\n12\n00:01.000 --> 00:02.000\none\n\nkitchen wall\n00:02.000 --> 00:03.000\ntwo\n"
    assert said(text) == ["one", "two"]


# Section 4.4: settings follow the timings; section 6.3 ignores any it does not know.
@pytest.mark.parametrize(
    "settings",
    [
        "align:start position:0%",
        "vertical:rl line:-1 size:35%",
        "line:10%,center position:45%,line-right",
        "region:fred",
        "nonsense::: %%",
        "\talign:end",
    ],
)
def test_section_4_4_settings_are_no_words(settings: str) -> None:
    captions = read(f"WEBVTT\n\n00:01.000 --> 00:02.000 {settings}\nthe subfloor is wet\n")
    assert [(c.start, c.end, c.text) for c in captions.cues] == [(1.0, 2.0, "the subfloor is wet")]
    assert captions.notices == ()


# Section 4.1: comment, style and region blocks.
@pytest.mark.parametrize(
    "block",
    [
        "NOTE check the next one",
        "NOTE",
        "NOTE\nthe drain is said twice\nbelow",
        "NOTE\ttabbed",
        "STYLE\n::cue { color: papayawhip }",
        "STYLE  \n::cue(b) {\n  color: lime;\n}",
        "REGION\nid:fred\nwidth:40%\nlines:3",
    ],
)
def test_section_4_1_note_style_and_region_blocks_are_no_cues(block: str) -> None:
    captions = read(f"WEBVTT\n\n{block}\n\n{CUE}\nNOTE end\n")
    assert [cue.text for cue in captions.cues] == ["the subfloor is wet"]
    assert captions.notices == ()


# Section 4.1: a comment is "NOTE" followed by space, tab or line end only.
def test_section_4_1_notes_is_not_note() -> None:
    captions = read(f"WEBVTT\n\nNOTES on the tub\n\n{CUE}")
    assert [(n.line, n.message) for n in captions.notices] == [(3, "words without a time are left out")]


# Section 6.3, "collect a WebVTT timestamp".
@pytest.mark.parametrize(
    ("timings", "start", "end"),
    [
        ("00:00.000 --> 00:00.001", 0.0, 0.001),
        ("00:01.250 --> 59:59.999", 1.25, 3599.999),
        ("00:00:01.000 --> 00:00:02.000", 1.0, 2.0),  # hours may be there
        ("0:00:01.000 --> 0:00:02.000", 1.0, 2.0),  # step 7: one digit reads as hours
        ("100:00:00.000 --> 100:00:00.500", 360000.0, 360000.5),  # hours: two digits or more
        ("01:00.000 --> 01:00:00.000", 60.0, 3600.0),  # minutes against hours
        ("00:01.000-->00:02.000", 1.0, 2.0),  # steps 5 and 9: white space is skipped, not required
        ("  00:01.000 \t-->\t 00:02.000", 1.0, 2.0),
        ("00:01.000 --> 00:02.000align:start", 1.0, 2.0),  # step 11: the rest is settings
    ],
)
def test_section_6_3_timestamps(timings: str, start: float, end: float) -> None:
    cue = read(f"WEBVTT\n\n{timings}\nwords\n").cues[0]
    assert (cue.start, cue.end) == (start, end)


@pytest.mark.parametrize(
    "timings",
    [
        "00:60.000 --> 01:02.000",  # step 5 of the tail: seconds above 59
        "00:60:00.000 --> 01:02:00.000",  # minutes above 59
        "60:00.000 --> 61:00.000",  # step 7: 60 reads as hours, and then a unit is missing
        "1:02.000 --> 1:03.000",  # one digit reads as hours, and then a unit is missing
        "00:01.00 --> 00:02.000",  # thousandths are three digits
        "00:01.0000 --> 00:02.000",
        "00:01,000 --> 00:02,000",  # a dot, not a comma
        "00:01 --> 00:02",
        "0:1:01.000 --> 0:1:02.000",  # minutes are two digits
        "00:01.000 -> 00:02.000 -->",
        "00:01.000 -- > 00:02.000 -->",
        "-00:01.000 --> 00:02.000",
        "00:01.000 --> ",
        "--> 00:02.000",
        "٠٠:٠١.٠٠٠ --> ٠٠:٠٢.٠٠٠",  # ASCII digits only
        "x 00:01.000 --> 00:02.000",
    ],
)
def test_section_6_3_bad_times_drop_their_cue_and_no_other(timings: str) -> None:
    captions = read(f"WEBVTT\n\n{timings}\nlost\n\n00:09.000 --> 00:10.000\nkept\n")
    assert [cue.text for cue in captions.cues] == ["kept"]
    assert [notice.line for notice in captions.notices] == [3]
    assert "caption skipped" in captions.notices[0].message


# Section 4.1: a cue's end is later than its start. The parser of section 6 keeps such cues and
# never shows them; here they are dropped with a word.
@pytest.mark.parametrize("timings", ["00:02.000 --> 00:02.000", "00:02.000 --> 00:01.000"])
def test_section_4_1_end_not_after_start(timings: str) -> None:
    captions = read(f"WEBVTT\n\n{CUE}\n7\n{timings}\nlost\n")
    assert [cue.text for cue in captions.cues] == ["the subfloor is wet"]
    assert [notice.line for notice in captions.notices] == [7]


# Section 4.1: starts do not go back. The parser of section 6 takes them as they come.
def test_section_4_1_times_going_back_are_kept_and_noticed() -> None:
    captions = read("WEBVTT\n\n00:05.000 --> 00:06.000\nlater\n\n00:01.000 --> 00:02.000\nearlier\n")
    assert [cue.text for cue in captions.cues] == ["later", "earlier"]
    assert [notice.line for notice in captions.notices] == [6]


# Section 6.1, "collect a WebVTT block" step 11.4: an arrow line beyond the second line, or after
# another arrow, ends the block and begins the next.
def test_section_6_1_cues_without_a_blank_line_between() -> None:
    text = (
        "WEBVTT\n\n00:01.000 --> 00:02.000\none\n00:02.000 --> 00:03.000\ntwo\n00:03.000 --> 00:04.000\nthree"
    )
    assert said(text) == ["one", "two", "three"]


def test_section_6_1_an_arrow_right_after_timings_begins_a_new_cue() -> None:
    assert said("WEBVTT\n\n00:01.000 --> 00:02.000\n00:02.000 --> 00:03.000\ntwo\n") == ["two"]


def test_section_6_1_an_arrow_in_a_style_block_begins_a_cue() -> None:
    assert said(f"WEBVTT\n\nSTYLE\n::cue {{}}\n{CUE}") == ["the subfloor is wet"]


# Step 11.5: only an empty line ends a block; a line of blanks does not.
def test_section_6_1_a_line_of_blanks_does_not_end_a_cue() -> None:
    assert said("WEBVTT\n\n00:01.000 --> 00:02.000\none\n \ntwo\n") == ["one\ntwo"]


def test_section_6_1_words_after_a_blank_line_belong_to_no_cue() -> None:
    captions = read(f"WEBVTT\n\n{CUE}\nstray words\n")
    assert [cue.text for cue in captions.cues] == ["the subfloor is wet"]
    assert [(n.line, n.message) for n in captions.notices] == [(6, "words without a time are left out")]


def test_cues_know_the_line_of_their_times() -> None:
    captions = read(f"WEBVTT\n\nNOTE x\n\nid\n{CUE}\n{CUE}")
    assert [cue.line for cue in captions.cues] == [6, 9]


# Section 4.2.2 and 6.4: voice spans.
def test_section_4_2_2_voices_name_the_speaker() -> None:
    captions = read(
        "WEBVTT\n\n00:00.000 --> 00:02.000\n<v.first.loud Esme>It leaks here!\n\n"
        "00:02.000 --> 00:04.000\n<v Mary Ann>\nSince when?</v>\n\n00:04.000 --> 00:05.000\nnobody\n"
    )
    assert [(cue.speaker, cue.text) for cue in captions.cues] == [
        ("Esme", "It leaks here!"),
        ("Mary Ann", "Since when?"),
        (None, "nobody"),
    ]


def test_two_voices_in_one_cue_are_two_cues_at_one_time() -> None:
    captions = read("WEBVTT\n\n00:00.000 --> 00:02.000\n<v Ann>Tub stays.</v>\n<v Bo>It goes.</v>\n")
    assert [(c.speaker, c.text, c.start) for c in captions.cues] == [
        ("Ann", "Tub stays.", 0.0),
        ("Bo", "It goes.", 0.0),
    ]


def test_a_left_open_tag_is_noticed() -> None:
    captions = read("WEBVTT\n\n00:00.000 --> 00:02.000\ngap < 1/8 inch\n")
    assert [cue.text for cue in captions.cues] == ["gap"]
    assert [notice.line for notice in captions.notices] == [3]
