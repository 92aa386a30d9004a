"""Speech recognised by the real engine with a real model, on speech a synthesiser made."""

from __future__ import annotations

import hashlib
import tomllib
from array import array
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest

from journal_tui.domain.errors import BadInput, CannotRead
from journal_tui.journal.hearing import Listening, draft_file
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.recordings import log_file
from journal_tui.journal.typed import recall
from journal_tui.walkthrough.media.blocks import LONGEST, SHORTEST, blocks, quietest
from journal_tui.walkthrough.media.engine import Heard, WhisperEngine, lines_of
from journal_tui.walkthrough.media.hints import MOST_LETTERS, hint, trade_words, unusual
from journal_tui.walkthrough.media.sound import RATE
from journal_tui.walkthrough.media.speech import Transcript, transcribe
from tests.media.making import make, silence, speech, speech_model, tone, write_wav
from tests.media.word_errors import errors, words_of

#: Of the model's weights as published (OpenAI's tiny.en, MIT licence), converted for the engine.
MODEL_SHA256 = "1a5afae06a4db91c975c9a9d78be5cc110ee4ea022ad57d55492e4550e936b2a"
SAID: list[str] = tomllib.loads((Path(__file__).parent / "sentences.toml").read_text())["said"]


@pytest.fixture(scope="module")
def talk(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[float]]:
    """Every sentence with a pause after it, and the moment each begins."""
    samples, begins = silence(0.5), []
    for sentence in speech(*SAID):
        begins.append(len(samples) / 2 / RATE)
        samples += sentence + silence(0.8)
    return write_wav(tmp_path_factory.mktemp("talk") / "talk.wav", samples), begins


def test_the_model_is_the_published_one() -> None:
    with (speech_model() / "model.bin").open("rb") as file:
        assert hashlib.file_digest(file, "sha256").hexdigest() == MODEL_SHA256


def test_hints_lower_the_word_errors_and_moments_hold(talk: tuple[Path, list[float]]) -> None:
    path, begins = talk
    plain, _ = transcribe(path, WhisperEngine(speech_model()), 0.0)
    hinted, _ = transcribe(path, WhisperEngine(speech_model(), hint([])), 0.0)
    reference = words_of(" ".join(SAID))
    without = errors(reference, words_of(" ".join(line[2] for line in plain.lines))) / len(reference)
    with_hints = errors(reference, words_of(" ".join(line[2] for line in hinted.lines))) / len(reference)
    assert with_hints < 0.14
    assert with_hints < without - 0.03
    # A line that opens a sentence begins when the sentence does.
    starts = [start for start, _end, _words in hinted.lines]
    near = sum(min(abs(start - begin) for start in starts) < 0.5 for begin in begins)
    assert near >= len(begins) * 0.8


def test_log_goes_all_the_way_from_speech(tmp_path: Path, journal: Journal) -> None:
    job = add_job(journal, name="Hall bath")
    (said,) = speech(
        "The toilet flange is rusted through. We need to replace the flange before the subfloor goes down."
    )
    path = make(tmp_path / "walk.m4a", sound=silence(1) + said + silence(1))
    drafting = draft_file(path, None, Listening(journal, job, model=speech_model()))
    assert drafting.notices[0].startswith("words: recognised by faster-whisper, ")
    place = f"speech/{drafting.captions.sha256}"
    assert recall(journal, place), "kept until it is logged"
    logged = log_file(journal, job.id, path)
    assert logged.drafts >= 2, "the model named once is used from then on"
    assert logged.visit.recording_name == "walk.m4a"
    assert recall(journal, place) == ""


class Stopped(Exception):
    pass


@dataclass
class Loudness:
    """An engine that tells tones from silence, for what does not depend on words."""

    name: str = "loudness"
    blocks: list[int] = field(default_factory=list)

    def hear(self, samples: bytes) -> list[Heard]:
        self.blocks.append(len(samples))
        heard, at = array("h", samples), 0
        lines: list[Heard] = []
        while at < len(heard):
            if any(abs(y) > 4000 for y in heard[at : at + 40]):
                end = at
                while end < len(heard) and any(abs(y) > 4000 for y in heard[end : end + 800]):
                    end += 800
                lines.append(Heard(at / RATE, min(end, len(heard)) / RATE, f"tone {len(lines)}"))
                at = end
            at += 400
        return lines


def test_stopped_work_goes_on_where_it_was(tmp_path: Path) -> None:
    path = write_wav(tmp_path / "a.wav", (silence(4) + tone(1)) * 16)
    at_once = Loudness()
    whole, _ = transcribe(path, at_once, 80.0)
    kept: list[str] = []
    first = Loudness()

    def stop_after_two(_done: float, _all: float) -> None:
        if len(kept) == 2:
            raise Stopped

    with pytest.raises(Stopped):
        transcribe(path, first, 80.0, keep=kept.append, told=stop_after_two)
    second = Loudness()
    resumed, _ = transcribe(path, second, 80.0, kept=kept[-1])
    assert len(first.blocks) == 2
    assert first.blocks + second.blocks == at_once.blocks, "nothing is heard twice"
    assert [round(line[0], 1) for line in resumed.lines] == [4.0 + 5 * n for n in range(16)]
    assert [round(line[0], 2) for line in resumed.lines] == [round(line[0], 2) for line in whole.lines]
    assert resumed.whole


def test_work_of_another_engine_is_not_taken_up() -> None:
    kept = Transcript("one", 30.0, [(1.0, 2.0, "words")]).as_text()
    assert Transcript.from_text(kept, "one").heard_to == 30.0
    for text in (kept.replace("one", "two"), "", "[]", "{", '["one", "x", []]', "null"):
        assert Transcript.from_text(text, "one").lines == []


def test_blocks_lose_nothing_and_are_cut_in_pauses() -> None:
    samples = (tone(7) + silence(0.5)) * 12
    made = list(blocks((samples[n : n + 7_001 * 2] for n in range(0, len(samples), 7_001 * 2)), 0.0))
    assert b"".join(block for _start, block in made) == samples
    for (start, block), (following, _) in pairwise(made):
        assert following == pytest.approx(start + len(block) / 2 / RATE)
        assert SHORTEST <= len(block) / 2 / RATE <= LONGEST
        assert following % 7.5 > 6.9, "in a pause"
    assert quietest(tone(20) + silence(0.5) + tone(7.5)) / 2 / RATE == pytest.approx(20.25, abs=0.16)


def test_a_hint_holds_the_jobs_words_first_and_stays_short() -> None:
    text = hint(["north alcove", "zellige", "north alcove", *(f"area number {n}" for n in range(500))])
    assert text.startswith("Walking the job: north alcove, zellige, area number 0,")
    assert len(text) <= MOST_LETTERS
    assert text.count("north alcove") == 1
    assert sum(word in text for word in trade_words()) > 20, "the trade's words are not crowded out"
    assert unusual(["The zellige tile and the Zellige grout go with terrazzo."]) == ["zellige", "terrazzo"]


def test_words_become_lines_at_pauses_and_sentences() -> None:
    words = [(0.0, 0.4, " Soft"), (0.5, 0.9, " floor."), (1.0, 1.4, " Rusted"), (3.0, 3.4, " flange")]
    assert lines_of(words) == [
        Heard(0.0, 0.9, "Soft floor."),
        Heard(1.0, 1.4, "Rusted"),
        Heard(3.0, 3.4, "flange"),
    ]
    assert lines_of([]) == []


def test_noise_without_speech_makes_no_words(tmp_path: Path, journal: Journal) -> None:
    random = Random(11)
    noise = array("h", (round(random.gauss(0, 900)) for _ in range(6 * RATE))).tobytes()
    path = write_wav(tmp_path / "walk.wav", noise)
    with pytest.raises(CannotRead, match=r"no words were heard in walk\.wav"):
        draft_file(path, None, Listening(journal, model=speech_model()))


def test_a_folder_with_the_names_but_no_model_is_refused(tmp_path: Path) -> None:
    for name in ("model.bin", "config.json", "tokenizer.json", "vocabulary.txt"):
        (tmp_path / name).write_text("{}")
    with pytest.raises(BadInput, match="no speech model that can be used"):
        WhisperEngine(tmp_path)
