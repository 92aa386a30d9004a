"""The invented jobs of the tour: whole, in every form, dated in order, true to their own words."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from journal_tui.domain.text import folded
from journal_tui.walkthrough.captions import read_captions

FOLDER = Path(__file__).parents[2] / "demo_data"


def jobs() -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads((FOLDER / "jobs.toml").read_text("utf-8"))["job"]
    return found


def said(file: str) -> str:
    return folded(" ".join(cue.text for cue in read_captions(FOLDER / file).cues))


def test_there_are_two_jobs_of_three_visits_or_more_in_order() -> None:
    assert len(jobs()) >= 2
    for job in jobs():
        days = [visit["day"] for visit in job["visit"]]
        assert len(days) >= 3
        assert days == sorted(set(days))


def test_every_file_reads_without_a_notice_and_none_is_left_over() -> None:
    named = {visit["file"] for job in jobs() for visit in job["visit"]}
    present = {
        str(path.relative_to(FOLDER).as_posix()) for path in FOLDER.rglob("*.*") if path.suffix != ".toml"
    }
    assert named == present
    for file in named:
        assert read_captions(FOLDER / file).notices == (), file


def test_every_form_is_there_with_and_without_speakers() -> None:
    captions = [read_captions(FOLDER / visit["file"]) for job in jobs() for visit in job["visit"]]
    assert {c.form for c in captions} == {"webvtt", "subrip", "timed text", "untimed text"}
    voices = [any(cue.speaker for cue in c.cues) for c in captions if c.form == "webvtt"]
    assert set(voices) == {True, False}


def test_timed_walks_last_three_to_about_seven_minutes() -> None:
    for job in jobs():
        for visit in job["visit"]:
            captions = read_captions(FOLDER / visit["file"])
            assert not captions.timed or 180 <= captions.length <= 430, visit["file"]


def test_what_is_marked_done_was_said_at_an_earlier_visit() -> None:
    for job in jobs():
        earlier = ""
        for visit in job["visit"]:
            for phrase in visit["done"]:
                assert folded(phrase) in earlier, phrase
            earlier += " " + said(visit["file"])


def test_the_code_and_the_sums_kept_private_are_said_in_a_recording() -> None:
    # What the tour shows being withheld has to be there to withhold.
    words = " ".join(said(visit["file"]) for job in jobs() for visit in job["visit"])
    assert "code is 4417" in words
    assert "between us" in words
