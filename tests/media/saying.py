"""A voice: says each text of a JSON list on standard input, and prints the samples as a JSON list."""

from __future__ import annotations

import base64
import ctypes
import json
import sys

import av
import espeakng_loader  # type: ignore[import-untyped]

RATE = 16_000
_SPOKEN = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)
#: Of eSpeak NG's speak_lib.h: samples are handed to a callback; the rate of speech; text as UTF-8.
_RETRIEVAL, _RATE_OF_SPEECH, _UTF8 = 1, 1, 1


def main() -> None:
    """Say what is on standard input."""
    lib = ctypes.CDLL(espeakng_loader.get_library_path())
    rate = lib.espeak_Initialize(_RETRIEVAL, 0, espeakng_loader.get_data_path().encode(), 0)
    said = bytearray()

    def take(samples: ctypes._Pointer[ctypes.c_short], count: int, _events: object) -> int:
        if samples and count:
            said.extend(ctypes.string_at(samples, count * 2))
        return 0

    callback = _SPOKEN(take)
    lib.espeak_SetSynthCallback(callback)
    lib.espeak_SetVoiceByName(b"en-us")
    lib.espeak_SetParameter(_RATE_OF_SPEECH, 150, 0)
    pieces = []
    for text in json.load(sys.stdin):
        said.clear()
        data = text.encode()
        lib.espeak_Synth(ctypes.c_char_p(data), len(data) + 1, 0, 0, 0, _UTF8, None, None)
        lib.espeak_Synchronize()
        pieces.append(base64.b64encode(_resampled(bytes(said), rate)).decode())
    print(json.dumps(pieces))


def _resampled(samples: bytes, rate: int) -> bytes:
    frame = av.AudioFrame(format="s16", layout="mono", samples=len(samples) // 2)
    frame.planes[0].update(samples + bytes(frame.planes[0].buffer_size - len(samples)))
    frame.sample_rate = rate
    resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)
    made = [*resampler.resample(frame), *resampler.resample(None)]
    return b"".join(bytes(out.planes[0])[: out.samples * 2] for out in made)


if __name__ == "__main__":
    main()
