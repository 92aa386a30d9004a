"""The record of the house on screen: put on record, tested, covered, set right, taken off, accepted, read."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from textual.pilot import Pilot

from journal_tui.domain.job import Job
from journal_tui.journal import house_record, punch
from journal_tui.journal.house_record import FinishWords, WorkWords
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.record_changes import drop_work
from journal_tui.journal.record_lines import RecordLines, record_lines
from journal_tui.journal.visits import note
from journal_tui.screens.app import JournalApp
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.form import FieldFault, FormScreen
from journal_tui.screens.house_record import RecordScreen
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.record_forms import SignOffForm, WorkForm, WorkTestForm
from journal_tui.screens.record_page import RecordPage
from journal_tui.screens.timeline import TimelineScreen
from journal_tui.screens.typing_line import TypingLine
from tests.screens.conftest import TODAY
from tests.screens.seeing import app_on, lines_of, typed, until, worked
from tests.screens.showing import front, shown, text_of


@pytest.fixture
def job(journal: Journal) -> Job:
    return add_job(journal, "Alder Lane 14, hall bath", client="Vera Lund", address="14 Alder Lane")


@pytest.fixture
def piped(journal: Journal, job: Job) -> str:
    """A supply pipe on record, by its id."""
    words = WorkWords("long wall", "supply pipe", "1/2 in", (("the corner", "14 in"),), dt.date(2026, 3, 9))
    return house_record.add_work(journal, job.id, words)


async def fill(pilot: Pilot[None], **words: str) -> None:
    """Put words into the lines of the form in front, by name, and save it."""
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
    for name, text in words.items():
        pilot.app.screen.query_one(f"#field-{name}", TypingLine).value = text
    await pilot.press("f2")
    await worked(pilot)


def on_record(journal: Journal, job: Job) -> RecordLines:
    return record_lines(journal, job)


async def test_hidden_work_from_the_first_word_to_the_covered_wall(journal: Journal, job: Job) -> None:
    async with shown(journal, TimelineScreen(job.id)) as (pilot, _screen):
        await pilot.press("h")
        await worked(pilot)
        assert "Nothing is on record yet." in text_of(pilot)
        assert "n puts on record what is behind a surface, before it is covered." in text_of(pilot)
        await pilot.press("n")
        await fill(pilot, surface="Long wall", what="blocking", size="2x8", from_a="the door jamb",
                   length_a="34 1/2 in", from_b="the floor", length_b="33 in", seen="2026-03-09")  # fmt: skip
        assert "On record. t puts a test of it on record, i attaches photos, c covers it." in text_of(pilot)
        assert "behind the Long wall" in text_of(pilot) and "not covered" in text_of(pilot)
        assert "no photo: i attaches one" in text_of(pilot)
        await pilot.press("t")
        await fill(pilot, what="pull test", outcome="f", found="two screws missed the stud", by="Rui")
        assert "failed pull test: two screws missed the stud" in text_of(pilot)
        assert "made by Rui" in text_of(pilot)
        await pilot.press("c")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        await pilot.press("enter")
        await worked(pilot)
        assert "Covered Thu 12 Mar. Its pull test did not pass yet. c again takes that back." in text_of(
            pilot
        )
        ((_surface, (work,)),) = on_record(journal, job).surfaces
        assert (work.covered, work.seen) == (TODAY, dt.date(2026, 3, 9))
        await pilot.press("c")
        assert "Not covered after all. z takes that back." in text_of(pilot)
        await pilot.press("z")
        assert "covered Thu 12 Mar" in text_of(pilot)
        ((_surface, (work,)),) = on_record(journal, job).surfaces
        assert work.covered == TODAY
        # A test that passes later settles the one that failed.
        await pilot.press("t")
        await fill(pilot, what="pull test", outcome="passed", found="holds 250 lb", by="Rui")
        ((_surface, (work,)),) = on_record(journal, job).surfaces
        assert [t.passed for t in work.tests] == [False, True] and work.failed is None


@pytest.mark.parametrize(
    ("words", "field", "said"),
    [
        ({"surface": ""}, "surface", "! the surface is not said"),
        ({"what": ""}, "what", "! what is behind it is not said"),
        ({"from_a": "jamb", "length_a": "soon"}, "length_a", "! the distance"),
        ({"from_a": "jamb", "length_a": "3 in", "length_b": "2 in"}, "from_b", "! the point it is measured"),
        ({"length_b": "3 in"}, "from_a", "! the point it is measured from"),
        ({"seen": "2026-12-01"}, "seen", "is still to come"),
        ({"seen": "whenever"}, "seen", "whenever"),
        ({"covered": "2026-03-01"}, "covered", "before the day it was seen"),
        ({"entry": "no such words"}, "entry", "no entry fits"),
    ],
)
async def test_what_is_wrong_is_said_beside_the_line_it_is_about(
    journal: Journal, job: Job, words: dict[str, str], field: str, said: str
) -> None:
    async with shown(journal, WorkForm(job.id)) as (pilot, screen):
        await fill(pilot, **{"surface": "wall", "what": "pipe", **words})
        assert front(pilot, WorkForm) is screen
        fault = screen.query_one(f"#fault-{field}", FieldFault)
        line = screen.query_one(f"#field-{field}", TypingLine)
        assert fault.display and said in text_of(pilot)
        assert fault.region.y == line.region.bottom, "it stands right under its line"
        assert pilot.app.focused is line
        assert "Not saved yet: see the line marked !" in text_of(pilot)
        assert [f for f in screen.query(FieldFault) if f.display] == [fault]
        # What is being mended is not called wrong any more.
        await typed(pilot, "x")
        assert not fault.display and "marked !" not in text_of(pilot)
    assert on_record(journal, job).surfaces == ()


async def test_a_half_filled_form_is_there_when_it_is_opened_again(
    journal: Journal, job: Job, piped: str
) -> None:
    screen = RecordScreen(job.id)
    async with shown(journal, screen) as (pilot, _screen):
        for key, name, text in (("n", "surface", "tub wa"), ("t", "what", "water te"), ("a", "area", "flo"),
                                ("s", "by", "Vera L"), ("enter", "size", "!")):  # fmt: skip
            await pilot.press(key)
            await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
            pilot.app.screen.query_one(f"#field-{name}", TypingLine).focus()
            await typed(pilot, text)
            await pilot.press("escape")
            await worked(pilot)
            assert front(pilot, RecordScreen) is screen
            assert "What you typed is kept, and there when you go back to it." in text_of(pilot)
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        for key, name, text in (("n", "surface", "tub wa"), ("t", "what", "water te"), ("a", "area", "flo"),
                                ("s", "by", "Vera L"), ("enter", "size", "1/2 in!")):  # fmt: skip
            await pilot.press(key)
            await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
            assert pilot.app.screen.query_one(f"#field-{name}", TypingLine).value == text
            await pilot.press("escape")
            await worked(pilot)


async def test_each_line_is_set_right_in_its_form_and_undone(journal: Journal, job: Job, piped: str) -> None:
    work = house_record.get_work(journal, piped)
    house_record.add_test(journal, work, "water test", "no drop", passed=True, by="Rui")
    house_record.add_finish(journal, job.id, FinishWords("floor", "hex tile"))
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
        line = pilot.app.screen.query_one("#field-length_a", TypingLine)
        assert line.value == "14 in"
        await fill(pilot, length_a="15 in", from_b="the floor", length_b="2 ft")
        assert "Set right. z takes it back." in text_of(pilot)
        assert "15 in from the corner, 2' 0\" from the floor" in text_of(pilot)
        await pilot.press("down", "enter")
        await fill(pilot, found="no drop in an hour")
        assert "passed water test: no drop in an hour" in text_of(pilot)
        await pilot.press("down", "enter")
        await fill(pilot, lot="C12; one box left", warranty="2036-03-12")
        assert "lot: C12; one box left · warranty to 12 Mar 2036" in text_of(pilot)
        await pilot.press("z", "z", "z")
        assert "Undone: change hidden work on record." in text_of(pilot)
    ((_surface, (now,)),) = on_record(journal, job).surfaces
    assert now.places == (("the corner", "14 in"),)
    assert now.tests[0].result == "no drop" and on_record(journal, job).finishes[0].lot == ""


async def test_lines_are_taken_off_and_come_back(journal: Journal, job: Job, piped: str) -> None:
    work = house_record.get_work(journal, piped)
    house_record.add_test(journal, work, "water test", "no drop", passed=True, by="Rui")
    house_record.add_finish(journal, job.id, FinishWords("floor", "hex tile"))
    before = on_record(journal, job)
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("end", "x")
        assert "Nothing here can be taken off the record." in text_of(pilot)
        await pilot.press("up", "x")
        assert on_record(journal, job).finishes == ()
        await pilot.press("z", "home", "down", "x")
        ((_surface, (now,)),) = on_record(journal, job).surfaces
        assert now.tests == ()
        await pilot.press("z", "home", "x")
        assert on_record(journal, job).surfaces == ()
        assert "Off the record. z brings it back." in text_of(pilot)
        await pilot.press("z")
        assert "water test: no drop" in text_of(pilot)
    assert on_record(journal, job) == before


async def test_keys_for_a_work_say_so_where_none_is_in_hand(journal: Journal, job: Job) -> None:
    house_record.add_finish(journal, job.id, FinishWords("floor", "hex tile"))
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        for key, said in (
            ("t", "First select what was tested: a line behind a surface. n puts one on record."),
            ("c", "First select what was covered"),
            ("i", "Photos are of what is behind a surface, and of its tests: select one of those."),
        ):
            await pilot.press(key)
            assert said in text_of(pilot)


async def test_the_acceptance_needs_a_word_about_what_is_open_and_stands(journal: Journal, job: Job) -> None:
    item = punch.add(journal, job.id, "touch up the sill")
    house_record.add_finish(journal, job.id, FinishWords("floor", "hex tile"))
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("end")
        assert "One item is open on the punch list" in text_of(pilot)
        await pilot.press("enter")
        await fill(pilot, by="Vera Lund")
        screen = front(pilot, SignOffForm)
        assert screen.query_one("#fault-note", FieldFault).display
        assert "1 punch item is open: Close them first" in text_of(pilot)
        await fill(pilot, how="pigeon", note="the sill is done on Monday")
        assert screen.query_one("#fault-how", FieldFault).display
        await fill(pilot, how="e")
        assert "accepted by Vera Lund" in text_of(pilot)
        assert "agreed: the sill is done on Monday" in text_of(pilot)
        await pilot.press("s")
        assert "The job is accepted already. That stands." in text_of(pilot)
        await pilot.press("v", "c")
        await worked(pilot)
        page = front(pilot, RecordPage).query_one(Page).text
        assert "Vera Lund accepted the job on Thursday, March 12, 2026 (e-mail)." in " ".join(page.split())
        await pilot.press("c")
        assert "accepted the job" not in front(pilot, RecordPage).query_one(Page).text
    assert punch.get_item(journal, item.id).closed is None


async def test_the_record_is_frozen_and_written(
    journal: Journal, job: Job, piped: str, tmp_path: Path
) -> None:
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("v", "f")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        pilot.app.screen.query_one(TypingLine).value = str(tmp_path / "out")
        await pilot.press("enter")
        await worked(pilot)
        assert "Written:" in text_of(pilot)
        assert len(list((tmp_path / "out").iterdir())) == 5
        # A folder that cannot be made is said in words, and nothing is frozen.
        (tmp_path / "file").write_text("x")
        await pilot.press("f")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        pilot.app.screen.query_one(TypingLine).value = str(tmp_path / "file" / "out")
        await pilot.press("enter")
        await worked(pilot)
        assert "!" in text_of(pilot)


async def test_an_entry_goes_on_record_without_typing_it_again(journal: Journal, job: Job) -> None:
    (entry,) = note(journal, job.id, "blocking is in behind the tub wall", day=dt.date(2026, 3, 10))
    async with shown(journal, EntryScreen(job.id, entry.id)) as (pilot, _screen):
        assert "on record no (b puts it on the record of the house)" in text_of(pilot)
        await pilot.press("b")
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkForm))
        form = front(pilot, WorkForm)
        values = {line.id: line.value for line in form.query(TypingLine)}
        assert values["field-what"] == "blocking is in behind the tub wall"
        assert (values["field-seen"], "field-entry" in values) == ("2026-03-10", False)
        await fill(pilot, surface="tub wall", what="blocking")
        assert "On the record of the house" in text_of(pilot)
        assert "on record tub wall: blocking" in text_of(pilot)
    ((_surface, (work,)),) = on_record(journal, job).surfaces
    assert (work.entry, work.seen) == (entry.text, dt.date(2026, 3, 10))


async def test_of_two_entries_that_say_the_same_the_one_it_rests_on_stays(journal: Journal, job: Job) -> None:
    first, second = (note(journal, job.id, "blocking is in")[0] for _ in range(2))
    words = WorkWords("tub wall", "blocking", entry_id=second.id)
    work_id = house_record.add_work(journal, job.id, words)
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("enter")
        await fill(pilot, size="2x8")
        assert "Set right." in text_of(pilot)
        assert house_record.get_work(journal, work_id)["entry_id"] == second.id != first.id
        await pilot.press("enter")
        await fill(pilot, entry="")
        assert house_record.get_work(journal, work_id)["entry_id"] is None


@pytest.mark.parametrize("size", [(80, 24), (40, 15), (120, 40)])
async def test_the_lines_and_the_form_fit(
    journal: Journal, job: Job, piped: str, size: tuple[int, int]
) -> None:
    async with shown(journal, RecordScreen(job.id), size) as (pilot, _screen):
        app = pilot.app
        assert isinstance(app, JournalApp)
        assert any("behind the long wall" in line for line in lines_of(app))
        assert "F1 help" in lines_of(app)[-1]
        await pilot.press("n")
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkForm))
        last = pilot.app.screen.query_one("#field-entry", TypingLine)
        if size[1] >= 15:
            assert last.region.bottom <= size[1] - 2, "every line is in sight at once"
        await pilot.press("escape", "t")
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkTestForm))
        assert "supply pipe" in lines_of(app)[0] or size[0] == 40


async def test_a_click_selects_and_a_second_opens(journal: Journal, job: Job, piped: str) -> None:
    house_record.add_work(journal, job.id, WorkWords("long wall", "blocking"))
    async with shown(journal, RecordScreen(job.id)) as (pilot, screen):
        app = pilot.app
        assert isinstance(app, JournalApp)
        row = next(y for y, line in enumerate(lines_of(app)) if "blocking" in line)
        await pilot.click(offset=(10, row))
        assert screen.work_here is not None and screen.work_here.what == "blocking"
        await pilot.click(offset=(10, row))
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkForm))
        await pilot.press("escape")
        # The keys at the foot can be clicked too.
        await worked(pilot)
        foot = lines_of(app)[-1]
        await pilot.click(offset=(foot.index("test"), 23))
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkTestForm))


async def test_the_list_can_be_narrowed(journal: Journal, job: Job, piped: str) -> None:
    house_record.add_work(journal, job.id, WorkWords("tub wall", "blocking"))
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("h")
        await worked(pilot)
        await pilot.press("slash")
        await typed(pilot, "block")
        await worked(pilot)
        shown_lines = [line for line in lines_of(app) if "supply pipe" in line]
        assert shown_lines == [] and any("blocking" in line for line in lines_of(app))
        await pilot.press("escape")
        assert any("supply pipe" in line for line in lines_of(app))
    app.autosave.close()


@pytest.mark.parametrize(
    ("day", "said"),
    [("whenever", "whenever"), ("2026-03-01", "before the day it was seen"), ("2026-04-01", "still to come")],
)
async def test_a_day_it_cannot_have_been_covered_is_refused_in_words(
    journal: Journal, job: Job, piped: str, day: str, said: str
) -> None:
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("c")
        await until(pilot, lambda: isinstance(pilot.app.screen, Ask))
        pilot.app.screen.query_one(TypingLine).value = day
        await pilot.press("enter")
        await worked(pilot)
        assert said in text_of(pilot) and "!" in text_of(pilot)
    assert house_record.get_work(journal, piped)["covered"] is None


async def test_what_another_copy_took_off_is_said_and_what_was_typed_stays(
    journal: Journal, job: Job, piped: str
) -> None:
    async with shown(journal, RecordScreen(job.id)) as (pilot, _screen):
        await pilot.press("t")
        await until(pilot, lambda: isinstance(pilot.app.screen, WorkTestForm))
        other = journal.another()
        drop_work(other, house_record.get_work(other, piped))
        other.close()
        await fill(pilot, what="water test", outcome="p", found="no drop", by="Rui")
        assert "this is not on record" in text_of(pilot)
        assert front(pilot, WorkTestForm).query_one("#field-what", TypingLine).value == "water test"
        await pilot.press("escape")
        await worked(pilot)
        assert "Nothing is on record yet." in text_of(pilot)
