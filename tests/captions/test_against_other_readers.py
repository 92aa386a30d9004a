"""Our readers against two independent ones: the PyPI libraries ``webvtt-py`` and ``srt``."""

from __future__ import annotations

import datetime as dt
import io
from itertools import pairwise
from pathlib import Path

import srt  # type: ignore[import-untyped]
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.domain.recording import Captions
from journal_tui.walkthrough.captions import read_captions, read_text

DEMO = Path(__file__).parents[2] / "demo_data"
WORDS = st.lists(
    st.sampled_from("the vent is flat & short 3/8 over <sill> no, 36 inches [/] ½ joist 漢字".split()),
    min_size=1,
    max_size=12,
).map(" ".join)
TALK = st.lists(WORDS | st.tuples(WORDS, WORDS).map("\n".join), min_size=1, max_size=20)


def spans(count: int) -> list[tuple[int, int]]:
    """Milliseconds of ``count`` captions, some touching and some apart, past the hour."""
    times = [3_590_000 + n * 1_750 + n % 3 for n in range(2 * count + 1)]
    return [*pairwise(times)][:count]


def ours(captions: Captions) -> list[tuple[int, int, str]]:
    return [(round(c.start * 1000), round(c.end * 1000), c.text) for c in captions.cues]


def clock(seconds: float) -> str:
    ms = round(seconds * 1000)
    return f"{ms // 3_600_000:02d}:{ms // 60_000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"


@given(TALK)
def test_subrip_written_by_srt_is_read_back(talk: list[str]) -> None:
    ms = dt.timedelta(milliseconds=1)
    written = srt.compose(
        srt.Subtitle(n, a * ms, b * ms, text)
        for n, ((a, b), text) in enumerate(zip(spans(len(talk)), talk, strict=True), start=1)
    )
    assert ours(read_text("w.srt", written.encode())) == [
        (a, b, text) for (a, b), text in zip(spans(len(talk)), talk, strict=True)
    ]


@given(TALK)
def test_webvtt_written_by_webvtt_py_is_read_back(talk: list[str]) -> None:
    file = webvtt.WebVTT()
    for (a, b), text in zip(spans(len(talk)), talk, strict=True):
        # That library writes text as it is given; section 4.2.2 has it escaped.
        escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        file.captions.append(webvtt.Caption(clock(a / 1000), clock(b / 1000), escaped))
    written = io.StringIO()
    file.write(written)
    assert ours(read_text("w.vtt", written.getvalue().encode())) == [
        (a, b, text) for (a, b), text in zip(spans(len(talk)), talk, strict=True)
    ]


def test_the_demo_webvtt_files_are_read_alike() -> None:
    files = sorted(DEMO.rglob("*.vtt"))
    assert files
    for file in files:
        theirs = [
            (c.start, c.end, c.text, c.voice) for c in webvtt.from_string(file.read_text("utf-8")).captions
        ]
        cues = read_captions(file).cues
        assert [(clock(c.start), clock(c.end), c.text, c.speaker) for c in cues] == theirs, file.name


def test_the_demo_subrip_files_are_read_alike() -> None:
    files = sorted(DEMO.rglob("*.srt"))
    assert files
    for file in files:
        theirs = [
            (round(s.start.total_seconds() * 1000), round(s.end.total_seconds() * 1000), s.content)
            for s in srt.parse(file.read_text("utf-8"))
        ]
        assert ours(read_captions(file)) == theirs, file.name
