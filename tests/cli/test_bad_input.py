"""Whatever is typed or given: literal, or refused in a line that names the thing and the way out."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal_tui.domain.text import storable, visible
from journal_tui.journal.typed import MOST_TYPED
from journal_tui.store import store as store_module
from journal_tui.store.opening import connect
from tests.cli.conftest import Cli, Ran

NASTY = {
    "bracket": "need [/] here",
    "closing": "[/b] wall [/",
    "markup": "[red]door[/red] [@click=app.quit]x[/]",
    "escape": "\x1b[31mred\x1b]0;title\x07\x1b[2J",
    "c1": "\x9b31mred\x9d0;title\x9c",
    "nul": "a\x00b",
    "surrogate": "a\ud800b\udcffc",
    "direction": "\u202etxet\u202c \u2066x\u2069 \u200f",
    "hebrew": "הקיר רטוב [/] 3 in",
    "zero width": "a\u200bb\u200dc\ufeffd",
    "wide": "床が抜けた 🛁 e\u0301",
    "lines": "one\rtwo\x0bthree\u2028four\x85five",
    "options": "--help -x --journal=/",
    "markdown": "# *a* _b_ `c` <script>alert(1)</script> [l](javascript:x) ![i](x) | & &amp; \\",
    "formula": "=HYPERLINK(1)",
    "braces": "{0} %s $(reboot) `id` ; rm",
}


def harmless(ran: Ran) -> Ran:
    """Check that nothing printed can act on a terminal, and that an error is a line or two."""
    for text in (ran.out, ran.err):
        assert visible(text.replace("\r\n", "\n")) == text.replace("\r\n", "\n")
    assert ran.err.count("\n") <= 2
    return ran


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY)
def test_any_text_in_any_field_is_kept_and_shown_literally(cli: Cli, text: str, tmp_path: Path) -> None:
    kept = storable(text).strip()
    fields = [f"--{name}={text}" for name in ("client", "address", "scope", "private-note")]
    assert harmless(cli("job", "add", *fields, "--", f"elm {text}")).code == 0
    job = cli("job", "show", "elm", "--json").data
    assert job["name"] == storable(f"elm {text}").strip()
    assert (job["client"], job["address"], job["scope"]) == (kept, kept, kept)
    assert job["private_note"] == storable(text)
    assert harmless(cli("note", "elm", f"--people={text}", "--", text)).code == 0
    assert harmless(cli("add", "elm", f"--area={text}", "--", text)).code == 0
    visit = cli("timeline", "elm", "--json").data[0]
    assert visit["people"] == kept
    item = cli("punch", "elm", "--format", "json").data["items"][0]
    assert item["text"] == kept
    for argv in (
        ["jobs"],
        ["job", "show", "elm"],
        ["timeline", "elm"],
        ["punch", "elm"],
        ["punch", "elm", "--format", "md"],
        ["punch", "elm", "--format", "csv"],
        ["punch", "elm", "--format", "json"],
        ["update", "elm"],
        ["update", "elm", "--format", "html"],
        ["update", "elm", "--format", "text"],
        ["update", "elm", "--out", str(tmp_path / "out"), "--send"],
        ["updates", "elm"],
        ["history", "elm"],
        ["search", "--json", "--job", "elm", "--", "elm"],
    ):
        assert harmless(cli(*argv)).code in (0, 1), argv


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY)
def test_any_text_where_a_name_is_wanted_is_refused_in_words(cli: Cli, elm: str, text: str) -> None:
    for argv in (
        ["punch", "--", text],
        ["done", "--", elm, text],
        ["reopen", "--", elm, text],
        ["undo", "--", text],
        ["search", "--", f"unicorn {text}"],
        ["words", elm, f"--forget={text}"],
        ["log", "--", elm, text],
        ["draft", "--", text],
        ["review", elm, f"--keep={text}"],
        ["timeline", elm, f"--limit={text}"],
        ["note", elm, "seen", f"--day={text}"],
        ["add", elm, "x", f"--phase={text}"],
        ["add", elm, "x", f"--who={text}"],
        ["update", elm, f"--edited={text}"],
        ["updates", elm, f"--show={text}"],
        ["job", "change", elm, f"--built={text}"],
        [text],
        ["job", text],
    ):
        ran = harmless(cli(*argv))
        assert ran.code in (1, 2), argv
        assert ran.out == "" and ran.err.startswith("journal-tui: "), argv
        assert "a fault in this program" not in ran.err, argv
    assert len(cli("jobs", "--json").data) == 1


@pytest.mark.parametrize(
    ("form", "name"),
    [("vtt", name) for name in NASTY]
    + [(form, name) for form in ("srt", "txt") for name in ("escape", "nul", "surrogate", "direction")],
)
def test_any_text_in_a_file_is_kept_and_shown_literally(
    cli: Cli, elm: str, tmp_path: Path, name: str, form: str
) -> None:
    text = NASTY[name]
    said = f"the flange is cracked {text} and the drain leaks"
    words = {
        "vtt": f"WEBVTT\n\n00:01.000 --> 00:05.000\n{said}\n",
        "srt": f"1\n00:00:01,000 --> 00:00:05,000\n{said}\n",
        "txt": f"[0:01] {said}\n",
    }
    file = tmp_path / f"walk.{form}"
    file.write_bytes(words[form].encode("utf-8", "surrogatepass"))
    harmless(cli("draft", str(file)))
    harmless(cli("draft", str(file), "--json"))
    assert harmless(cli("log", elm, str(file))).code == 0
    for argv in (["review", elm], ["review", elm, "--keep-rest"], ["timeline", elm], ["search", "flange"]):
        assert harmless(cli(*argv)).code in (0, 1)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    text=st.text(st.characters(exclude_characters="\n"), min_size=1, max_size=60).filter(
        lambda t: t.strip() and t.strip() != "-"
    )
)
def test_what_goes_in_comes_out(cli: Cli, path: Path, text: str) -> None:
    """Any text: the same text from the JSON of ``note`` and ``add``, but for what cannot be stored."""
    if not path.exists():
        cli("job", "add", "Elm")
    kept = storable(text.strip())
    noted = cli("note", "elm", "--json", "--", text)
    assert noted.code == 0
    assert [entry["text"] for entry in noted.data] == [kept]
    assert cli("timeline", "elm", "--json").data[0]["entries"][-1]["text"] == kept
    assert cli("add", "elm", "--area", "here", "--", text).code == 0
    items = cli("punch", "elm", "--format", "json").data["items"]
    added = [item["text"] for item in items if item["area"] == "here"]
    assert kept in added


def test_a_line_of_ten_megabytes_is_refused_as_a_note_and_read_as_a_file(
    cli: Cli, elm: str, tmp_path: Path
) -> None:
    line = "x" * 10_000_000
    before = cli("history", elm).out
    for argv in (
        ["note", elm, "-"],
        ["note", elm, line],
        ["add", elm, line],
        ["add", elm, "x", "--area", line],
        ["job", "add", line],
        ["job", "change", elm, "--private-note", line],
        ["note", elm, "x", "--people", line],
    ):
        ran = harmless(cli(*argv, stdin=line))
        assert ran.code == 2 and len(ran.err) < 300, argv[:2]
        assert f"is too long (10,000,000 characters): One typed text may have {MOST_TYPED:,}." in ran.err
    for argv in (
        ["punch", line],
        ["search", line],
        ["note", elm, "x", "--day", line],
        [line],
    ):
        ran = harmless(cli(*argv))
        assert ran.code in (1, 2) and len(ran.err) < 900, [word[:20] for word in argv]
    some = harmless(cli("note", elm, "-", stdin=f"the drain leaks\n{line}\n"))
    assert some.code == 2
    assert cli("history", elm).out == before
    file = tmp_path / "long.txt"
    file.write_text(f"[0:01] the drain leaks\n[0:05] {line}\n", encoding="utf-8")
    assert harmless(cli("log", elm, str(file))).code == 0
    assert line in cli("visit", "show", elm, "--json").data["said"][-1]["text"]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (None, "no such file"),
        (b"", "is empty"),
        (b"\x00\x01\x02" * 400, "is not text"),
        (b"WEBVTT\n\n00:00.000 --> nonsense\nwords\n", "has no usable captions"),
        (b"RIFF\x00\x00\x00\x00WAVEfmt " + b"\x00" * 64, "a recording, not captions"),
    ],
)
def test_a_file_that_is_no_captions_is_refused_and_nothing_saved(
    cli: Cli, elm: str, tmp_path: Path, content: bytes | None, says: str
) -> None:
    file = tmp_path / "walk.vtt"
    if content is not None:
        file.write_bytes(content)
    for argv in (["draft", str(file)], ["draft", str(file), "--json"], ["log", elm, str(file)]):
        ran = harmless(cli(*argv))
        assert (ran.code, ran.out) == (2, "")
        assert "walk.vtt" in ran.err and says in ran.err and ran.err.count("\n") == 1
    assert cli("timeline", elm).code == 1
    if content:
        ran = harmless(cli("draft", "-", stdin=content))
        assert ran.code == 2 and "standard input" in ran.err and says in ran.err


def test_a_file_of_200_megabytes_is_refused_unread(cli: Cli, elm: str, tmp_path: Path) -> None:
    file = tmp_path / "walk.srt"
    with file.open("wb") as handle:
        handle.truncate(200 * 1024 * 1024)
    ran = harmless(cli("log", elm, str(file)))
    assert ran.code == 2 and "too large (200 MB" in ran.err
    piped = harmless(cli("draft", "-", stdin=b"a" * (33 * 1024 * 1024)))
    assert piped.code == 2 and "standard input is too large" in piped.err


def _text(path: Path) -> None:
    path.write_text("dear all, the keys are under the mat\n" * 40, encoding="utf-8")


def _zip(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("letter.txt", "words " * 200)


def _other_database(path: Path) -> None:
    with closing(sqlite3.connect(path)) as conn:
        conn.execute("CREATE TABLE jobs (name TEXT)")
        conn.execute("INSERT INTO jobs VALUES ('theirs')")
        conn.commit()


def _newer(path: Path) -> None:
    store_module.Store(path).close()
    with closing(sqlite3.connect(path)) as conn:
        conn.execute("INSERT INTO _sqlite_migrations VALUES (99, 'journal', '0999_beams', '2031-01-01')")
        conn.commit()


def _damaged(path: Path) -> None:
    store_module.Store(path).close()
    data = bytearray(path.read_bytes())
    data[100:] = b"\xa5" * (len(data) - 100)
    path.write_bytes(data)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (_text, "is not a journal: It is some other kind of file. Choose another with --journal."),
        (_zip, "is not a journal: It is some other kind of file. Choose another with --journal."),
        (_other_database, "is not a journal: It is a database of some other program."),
        (_newer, "was written by a newer version of journal_tui: It has the step 0999_beams"),
        (_damaged, "is damaged: Copy the file and keep the copy"),
        (Path.mkdir, "is a folder: Name a file"),
    ],
)
def test_a_file_that_is_no_journal_of_ours_is_left_as_it_was(
    cli: Cli, tmp_path: Path, make: Callable[[Path], None], says: str
) -> None:
    file = tmp_path / "kept"
    make(file)
    before = file.read_bytes() if file.is_file() else None
    for argv in (["jobs"], ["job", "add", "Elm"], ["note", "elm", "x"], ["tour"], ["backup", "b.db"]):
        ran = harmless(cli(*argv, "--journal", str(file)))
        assert (ran.code, ran.out) == (2, ""), argv
        assert f"{file} {says}" in ran.err and ran.err.count("\n") == 1
    assert (file.read_bytes() if file.is_file() else None) == before


@pytest.mark.parametrize(
    ("where", "way_out"),
    [
        ("{file}/journal.db", "Choose another"),
        ("/proc/journal.db", "Choose another"),
        ("/sys/journal.db", "Choose another"),
        ("~nobody-here/\0.db", "Choose another"),
        ("/" + "x" * 300, "Choose another"),
        ("/dev/full", "Free some space"),
    ],
)
def test_a_journal_that_cannot_be_written_names_the_way_out(
    cli: Cli, tmp_path: Path, where: str, way_out: str
) -> None:
    """Places that refuse even the superuser, whom no mode bits stop."""
    (tmp_path / "file").write_text("in the way")
    where = where.format(file=tmp_path / "file")
    for argv in (["job", "add", "Elm"], ["tour"]):
        ran = harmless(cli(*argv, "--journal", where))
        assert (ran.code, ran.out) == (2, "")
        assert visible(where) in ran.err and way_out in ran.err and ran.err.count("\n") == 1


def test_a_full_disk_saves_nothing_by_halves(
    cli: Cli, logged: str, path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SQLite's own limit on pages raises the error a full disk raises (SQLITE_FULL)."""
    before = [cli(*argv).out for argv in (["timeline", logged, "--json"], ["history", logged])]

    def small(where: Path) -> sqlite3.Connection:
        conn = connect(where)
        pages = conn.execute("PRAGMA page_count").fetchone()[0]
        conn.execute(f"PRAGMA max_page_count = {pages}")
        return conn

    file = tmp_path / "more.txt"
    file.write_text("".join(f"[{n // 60}:{n % 60:02}] the drain {n} leaks\n" for n in range(900)))
    with monkeypatch.context() as full:
        full.setattr(store_module, "connect", small)
        ran = harmless(cli("log", logged, str(file)))
    assert (ran.code, ran.out) == (2, "")
    assert f"the disk holding {path} is full: Nothing was half-saved. Free some space" in ran.err
    assert [cli(*argv).out for argv in (["timeline", logged, "--json"], ["history", logged])] == before
    assert cli("log", logged, str(file)).code == 0


def test_a_disk_that_refuses_saves_nothing_by_halves(
    cli: Cli, logged: str, path: Path, tmp_path: Path
) -> None:
    """The shell's limit on file size stops the write itself, under SQLite."""
    before = [cli(*argv).out for argv in (["timeline", logged, "--json"], ["history", logged])]
    file = tmp_path / "more.txt"
    file.write_text("".join(f"[{n // 60}:{n % 60:02}] the drain {n} leaks\n" for n in range(900)))
    run = subprocess.run(
        ["bash", "-c", f"ulimit -f 64; {sys.executable} -m journal_tui log {logged} {file}"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (run.returncode, run.stdout) == (2, "")
    assert f"the disk holding {path} refused: Nothing was half-saved. Check that the disk" in run.stderr
    assert [cli(*argv).out for argv in (["timeline", logged, "--json"], ["history", logged])] == before
    assert cli("log", logged, str(file)).code == 0


@pytest.mark.parametrize("name", ["wide", "hebrew", "bracket", "markdown"])
def test_lists_fit_80_cells_whatever_the_script(cli: Cli, name: str) -> None:
    """Counted by another program's table of widths (rich)."""
    from rich.cells import cell_len

    text = f"{NASTY[name]} " * 12
    cli("job", "add", f"elm {text}", "--address", text)
    cli("note", "elm", "--", text)
    cli("add", "elm", "--area", text, "--", text)
    for argv in (["jobs"], ["job", "show", "elm"], ["timeline", "elm"], ["punch", "elm"], ["history", "elm"]):
        lines = cli(*argv).out.splitlines()
        assert lines and max(cell_len(line) for line in lines) <= 80, argv


def test_two_copies_write_at_once_and_nothing_is_lost(cli: Cli, elm: str, path: Path) -> None:
    runs = [
        subprocess.Popen(
            [sys.executable, "-m", "journal_tui", "--journal", str(path), "note", elm, "-"],
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
        for _ in range(2)
    ]
    for name, run in zip("ab", runs, strict=True):
        assert run.stdin
        run.stdin.write("".join(f"the joist {name}{n} is cracked\n" for n in range(30)))
        run.stdin.close()
    for run in runs:
        assert run.stderr
        assert (run.wait(timeout=60), run.stderr.read()) == (0, "")
        run.stderr.close()
    texts = [e["text"] for v in cli("timeline", elm, "--json").data for e in v["entries"]]
    assert sorted(texts) == sorted(f"the joist {name}{n} is cracked" for name in "ab" for n in range(30))
