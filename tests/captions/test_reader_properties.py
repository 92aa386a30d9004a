"""What holds of the readers for any input at all."""

from __future__ import annotations

import re
from itertools import pairwise

from hypothesis import example, given
from hypothesis import strategies as st

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.recording import Captions
from journal_tui.domain.text import storable, visible
from journal_tui.walkthrough.captions import read_text

FRAGMENTS = st.sampled_from(
    [
        "WEBVTT",
        "WEBVTT\n\n",
        "NOTE",
        "STYLE",
        "\n",
        "\n\n",
        "\r",
        "\r\n",
        " --> ",
        "-->",
        "00:00:01.000",
        "00:00:02,000",
        "00:61.000",
        "1:02",
        "[0:01]",
        "[1:02:03] ",
        "[9:99]",
        "<v Ann>",
        "</v>",
        "<",
        ">",
        "&amp;",
        "&#x",
        "{\\an8}",
        "1",
        "\x00",
        "\ufeff",
        "the valve is deep ",
    ]
)
TEXT = st.lists(FRAGMENTS | st.text(max_size=8), max_size=40).map("".join)
BYTES = (
    st.binary(max_size=200)
    | TEXT.map(lambda text: text.encode("utf-8", "replace"))
    | TEXT.map(lambda text: ("\ufeff" + text).encode("utf-16-le", "replace"))
    | TEXT.map(lambda text: text.encode("cp1252", "replace"))
)
SEEN = re.compile(r"\S")


def attempt(name: str, data: bytes) -> Captions | None:
    try:
        return read_text(name, data)
    except CannotRead as refused:
        assert refused.title
        assert refused.body
        assert "\n" not in str(refused)
        assert str(refused) == visible(str(refused))
        return None


@given(st.text(max_size=20), BYTES)
@example("\ud800.vtt", b"WEBVTT\n\n&#xD800;\n")
def test_any_bytes_give_captions_or_one_clear_refusal(name: str, data: bytes) -> None:
    captions = attempt(name, data)
    if captions is None:
        return
    assert captions.cues
    assert captions.form in {"webvtt", "subrip", "timed text", "untimed text"}
    assert captions.name == storable(name)
    for cue in captions.cues:
        assert SEEN.search(cue.text)
        assert cue.text == storable(cue.text).strip()
        assert "\r" not in cue.text
        assert cue.speaker is None or (cue.speaker and "\n" not in cue.speaker)
        assert cue.line >= 1
        if captions.timed:
            assert 0 <= cue.start < cue.end
        else:
            assert cue.start == cue.end == 0
    for notice in captions.notices:
        assert "\n" not in notice.message


@given(BYTES)
def test_the_same_bytes_give_the_same_captions(data: bytes) -> None:
    assert attempt("walk.txt", data) == attempt("walk.txt", data)


@given(TEXT)
def test_line_terminators_do_not_matter(text: str) -> None:
    plain = text.replace("\r", "").encode("utf-8", "replace")
    marked = attempt("w", plain.replace(b"\n", b"\r\n"))
    bare = attempt("w", plain)
    assert (marked and marked.cues) == (bare and bare.cues)


SAID = (
    st.text(st.characters(exclude_categories=["C", "Z"], include_characters=" "), min_size=1, max_size=60)
    .map(lambda text: " ".join(text.split()))
    .filter(bool)
)
TIMES = st.lists(st.integers(0, 35_999_999), min_size=2, max_size=12, unique=True).map(sorted)


def clock(milliseconds: int, mark: str) -> str:
    seconds, ms = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}{mark}{ms:03d}"


def escaped(text: str) -> str:
    """As W3C WebVTT section 4.2.2 has cue text written."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


@given(TIMES, st.data())
def test_what_is_written_as_webvtt_is_read_back(times: list[int], data: st.DataObject) -> None:
    spans = list(pairwise(times))
    words = [data.draw(SAID) for _ in spans]
    blocks = [
        f"{clock(a, '.')} --> {clock(b, '.')}\n{escaped(said)}"
        for (a, b), said in zip(spans, words, strict=True)
    ]
    captions = read_text("w.vtt", ("WEBVTT\n\n" + "\n\n".join(blocks)).encode())
    assert [(c.start, c.end, c.text) for c in captions.cues] == [
        (a / 1000, b / 1000, said) for (a, b), said in zip(spans, words, strict=True)
    ]
    assert captions.notices == ()


@given(st.lists(st.integers(0, 5999), min_size=1, max_size=12, unique=True).map(sorted), st.data())
def test_what_is_written_as_timed_text_is_read_back(times: list[int], data: st.DataObject) -> None:
    words = [data.draw(SAID.filter(lambda said: "-->" not in said)) for _ in times]
    text = "\n".join(f"[{t // 60}:{t % 60:02d}] {said}" for t, said in zip(times, words, strict=True))
    captions = read_text("w.txt", text.encode())
    assert [(c.start, c.text) for c in captions.cues] == list(zip(map(float, times), words, strict=True))
    assert all(cue.end == later.start for cue, later in pairwise(captions.cues))


@given(st.integers(0, 20), st.integers(0, 20))
def test_one_bad_caption_costs_no_other(good_before: int, good_after: int) -> None:
    bad = "00:99:00.000 --> 00:99:01.000\nlost"
    cues = [f"{clock(n * 1000, '.')} --> {clock(n * 1000 + 900, '.')}\nsaid {n}" for n in range(40)]
    blocks = [*cues[:good_before], bad, *cues[20 : 20 + good_after]]
    captions = attempt("w.vtt", ("WEBVTT\n\n" + "\n\n".join(blocks)).encode())
    kept = captions.cues if captions else ()
    assert len(kept) == good_before + good_after
    if captions:
        assert [notice.line for notice in captions.notices] == [3 + 3 * good_before]
