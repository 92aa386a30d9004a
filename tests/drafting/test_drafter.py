"""The drafter as its callers use it: talk in, drafts out."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal_tui.domain.draft import Draft, JobWords, OwnWord
from journal_tui.domain.kinds import Kind
from journal_tui.domain.recording import Captions, Cue
from journal_tui.walkthrough.drafting import draft_entries, draft_note, learned_from, talk_notices


def talk(*lines: str, gap: float = 4.0) -> Captions:
    """Return captions of ``lines``, ``gap`` seconds each."""
    cues = tuple(Cue(i * gap, (i + 1) * gap - 0.2, line) for i, line in enumerate(lines))
    return Captions("t.vtt", "webvtt", cues, "\n".join(lines), "")


def kinds(drafts: tuple[Draft, ...]) -> list[Kind]:
    """Return the kinds of ``drafts`` in order."""
    return [d.kind for d in drafts]


def test_talk_becomes_drafts_in_order() -> None:
    drafts = draft_entries(
        talk(
            "The joist by the tub is rotten.",
            "We need to sister that joist before the plywood goes down.",
            "She picked the gray tile instead of the white.",
        )
    )
    assert kinds(drafts) == [Kind.OBSERVATION, Kind.NEXT_STEP, Kind.DECISION]
    assert [d.start for d in drafts] == sorted(d.start for d in drafts)
    assert all(d.why and d.heard and d.text for d in drafts)


def test_the_same_talk_gives_the_same_drafts() -> None:
    captions = talk("We need to order the tub drain.", "The valve drips on the hot side.")
    assert draft_entries(captions) == draft_entries(captions)


def test_no_words_no_drafts() -> None:
    assert draft_entries(talk()) == ()
    assert draft_entries(talk("[music]", "♪ la la la ♪")) == ()


def test_a_typed_line_is_never_nothing_and_keeps_its_text() -> None:
    (draft,) = draft_note("need to move the vanity drain 3 in left")
    assert (draft.kind, draft.phase, draft.area) == (Kind.NEXT_STEP, "rough plumbing", "vanity")
    assert draft.text == "need to move the vanity drain 3 in left"
    (odd,) = draft_note("zzz")
    assert odd.text == "zzz"
    assert draft_note("   ") == ()


def test_own_words_are_learned_and_used_in_sight() -> None:
    (before,) = draft_note("pull the old chase cover, drain behind it leaks")
    (after,) = draft_note(
        "pull the old chase cover, drain behind it leaks",
        JobWords(own=(OwnWord("drain", area="powder room", phase="trim"),)),
    )
    assert (after.area, after.phase, after.learned) == ("powder room", "trim", ("drain",))
    assert "drain" in after.why and before.learned == ()
    own = learned_from(before.heard, before, after)
    assert own is not None and own.phrase and (own.area, own.phase) == ("powder room", "trim")
    assert learned_from(before.heard, before, before) is None


@pytest.mark.parametrize(
    ("said", "area", "phrase"),
    [
        ("swing the door out", "whole room", None),
        ("the electrician comes Monday", "back bedroom", None),
        ("the sink is chipped", "bar sink", "sink"),
        ("the door is scratched", "back door", "door"),
        ("cap the old hose bib", "side yard", "hose bib"),
    ],
)
def test_a_place_or_a_person_teaches_no_other_place(said: str, area: str, phrase: str | None) -> None:
    (before,) = draft_note(said)
    own = learned_from(said, before, replace(before, area=area))
    assert (own.phrase if own else None) == phrase


def test_notices_of_talk_that_is_no_talk() -> None:
    assert "English" in talk_notices(talk("el piso del baño está podrido y hay que cambiarlo todo mañana"))[0]
    assert "numbers" in talk_notices(talk("12 14 16 18"))[0]
    assert "No words" in talk_notices(talk("[silence]"))[0]
    assert talk_notices(talk("The floor is soft and we need to look at it.")) == ()
