"""Stepping through the client's video: a WebVTT chapters file, and a description with time marks.

Made of what the client may read, each chapter at the moment it was said. HTML asks of a track of kind
"chapters" that it be a "WebVTT file using chapter title text" (words and character references, no tags)
and "using only nested cues" (W3C WebVTT; chapters that follow one another are).
"""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.documents.voice import to_reader
from journal_tui.documents.wording import capital, data_table, full_day, sentence
from journal_tui.domain.document import Chapter, ChapterFacts, MomentFact
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock, webvtt_stamp

#: Things said closer together than this (seconds) share a chapter: a player cannot step to less.
_APART = 3.0
#: A title is read at a glance beside the picture (common practice, no source).
_LONGEST_TITLE = 70
#: An opening shorter than this (seconds) is no chapter of its own.
_OPENING = 3.0


def chapters(facts: ChapterFacts) -> tuple[Chapter, ...]:
    """Return the chapters in order, from 0:00 to the end without a gap; () when nothing may be told."""
    groups = _groups(sorted(facts.moments, key=lambda moment: moment.start))
    if not groups:
        return ()
    marks = [(group[0].start, _title(group), _told(group)) for group in groups]
    if marks[0][0] < _OPENING:
        marks[0] = (0.0, *marks[0][1:])
    else:
        start = str(data_table("chapters.toml")["start"])
        marks.insert(0, (0.0, start, (f"{start}.",)))
    ends = [mark[0] for mark in marks[1:]] + [max(facts.length, marks[-1][0] + 1.0)]
    return tuple(
        Chapter(start, end, title, lines) for (start, title, lines), end in zip(marks, ends, strict=True)
    )


def _groups(moments: Sequence[MomentFact]) -> list[list[MomentFact]]:
    groups: list[list[MomentFact]] = []
    for moment in moments:
        if not one_line(moment.text):
            continue
        if groups and moment.start - groups[-1][0].start < _APART:
            groups[-1].append(moment)
        else:
            groups.append([moment])
    return groups


def _title(group: Sequence[MomentFact]) -> str:
    more = f" (and {len(group) - 1} more)" if len(group) > 1 else ""
    whole = _line(group[0]).rstrip(".")
    room = _LONGEST_TITLE - len(more)
    if len(whole) > room:
        short = whole[: room - 1]
        # Cut between words where there is a blank in the later half.
        at = short.rfind(" ")
        whole = f"{(short[:at] if at > room // 2 else short).rstrip(' ,;:')}…"
    return whole + more


def _told(group: Sequence[MomentFact]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(_line(moment) for moment in group))


def _line(moment: MomentFact) -> str:
    kind = str(data_table("chapters.toml")["kinds"][moment.kind.value])
    area = one_line(moment.area)
    said = sentence(to_reader(moment.text))
    return f"{kind}, {area}: {said}" if area else f"{kind}: {capital(said)}"


def chapters_webvtt(facts: ChapterFacts) -> str:
    """Return the chapters as a WebVTT file of ``kind="chapters"``; "" when there are none."""
    made = chapters(facts)
    if not made:
        return ""
    blocks = ["WEBVTT"]
    for chapter in made:
        title = chapter.title.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
        blocks.append(f"{webvtt_stamp(chapter.start)} --> {webvtt_stamp(chapter.end)}\n{title}")
    return "\n\n".join(blocks) + "\n"


def video_description(facts: ChapterFacts) -> str:
    """Return a few lines to put beside the video: what it is, then ``m:ss`` and what is told there."""
    made = chapters(facts)
    if not made:
        return ""
    lines = [f"{one_line(facts.title)}, {full_day(facts.day)}", ""]
    for chapter in made:
        first, *more = chapter.lines
        mark = clock(chapter.start)
        lines += [f"{mark} {first}", *(f"{' ' * len(mark)} {line}" for line in more)]
    return "\n".join(lines) + "\n"
