"""The text track inside a recording, as WebVTT."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from journal_tui.domain.times import webvtt_stamp
from journal_tui.walkthrough.media.container import beginning, only, opened

if TYPE_CHECKING:
    from av.container import InputContainer

#: A caption shown until the next one says no end; nobody speaks one line longer than this.
_LONGEST = 8.0
#: Broken packets in a row after which the rest of a track is given up.
_MOST_BAD = 200


def text_track(path: Path) -> str | None:
    """Return the words of a recording's first text track as WebVTT; None when it has no words in one.

    Raises ``NotInstalled`` and ``CannotRead``. English is preferred to other languages.
    """
    with opened(path) as container:
        tracks = sorted(container.streams.subtitles, key=lambda s: s.language not in ("eng", "en"))
        for track in tracks:
            cues = _cues(container, track)
            if cues:
                return as_webvtt(cues)
            container.seek(0)
    return None


def _cues(container: InputContainer, track: Any) -> list[tuple[float, float, str]]:
    import av

    only(container, track)
    cues: list[tuple[float, float, str]] = []
    start = beginning(container)
    packets = container.demux(track)
    bad = 0
    while bad < _MOST_BAD:
        try:
            packet = next(packets)
        except StopIteration:
            break
        except av.error.FFmpegError:
            bad += 1
            continue
        if packet.pts is None or packet.time_base is None:
            continue
        try:
            words = _words(packet)
        except av.error.FFmpegError:
            bad += 1
            continue
        bad = 0
        begins = float(packet.pts * packet.time_base) - start
        lasts = float((packet.duration or 0) * packet.time_base) or _LONGEST
        if words:
            cues.append((max(0.0, begins), max(0.0, begins) + min(lasts, 60.0), words))
    return cues


def _words(packet: Any) -> str:
    lines = []
    for shown in packet.decode():
        for rect in shown if hasattr(shown, "__iter__") else [shown]:
            said = getattr(rect, "dialogue", None) or getattr(rect, "text", None) or b""
            lines.append(said.decode("utf-8", "replace"))
    return "\n".join(line for text in lines for line in text.replace("\\N", "\n").split("\n") if line.strip())


def as_webvtt(cues: list[tuple[float, float, str]]) -> str:
    """Return (start, end, words) as WebVTT: seconds, in order, words as plain text."""
    blocks = ["WEBVTT"]
    for start, end, words in cues:
        text = words.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        lines = "\n".join(line.strip() for line in text.replace("\r", "\n").split("\n") if line.strip())
        if lines:
            blocks.append(f"{webvtt_stamp(start)} --> {webvtt_stamp(max(end, start + 0.001))}\n{lines}")
    return "\n\n".join(blocks) + "\n"
