"""Photos on screen: typed, dropped, refused in words, looked at, taken away and brought back."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from PIL import Image
from rich.console import Console
from textual import events
from textual.pilot import Pilot

from journal_tui.domain.entry import Entry
from journal_tui.journal import house_record, photos
from journal_tui.journal.house_record import WorkWords
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.house_record import RecordScreen
from journal_tui.screens.photos import FilesLine, PhotosScreen
from journal_tui.screens.still import StillPane, StillView
from tests.screens.seeing import typed, until, worked
from tests.screens.showing import NASTY, front, shown, text_of


@pytest.fixture
def entry(journal: Journal) -> Entry:
    job = add_job(journal, "Alder Lane 14", client="Vera Lund")
    (made,) = note(journal, job.id, "the closet flange is cracked")
    return made


@pytest.fixture
def colours(monkeypatch: pytest.MonkeyPatch) -> None:
    """A terminal of today, whatever the tests run in."""
    monkeypatch.setattr(Console, "color_system", property(lambda _self: "truecolor"))


def picture(path: Path, colour: str = "red", size: tuple[int, int] = (60, 40)) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.new("RGB", size, colour).save(path)
    return path


async def submit(pilot: Pilot[None], text: str) -> None:
    """Give a path in the line at the foot."""
    pilot.app.screen.query_one(FilesLine).value = text
    pilot.app.screen.query_one(FilesLine).focus()
    await pilot.press("enter")
    await worked(pilot)


async def test_a_path_is_typed_and_the_photo_shown_taken_away_and_brought_back(
    journal: Journal, entry: Entry, tmp_path: Path, colours: None
) -> None:
    picture(tmp_path / "home" / "flange.jpg")
    async with shown(journal, EntryScreen(entry.job_id, entry.id)) as (pilot, _screen):
        assert "photos none (i attaches one)" in text_of(pilot)
        await pilot.press("i")
        await worked(pilot)
        assert "No photo of it yet." in text_of(pilot)
        await typed(pilot, "~/fl")
        await pilot.press("tab")
        assert front(pilot, PhotosScreen).query_one(FilesLine).value == "~/flange.jpg"
        await pilot.press("enter")
        await worked(pilot)
        assert "1 photo is attached. n attaches another, z takes it back." in text_of(pilot)
        assert "1 photo 60 by 40 points" in text_of(pilot)
        assert front(pilot, PhotosScreen).query_one(FilesLine).value == ""
        assert "▀" in text_of(pilot)
        await pilot.press("v")
        await until(pilot, lambda: isinstance(pilot.app.screen, StillView))
        assert "▀" in text_of(pilot) and "any key goes back" in text_of(pilot)
        await pilot.press("q")
        await worked(pilot)
        await pilot.click(StillPane)
        await until(pilot, lambda: isinstance(pilot.app.screen, StillView))
        await pilot.press("q")
        await worked(pilot)
        await pilot.press("x")
        assert photos.photos_of(journal, entry.id) == []
        assert "Taken away. z brings it back, n attaches another." in text_of(pilot)
        await worked(pilot)
        await pilot.press("z")
        assert len(photos.photos_of(journal, entry.id)) == 1
        assert "Undone: take a photo away." in text_of(pilot)
        await pilot.press("escape")
        await worked(pilot)
        assert "photos 1 (i shows them)" in text_of(pilot)


async def test_files_dropped_on_the_window_are_taken_at_once(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    wall = picture(tmp_path / "wet wall.jpg")
    more = [picture(tmp_path / f"{n}.png", colour) for n, colour in enumerate(("green", "blue"))]
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (pilot, screen):
        # The line has the keys, as long as there is none.
        pilot.app.post_message(events.Paste(str(wall).replace(" ", "\\ ") + " "))
        await worked(pilot)
        await until(pilot, lambda: len(photos.photos_of(journal, entry.id)) == 1)
        await worked(pilot)
        # Then the list has them.
        assert pilot.app.focused is not screen.query_one(FilesLine)
        pilot.app.post_message(events.Paste("\n".join(p.as_uri() for p in more)))
        await until(pilot, lambda: len(photos.photos_of(journal, entry.id)) == 3)
        await until(pilot, lambda: "2 photos are attached." in text_of(pilot))
        assert "z takes the last back." in text_of(pilot)
        await submit(pilot, f"'{wall}'")
        assert "That is attached already." in text_of(pilot)
        assert len(photos.photos_of(journal, entry.id)) == 3


async def test_what_is_no_picture_gets_one_line_and_the_others_are_kept(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    good = picture(tmp_path / "good.jpg")
    words = tmp_path / "words.jpg"
    words.write_text("no picture")
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (pilot, screen):
        for text, said in (
            (str(words), "words.jpg is no picture that can be kept"),
            (str(tmp_path / "none.jpg"), "none.jpg cannot be read"),
            (str(tmp_path), "cannot be read"),
            ("", "no file named"),
        ):
            await submit(pilot, text)
            assert said.replace(" ", "") in text_of(pilot).replace(" ", ""), said
            assert screen.query_one(FilesLine).value == text, "what was typed is there to be mended"
        assert photos.photos_of(journal, entry.id) == []
        await submit(pilot, f"'{words}' '{good}' '{words}'")
        assert "Give a JPEG or PNG file. 1 more cannot be kept. 1 photo is attached." in text_of(pilot)
        assert len(photos.photos_of(journal, entry.id)) == 1


async def test_looking_at_many_says_how_far_and_can_be_stopped(
    journal: Journal, entry: Entry, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = picture(tmp_path / "a.jpg")
    second = picture(tmp_path / "b.jpg", "blue")
    reached, go_on = threading.Event(), threading.Event()
    cleaned = photos.cleaned

    def slow(data: bytes, shown_as: str) -> tuple[bytes, int, int]:
        reached.set()
        assert go_on.wait(10)
        return cleaned(data, shown_as)

    monkeypatch.setattr(photos, "cleaned", slow)
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (pilot, screen):
        screen.query_one(FilesLine).value = f"{first} {second}"
        await pilot.press("enter")
        await until(pilot, reached.is_set)
        await until(pilot, lambda: "looking at photo 1 of 2: a.jpg" in text_of(pilot))
        assert "esc stops" in text_of(pilot)
        await pilot.press("escape")
        go_on.set()
        await until(pilot, lambda: not any(w.is_running for w in pilot.app.workers))
        assert "Stopped." in text_of(pilot)
        assert screen.query_one(FilesLine).value == f"{first} {second}"
    assert len(photos.photos_of(journal, entry.id)) <= 1


async def test_a_half_typed_path_is_kept(journal: Journal, entry: Entry) -> None:
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (pilot, _screen):
        await typed(pilot, "~/Pictures/wa")
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (_pilot, screen):
        assert screen.query_one(FilesLine).value == "~/Pictures/wa"


async def test_works_and_tests_have_photos_of_their_own(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    work_id = house_record.add_work(journal, entry.job_id, WorkWords("long wall", "supply pipe"))
    work = house_record.get_work(journal, work_id)
    test_id = house_record.add_test(journal, work, "pressure test", "held", passed=True, by="Rui")
    async with shown(journal, RecordScreen(entry.job_id)) as (pilot, _screen):
        for keys, of_id, colour, title in (
            (("home", "i"), work_id, "red", "long wall: supply pipe"),
            (("down", "i"), test_id, "blue", "supply pipe: pressure test"),
        ):
            await pilot.press(*keys)
            await worked(pilot)
            assert title in text_of(pilot)
            await submit(pilot, str(picture(tmp_path / f"{colour}.png", colour)))
            assert len(photos.photos_of(journal, of_id)) == 1
            await pilot.press("escape")
            await worked(pilot)
        assert text_of(pilot).count("1 photo") == 3, "at each of the two lines, and below at the test in hand"


@pytest.mark.parametrize("few", [None, "standard"])
async def test_a_terminal_without_the_colours_says_where_it_is(
    journal: Journal, entry: Entry, tmp_path: Path, few: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Console, "color_system", property(lambda _self: few))
    photos.add_photo(journal, entry.id, picture(tmp_path / "p.jpg"))
    async with shown(journal, PhotosScreen(entry.job_id, entry.id)) as (_pilot, screen):
        told = screen.query_one(StillPane).render().plain
        assert told.startswith("Photo, 60 x 40.") and "▀" not in told


async def test_nasty_names_are_shown_as_they_are(journal: Journal, tmp_path: Path) -> None:
    job = add_job(journal, "Alder Lane")
    work_id = house_record.add_work(journal, job.id, WorkWords("wall", " ".join(NASTY)))
    async with shown(journal, PhotosScreen(job.id, work_id)) as (pilot, _screen):
        assert "need [/] here [/b] wall" in text_of(pilot)
        for text in NASTY:
            await submit(pilot, text)
            assert "\x1b" not in text_of(pilot)
            assert "cannot be read" in text_of(pilot) or "no file" in text_of(pilot), text
