"""The client update on screen: what is in it and what never is, editing, freezing, the sent ones."""

from __future__ import annotations

from pathlib import Path

import pytest

from journal_tui.domain.document import Length
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.journal import review, updates, visits
from journal_tui.journal.formats import UpdateFormat
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import add, finish, open_list
from journal_tui.journal.review import Change, keep_rest
from journal_tui.screens.line_list import LineList
from journal_tui.screens.page import Page
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.update import UpdateEditor, UpdateScreen
from journal_tui.screens.update_check import CheckScreen
from journal_tui.screens.update_sent import SentListScreen, SentScreen
from tests.screens.seeing import lines_of, seen_on, typed, until, worked
from tests.screens.showing import NASTY, front, shown, text_of
from tests.screens.walks import walked_job


@pytest.fixture
def job(journal: Journal) -> Job:
    """A job whose walk of thirty drafts was kept; one of them is a door code."""
    job, visit = walked_job(journal)
    keep_rest(journal, visit.id)
    return job


async def test_the_page_is_what_would_be_sent(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        page = " ".join(screen.query_one(Page).text.split())
        assert "Supply is galvanized, rusted at every joint." in page
        assert "the mirror cabinet: recessed or on the wall." in page
        draft = updates.client_update(journal, job.id)
        reading = updates.reading(draft.markdown)
        assert f"reads at grade {reading.grade:.1f}, plain" in text_of(pilot)
        assert "not sent" in text_of(pilot)
        await pilot.press("m")
        source = screen.query_one(Page).text
        assert "".join(source.split()) == "".join(draft.markdown.split())


async def test_what_is_private_is_counted_and_never_shown(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        assert "1 kept private" in text_of(pilot)
        for key in ("m", "e"):
            await pilot.press(key)
            everything = screen.query_one(Page).text + screen.query_one(UpdateEditor).text
            for secret in ("4471", "Lockbox", "lockbox"):
                assert secret not in everything


async def test_marking_private_takes_it_off_the_page(journal: Journal, job: Job) -> None:
    visit_id = review.drafts(journal, _visit_id(journal, job))[2].visit_id
    draft = review.drafts(journal, visit_id)[2]
    review.change(journal, draft.id, Change(audience=Audience.PRIVATE))
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        assert "2 kept private" in text_of(pilot)
        assert "rusted at every joint" not in " ".join(screen.query_one(Page).text.split())


def _visit_id(journal: Journal, job: Job) -> str:
    from journal_tui.journal.visits import find_visit

    return find_visit(journal, job.id).id


async def test_an_edit_is_kept_and_new_facts_come_into_it(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        await pilot.press("e")
        await typed(pilot, "Call me")
        await pilot.press("enter", "enter", "escape")
        await worked(pilot)
        assert "edited by you" in text_of(pilot)
        assert updates.client_update(journal, job.id).markdown.startswith("Call me\n\n# Alder")
        add(journal, job.id, "order the shower valve", phase="rough plumbing")
        screen.reload()
        await worked(pilot)
        page = screen.query_one(Page).text
        assert "Call me" in page
        assert "shower valve" in page


async def test_every_key_is_on_the_disk_while_it_is_typed(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        await pilot.press("e")
        await typed(pilot, "Good day ")
        assert screen.japp.autosave.flush()
        other = journal.another()
        assert updates.client_update(other, job.id).markdown.startswith("Good day # Alder Lane")
        other.close()
        await pilot.press("ctrl+z", *["backspace"] * 20, "escape")


async def test_discarding_an_edit_can_be_undone(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, _screen):
        await pilot.press("D")
        assert "no edit of yours" in text_of(pilot)
        await pilot.press("e")
        await typed(pilot, "Hi ")
        await pilot.press("escape")
        await worked(pilot)
        edited = updates.client_update(journal, job.id).markdown
        await pilot.press("D")
        await worked(pilot)
        assert not updates.client_update(journal, job.id).edited
        assert "edited by you" not in text_of(pilot)
        await pilot.press("z")
        await worked(pilot)
        assert updates.client_update(journal, job.id).markdown == edited
        assert "edited by you" in text_of(pilot)


async def test_two_wordings_are_told_in_words_and_not_sent(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    draft = updates.client_update(journal, job.id)
    mine = draft.markdown.replace("rusted at every joint", "in poor shape")
    assert mine != draft.markdown
    updates.save_edit(journal, job.id, draft.made, mine)
    found = next(
        d for d in review.drafts(journal, _visit_id(journal, job)) if "galvanized, rusted" in d.draft.text
    )
    review.change(journal, found.id, Change(text="Supply is galvanized and leaks at two joints."))
    async with shown(journal, UpdateScreen(job.id), (100, 40)) as (pilot, screen):
        assert "In one place both you and the journal changed the words" in text_of(pilot)
        page = " ".join(screen.query_one(Page).text.split())
        assert "in poor shape" in page
        assert "leaks at two joints" in page
        await pilot.press("f")
        await _folder(pilot, tmp_path / "out")
        assert "not settled" in text_of(pilot)
        assert updates.sent_updates(journal, job.id) == []
        assert not (tmp_path / "out").exists() or not any((tmp_path / "out").iterdir())


async def _folder(pilot, folder: Path) -> None:  # type: ignore[no-untyped-def]
    line = pilot.app.screen.query_one(TypingLine)
    line.value = str(folder)
    await pilot.press("enter")
    await worked(pilot)


async def test_freezing_writes_a_file_a_form_and_shows_where(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    async with shown(journal, UpdateScreen(job.id), (120, 40)) as (pilot, _screen):
        await pilot.press("f")
        assert "freeze as sent today" in text_of(pilot)
        await _folder(pilot, tmp_path / "letters")
        sent_screen = front(pilot, SentScreen)
        files = sorted((tmp_path / "letters").iterdir())
        assert {".html", ".md", ".txt"} <= {f.suffix for f in files}
        assert len(files) == len(UpdateFormat)
        sent = updates.sent_updates(journal, job.id)
        assert len(sent) == 1
        assert next(f for f in files if f.suffix == ".md").read_text(encoding="utf-8") == sent[0].markdown
        together = "".join(seen_on(pilot).split())
        assert f"writtento{tmp_path / 'letters'}" in together
        for file in files:
            assert file.name in together
            assert b"4471" not in file.read_bytes()
        assert "sent Thu 12 Mar" in text_of(pilot)
        await pilot.press("escape")
        await worked(pilot)
        front(pilot, UpdateScreen)
        assert "since Thu 12 Mar, 0 visits" in text_of(pilot)
        assert sent_screen.is_attached is False


async def test_leaving_the_question_freezes_nothing(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id)) as (pilot, _screen):
        await pilot.press("f", "escape")
        await worked(pilot)
        front(pilot, UpdateScreen)
        assert updates.sent_updates(journal, job.id) == []


async def test_a_folder_that_cannot_be_used_is_named_and_nothing_frozen(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    (tmp_path / "a file").write_text("x")
    async with shown(journal, UpdateScreen(job.id), (120, 30)) as (pilot, _screen):
        await pilot.press("f")
        await _folder(pilot, tmp_path / "a file" / "letters")
        front(pilot, UpdateScreen)
        assert "is not a folder" in text_of(pilot)
        assert "Name a folder to write to" in text_of(pilot)
        assert updates.sent_updates(journal, job.id) == []


async def test_a_full_disk_is_told_and_the_update_can_be_written_again(
    journal: Journal, job: Job, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import errno
    import os

    def full(_number: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    async with shown(journal, UpdateScreen(job.id), (120, 30)) as (pilot, _screen):
        with monkeypatch.context() as patched:
            patched.setattr(os, "fsync", full)
            await pilot.press("f")
            await _folder(pilot, tmp_path / "letters")
        assert "is full" in text_of(pilot)
        assert "frozen as sent" in text_of(pilot)
        assert len(updates.sent_updates(journal, job.id)) == 1
        assert list((tmp_path / "letters").iterdir()) == []
        await pilot.press("s", "enter", "f")
        await _folder(pilot, tmp_path / "letters")
        front(pilot, SentScreen)
        assert len(list((tmp_path / "letters").iterdir())) == len(UpdateFormat)


async def test_sent_ones_are_listed_and_open_as_they_were(journal: Journal, job: Job, tmp_path: Path) -> None:
    first = updates.send(journal, job.id, updates.client_update(journal, job.id).markdown)
    item = open_list(journal, job).phases[0].items[0]
    finish(journal, item.id)
    async with shown(journal, UpdateScreen(job.id)) as (pilot, _screen):
        await pilot.press("s")
        listed = front(pilot, SentListScreen)
        assert len(listed.query_one(LineList).rows) == 1
        assert "Thursday, March 12, 2026" in text_of(pilot)
        await pilot.press("enter", "m")
        opened = front(pilot, SentScreen)
        await pilot.press("e", "D", "d", "x", *"abc")
        source = opened.query_one(Page).text
        assert "".join(source.split()) == "".join(first.markdown.split())
        assert not opened.query(UpdateEditor)
        assert updates.sent_updates(journal, job.id) == [first]


async def test_none_sent_says_what_to_do(journal: Journal, job: Job) -> None:
    async with shown(journal, SentListScreen(job.id)) as (pilot, _screen):
        assert "No update has been sent" in text_of(pilot)
        await pilot.press("enter")


async def test_nothing_new_is_told_and_not_sent(journal: Journal, tmp_path: Path) -> None:
    job = add_job(journal, "New house")
    async with shown(journal, UpdateScreen(job.id), (100, 30)) as (pilot, _screen):
        await pilot.press("f")
        await _folder(pilot, tmp_path / "letters")
        assert "there is nothing to send" in text_of(pilot)


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_what_matters_is_on_the_screen_at_every_size(
    journal: Journal, job: Job, size: tuple[int, int]
) -> None:
    async with shown(journal, UpdateScreen(job.id), size) as (pilot, screen):
        await until(pilot, lambda: "What we found" in screen.query_one(Page).text)
        lines = lines_of(screen.japp)
        assert len(lines) == size[1]
        assert all(len(line) == size[0] for line in lines)
        text = text_of(pilot)
        assert "reads at grade" in text
        assert "1 kept private" in text
        assert "Alder Lane 14" in text
        assert "F1 help" in text
        assert all(len(line.rstrip()) <= size[0] for line in screen.query_one(Page).text.split("\n"))


async def test_text_from_people_is_shown_literally(journal: Journal) -> None:
    job = add_job(journal, "[/b] lane [red]", address="[@click=app.quit]street[/]")
    for nasty in NASTY:
        add(journal, job.id, nasty, area=nasty, phase="tile")
    async with shown(journal, UpdateScreen(job.id), (120, 60)) as (pilot, screen):
        page = screen.query_one(Page).text
        for nasty in NASTY:
            if nasty.isascii() and nasty.isprintable():
                assert nasty[1:] in " ".join(page.split()), "the first letter may be made a capital"
        assert "\x1b" not in page
        assert "\u202e" not in page
        for key in ("m", "e", "escape", "m", "f1", "escape", "s", "escape"):
            await pilot.press(key)
        assert "[/b] lane [red]" in seen_on(pilot)


async def test_five_hundred_entries_make_a_page(journal: Journal) -> None:
    job, visit = walked_job(journal, 500)
    keep_rest(journal, visit.id)
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        await pilot.press("pagedown", "end", "home", "m")
        assert len(screen.query("*")) < 20
        assert len(screen.query_one(Page).text.split("\n")) > 40


async def test_l_goes_round_the_lengths_and_each_keeps_its_own_edit(journal: Journal, job: Job) -> None:
    async with shown(journal, UpdateScreen(job.id), (80, 30)) as (pilot, _screen):
        assert "client update, standard" in text_of(pilot)
        await pilot.press("l", "l")
        await worked(pilot)
        assert "client update, short" in text_of(pilot)
        assert "The full update says more." in text_of(pilot)
        await pilot.press("e")
        await typed(pilot, "hello ")
        await pilot.press("escape")
        await worked(pilot)
        await pilot.press("l")
        await worked(pilot)
        assert "client update, standard" in text_of(pilot) and "hello" not in text_of(pilot)
    assert updates.client_update(journal, job.id, length=Length.SHORT).markdown.startswith("hello ")


async def test_what_is_not_told_is_counted_and_named_to_the_remodeler_alone(
    journal: Journal, tmp_path: Path
) -> None:
    job = add_job(journal, "Elm Row 3")
    visits.note(journal, job.id, "tub: the sill is rotten; the last guy was an idiot")
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        assert "1 note not told: c" in text_of(pilot)
        assert "idiot" not in screen.query_one(Page).text
        await pilot.press("c")
        await worked(pilot)
        listed = front(pilot, CheckScreen).query_one(Page).text
        assert "Left out, though the client may read it (1)" in listed
        assert "tub: the last guy was an idiot" in listed
        await pilot.press("escape")
        front(pilot, UpdateScreen)


async def test_words_of_his_own_that_blame_are_shown_and_not_changed(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    draft = updates.client_update(journal, job.id)
    mine = draft.markdown + "\nThis stair is a death trap, and I told you so.\n"
    updates.save_edit(journal, job.id, draft.made, mine)
    async with shown(journal, UpdateScreen(job.id), (100, 30)) as (pilot, _screen):
        assert "2 words to think of: c" in text_of(pilot)
        await pilot.press("c")
        await worked(pilot)
        listed = " ".join(front(pilot, CheckScreen).query_one(Page).text.split())
        line = len(mine.splitlines())
        assert f"line {line}: “death trap”" in listed and "better: “danger”" in listed
        assert f"line {line}: “I told you”" in listed
        await pilot.press("escape", "f")
        await _folder(pilot, tmp_path / "out")
        # It is advice: it keeps nobody from sending, and the words go as he wrote them.
        front(pilot, SentScreen)
    assert updates.sent_updates(journal, job.id)[0].markdown == mine


async def test_nothing_to_think_of_says_so(journal: Journal) -> None:
    job = add_job(journal, "Elm Row 3")
    visits.note(journal, job.id, "the sill is dry")
    async with shown(journal, UpdateScreen(job.id)) as (pilot, _screen):
        assert "not told" not in text_of(pilot)
        await pilot.press("d")
        assert "do not differ" in text_of(pilot)
        await pilot.press("c")
        await worked(pilot)
        front(pilot, CheckScreen)
        assert "Nothing is left out" in text_of(pilot)


async def test_an_update_far_too_long_for_a_screen_is_cut_and_says_so(journal: Journal, job: Job) -> None:
    draft = updates.client_update(journal, job.id)
    pasted = "\n\n".join(f"Paragraph {n} of a text that somebody pasted." for n in range(40_000))
    updates.save_edit(journal, job.id, draft.made, f"{draft.markdown}\n{pasted}\n")
    async with shown(journal, UpdateScreen(job.id)) as (pilot, screen):
        for _ in range(2):
            assert "The page is cut here: " in screen.query_one(Page).text
            await pilot.press("m")
            await pilot.pause()
        await pilot.press("e")
        assert "Too long to edit here" in text_of(pilot)
        assert not screen.has_class("-editing")
    assert updates.client_update(journal, job.id).markdown.endswith(
        "Paragraph 39999 of a text that somebody pasted.\n"
    )
