"""The review of drafts: every key, its undo, and what stands on the screen."""

from __future__ import annotations

from dataclasses import replace

import pytest

from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.journal import review
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import open_list
from journal_tui.journal.review import DraftState, ReviewDraft
from journal_tui.journal.visits import Drafting, log_recording, timeline
from journal_tui.screens.line_list import LineList
from journal_tui.screens.punch import PunchScreen
from journal_tui.screens.review import ReviewScreen
from journal_tui.screens.review_panes import SaidPane
from tests.screens.seeing import seen_on, typed, worked
from tests.screens.showing import NASTY, front, shown, text_of
from tests.screens.walks import walk, walked_job


@pytest.fixture
def walked(journal: Journal) -> tuple[Job, Visit]:
    """A job with a visit of thirty drafts waiting."""
    return walked_job(journal)


def _states(journal: Journal, visit: Visit) -> list[DraftState]:
    return [d.state for d in review.drafts(journal, visit.id)]


def _drafts(journal: Journal, visit: Visit) -> list[ReviewDraft]:
    return review.drafts(journal, visit.id)


async def test_enter_keeps_and_goes_on(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("enter", "enter", "x", "enter")
        assert _states(journal, visit)[:5] == [
            DraftState.KEPT,
            DraftState.KEPT,
            DraftState.DROPPED,
            DraftState.KEPT,
            DraftState.WAITING,
        ]
        assert screen.here is not None
        assert screen.here.id == _drafts(journal, visit)[4].id
        assert "5 of 30" in text_of(pilot)
        assert "kept 3" in text_of(pilot)
        assert "dropped 1" in text_of(pilot)
    assert len(timeline(journal, job.id)[0].entries) == 3


async def test_a_whole_review_in_thirty_five_keys(journal: Journal, walked: tuple[Job, Visit]) -> None:
    """A whole review: four set right, three dropped, the rest kept, then on to the punch list."""
    job, visit = walked
    fixes = {2: ["k"], 6: ["p", "s"], 12: ["w"], 20: ["o"]}
    drops = {4, 13, 25}
    pressed = 0
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        for at in range(30):
            keys = [*fixes.get(at, []), "x" if at in drops else "enter"]
            pressed += len(keys)
            await pilot.press(*keys)
        assert "All 30 drafts read" in text_of(pilot)
        assert "27 kept, 3 dropped" in text_of(pilot)
        await pilot.press("enter")
        front(pilot, PunchScreen)
    assert pressed == 35
    states = _states(journal, visit)
    assert (states.count(DraftState.KEPT), states.count(DraftState.DROPPED)) == (27, 3)
    found = _drafts(journal, visit)
    assert found[2].draft.kind is Kind.DECISION
    assert found[6].draft.phase == "subfloor"
    assert found[12].draft.who is Party.CLIENT


async def test_what_was_said_is_marked_without_colour(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("down", "down", "down", "down", "down", "down")
        pane = screen.query_one(SaidPane).render().plain.split("\n")
        here = screen.here
        assert here is not None
        heavy = " ".join(line.split("┣")[-1].split("┃")[-1] for line in pane if "┣" in line or "┃" in line)
        light = " ".join(line for line in pane if "┣" not in line and "┃" not in line)
        assert " ".join(heavy.split()) == here.draft.heard
        assert "okay, what else" in light
        assert "1:06 ┣" in "\n".join(pane)


@pytest.mark.parametrize(
    ("key", "read", "before", "after"),
    [
        ("k", lambda d: d.kind, Kind.OBSERVATION, Kind.DECISION),
        ("w", lambda d: d.who, None, Party.CREW),
        ("t", lambda d: d.audience, Audience.CLIENT, Audience.CREW),
        ("o", lambda d: d.open, False, True),
    ],
)
async def test_one_key_changes_one_thing_and_undo_puts_it_back(
    journal: Journal, walked: tuple[Job, Visit], key: str, read: object, before: object, after: object
) -> None:
    job, visit = walked
    assert callable(read)
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        first = _drafts(journal, visit)
        assert read(first[0].draft) == before
        await pilot.press(key)
        assert read(_drafts(journal, visit)[0].draft) == after
        assert screen.here is not None
        assert screen.here.id == first[0].id
        await pilot.press("z")
        assert _drafts(journal, visit) == first
        assert "Undone: change a draft" in text_of(pilot)


@pytest.mark.parametrize(
    "keys", [["enter"], ["x"], ["down", "j"], ["K"], ["p", "b"], ["a", "t", "u", "enter"]]
)
async def test_undo_takes_back_every_key_and_returns_to_the_draft(
    journal: Journal, walked: tuple[Job, Visit], keys: list[str]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        before = _drafts(journal, visit)
        await pilot.press(*keys)
        assert _drafts(journal, visit) != before
        await pilot.press("z")
        assert _drafts(journal, visit) == before
        assert screen.here is not None
        assert screen.here.id in (before[0].id, before[1].id)
        assert timeline(journal, job.id)[0].entries == ()


async def test_kinds_parties_and_readers_come_round(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        await pilot.press("k", "k", "k")
        draft = _drafts(journal, visit)[0].draft
        assert draft.kind is Kind.OBSERVATION
        # Owed work is somebody's: passing through it made it the crew's.
        assert draft.who is Party.CREW
        await pilot.press("w", "w", "w")
        assert _drafts(journal, visit)[0].draft.who is Party.SUPPLIER
        await pilot.press("w")
        assert _drafts(journal, visit)[0].draft.who is None
        await pilot.press("t", "t")
        assert _drafts(journal, visit)[0].draft.audience is Audience.PRIVATE
        assert "private: you said so" in text_of(pilot)


async def test_an_area_is_picked_by_a_few_letters_or_named_anew(
    journal: Journal, walked: tuple[Job, Visit]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        await pilot.press("a")
        await typed(pilot, "win")
        await pilot.press("enter")
        await pilot.pause()
        assert _drafts(journal, visit)[0].draft.area == "window corner"
        assert "Learned: “mud bed” belongs to window corner" in text_of(pilot)
        await pilot.press("a")
        await typed(pilot, "chase")
        await pilot.press("enter")
        await pilot.pause()
        assert _drafts(journal, visit)[0].draft.area == "chase"
        await pilot.press("a", "down", "escape")
        await pilot.pause()
        assert _drafts(journal, visit)[0].draft.area == "chase"


async def test_a_draft_joins_the_one_before(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("j")
        assert "there is no draft before this one" in text_of(pilot)
        await pilot.press("down", "j")
        found = _drafts(journal, visit)
        assert len(found) == 29
        assert screen.here == found[0]
        assert found[0].draft.text == (
            "Old wall tile is set in a mud bed on metal lath. "
            "Hang plastic at the door before any more tile comes off."
        )


async def test_a_private_draft_says_why(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    lockbox = _drafts(journal, visit)[28]
    async with shown(journal, ReviewScreen(job.id, visit.id, lockbox.id)) as (pilot, screen):
        assert screen.here == lockbox
        reason = review.reader_reason(lockbox.draft)
        assert "code" in reason
        assert f"private: {reason}" in " ".join(line[40:].strip() for line in seen_on(pilot).split("\n"))


async def test_hazards_repairs_and_reasons_are_shown(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    found = _drafts(journal, visit)
    async with shown(journal, ReviewScreen(job.id, visit.id, found[11].id)) as (pilot, _screen):
        assert "heard “play wood”, shown “plywood”" in text_of(pilot)
        assert "because decision" in text_of(pilot)
        await pilot.press("up", "up", "up")
        assert "hazard: structure" in text_of(pilot)


async def test_kept_drafts_can_be_gone_over_again(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("K")
        assert "Kept the 30 that were waiting" in text_of(pilot)
        assert screen.here is None
        await pilot.press("up")
        assert screen.here is not None
        await pilot.press("home")
        assert screen.here.id == _drafts(journal, visit)[0].id
        await pilot.press("x")
        assert _states(journal, visit)[0] is DraftState.DROPPED
        assert screen.here.id == _drafts(journal, visit)[1].id
        await pilot.press("up", "enter")
        assert _states(journal, visit)[0] is DraftState.KEPT
        assert screen.here.id == _drafts(journal, visit)[1].id


async def test_a_draft_left_for_later_comes_back_at_the_end(
    journal: Journal, walked: tuple[Job, Visit]
) -> None:
    job, visit = walked
    last = _drafts(journal, visit)[-1]
    async with shown(journal, ReviewScreen(job.id, visit.id, last.id)) as (pilot, screen):
        await pilot.press("enter")
        assert screen.here is not None
        assert screen.here.id == _drafts(journal, visit)[0].id
        await pilot.press("space")
        assert screen.here.id == _drafts(journal, visit)[1].id
        assert _states(journal, visit)[0] is DraftState.WAITING


async def test_words_are_edited_in_place_and_kept_half_typed(
    journal: Journal, walked: tuple[Job, Visit]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("e")
        await typed(pilot, " xkz")
        assert _states(journal, visit)[0] is DraftState.WAITING, "keys are letters while words are edited"
        await pilot.press("escape")
        assert "half edited (e goes on)" in text_of(pilot)
        assert _drafts(journal, visit)[0].draft.text.endswith("metal lath.")
        await pilot.press("e")
        await typed(pilot, "!")
        await pilot.press("enter")
        assert _drafts(journal, visit)[0].draft.text.endswith("metal lath. xkz!")
        assert "half edited" not in text_of(pilot)
        assert isinstance(screen.focused, LineList)
        await pilot.press("z")
        assert _drafts(journal, visit)[0].draft.text.endswith("metal lath.")


async def test_an_empty_text_is_refused_in_words(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        await pilot.press("e", "f7", "backspace", "enter")
        assert "an empty text" in text_of(pilot)
        assert "drop the draft" in text_of(pilot)
        assert _drafts(journal, visit)[0].draft.text.startswith("Old wall tile")


async def test_half_edited_words_survive_leaving_the_screen(
    journal: Journal, walked: tuple[Job, Visit]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        await pilot.press("e")
        await typed(pilot, " by it")
        await pilot.press("escape", "escape")
        pilot.app.push_screen(ReviewScreen(job.id, visit.id))
        await worked(pilot)
        await pilot.press("e", "enter")
        assert _drafts(journal, visit)[0].draft.text.endswith("metal lath. by it")


async def test_another_copy_took_the_draft_away(journal: Journal, walked: tuple[Job, Visit]) -> None:
    from journal_tui.journal.undoing import undo

    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        other = journal.another()
        undo(other, job.id)
        other.close()
        await pilot.press("enter")
        assert "no such draft" in text_of(pilot)
        assert "another copy" in text_of(pilot)


async def test_five_hundred_drafts_draw_only_what_is_seen(journal: Journal) -> None:
    job, visit = walked_job(journal, 500)
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("enter", "end", "x", "home", "down", "down", "k", "K")
        assert "500 drafts read" in text_of(pilot)
        assert len(screen.query("*")) < 20
        assert _states(journal, visit).count(DraftState.KEPT) == 499


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_what_matters_is_on_the_screen_at_every_size(
    journal: Journal, walked: tuple[Job, Visit], size: tuple[int, int]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id), size) as (pilot, _screen):
        text = text_of(pilot)
        assert "k saw" in text
        assert "p demo" in text
        assert "the client may read it" in text
        assert "1 of 30" in text
        assert "┣" in text
        assert "F1 help" in text
        assert all(len(line) == size[0] for line in seen_on(pilot).split("\n"))
        assert len(seen_on(pilot).split("\n")) == size[1]


async def test_no_drafts_says_what_to_do(journal: Journal) -> None:
    job = add_job(journal, "Quiet house")
    visit = log_recording(journal, job.id, walk(0))
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        assert "nothing in this recording sounded like" in text_of(pilot)
        await pilot.press("x", "k", "j", "e", "K", "z")
        assert pilot.app.screen.is_attached


async def test_text_from_people_is_shown_literally(journal: Journal) -> None:
    drafting = walk(len(NASTY))
    drafts = tuple(
        replace(d, text=nasty, area=nasty, heard=nasty, why=nasty)
        for d, nasty in zip(drafting.drafts, NASTY, strict=True)
    )
    cues = tuple(
        replace(cue, text=NASTY[at % len(NASTY)], speaker=NASTY[-at % len(NASTY)])
        for at, cue in enumerate(drafting.captions.cues)
    )
    captions = replace(drafting.captions, cues=cues, name="[/] walk.vtt")
    job = add_job(journal, "[/b] lane [red]", client="[/]")
    visit = log_recording(journal, job.id, Drafting(captions, drafts, ()))
    async with shown(journal, ReviewScreen(job.id, visit.id), (120, 40)) as (pilot, _screen):
        for nasty in NASTY:
            screen_text = seen_on(pilot)
            assert "\x1b" not in screen_text
            assert "\u202e" not in screen_text
            if nasty.isascii() and nasty.isprintable():
                assert nasty in screen_text
            await pilot.press("enter")
        await pilot.press("up", "e", "escape", "a", "escape", "p", "escape", "k", "j", "f1")
        assert "\x1b" not in seen_on(pilot)
        await pilot.press("escape")
        assert "[/] walk.vtt" in text_of(pilot)
        assert "[/b] lane [red]" in text_of(pilot)


async def test_the_punch_list_holds_what_was_kept_open(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        await pilot.press("K")
        said = text_of(pilot)
    count = open_list(journal, job).count
    assert f"They leave {count} open: " in said
    assert "2 for the client" in said
    assert "1 for the inspector" in said


async def test_undo_stops_at_the_visit_the_drafts_are_of(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        await pilot.press("enter", "z", "z", "z")
        assert "nothing more to undo here" in text_of(pilot)
        assert "log the visit" in text_of(pilot)
        assert screen.here is not None
    assert len(_drafts(journal, visit)) == 30


async def test_a_click_does_what_the_key_in_front_does(journal: Journal, walked: tuple[Job, Visit]) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        lines = seen_on(pilot).split("\n")
        y = next(at for at, line in enumerate(lines) if "k saw" in line)
        await pilot.click(offset=(lines[y].index("k saw") + 3, y))
        assert _drafts(journal, visit)[0].draft.kind is Kind.DECISION
        await pilot.click(offset=(lines[y].index("p demo") + 3, y))
        assert "phase?" in text_of(pilot)
        await pilot.press("t")
        assert _drafts(journal, visit)[0].draft.phase == "tile"
        y = next(at for at, line in enumerate(lines) if line.startswith("   3 waiting"))
        await pilot.click(offset=(20, y))
        assert screen.here == _drafts(journal, visit)[2]


async def test_keys_typed_in_a_burst_act_in_order(journal: Journal, walked: tuple[Job, Visit]) -> None:
    from textual import events

    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        for key in ("enter", "x", "enter", "k", "enter", "x"):
            pilot.app.post_message(events.Key(key, key if len(key) == 1 else None))
        await worked(pilot)
        await pilot.pause(0.1)
        kept, dropped = DraftState.KEPT, DraftState.DROPPED
        assert _states(journal, visit)[:5] == [kept, dropped, kept, kept, dropped][:5]
        assert _drafts(journal, visit)[3].draft.kind is Kind.NEXT_STEP


async def test_a_key_right_behind_e_drops_nothing(journal: Journal, walked: tuple[Job, Visit]) -> None:
    from textual import events

    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, _screen):
        for key in ("e", "x", "k", "z", "K"):
            pilot.app.post_message(events.Key(key, key))
        await worked(pilot)
        await pilot.pause(0.1)
        assert set(_states(journal, visit)) == {DraftState.WAITING}
        assert _drafts(journal, visit)[0].draft.kind is Kind.OBSERVATION


async def test_a_journal_that_cannot_be_written_is_told_and_nothing_is_lost(
    journal: Journal, walked: tuple[Job, Visit]
) -> None:
    job, visit = walked
    async with shown(journal, ReviewScreen(job.id, visit.id)) as (pilot, screen):
        first = screen.here
        journal.store.conn.execute("PRAGMA query_only = ON")
        for key in ("enter", "x", "k", "K"):
            await pilot.press(key)
            assert "cannot write to" in text_of(pilot), key
            await pilot.press("right_square_bracket", "z")
            assert "nothing more to undo here" in text_of(pilot)
        journal.store.conn.execute("PRAGMA query_only = OFF")
        assert screen.here == first
        await pilot.press("enter")
        assert _states(journal, visit)[0] is DraftState.KEPT
