"""What is said in confidence stays private, and coarse words stay out of what is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.secrecy import in_confidence
from journal_tui.walkthrough.captions import read_captions
from journal_tui.walkthrough.drafting import draft_entries, draft_note
from journal_tui.walkthrough.drafting.confidence import audience_of, private_in
from journal_tui.walkthrough.drafting.linear import trained
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.utterances import Utterance, utterances_of
from journal_tui.walkthrough.drafting.wording import text_of
from journal_tui.walkthrough.drafting.words import words_of
from tests.drafting.saying import said, stretch
from tests.drafting.test_drafter import talk

DEMO = Path(__file__).parents[2] / "demo_data"


def private(utterances: list[Utterance]) -> list[bool]:
    """Return of each utterance whether an entry resting on it alone starts private."""
    private = private_in(utterances)
    return [audience_of(utterances, at, at, private) is Audience.PRIVATE for at in range(len(utterances))]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("Between us, the tile is ugly.", True),
        ("Don't tell them yet.", True),
        ("This is off the record.", True),
        ("The pipe runs between the studs.", False),
        ("I put the record of the test in the folder.", False),
    ],
)
def test_words_of_confidence(line: str, told: bool) -> None:
    assert in_confidence(line) is told


def test_confidence_reaches_one_back_and_two_sentences_on() -> None:
    utterances = said(
        "The sill is rotten.",
        "The tile is ugly.",
        "And between us, I warned her.",
        "The grout is worse.",
        "The tub is crooked.",
        "The fan works.",
    )
    assert private(utterances) == [False, True, True, True, True, False]


def test_the_rest_of_a_sentence_is_no_sentence_of_its_own() -> None:
    lines = said(
        "Between us,", "I had to redo the pan,", "and the curb too.", "The tub is out.", "The sill is wet."
    )
    opened = [Utterance(u.words, n not in (1, 2), u.pause) for n, u in enumerate(lines)]
    assert private(opened) == [True] * 5


def test_another_speaker_tells_no_secret() -> None:
    utterances = said(
        "Ann: The tile is ugly.",
        "Bob: Off the record, she hates it.",
        "Ann: The fan works.",
        "Bob: The tub is in.",
    )
    assert private(utterances) == [False, True, False, True]


def test_words_of_confidence_across_a_cut_count() -> None:
    assert private(said("we keep this off the", "record she is late with the tile"))[0]


def test_the_whole_utterance_decides_not_the_cleaned_text() -> None:
    (draft,) = draft_note("need to move the drain, between us that was my mistake")
    assert draft.audience is Audience.PRIVATE
    drafts = draft_entries(
        talk("We need to sister the joist by the tub, and, don't tell her yet, the plywood is rotten too.")
    )
    assert drafts and all(d.audience is Audience.PRIVATE for d in drafts)


@pytest.mark.parametrize(
    ("file", "first", "last"),
    [
        ("hall-bath/hall-bath-first-look.vtt", "between us", "in front of her"),
        ("laundry/laundry-ceiling-open.srt", "stays between", "touch a panel"),
    ],
)
def test_the_asides_of_the_demonstration_jobs_are_private(file: str, first: str, last: str) -> None:
    captions = read_captions(DEMO / file)
    utterances = utterances_of(repaired(words_of(captions)), trained()["boundary"])
    begin = next(at for at, u in enumerate(utterances) if first in u.said.casefold())
    end = next(at for at, u in enumerate(utterances) if last in u.said.casefold())
    assert begin <= end and all(private(utterances)[begin : end + 1])
    inside = [
        d
        for d in draft_entries(captions)
        if d.end > utterances[begin].start and d.start < utterances[end].end
    ]
    assert all(d.audience is Audience.PRIVATE for d in inside)


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        ("The damn joist is rotten.", "The joist is rotten"),
        ("The fucking drain leaks, what the hell.", "The drain leaks"),
        ("This shit is rotten and the tub is cracked as hell.", "This is rotten and the tub is cracked"),
        # Captions may write "he'll" without its apostrophe.
        ("hell put the tub there", "Hell put the tub there"),
    ],
)
def test_coarse_words_are_not_shown(line: str, shown: str) -> None:
    assert text_of(stretch(line, kind=Kind.OBSERVATION)) == shown


def test_coarse_words_are_kept_in_what_was_heard() -> None:
    lines = ("We need to order the damn tile by Friday.", "The fucking valve is leaking.")
    drafts = draft_entries(talk(*lines))
    assert any("damn" in d.heard for d in drafts)
    assert not any(word in d.text.casefold() for d in drafts for word in ("damn", "fuck"))


def test_a_typed_line_loses_only_its_coarse_words() -> None:
    (draft,) = draft_note("the damn drain, 3 in. left of it,  leaks")
    assert draft.text == "the drain, 3 in. left of it, leaks"
    assert "damn" in draft.heard
    (tool,) = draft_note("get a bastard file and he'll need the hell box")
    assert tool.text.startswith("get a bastard file")
    (nothing,) = draft_note("damn!")
    assert nothing.text and "damn" not in nothing.text
