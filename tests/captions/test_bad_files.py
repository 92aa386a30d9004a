"""Files that cannot be read, or only in part: each gets one clear line and nothing else happens."""

from __future__ import annotations

import codecs
import os
import time
from pathlib import Path

import pytest

from journal_tui.domain.errors import CannotRead
from journal_tui.domain.text import one_line, visible
from journal_tui.walkthrough.captions import MOST_BYTES, read_captions, read_text
from journal_tui.walkthrough.captions.reading import MOST_WORDS, refuse_endless

GOOD = b"WEBVTT\n\n00:01.000 --> 00:02.000\nthe valve is deep\n"


def refusal(path: Path) -> str:
    with pytest.raises(CannotRead) as caught:
        read_captions(path)
    message = str(caught.value)
    assert caught.value.exit_code == 2
    assert "\n" not in message
    assert message == visible(message)
    assert caught.value.body, "no way out is named"
    return message


def test_a_good_file_is_read_whole(tmp_path: Path) -> None:
    file = tmp_path / "walk one.vtt"
    file.write_bytes(GOOD)
    captions = read_captions(file)
    assert captions.name == "walk one.vtt"
    assert captions.verbatim.encode() == GOOD
    # sha256 of GOOD by coreutils' sha256sum.
    assert captions.sha256 == "77753e3231f07b85b71634d0b634cc39e858f92e1646fe5d351229b9016796dd"


def test_a_missing_file(tmp_path: Path) -> None:
    assert "gone.vtt: no such file" in refusal(tmp_path / "gone.vtt")


def test_a_file_under_a_file(tmp_path: Path) -> None:
    (tmp_path / "a.vtt").write_bytes(GOOD)
    assert "b.vtt" in refusal(tmp_path / "a.vtt" / "b.vtt")


def test_a_folder(tmp_path: Path) -> None:
    assert "is a folder" in refusal(tmp_path)


def test_a_file_one_may_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "locked.vtt"
    file.write_bytes(GOOD)
    file.chmod(0)
    if os.access(file, os.R_OK):
        # The superuser may read anything, so the refusal comes from here instead.
        def refuse(*_: object, **__: object) -> None:
            raise PermissionError(13, "Permission denied", str(file))

        monkeypatch.setattr(Path, "open", refuse)
    assert "locked.vtt may not be read" in refusal(file)


def test_a_pipe_does_not_hang(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.vtt")
    assert "is not a file" in refusal(tmp_path / "pipe.vtt")


def test_a_link_that_goes_in_circles(tmp_path: Path) -> None:
    (tmp_path / "a.vtt").symlink_to(tmp_path / "a.vtt")
    assert "a.vtt cannot be read" in refusal(tmp_path / "a.vtt")


@pytest.mark.parametrize("name", ["a\x00b.vtt", "a\udfffb.vtt", "x" * 5000 + ".vtt"])
def test_a_name_no_file_can_have(tmp_path: Path, name: str) -> None:
    assert ".vtt" in refusal(tmp_path / name)


def test_a_200_mb_file_is_refused_unread(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "long.vtt"
    with file.open("wb") as made:
        made.truncate(200 * 1024 * 1024)

    def fail(*_: object, **__: object) -> None:
        raise AssertionError("the file was opened")

    monkeypatch.setattr(Path, "open", fail)
    message = refusal(file)
    assert "200 MB" in message
    assert "32 MB" in message


def test_a_file_that_grows_while_it_is_read_is_still_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "long.vtt"
    with file.open("wb") as made:
        made.truncate(MOST_BYTES + 1)
    small = tmp_path / "small"
    small.write_bytes(GOOD)
    small_stat = small.stat()
    monkeypatch.setattr(Path, "stat", lambda *_, **__: small_stat)
    assert "too large" in refusal(file)


def test_a_file_at_the_limit_is_read(tmp_path: Path) -> None:
    file = tmp_path / "full.vtt"
    file.write_bytes(GOOD + b" " * (MOST_BYTES - len(GOOD)))
    assert len(read_captions(file).cues) == 1


@pytest.mark.parametrize("data", [b"", b"\n\n \t\n", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff\x00\n"])
def test_an_empty_file(tmp_path: Path, data: bytes) -> None:
    file = tmp_path / "blank.txt"
    file.write_bytes(data)
    assert "blank.txt" in refusal(file)


@pytest.mark.parametrize(
    ("data", "what"),
    [
        # Signatures from memory of each format's documentation.
        (b"\x00\x00\x00\x18ftypmp42\x00\x00\x00\x00", "recording"),
        (b"\x00\x00\x00\x14ftypqt  ", "recording"),
        (b"\x1a\x45\xdf\xa3\x9f\x42\x86\x81\x01", "recording"),
        (b"RIFF\x24\x08\x00\x00WAVEfmt ", "recording"),
        (b"ID3\x04\x00\x00\x00\x00\x00\x23TSSE", "recording"),
        (b"\xff\xfb\x90\x64\x00\x0f\xf0\x00", "recording"),
        (b"OggS\x00\x02\x00\x00\x00\x00", "recording"),
        (b"PK\x03\x04\x14\x00\x06\x00", "packed or office file"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "packed or office file"),
        (b"%PDF-1.7\n%\xe2\xe3", "formatted document"),
        (b"{\\rtf1\\ansi the valve is deep}", "formatted document"),
        (b"\xff\xd8\xff\xe0\x00\x10JFIF", "picture"),
        (b"SQLite format 3\x00\x10\x00", "database"),
        (b"<?xml version='1.0'?><tt xmlns='http://www.w3.org/ns/ttml'>", "XML"),
        (b"\n<!DOCTYPE html><p>the valve", "XML or HTML"),
        (b'{"segments": [{"text": "the valve"}]}', "JSON"),
        (b"\x00\x01\x02\x03" * 50, "not text"),
        (bytes(range(256)) * 20, "not text"),
    ],
)
def test_files_that_are_no_captions_say_what_they_are(data: bytes, what: str) -> None:
    with pytest.raises(CannotRead) as caught:
        read_text("walk.mp4", data)
    assert what in caught.value.title
    assert "walk.mp4" in caught.value.title


@pytest.mark.parametrize(
    "start", [b"The free wall", b"FORM is set", b"RIFF raff", b"PK is here", b"ID3 sink"]
)
def test_words_that_look_like_a_signature_are_words(start: bytes) -> None:
    assert read_text("note.txt", start).cues[0].text == start.decode()


@pytest.mark.parametrize(
    ("data", "text", "notices"),
    [
        ("gap ½ in".encode(), "gap ½ in", 0),
        (codecs.BOM_UTF8 + "gap ½ in".encode(), "gap ½ in", 0),
        ("\ufeffgap ½ in".encode("utf-16-le"), "gap ½ in", 0),
        ("\ufeffgap ½ in".encode("utf-16-be"), "gap ½ in", 0),
        (b"gap \xbd in", "gap ½ in", 1),  # Windows-1252
        (b"\x93gap\x94 \x96 \x80", "“gap” – €", 1),
        ("½ ¼ ¾ ".encode() + b"\xe2\x82", "½ ¼ ¾ \ufffd", 1),  # torn UTF-8 stays UTF-8
        ("\ufeffgap".encode("utf-16-le") + b"x", "gap\ufffd", 1),
        (b"\xff\xfea\x00\x00\xd8b\x00", "a\ufffdb", 1),  # a lone surrogate
        ("½ ".encode() + b"\xed\xa0\x80".join([b"a", "½½".encode()]), "½ a\ufffd\ufffd\ufffd½½", 1),
    ],
)
def test_encodings(data: bytes, text: str, notices: int) -> None:
    captions = read_text("note.txt", data)
    assert captions.cues[0].text == text
    assert len(captions.notices) == notices


NASTY = [
    "need [/] here",
    "[/b] wall",
    "[red]door[/red]",
    "[@click=app.quit]x[/]",
    "[/",
    "\x1b[2J\x1b]0;title\x07",
    "\u202eesrever \u05d0\u05d1",
    "zero\u200bwidth e\u0301 漢字",
    "a\x00b",
    "'; DROP TABLE entry; --",
    "*not* _marked_ `up` <script>",
    "\x85next\u2028line",
]


@pytest.mark.parametrize("text", NASTY)
@pytest.mark.parametrize("form", ["{}", "[0:01] {}", "1\n00:00:01,000 --> 00:00:02,000\n{}"])
def test_nasty_text_comes_through_as_it_stands(form: str, text: str) -> None:
    cue = read_text("walk.txt", form.format(f"x {text} x").encode()).cues[0]
    assert cue.text == f"x {text} x".replace("\x00", "\ufffd")


@pytest.mark.parametrize("text", NASTY)
def test_nasty_names_are_shown_on_one_line(text: str) -> None:
    with pytest.raises(CannotRead) as caught:
        read_text(text + "\n.vtt", b"")
    assert one_line(text) in str(caught.value)
    assert str(caught.value) == visible(str(caught.value)).replace("\n", " ")


def test_a_quoted_bad_line_cannot_act_and_is_short() -> None:
    captions = read_text("w.vtt", b"WEBVTT\n\n\x1b[2J --> " + b"y" * 10_000 + b"\nlost\n\n" + GOOD[8:])
    message = str(captions.notices[0])
    assert message == one_line(message)
    assert len(message) < 200


TIMED = "00:00:01.000 --> 00:00:02.000"


@pytest.mark.parametrize(
    "head", ["", "[0:01] ", "[0:", f"WEBVTT\n\n{TIMED}\n", "WEBVTT\n\n00:01.000 ", f"1\n{TIMED}\n"]
)
@pytest.mark.parametrize(
    "unit", ["a", " ", "<", "<b>x", "&", "&#", "[", "{\\", "<i ", "9", "1:", "-->", "\r", "x\n"]
)
def test_no_text_takes_more_than_its_length_in_time(head: str, unit: str) -> None:
    data = (head + unit * (500_000 // len(unit)) + "x").encode()
    begun = time.process_time()
    try:
        read_text("walk.txt", data)
    except CannotRead as error:
        assert len(str(error)) < 500
    # A search that is quadratic in half a million characters takes minutes.
    assert time.process_time() - begun < 5


@pytest.mark.parametrize("head", ["", "[0:01] ", f"WEBVTT\n\n{TIMED}\n", f"1\n{TIMED}\n"])
def test_a_10_mb_line_is_read_whole(head: str) -> None:
    line = "the valve is deep " * 555_555 + "x"
    assert read_text("walk.txt", (head + line).encode()).cues[0].text == line


def test_a_named_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe.vtt"
    os.mkfifo(pipe)
    assert "is not a file" in refusal(pipe)


def test_a_name_of_blanks_is_shown(tmp_path: Path) -> None:
    with pytest.raises(CannotRead, match=r'^"   ": no such file'):
        read_captions(Path("   "))


def test_more_words_than_a_walk_has_are_refused_with_the_limit() -> None:
    line = b"need to move the valve " * (MOST_WORDS // 5)
    refuse_endless(read_text("day.txt", line))
    with pytest.raises(CannotRead, match=r"day.txt has 200,001 words \(one recording may have 200,000\)"):
        refuse_endless(read_text("day.txt", line + b"left"))
