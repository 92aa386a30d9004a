"""A recording of a sentence or two was made to say something."""

from __future__ import annotations

import pytest

from journal_tui.domain.kinds import Kind, Party
from journal_tui.walkthrough.captions import read_text
from journal_tui.walkthrough.drafting import draft_entries, draft_note


def _drafted(line: str) -> list[str]:
    return [d.text for d in draft_entries(read_text("walk.txt", f"[0:02] {line}\n".encode()))]


@pytest.mark.parametrize(
    "line",
    [
        "The joist is notched and needs a sister.",
        "The toilet flange is rusted through.",
        "The vanity drain is leaking.",
        "We're keeping the tub.",
        "Call the plumber.",
        "Grout cracked, tub corner.",
    ],
)
def test_one_plain_sentence_is_a_draft(line: str) -> None:
    assert len(_drafted(line)) == 1


@pytest.mark.parametrize(
    "line",
    [
        "Hello, good morning.",
        "Is this thing on?",
        "Old houses always move a little.",
        "If those had come out brown we'd be sistering.",
        "El inodoro está roto y hay que cambiarlo mañana.",
    ],
)
def test_a_greeting_a_saying_or_another_language_is_none(line: str) -> None:
    assert _drafted(line) == []


@pytest.mark.parametrize(
    ("line", "kind", "who"),
    [
        ("patch the drywall by the tub", Kind.NEXT_STEP, Party.CREW),
        ("order 4 boxes of floor tile", Kind.NEXT_STEP, Party.CREW),
        ("cap the old gas line", Kind.NEXT_STEP, Party.CREW),
        ("get 3 sheets of half inch ply", Kind.NEXT_STEP, Party.CREW),
        ("I need to strap the supply behind the client's washer", Kind.NEXT_STEP, Party.CREW),
        ("going with the gray grout", Kind.DECISION, None),
        ("flange is loose", Kind.OBSERVATION, None),
        ("the subfloor is soft at the flange", Kind.OBSERVATION, None),
    ],
)
def test_a_typed_line_is_taken_for_what_it_says(line: str, kind: Kind, who: Party | None) -> None:
    (draft,) = draft_note(line)
    assert draft.kind is kind and (who is None or draft.who is who)
