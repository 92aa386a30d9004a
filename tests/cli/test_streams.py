"""Outputs that are closed, full, gone or cannot spell, as a shell hands them to the program."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import backup, open_journal
from journal_tui.journal.punch import add
from journal_tui.journal.visits import note

WHOLE = "Zoë’s 3⁄4 in. 床 🛁 is cracked"
PROGRAM = [sys.executable, "-m", "journal_tui"]


def shell(
    line: str, path: Path, *, env: dict[str, str] | None = None, stdin: bytes = b""
) -> subprocess.CompletedProcess[bytes]:
    """Run a shell command line in which ``$RUN`` is the program, on the journal at ``path``."""
    run = f"{sys.executable} -m journal_tui --journal {path}"
    return subprocess.run(
        ["bash", "-c", line.replace("$RUN", run)],
        capture_output=True,
        input=stdin,
        env={**os.environ, **(env or {})},
        timeout=60,
        check=False,
    )


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A journal with text no ASCII terminal can show, and more of it than a pipe holds."""
    path = tmp_path_factory.mktemp("once") / "journal.db"
    journal = open_journal(path)
    job = add_job(journal, "Powder room, 9 Elm Court")
    for text in (WHOLE, *(f"the joist {n} is cracked " + "and split " * 1900 for n in range(4))):
        note(journal, job.id, text)
    add(journal, job.id, WHOLE)
    backup(journal, path.with_name("whole.db"))
    journal.close()
    return path.with_name("whole.db")


@pytest.fixture
def filled(once: Path, tmp_path: Path) -> Path:
    """A copy of it of the test's own."""
    return Path(shutil.copy(once, tmp_path / "journal.db"))


def test_a_reader_that_leaves_early_is_no_traceback(filled: Path) -> None:
    run = shell("$RUN timeline elm | head -1; echo ${PIPESTATUS[0]}", filled)
    assert run.stdout == b"Powder room, 9 Elm Court\n141\n"
    assert run.stderr == b""


@pytest.mark.parametrize("argv", ["timeline elm", "jobs --help", "version", "punch elm --format json"])
def test_closed_output_is_said_in_one_line(filled: Path, argv: str) -> None:
    run = shell(f"$RUN {argv} >&-", filled)
    assert b"Traceback" not in run.stderr
    if "--help" not in argv:
        assert run.returncode == 2
        assert run.stderr.startswith(b"journal-tui: ") and run.stderr.count(b"\n") == 1


@pytest.mark.parametrize(
    "argv", ["timeline elm", "jobs", "punch elm --format csv", "update elm --format html"]
)
def test_a_full_disk_under_the_output_is_said_in_one_line(filled: Path, argv: str) -> None:
    run = shell(f"$RUN {argv} > /dev/full", filled)
    assert run.returncode == 2
    assert run.stderr.startswith(b"journal-tui: cannot write the output (No space left on device): ")
    assert run.stderr.count(b"\n") == 1


def test_what_was_saved_stays_saved_when_its_report_is_lost(filled: Path) -> None:
    before = json.loads(shell("$RUN punch elm --format json", filled).stdout)["open"]
    run = shell("$RUN add elm sweep up > /dev/full", filled)
    assert run.returncode == 2 and b"What was asked is done" in run.stderr
    assert json.loads(shell("$RUN punch elm --format json", filled).stdout)["open"] == before + 1


def test_errors_need_no_standard_error(filled: Path) -> None:
    assert shell("$RUN punch nowhere 2>&-", filled).returncode == 1
    assert shell("$RUN punch nowhere 2>/dev/full", filled).returncode == 1


def test_closed_input_is_bad_input_not_a_traceback(filled: Path) -> None:
    for argv in ("note elm -", "draft -", "log elm -", "update elm --edited -"):
        run = shell(f"$RUN {argv} <&-", filled)
        assert run.returncode == 2
        assert run.stderr == b"journal-tui: standard input is closed: " + run.stderr.split(b": ", 2)[2]
        assert run.stderr.count(b"\n") == 1


@pytest.mark.parametrize("encoding", ["ascii", "cp1252"])
def test_output_that_cannot_spell_shows_question_marks_and_keeps_data_whole(
    filled: Path, encoding: str
) -> None:
    env = {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    text = shell("$RUN timeline elm", filled, env=env)
    assert text.returncode == 0 and b"Zo" in text.stdout and b"?" in text.stdout
    data = json.loads(shell("$RUN punch elm --format json", filled, env=env).stdout.decode(encoding))
    assert WHOLE in [item["text"] for item in data["items"]]
    page = shell("$RUN update elm --format html", filled, env=env).stdout
    assert b"Zo&#235;&#8217;s 3&#8260;4 in. &#24202; &#128705; is cracked" in page
    wrong = shell("$RUN punch 床", filled, env=env)
    assert wrong.returncode == 1 and b'no job is called "?"' in wrong.stderr


def test_a_plain_c_locale_is_no_obstacle(filled: Path) -> None:
    run = shell("$RUN timeline elm", filled, env={"LC_ALL": "C", "LANG": "C"})
    assert run.returncode == 0 and b"is cracked" in run.stdout


def test_stopping_a_run_leaves_the_exit_code_of_a_stop(filled: Path) -> None:
    with subprocess.Popen(
        [*PROGRAM, "--journal", str(filled), "note", "elm", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    ) as run:
        assert run.stdin and run.stderr
        run.stdin.write(b"the flange is cracked\n")
        run.stdin.flush()
        _wait_until_reading(run.pid)
        run.send_signal(signal.SIGINT)
        assert run.wait(timeout=30) == 130
        assert run.stderr.read() == b"journal-tui: stopped: Nothing was half-saved.\n"


def _wait_until_reading(pid: int) -> None:
    """Return once the process sleeps in a read of its standard input (Linux /proc)."""
    import time

    for _ in range(600):
        where = Path(f"/proc/{pid}/wchan").read_text() + Path(f"/proc/{pid}/syscall").read_text()
        if "pipe" in where or where.startswith("00 0x0 "):
            return
        time.sleep(0.05)
    raise AssertionError("it never came to read")
