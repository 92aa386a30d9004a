"""The invented jobs of the tour: whole, in every form, dated in order, true to their own words."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from PIL import Image

from journal_tui.domain.text import folded
from journal_tui.walkthrough.captions import read_captions

FOLDER = Path(__file__).parents[2] / "demo_data"


def jobs() -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = tomllib.loads((FOLDER / "jobs.toml").read_text("utf-8"))["job"]
    return found


def files() -> list[str]:
    return [visit["file"] for job in jobs() for visit in job["visit"] if "file" in visit]


def said(visit: dict[str, Any]) -> str:
    cues = read_captions(FOLDER / visit["file"]).cues if "file" in visit else ()
    return folded(" ".join([*(cue.text for cue in cues), *visit.get("notes", ())]))


def test_there_are_three_jobs_of_three_visits_or_more_in_order() -> None:
    assert len(jobs()) == 3
    for job in jobs():
        days = [visit["day"] for visit in job["visit"]]
        assert len(days) >= 3
        assert days == sorted(set(days))


def test_every_file_reads_without_a_notice_and_none_is_left_over() -> None:
    photos = [photo["file"] for job in jobs() for photo in job.get("photo", ())]
    photos += [work["photo"] for job in jobs() for work in job["hidden"] if "photo" in work]
    named = {*files(), *photos}
    present = {
        str(path.relative_to(FOLDER).as_posix()) for path in FOLDER.rglob("*.*") if path.suffix != ".toml"
    }
    assert named == present
    for file in files():
        assert read_captions(FOLDER / file).notices == (), file


def test_every_form_is_there_with_and_without_speakers() -> None:
    captions = [read_captions(FOLDER / file) for file in files()]
    assert {c.form for c in captions} == {"webvtt", "subrip", "timed text", "untimed text"}
    assert any(visit.get("notes") and "file" not in visit for job in jobs() for visit in job["visit"])
    voices = [any(cue.speaker for cue in c.cues) for c in captions if c.form == "webvtt"]
    assert set(voices) == {True, False}


def test_timed_walks_last_three_to_about_seven_minutes() -> None:
    for file in files():
        captions = read_captions(FOLDER / file)
        assert not captions.timed or 180 <= captions.length <= 430, file


def test_what_is_marked_done_was_said_at_an_earlier_visit() -> None:
    for job in jobs():
        earlier = ""
        for visit in job["visit"]:
            for phrase in visit.get("done", ()):
                assert folded(phrase) in earlier, phrase
            # What a draft was set right to is what the list says from then on.
            earlier += " ".join(
                [" ", said(visit), *(folded(f.get("text", "")) for f in visit.get("fix", ()))]
            )


def test_the_code_and_the_sums_kept_private_are_said_in_a_recording() -> None:
    # What the tour shows being withheld has to be there to withhold.
    words = " ".join(said(visit) for job in jobs() for visit in job["visit"])
    assert "code is 4417" in words and "code is three three nine one" in words
    assert "between us" in words


def test_what_is_dated_comes_after_what_it_rests_on() -> None:
    for job in jobs():
        first = job["visit"][0]["day"]
        for order in job["order"]:
            assert first <= order["day"] < job["contract"]["finish"]
            assert order.get("answer", order)["day"] >= order["day"]
        for work in job["hidden"]:
            tests = [test["day"] for test in work.get("test", ())]
            assert first <= work["day"] and all(day >= work["day"] for day in tests)
            seen = work.get("seen", work["day"])
            assert first <= seen <= work["day"]
            assert "covered" not in work or work["covered"] >= seen
            # A test made after a thing was covered would have tested nothing that can be seen.
            assert "covered" not in work or all(day <= work["covered"] for day in tests)
        for photo in job.get("photo", ()):
            assert photo["day"] >= first
        assert all(day >= first for day in job["told"])


def test_the_pictures_are_small_and_hold_nothing_but_the_picture() -> None:
    for path in FOLDER.rglob("*.png"):
        assert path.stat().st_size < 20_000
        with Image.open(path) as picture:
            picture.load()
            assert picture.width <= 640 and not picture.info.keys() - {"transparency"}, path.name
