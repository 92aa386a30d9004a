"""The client update printed, written, edited and frozen."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from tests.cli.conftest import Cli


@pytest.fixture
def told(cli: Cli, elm: str) -> str:
    """A job with something to tell and something not to."""
    cli("note", elm, "-", stdin="the closet flange is cracked\nlockbox code is 4471\n")
    cli("add", elm, "order the repair ring", "--phase", "rough plumbing")
    cli("add", elm, "pick the mirror", "--who", "client")
    return elm


def test_the_update_is_markdown_unless_said_otherwise(cli: Cli, told: str) -> None:
    ran = cli("update", told)
    assert ran.code == 0
    assert ran.out.startswith("# Powder room, 9 Elm Court\n")
    for words in ("closet flange is cracked", "repair ring", "mirror"):
        assert words in ran.out
    assert "4471" not in ran.out and "lockbox" not in ran.out
    assert cli("update", told, "--format", "md").out == ran.out


def test_html_is_one_page_and_text_has_no_marks(cli: Cli, told: str) -> None:
    html = cli("update", told, "--format", "html").out
    tags: list[str] = []

    class Tags(HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            tags.append(tag)

    Tags().feed(html)
    assert tags[:2] == ["html", "head"] and "h1" in tags
    assert not {"script", "img", "link", "iframe"} & set(tags)
    text = cli("update", told, "--format", "text").out
    assert "closet flange is cracked" in text and "#" not in text and "**" not in text


def test_the_files_hold_what_is_printed(cli: Cli, told: str, tmp_path: Path) -> None:
    folder = tmp_path / "to send" / "today"
    ran = cli("update", told, "--out", str(folder))
    assert ran.code == 0
    files = sorted(Path(line) for line in ran.out.splitlines())
    assert [file.name for file in files] == [
        f"powder-room-9-elm-court-update-2026-03-12.{end}" for end in ("eml", "html", "md", "pdf", "txt")
    ]
    mail, html, md, pdf, txt = files
    assert mail.read_bytes().startswith(b"Subject: ") and pdf.read_bytes().startswith(b"%PDF-")
    for form in ("pdf", "eml"):
        ran = cli("update", told, "--format", form)
        assert (ran.code, ran.out) == (2, "") and "not for a terminal" in ran.err
    for file, form in zip((html, md, txt), ("html", "md", "text"), strict=True):
        assert file.read_text(encoding="utf-8") == cli("update", told, "--format", form).out
    one = cli("update", told, "--out", str(tmp_path / "one"), "--format", "html")
    assert [Path(line).suffix for line in one.out.splitlines()] == [".html"]


def test_a_code_in_the_name_of_a_job_stays_out_of_files_and_titles(cli: Cli, tmp_path: Path) -> None:
    cli("job", "add", "Attic, lockbox code 4471")
    cli("note", "attic", "the flange is cracked")
    ran = cli("update", "attic", "--out", str(tmp_path / "out"), "--send")
    assert ran.code == 0 and "4471" not in ran.out
    written = "".join(file.read_text(encoding="latin-1") for file in (tmp_path / "out").iterdir())
    assert "flange" in written and "4471" not in written
    for form in ("md", "html", "text"):
        assert "4471" not in cli("updates", "attic", "--show", "1", "--format", form).out


def test_a_file_of_that_name_is_never_written_over(cli: Cli, told: str, tmp_path: Path) -> None:
    first = Path(cli("update", told, "--out", str(tmp_path), "--format", "md").out.strip())
    assert Path(cli("update", told, "--out", str(tmp_path), "--format", "md").out.strip()) == first
    first.write_text("my own words", encoding="utf-8")
    second = Path(cli("update", told, "--out", str(tmp_path), "--format", "md").out.strip())
    assert second.name == "powder-room-9-elm-court-update-2026-03-12-2.md"
    assert first.read_text(encoding="utf-8") == "my own words"
    assert not list(tmp_path.glob(".unfinished*"))


def test_sending_freezes_the_exact_text(cli: Cli, told: str) -> None:
    assert cli("updates", told).code == 1
    printed = cli("update", told).out
    sent = cli("update", told, "--send")
    assert sent.code == 0 and sent.out == printed
    assert "frozen as sent on 2026-03-12" in sent.err
    cli("note", told, "the subfloor is soft by the door")
    assert cli("updates", told, "--show", "1").out == printed
    later = cli("update", told).out
    assert "subfloor is soft" in later and "closet flange" not in later
    cli("update", told, "--send")
    listed = cli("updates", told).out.splitlines()
    assert [line.split()[0] for line in listed] == ["2", "1"]
    assert "Thu 12 Mar 2026" in listed[0] and "Powder room, 9 Elm Court" in listed[0]
    assert cli("updates", told, "--show", "2").out == later
    assert cli("updates", told, "--show", "1", "--format", "html").out.startswith("<!DOCTYPE html>")
    assert cli("updates", told, "--show", "3").code == 2
    assert "send the client update" in cli("history", told).out


def test_an_edited_version_is_kept_and_can_be_set_aside(cli: Cli, told: str, tmp_path: Path) -> None:
    made = cli("update", told).out
    edited = made + "\nSee you Friday.\n"
    file = tmp_path / "mine.md"
    file.write_bytes(edited.replace("\n", "\r\n").encode("utf-8-sig"))
    assert cli("update", told, "--edited", str(file)).out == edited
    assert cli("update", told).out == edited
    cli("note", told, "the subfloor is soft by the door")
    merged = cli("update", told).out
    assert "See you Friday." in merged and "subfloor is soft" in merged
    assert "See you Friday." not in cli("update", told, "--discard-edit").out
    assert cli("update", told, "--edited", "-", "--send", stdin="# Hello\n").out == "# Hello\n"
    assert cli("updates", told, "--show", "1").out == "# Hello\n"


def test_nothing_to_tell_is_nothing_found_and_is_not_sent(cli: Cli, elm: str) -> None:
    ran = cli("update", elm)
    assert ran.code == 1 and ran.out.startswith("# Powder room")
    sent = cli("update", elm, "--send")
    assert sent.code == 1 and "there is nothing to send" in sent.err
    assert cli("updates", elm).code == 1


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (None, "cannot be read"),
        (b"\xff\xfe\x00caf\xe9", "is not UTF-8 text"),
        (b"x" * 2_000_000, "is too large"),
    ],
)
def test_an_edit_that_cannot_be_read_changes_nothing(
    cli: Cli, told: str, tmp_path: Path, content: bytes | None, says: str
) -> None:
    file = tmp_path / "mine.md"
    if content is not None:
        file.write_bytes(content)
    before = cli("update", told).out
    ran = cli("update", told, "--edited", str(file))
    assert (ran.code, ran.out) == (2, "")
    assert f"{file} {says}" in ran.err
    assert cli("update", told).out == before


@pytest.mark.parametrize("blocked", ["a file in the way", "/proc/nowhere", "/dev/null/below"])
def test_a_folder_that_takes_nothing_freezes_nothing(
    cli: Cli, told: str, tmp_path: Path, blocked: str
) -> None:
    if not blocked.startswith("/"):
        (tmp_path / "file").write_text("in the way")
        blocked = str(tmp_path / "file" / "folder")
    ran = cli("update", told, "--out", blocked, "--send")
    assert (ran.code, ran.out) == (2, "")
    assert blocked in ran.err and "Name a" in ran.err and ran.err.count("\n") == 1
    assert cli("updates", told).code == 1


def test_two_updates_sent_on_one_day_are_told_apart_and_stand_in_the_history(cli: Cli, told: str) -> None:
    assert cli("update", told, "--send").code == 0
    cli("note", told, "the transom is bowed")
    assert cli("update", told, "--send").code == 0
    lines = cli("updates", told).out.splitlines()
    assert [line.split()[0] for line in lines] == ["2", "1"]
    for line in lines:
        assert re.search(r"Thu 12 Mar 2026 +[0-2][0-9]:[0-5][0-9] +Powder room", line)
    assert "transom" in cli("updates", told, "--show", "2").out
    assert "transom" not in cli("updates", told, "--show", "1").out
    assert cli("history", told).out.count("send") == 2


def test_what_is_left_out_and_words_to_think_of_are_named(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli("note", elm, "tub: the sill is rotten; the last guy was an idiot")
    ran = cli("update", elm, "--check")
    assert ran.code == 0 and not ran.err
    assert ran.out == (
        "1 note not told: 1 left out, 0 only counted.\n\n"
        "Left out, though the client may read it (1):\n"
        "  tub: the last guy was an idiot\n"
        "      (blames, alarms or swears, and no rule says it another way)\n"
    )
    # One number, wherever it is said.
    beside = cli("update", elm, "--out", str(tmp_path)).err
    assert "; 1 note not told (--check names them)\n" in beside
    mine = tmp_path / "mine.md"
    mine.write_text(cli("update", elm).out + "\nThe damn stair is a death trap.\n")
    ran = cli("update", elm, "--edited", str(mine))
    # Told beside it, and the words stay his own.
    assert ran.out.endswith("The damn stair is a death trap.\n")
    line = len(mine.read_text().splitlines())
    assert f"line {line}: “damn” not a word for a letter; better without it\n" in ran.err
    assert f"line {line}: “death trap” alarms beyond the facts" in ran.err and "better: “danger”" in ran.err
    assert cli("update", elm, "--check").out.startswith("Words to think of (2):\n  line")


def test_an_update_with_nothing_to_think_of_finds_nothing(cli: Cli, told: str) -> None:
    ran = cli("update", told, "--check")
    assert (ran.code, ran.out) == (1, "") and "nothing to think of" in ran.err
    ran = cli("update", told, "--differences")
    assert (ran.code, ran.out) == (1, "") and "do not differ" in ran.err
    ran = cli("update", told, "--take", "1")
    assert (ran.code, ran.out) == (1, "") and "there is no difference 1" in ran.err


def test_single_differences_are_shown_taken_and_kept(cli: Cli, told: str, tmp_path: Path) -> None:
    mine = tmp_path / "mine.md"
    mine.write_text(cli("update", told).out.replace("cracked", "in two").replace("please ask.", "call us."))
    cli("update", told, "--edited", str(mine))
    cli("add", told, "strap the supply", "--phase", "rough plumbing")
    ran = cli("update", told, "--differences")
    assert ran.code == 0
    assert "\n  1  you changed this\n     ~ " in ran.out
    assert "[-in two.-]{+cracked.+}" in ran.out and "[-call us.-]{+please ask.+}" in ran.out
    assert ran.out.count("  you changed this\n") == 2 and "strap the supply" in ran.out
    taken = cli("update", told, "--take", "1").out
    assert "is cracked." in taken and "call us." in taken and "strap the supply" in taken
    parts = cli("update", told, "--differences").out.split("\n\n")[1:]
    number = next(part.split()[0] for part in parts if "strap the supply" in part)
    refused = cli("update", told, "--keep", number).out
    assert "strap the supply" not in refused and "call us." in refused
    ran = cli("update", told, "--take", "1", "--keep", "1")
    assert ran.code == 2 and "not allowed with" in ran.err


def test_what_no_terminal_may_act_on_is_shown_in_the_checks(cli: Cli, elm: str, tmp_path: Path) -> None:
    cli("note", elm, "sink: the trap \x1b[31mleaks; some idiot \x1b[2Jglued it")
    # One number, wherever it is said.
    beside = cli("update", elm, "--out", str(tmp_path)).err
    assert "; 1 note not told (--check names them)\n" in beside
    mine = tmp_path / "mine.md"
    mine.write_text(cli("update", elm).out + "\n\x1b[31mred\n")
    cli("update", elm, "--edited", str(mine))
    for option in ("--check", "--differences"):
        ran = cli("update", elm, option)
        assert ran.code == 0 and "\x1b" not in ran.out + ran.err
