"""Photos attached to entries: upright, small, without place or time, and shown to whom the entry is."""

from __future__ import annotations

import io
import os
import time
from pathlib import Path

import pytest
from PIL import Image

from journal_tui.documents import plain_text
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import BadInput, CannotRead, NothingFound
from journal_tui.domain.kinds import Audience
from journal_tui.journal import house_record, jobs, photos, record_changes, updates, visits
from journal_tui.journal.house_record import WorkWords
from journal_tui.journal.opening import Journal
from journal_tui.journal.stills import file_of, pictures_for_client, taken
from journal_tui.journal.undoing import undo


@pytest.fixture
def entry(journal: Journal) -> Entry:
    job = jobs.add_job(journal, "Powder room", client="Ada Lindqvist")
    (made,) = visits.note(journal, job.id, "the closet flange is cracked")
    return made


def picture(path: Path, size: tuple[int, int] = (40, 20), kind: str = "JPEG", exif: bytes = b"") -> Path:
    """Write a picture whose left half is red and right half blue."""
    image = Image.new("RGB", size, "blue")
    image.paste("red", (0, 0, size[0] // 2, size[1]))
    image.save(path, kind, **({"exif": exif} if exif else {}), **({"quality": 95} if kind == "JPEG" else {}))
    return path


def _exif(orientation: int) -> bytes:
    exif = Image.Exif()
    # Exif 2.32: tag 0x0112 is the orientation, 0x8825 the GPS part, 0x9003 when it was taken.
    exif[0x0112] = orientation
    exif[0x010F] = "A camera"
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (44.0, 30.0, 12.5)
    exif.get_ifd(0x8769)[0x9003] = "2026:03:12 08:00:00"
    return exif.tobytes()


@pytest.mark.parametrize(
    ("orientation", "size", "first"),
    # Exif 2.32, table of orientations: 1 as it is, 3 turned half round, 6 and 8 on their sides.
    [(1, (40, 20), "red"), (3, (40, 20), "blue"), (6, (20, 40), "red"), (8, (20, 40), "blue")],
)
def test_a_photo_is_turned_as_the_camera_held_it(
    journal: Journal, entry: Entry, tmp_path: Path, orientation: int, size: tuple[int, int], first: str
) -> None:
    made = photos.add_photo(journal, entry.id, picture(tmp_path / "p.jpg", exif=_exif(orientation)))
    assert (made.width, made.height) == size
    with Image.open(made.path) as kept:
        red, _green, blue = kept.convert("RGB").getpixel((3, 3))  # type: ignore[misc]
        assert (red > blue) == (first == "red")


def test_where_when_and_with_what_are_gone(journal: Journal, entry: Entry, tmp_path: Path) -> None:
    source = picture(tmp_path / "p.jpg", exif=_exif(6))
    assert b"A camera" in source.read_bytes()
    made = photos.add_photo(journal, entry.id, source)
    data = made.path.read_bytes()
    with Image.open(io.BytesIO(data)) as kept:
        assert not kept.getexif() and set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    # JPEG (ITU-T T.81) keeps Exif and maker data in the segments APP1 and up.
    assert all(bytes([0xFF, marker]) not in data[:64] for marker in range(0xE1, 0xF0))
    assert b"A camera" not in data and b"2026:03" not in data


def test_a_large_photo_is_made_small_and_a_clear_png_white(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    made = photos.add_photo(journal, entry.id, picture(tmp_path / "big.png", (4000, 1000), "PNG"))
    assert (made.width, made.height) == (photos.LONGEST_SIDE, 400)
    Image.new("RGBA", (10, 10), (0, 0, 0, 0)).save(tmp_path / "clear.png")
    clear = photos.add_photo(journal, entry.id, tmp_path / "clear.png")
    with Image.open(clear.path) as kept:
        assert min(kept.convert("RGB").getpixel((5, 5))) > 250  # type: ignore[arg-type]


def test_what_is_no_picture_is_refused_and_leaves_nothing(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    torn = tmp_path / "torn.jpg"
    whole = picture(tmp_path / "whole.jpg", (400, 300)).read_bytes()
    torn.write_bytes(whole[: len(whole) // 2])
    (tmp_path / "words.jpg").write_text("no picture", encoding="utf-8")
    (tmp_path / "empty.png").write_bytes(b"")
    Image.new("RGB", (4, 4)).save(tmp_path / "p.gif")
    (tmp_path / "p.jpg").write_bytes((tmp_path / "p.gif").read_bytes())
    # A header that promises 65,000 by 65,000 points (PNG specification, IHDR) and holds none.
    huge = bytearray(picture(tmp_path / "s.png", (4, 4), "PNG").read_bytes())
    huge[16:24] = (65_000).to_bytes(4, "big") * 2
    (tmp_path / "huge.png").write_bytes(bytes(huge))
    for name in ("torn.jpg", "words.jpg", "empty.png", "p.gif", "p.jpg", "huge.png", "none.jpg", "."):
        with pytest.raises(BadInput):
            photos.add_photo(journal, entry.id, tmp_path / name)
    assert photos.photos_of(journal, entry.id) == []
    assert not list(journal.path.with_suffix(".stills").rglob("*.jpg"))


def test_a_photo_is_in_the_update_when_its_entry_is(journal: Journal, entry: Entry, tmp_path: Path) -> None:
    made = photos.add_photo(journal, entry.id, picture(tmp_path / "p.jpg"))
    assert photos.add_photo(journal, entry.id, picture(tmp_path / "again.jpg")) == made
    told = updates.client_update(journal, entry.job_id).markdown
    place = f"stills/{made.sha256[:16]}.jpg"
    assert f"]({place})" in told
    assert pictures_for_client(journal, entry.job_id, told) == {place: made.path.read_bytes()}
    with journal.store.write("hide it") as w:
        w.change("entries", entry.id, audience=Audience.CREW.value)
    assert place not in updates.client_update(journal, entry.job_id).markdown
    assert pictures_for_client(journal, entry.job_id, told) == {}


def test_a_photo_can_be_taken_off(journal: Journal, entry: Entry, tmp_path: Path) -> None:
    photos.add_photo(journal, entry.id, picture(tmp_path / "p.jpg"))
    with pytest.raises(BadInput):
        photos.drop_photo(journal, entry.id, 2)
    photos.drop_photo(journal, entry.id, 1)
    assert photos.photos_of(journal, entry.id) == []


def test_what_was_just_taken_away_is_there_for_undo(
    journal: Journal, entry: Entry, tested: tuple[str, str], tmp_path: Path
) -> None:
    a_week_ago = time.time() - 7 * 24 * 3600
    work_id, test_id = tested
    for of_id, colour in ((entry.id, "red"), (work_id, "green"), (test_id, "blue")):
        Image.new("RGB", (9, 9), colour).save(tmp_path / "p.png")
        os.utime(photos.add_photo(journal, of_id, tmp_path / "p.png").path, (a_week_ago, a_week_ago))
    photos.drop_photo(journal, entry.id, 1)
    record_changes.drop_test(journal, test_id)
    record_changes.drop_work(journal, house_record.get_work(journal, work_id))
    stray = file_of(journal, "f" * 64)
    stray.parent.mkdir(exist_ok=True)
    stray.write_bytes(b"")
    os.utime(stray, (a_week_ago, a_week_ago))
    # Logging a visit clears away the files that nothing has, before it opens the recording.
    with pytest.raises(CannotRead), taken(journal, tmp_path / "no recording", ()):
        pass
    assert not stray.exists()
    for _ in range(3):
        undo(journal, entry.job_id)
    assert all(photos.photos_of(journal, of_id)[0].path.is_file() for of_id in (entry.id, work_id, test_id))


@pytest.fixture
def tested(journal: Journal, entry: Entry) -> tuple[str, str]:
    """A hidden work and a test of it, by their ids."""
    work_id = house_record.add_work(journal, entry.job_id, WorkWords("long wall", "supply pipe"))
    work = house_record.get_work(journal, work_id)
    return work_id, house_record.add_test(journal, work, "pressure test", "held", passed=True, by="Rui")


def test_photos_of_the_record_are_in_it_and_go_with_it(
    journal: Journal, entry: Entry, tested: tuple[str, str], tmp_path: Path
) -> None:
    work_id, test_id = tested
    pipe = photos.add_photo(journal, work_id, picture(tmp_path / "pipe.jpg"))
    gauge = photos.add_photo(journal, test_id, picture(tmp_path / "gauge.jpg", (20, 40)))
    assert photos.photos_of(journal, work_id) == [pipe]
    assert photos.photos_of(journal, test_id) == [gauge]
    job = jobs.get_job(journal, entry.job_id)
    told = house_record.record_markdown(journal, job)
    for photo, words in ((pipe, "long wall: supply pipe"), (gauge, "supply pipe, pressure test")):
        assert f"![{words}](stills/{photo.sha256[:16]}.jpg)" in told
    assert len(pictures_for_client(journal, job.id, told)) == 2
    assert "stills" not in plain_text(told) and "\n\n\n" not in plain_text(told)
    leak = photos.add_photo(journal, work_id, picture(tmp_path / "elbow.jpg", (50, 20)))
    told = house_record.record_markdown(journal, job)
    assert f"![long wall: supply pipe, 2 of 2](stills/{leak.sha256[:16]}.jpg)" in told
    assert plain_text(told).split("\n") == [line.strip() for line in plain_text(told).split("\n")]
    undo(journal, job.id)
    told = house_record.record_markdown(journal, job)
    # What belongs to another job is not given out, whatever its papers name.
    other = jobs.add_job(journal, "Elm Court")
    assert pictures_for_client(journal, other.id, told) == {}
    record_changes.drop_work(journal, house_record.get_work(journal, work_id))
    assert "stills/" not in house_record.record_markdown(journal, job)
    assert undo(journal, job.id) == "take hidden work off the record"
    assert house_record.record_markdown(journal, job) == told
    photos.drop_photo(journal, test_id, 1)
    assert photos.photos_of(journal, test_id) == [] and photos.photos_of(journal, work_id) == [pipe]
    undo(journal, job.id)
    record_changes.drop_test(journal, test_id)
    assert photos.photos_of(journal, work_id) == [pipe]
    with pytest.raises(NothingFound):
        photos.add_photo(journal, test_id, tmp_path / "gauge.jpg")


def test_several_files_are_each_taken_or_refused_for_itself(
    journal: Journal, entry: Entry, tmp_path: Path
) -> None:
    good = [picture(tmp_path / f"{n}.jpg", (30 + n, 20)) for n in range(2)]
    (tmp_path / "words.jpg").write_text("no picture", encoding="utf-8")
    told: list[str] = []
    came = photos.add_photos(
        journal, entry.id, [good[0], tmp_path / "words.jpg", good[1]], lambda what, _share: told.append(what)
    )
    assert [p.width for p in came.photos] == [30, 31]
    assert [e.title for e in came.refused] == ["words.jpg is no picture that can be kept"]
    assert told[1] == "looking at photo 2 of 3: words.jpg"


def test_a_line_names_files_as_they_are_typed_and_as_a_terminal_drops_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    plain, blank, odd = tmp_path / "a.jpg", tmp_path / "wet wall.jpg", tmp_path / "Rui's (2).jpg"
    for path in (plain, blank, odd):
        path.write_bytes(b"")
    for line, files in (
        (str(plain), [plain]),
        ("  ~/a.jpg ", [plain]),
        ("~/wet wall.jpg", [blank]),
        (str(odd), [odd]),
        # As XCU 2.2 of POSIX.1-2017 quotes: a backslash, single quotes, double quotes.
        (str(blank).replace(" ", "\\ "), [blank]),
        (f"'{blank}' '{plain}'", [blank, plain]),
        (f'"{odd}"', [odd]),
        (str(odd).replace("'", "\\'").replace(" ", "\\ ").replace("(", "\\(").replace(")", "\\)"), [odd]),
        (f"{plain} {plain}", [plain, plain]),
        # RFC 8089 section 2: a file's address, its blanks as RFC 3986 section 2.1 writes them.
        (f"{blank.as_uri()}\n{plain.as_uri()}", [blank, plain]),
        # What is not there is named whole, so that what is said of it can be read.
        ("~/no such wall.jpg", [tmp_path / "no such wall.jpg"]),
        ("it's.jpg", [Path("it's.jpg")]),
    ):
        assert photos.pictures_typed(line) == files, line
    for line in ("", "  ", "''"):
        with pytest.raises(BadInput, match="no file named"):
            photos.pictures_typed(line)
