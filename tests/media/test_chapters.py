"""Chapters of a reviewed visit: read by other readers of WebVTT, and nothing in them that is private."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import av
import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.cli.program import run
from journal_tui.documents.chapters import chapters, chapters_webvtt, video_description
from journal_tui.domain.document import ChapterFacts, MomentFact
from journal_tui.domain.errors import NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.reading import ClientText
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock
from journal_tui.journal import review
from journal_tui.journal.chapters import visit_chapters, write_chapters
from journal_tui.journal.hearing import Listening, draft_file
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import log_recording
from journal_tui.walkthrough.captions import read_text
from tests.media.test_stills_kept import by_hand

DAY = dt.date(2026, 3, 11)


def moment(start: float, text: str, kind: Kind = Kind.OBSERVATION, area: str = "toilet") -> MomentFact:
    return MomentFact(start, kind, ClientText(area), ClientText(text))


def facts(*moments: MomentFact, length: float = 300.0) -> ChapterFacts:
    return ChapterFacts(ClientText("Hall bath"), DAY, length, moments)


SOME = facts(
    moment(125.0, "White hex tile & gray grout", Kind.DECISION, "floor"),
    moment(70.0, "The flange is rusted <through>"),
    moment(72.0, "The subfloor is soft", area="floor"),
    moment(200.5, "Replace the flange", Kind.NEXT_STEP),
)


def test_found_at_1_10_and_decided_at_2_05() -> None:
    assert video_description(SOME) == (
        "Hall bath, Wednesday, March 11, 2026\n"
        "\n"
        "0:00 The walk begins.\n"
        "1:10 Found, toilet: The flange is rusted <through>\n"
        "     Found, floor: The subfloor is soft.\n"
        "2:05 Decided, floor: White hex tile & gray grout.\n"
        "3:20 Next, toilet: Replace the flange.\n"
    )
    assert [c.title for c in chapters(SOME)] == [
        "The walk begins",
        "Found, toilet: The flange is rusted <through> (and 1 more)",
        "Decided, floor: White hex tile & gray grout",
        "Next, toilet: Replace the flange",
    ]


def test_other_readers_find_the_same_chapters(tmp_path: Path) -> None:
    path = tmp_path / "chapters.vtt"
    path.write_text(chapters_webvtt(SOME), "utf-8")
    made = chapters(SOME)
    theirs = webvtt.read(str(path)).captions
    assert [(c.start_in_seconds, c.end_in_seconds) for c in theirs] == [
        (int(c.start), int(c.end)) for c in made
    ]
    # FFmpeg's reader of WebVTT.
    with av.open(str(path), format="webvtt") as container:
        packets = [p for p in container.demux() if p.pts is not None]
    assert [p.pts for p in packets] == [round(c.start * 1000) for c in made]
    assert [bytes(p).decode() for p in packets][2:] == [
        "Decided, floor: White hex tile &amp; gray grout",
        "Next, toilet: Replace the flange",
    ]


@given(
    st.lists(
        st.tuples(
            st.floats(0, 5000),
            st.text(alphabet="ab &<>-\n\t.\x1b\u2028é", max_size=120),
            st.sampled_from(Kind),
            st.sampled_from(["", "toilet", "a --> b", "<b>"]),
        ),
        max_size=12,
    )
)
def test_any_words_make_chapters_one_after_the_other(some: list[tuple[float, str, Kind, str]]) -> None:
    given_facts = facts(*(moment(*one) for one in some), length=4000.0)
    made = chapters(given_facts)
    text = chapters_webvtt(given_facts)
    told = [m for m in given_facts.moments if one_line(m.text)]
    assert bool(made) == bool(text) == bool(told)
    if not made:
        return
    assert made[0].start == 0.0
    for chapter, following in pairwise(made):
        assert chapter.end == following.start > chapter.start
    assert all(len(c.title) <= 70 and "\n" not in c.title for c in made)
    cues = read_text("chapters.vtt", text.encode()).cues
    assert [(round(c.start, 3), c.text) for c in cues] == [
        (round(c.start, 3), " ".join(c.title.split(" ")).strip()) for c in made
    ]
    assert sum(len(c.lines) for c in made) <= len(told) + 1


@pytest.fixture
def visited(tmp_path: Path, journal: Journal) -> tuple[Journal, Job]:
    job = add_job(journal, name="Hall bath", client="Ilse Varga")
    path = tmp_path / "walk.vtt"
    path.write_text("WEBVTT\n\n00:10.000 --> 05:00.000\nTalk.\n")
    said = [
        (70.0, 75.0, "The flange is rusted, Ilse"),
        (125.0, 130.0, "SECRET the lockbox is 4471"),
        (200.0, 205.0, "SECRET for the crew"),
        (250.0, 255.0, "SECRET not kept"),
    ]
    drafting = draft_file(path, None, Listening(journal, job))
    made = tuple(by_hand(*one) for one in said)
    visit = log_recording(journal, job.id, replace(drafting, drafts=made), day=DAY)
    drafts = review.drafts(journal, visit.id)
    review.keep(journal, [d.id for d in drafts[:3]])
    review.change(journal, drafts[1].id, review.Change(audience=Audience.PRIVATE))
    review.change(journal, drafts[2].id, review.Change(audience=Audience.CREW))
    return journal, job


def test_private_entries_names_and_unreviewed_drafts_stay_out(
    visited: tuple[Journal, Job], tmp_path: Path
) -> None:
    journal, job = visited
    made = visit_chapters(journal, job)
    assert (made.left_out, made.waiting) == (2, 1)
    for text in (made.webvtt, made.description):
        assert "flange" in text
        assert not any(word in text for word in ("SECRET", "4471", "Ilse", "Varga"))
    files = write_chapters(tmp_path / "out", job, made)
    assert [path.name for path in files] == [
        "hall-bath-chapters-2026-03-11.vtt",
        "hall-bath-chapters-2026-03-11.txt",
    ]
    assert files[0].read_text("utf-8") == made.webvtt
    assert f"{clock(70.0)} Found" in files[1].read_text("utf-8")


def test_nothing_to_show_says_why(journal: Journal, tmp_path: Path) -> None:
    job = add_job(journal, name="Hall bath")
    with pytest.raises(NothingFound, match="no visit has a recording"):
        visit_chapters(journal, job)
    path = tmp_path / "walk.txt"
    path.write_text("The flange is rusted and the floor is soft.\n")
    log_recording(journal, job.id, draft_file(path, None, Listening()))
    with pytest.raises(NothingFound, match="can be shown to the client"):
        visit_chapters(journal, job)


def test_the_command(
    visited: tuple[Journal, Job], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    journal, _job = visited
    at = ["--journal", str(journal.path)]
    assert run([*at, "chapters", "hall", "--day", "2026-03-11", "--format", "vtt"]) == 0
    out = capsys.readouterr()
    assert out.out.startswith("WEBVTT\n\n00:00:00.000 --> 00:01:10.000\n")
    assert "1 draft of this visit waits for review" in out.err
    assert run([*at, "chapters", "hall", "--out", str(tmp_path / "out")]) == 0
    assert len(capsys.readouterr().out.splitlines()) == 2
    assert run([*at, "chapters", "hall", "--day", "2026-03-10"]) == 1
