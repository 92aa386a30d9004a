"""A short invented walk-through for tests of the service."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Kind, Party
from journal_tui.journal.visits import Drafting, read_and_draft

TALK = """WEBVTT

00:00:01.000 --> 00:00:06.000
Okay, this is the powder room, first visit.

00:00:06.500 --> 00:00:12.000
The closet flange is cracked at three o'clock.

00:00:12.500 --> 00:00:18.000
We're going with a stainless repair ring instead of a new flange.

00:00:18.500 --> 00:00:24.000
I need to order the repair ring tomorrow.

00:00:24.500 --> 00:00:31.000
Ask the owner which vanity light she wants.
"""


def write_talk(folder: Path, name: str = "walk.vtt", extra: str = "") -> Path:
    """Write the walk-through as a WebVTT file and return its path."""
    path = folder / name
    path.write_text(TALK + extra, encoding="utf-8")
    return path


def _draft(
    start: float, end: float, kind: Kind, phase: str, text: str, *, owed: bool, who: Party | None
) -> Draft:
    return Draft(start, end, kind, phase, "toilet", text, owed, who, (), "by hand", f"{text}.")


#: What a careful reader makes of the walk-through, so that the service is tested apart from the drafter.
BY_HAND = (
    _draft(
        6.5, 12.0, Kind.OBSERVATION, "rough plumbing", "The closet flange is cracked", owed=True, who=None
    ),
    _draft(
        12.5,
        18.0,
        Kind.DECISION,
        "rough plumbing",
        "Repair ring, not a new flange",
        owed=False,
        who=Party.CREW,
    ),
    _draft(18.5, 24.0, Kind.NEXT_STEP, "rough plumbing", "Order the repair ring", owed=True, who=Party.CREW),
    _draft(
        24.5, 31.0, Kind.NEXT_STEP, "trim", "Ask the owner which light she wants", owed=True, who=Party.CLIENT
    ),
)


def drafted_by_hand(folder: Path) -> Drafting:
    """Return the walk-through read by the real reader, with the drafts a person would make of it."""
    return replace(read_and_draft(write_talk(folder)), drafts=BY_HAND)
