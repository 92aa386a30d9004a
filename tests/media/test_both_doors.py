"""A recording logged from the command line and on the screen: told how far, stopped, taken up again."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from journal_tui.cli.meter import meter
from journal_tui.cli.program import run
from journal_tui.journal import stills
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import timeline
from journal_tui.screens.logging import LogScreen
from journal_tui.screens.review import ReviewScreen
from journal_tui.walkthrough.media import engine as engines
from journal_tui.walkthrough.media.engine import Heard
from tests.media.making import make, pictures, silence, tone, write_wav
from tests.screens.seeing import app_on, seen, until, worked

CUES = [(0.5, 2.5, "We need to replace the toilet flange before the subfloor goes down.")]


@dataclass
class Engine:
    """Hears a next step in each block; ``before`` is called first, with how many were heard before it."""

    before: Callable[[int], None] = lambda _count: None
    name: str = "stand-in"
    heard: list[int] = field(default_factory=list)

    def __call__(self, _model: Path, hint: str) -> Engine:
        assert "Hall" not in hint, "the job's name is no hint"
        return self

    def hear(self, samples: bytes) -> list[Heard]:
        self.before(len(self.heard))
        self.heard.append(len(samples))
        return [Heard(1.0, 4.0, f"We need to replace {len(self.heard)} joists under the tub.")]


@pytest.fixture
def listening(monkeypatch: pytest.MonkeyPatch) -> Callable[[Engine], Engine]:
    def use(engine: Engine) -> Engine:
        monkeypatch.setattr(engines, "WhisperEngine", engine)
        monkeypatch.setattr(engines, "cached_model", lambda: Path("/a model"))
        return engine

    return use


@pytest.fixture
def downloads() -> Path:
    folder = Path.home() / "Downloads"
    folder.mkdir(parents=True)
    return folder


def test_log_says_source_stills_and_drafts(
    journal: Journal, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    add_job(journal, "Hall bath")
    path = make(tmp_path / 'it\'s "it".mp4', frames=pictures(40), sound=silence(4), cues=CUES)
    assert run(["--journal", str(journal.path), "log", "hall", str(path)]) == 0
    out = capsys.readouterr()
    assert "1 of 1 drafts has a still picture." in out.out
    assert "words: from the text track inside it" in out.err
    assert run(["--journal", str(journal.path), "log", "hall", str(path)]) == 2
    assert "Then say --again." in capsys.readouterr().err
    assert run(["draft", str(path)]) == 0
    assert "flange" in capsys.readouterr().out


def test_stopped_in_the_shell_it_goes_on_with_the_same_command(
    journal: Journal,
    tmp_path: Path,
    listening: Callable[[Engine], Engine],
    capsys: pytest.CaptureFixture[str],
) -> None:
    job = add_job(journal, "Hall bath")
    path = write_wav(tmp_path / "walk.wav", tone(75))

    def stop(count: int) -> None:
        if count == 2 and not stopped:
            stopped.append(True)
            raise KeyboardInterrupt

    stopped: list[bool] = []
    engine = listening(Engine(stop))
    command = ["--journal", str(journal.path), "log", "hall", str(path)]
    assert run(command) == 130
    assert "what was heard of a recording so far is kept" in capsys.readouterr().err
    assert timeline(journal, job.id) == []
    assert run(command) == 0
    assert sum(engine.heard) == 75 * 32_000, "every sample is heard once"
    starts = [row["start"] for row in journal.store.rows("SELECT start FROM cues ORDER BY start")]
    ends = [sum(engine.heard[:n]) / 32_000 for n in range(len(engine.heard))]
    assert starts == pytest.approx([end + 1.0 for end in ends])


def test_the_meter_shows_only_where_somebody_watches(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    with meter() as tell:
        tell("listening", 0.5)
    assert capsys.readouterr().err == ""
    monkeypatch.setattr("sys.stderr.isatty", lambda: True)
    with meter() as tell:
        tell("listening to it's \x1b[31m: 0:30 of 1:00, about 20 s left", 0.5)
    told = capsys.readouterr().err
    assert told.startswith("\r 50% listening to it's ␛[31m: 0:30 of 1:00")
    assert told.endswith("\r"), "the line is gone in the end"


async def test_the_screen_goes_all_the_way(journal: Journal, downloads: Path) -> None:
    job = add_job(journal, "Hall bath")
    make(downloads / "walk.mp4", frames=pictures(40), sound=silence(4), cues=CUES)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await until(pilot, lambda: "walk.mp4" in seen(app))
        await pilot.press("enter")
        await worked(pilot)
        await until(pilot, lambda: isinstance(app.screen, ReviewScreen))
        await until(pilot, lambda: "1 drafts, 1 stills. words: from the text track inside it" in seen(app))
    (logged,) = timeline(journal, job.id)
    assert stills.count(journal, logged.visit.id) == 1


async def test_stopped_on_the_screen_it_goes_on(
    journal: Journal, downloads: Path, listening: Callable[[Engine], Engine]
) -> None:
    job = add_job(journal, "Hall bath")
    write_wav(downloads / "walk.wav", tone(75))
    reached, go_on = threading.Event(), threading.Event()

    def wait(count: int) -> None:
        if count == 2 and not go_on.is_set():
            reached.set()
            go_on.wait(10)

    engine = listening(Engine(wait))
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("l")
        await until(pilot, lambda: "walk.wav" in seen(app))
        await pilot.press("enter")
        await until(pilot, reached.is_set)
        await until(pilot, lambda: "listening to walk.wav: 0:" in seen(app))
        await pilot.press("escape")
        go_on.set()
        await worked(pilot)
        assert "The words heard so far are kept" in seen(app)
        assert isinstance(app.screen, LogScreen)
        assert timeline(journal, job.id) == []
        await pilot.press("enter")
        await worked(pilot)
        await until(pilot, lambda: isinstance(app.screen, ReviewScreen))
    assert sum(engine.heard) == 75 * 32_000
