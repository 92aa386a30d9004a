"""A speech engine: what any of them must do, and the one there is."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.walkthrough.media.needs import SPEECH, needed
from journal_tui.walkthrough.media.sound import RATE

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Models looked for among those already on this machine, the best that a laptop keeps up with first.
CACHED_MODELS = ("small.en", "small", "base.en", "base", "tiny.en", "tiny", "distil-small.en", "medium.en")
_FILES = ("model.bin", "config.json", "tokenizer.json")
_FULL_SCALE = 32768.0


@dataclass(frozen=True, slots=True)
class Heard:
    """Words recognised between ``start`` and ``end`` (seconds from the beginning of the block)."""

    start: float
    end: float
    text: str


class SpeechEngine(Protocol):
    """What turns sound into words."""

    @property
    def name(self) -> str:
        """What it is called where the source of words is named; the same name means the same words."""

    def hear(self, samples: bytes) -> list[Heard]:
        """Return what is said in at most 30 s of sound (16-bit, one channel, 16,000 a second)."""


class WhisperEngine:
    """Recognition with faster-whisper and a model in a folder; nothing is fetched or sent.

    ``hint`` is text with the words to expect; the engine takes about 220 word pieces of it.
    """

    def __init__(self, model: Path, hint: str = "") -> None:
        # The library would ask its makers' server about a model; it must not, whatever is set.
        os.environ["HF_HUB_OFFLINE"] = "1"
        faster_whisper = needed("faster_whisper", SPEECH, "recognising speech")
        self._np = needed("numpy", SPEECH, "recognising speech")
        self._seed = needed("ctranslate2", SPEECH, "recognising speech").set_random_seed
        self._folder = checked_model(model)
        self._hint = hint
        try:
            self._model = faster_whisper.WhisperModel(
                str(self._folder), device="cpu", compute_type="int8", local_files_only=True
            )
        except (RuntimeError, ValueError, OSError) as error:
            raise BadInput(
                f"{one_line(str(model))} is no speech model that can be used",
                f"{one_line(str(error))[:120]}. Name another folder with --speech-model.",
            ) from None

    @property
    def name(self) -> str:
        """The engine and its model, by the folder it is in."""
        return f"faster-whisper, {model_name(self._folder)}"

    def hear(self, samples: bytes) -> list[Heard]:
        """Return what is said in at most 30 s of sound."""
        sound: NDArray[Any] = self._np.frombuffer(samples, dtype=self._np.int16)
        # Where the likeliest words make no sense the engine draws others by lot: the same ones each time.
        self._seed(0)
        found, _info = self._model.transcribe(
            sound.astype(self._np.float32) / _FULL_SCALE,
            language="en",
            beam_size=5,
            # A slip in one block must not be carried on through the rest of the walk.
            condition_on_previous_text=False,
            initial_prompt=self._hint or None,
            vad_filter=True,
            word_timestamps=True,
        )
        longest = len(sound) / RATE
        words = [word for part in found for word in part.words or ()]
        return lines_of([(min(w.start, longest), min(w.end, longest), w.word) for w in words])


#: A line of words ends at a pause this long, at the end of a sentence, or when it is this long.
_PAUSE = 0.7
_LONGEST_LINE = 6.0


def lines_of(words: list[tuple[float, float, str]]) -> list[Heard]:
    """Return words (start, end, text with its leading blank) as lines such as captions show."""
    lines: list[Heard] = []
    now: list[tuple[float, float, str]] = []
    for word in words:
        if now and (
            word[0] - now[-1][1] > _PAUSE
            or now[-1][2].rstrip().endswith((".", "?", "!"))
            or word[1] - now[0][0] > _LONGEST_LINE
        ):
            lines.append(_line(now))
            now = []
        now.append(word)
    return [*lines, *([_line(now)] if now else [])]


def _line(words: list[tuple[float, float, str]]) -> Heard:
    return Heard(words[0][0], words[-1][1], "".join(w[2] for w in words).strip())


def checked_model(folder: Path) -> Path:
    """Return the folder of a model. Raises ``BadInput`` when it holds none."""
    shown = one_line(str(folder))
    if not folder.is_dir():
        raise BadInput(f"{shown}: no such folder", "Name the folder a speech model is in.")
    missing = [name for name in _FILES if not (folder / name).is_file()]
    if missing:
        raise BadInput(
            f"{shown} holds no speech model",
            f"{missing[0]} is missing; the folder of a model has {', '.join(_FILES)} in it.",
        )
    return folder.resolve()


def model_name(folder: Path) -> str:
    """Return what a model is called: its folder, or the one above where that says nothing."""
    if folder.parent.name == "snapshots":
        # How the library lays out what was fetched before: models--MAKER--NAME/snapshots/VERSION.
        return one_line(folder.parent.parent.name.rpartition("--")[2])
    return one_line(f"{folder.parent.name}/model" if folder.name == "model" else folder.name)


def cached_model() -> Path | None:
    """Return the folder of a model this machine has from before, None when there is none."""
    os.environ["HF_HUB_OFFLINE"] = "1"
    utils = needed("faster_whisper.utils", SPEECH, "recognising speech")
    for name in CACHED_MODELS:
        try:
            return checked_model(Path(utils.download_model(name, local_files_only=True)))
        except (OSError, ValueError, BadInput):
            continue
    return None
