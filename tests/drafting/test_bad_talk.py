"""Talk that is no walk-through at all, or too much of one."""

from __future__ import annotations

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from journal_tui.domain.kinds import Kind
from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting import draft_entries, draft_note, talk_notices


def talk(*lines: str, seconds: float = 4.0, speakers: tuple[str, ...] = ()) -> Captions:
    """Return captions of ``lines``."""
    cues = tuple(
        Cue(n * seconds, (n + 1) * seconds - 0.1, line, speakers[n % len(speakers)] if speakers else None)
        for n, line in enumerate(lines)
    )
    return Captions("t.vtt", "webvtt", cues, "", "")


@pytest.mark.parametrize(
    "line",
    [
        "el piso del baño está podrido y tenemos que cambiarlo todo antes del lunes",
        "der Boden im Bad ist verfault und wir müssen ihn vor Montag ersetzen",
        "le plancher de la salle de bain est pourri et il faut le remplacer avant lundi",
        "浴室的地板烂了我们必须在星期一之前更换它",
    ],
)
def test_other_languages_are_named_and_drafted_from_not_at_all(line: str) -> None:
    captions = talk(line, line)
    assert draft_entries(captions) == ()
    (notice,) = talk_notices(captions)
    assert "English" in notice


def test_lyrics_and_an_hour_of_silence_give_nothing() -> None:
    # The notes around sung words are how captions mark song (common practice, no source).
    assert draft_entries(talk("♪ oh the floor is gone ♪", "♪ tear it down ♪")) == ()
    assert draft_entries(talk(*["[silence]"] * 900)) == ()
    assert talk_notices(talk(*["[silence]"] * 900))


def test_only_numbers_give_nothing() -> None:
    captions = talk("12 14 16", "3/4 5/8 18.5")
    assert draft_entries(captions) == ()
    assert "numbers" in talk_notices(captions)[0]


def test_one_cue_of_fifty_thousand_words_is_drafted_in_good_time() -> None:
    line = "and the valve drips so we need to replace it before the tile goes up " * 3600
    began = time.perf_counter()
    drafts = draft_entries(talk(line, seconds=18000.0))
    assert time.perf_counter() - began < 30
    assert drafts and all(0 <= d.start <= d.end <= 18000.0 for d in drafts)
    assert all(len(d.heard.split()) < 200 for d in drafts)


def test_ten_speakers() -> None:
    names = tuple(f"Speaker {n}" for n in range(10))
    lines = ["The joist by the tub is rotten.", "We need to sister that joist.", "Okay.", "Sure."] * 10
    drafts = draft_entries(talk(*lines, speakers=names))
    assert {d.kind for d in drafts} >= {Kind.OBSERVATION, Kind.NEXT_STEP}


def test_profanity_stays_in_the_record_and_out_of_the_text() -> None:
    drafts = draft_entries(
        talk("The damn valve is leaking all over the shitty subfloor.", "We need to replace the damn valve.")
    )
    assert drafts
    for draft in drafts:
        assert "damn" not in draft.text.lower() and "shit" not in draft.text.lower()
    assert any("damn" in draft.heard for draft in drafts)


def test_a_plan_taken_back_gives_way_to_the_one_that_replaces_it() -> None:
    drafts = draft_entries(
        talk(
            "We're going with half inch plywood on the floor.",
            "No, scratch that, we're going with three quarter plywood on the floor.",
        )
    )
    texts = " | ".join(d.text for d in drafts)
    assert "three quarter" in texts and "half inch" not in texts


def test_what_is_said_twice_is_one_entry() -> None:
    line = "We need to order the marble threshold for the hall door."
    assert len(draft_entries(talk(line, "Okay so that's the hall.", line))) == 1


@settings(max_examples=60, deadline=None)
@given(st.lists(st.text(max_size=60), max_size=6), st.text(max_size=80))
def test_any_text_at_all_is_survived(lines: list[str], note: str) -> None:
    captions = talk(*lines)
    for draft in draft_entries(captions):
        assert draft.text and len(draft.text.split()) <= 24
    talk_notices(captions)
    assert len(draft_note(note)) <= 1


def test_talk_without_any_sense_is_survived() -> None:
    line = (
        "tomorrow rot under kitchen move kitchen left shutoff tub wall rot rot left okay so "
        "plumber drain the three okay"
    )
    for draft in draft_entries(talk(line)):
        assert draft.text and len(draft.text.split()) <= 24
