"""A job's timeline, an entry in full and a visit in full."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Kind, Party
from journal_tui.journal import punch, review
from journal_tui.journal.entries import get_entry
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import note, timeline
from journal_tui.screens.course import Course
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.timeline import TimelineScreen
from journal_tui.screens.visit import VisitScreen
from tests.screens.seeing import app_on, lines_of, seen, top, typed, until
from tests.screens.walks import walked_job


def _kept_job(journal: Journal, count: int = 12) -> Job:
    job, visit = walked_job(journal, count)
    review.keep_rest(journal, visit.id)
    return job


def _line(lines: list[str], words: str) -> str:
    return next(line for line in lines if words in line)


async def test_the_rule_shows_each_visit_and_its_entries(journal: Journal) -> None:
    job = _kept_job(journal)
    note(journal, job.id, "need to order the grab bar", people="Rui")
    item = next(i for g in punch.open_list(journal, job).phases for i in g.items if "plastic" in i.text)
    punch.finish(journal, item.id, day=dt.date(2026, 3, 12))
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        lines = lines_of(app)
        assert lines[0].split("  ")[0].strip() == "Alder Lane 14, hall bath" and "Thu 12 Mar" in lines[0]
        visits = [line for line in lines if "┝━━━" in line]
        assert ["Thu 12 Mar" in visits[0], "Wed 11 Mar" in visits[1]] == [True, True]
        assert "typed" in visits[0] and "12 kept" in visits[1]
        # What is open has the longer tick and says whose move it is.
        waiting = _line(lines, "Plumbing inspection")
        assert "├── owed" in waiting and waiting.rstrip(" ▁▂▃▄▅▆▇█").endswith("inspector")
        assert "├╴  chose" in _line(lines, "Galvanized supply goes")
        assert "done 12 Mar" in _line(lines, "Hang plastic")
        # A danger is marked by more than colour.
        assert "! A stud at the valve" in _line(lines, "stud at the valve")


async def test_the_selected_entry_is_shown_in_full_with_what_was_said(journal: Journal) -> None:
    job = _kept_job(journal)
    app = app_on(journal, job.id)
    async with app.run_test(size=(120, 30)) as pilot:
        await pilot.press("down", "down", "down")
        await pilot.pause()
        shown = seen(app)
        assert "supply's galvanized, look at it" in shown
        assert "▌" in shown and "observation · rough plumbing · supply" in shown


async def test_walking_the_course_shows_one_phase(journal: Journal) -> None:
    job = _kept_job(journal)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.press("right", "right")
        await pilot.pause()
        assert top(app).query_one(Course).chosen == "rough plumbing"
        keys = [row.key for row in top(app).query_one(LineList).rows]
        chosen = top(app).query_one(LineList).selected
        assert chosen is not None and chosen.key == keys[0]
        phases = {get_entry(journal, key).phase for key in keys[1:]}
        assert phases == {"rough plumbing"}
        await pilot.press(*["right"] * 4)
        await pilot.pause()
        assert "Nothing of trim at any visit yet." in seen(app)
        await pilot.press(*["left"] * 9)
        await pilot.pause()
        assert top(app).query_one(Course).chosen is None
        assert len(top(app).query_one(LineList).rows) == 13


async def test_the_standing_lines_name_what_waits(journal: Journal) -> None:
    job = _kept_job(journal)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "waits on  inspector: Plumbing inspection" in seen(app)
        assert "crew next demo, whole room: Hang plastic" in seen(app)
        await pilot.press("r")
        assert "No drafts wait for review." in seen(app)


async def test_the_standing_lines_mark_what_not_everybody_may_read(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    code = punch.add(journal, job.id, "write down the code of the side gate", phase="demo")
    mirror = punch.add(journal, job.id, "tell which mirror, not her sister", phase="trim", who=Party.CLIENT)
    for item, audience in ((code, "private"), (mirror, "crew")):
        with journal.store.write("say who may read it", job.id) as w:
            w.change("punch_items", item.id, audience=audience)
    app = app_on(journal, job.id)
    async with app.run_test(size=(100, 24)) as pilot:
        await pilot.pause()
        foot = " ".join(lines_of(app)[-5:])
        assert "waits on  client: crew only · tell which mirror" in foot
        assert "crew next private · demo" in foot


async def test_drafts_that_wait_are_the_first_thing_named_and_r_goes_to_them(journal: Journal) -> None:
    job, _visit = walked_job(journal, 4)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "r reviews 4 drafts, beginning with Wed 11 Mar" in seen(app)
        await pilot.press("r")
        await pilot.pause()
        assert type(app.screen).__name__ == "ReviewScreen"


async def test_years_of_visits_come_in_pages_and_the_place_stays(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    for day in range(60):
        for text in ("need to strap the supply", "planks are soft"):
            note(journal, job.id, f"{text} {day}", day=dt.date(2026, 1, 1) + dt.timedelta(days=day))
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        lines = top(app).query_one(LineList)
        # As many pages as are near what is seen, and no more.
        first = len(lines.rows)
        assert 30 <= first < 120
        await pilot.press("end")
        await until(pilot, lambda: len(lines.rows) > first)
        for _ in range(8):
            await pilot.press("end")
            await pilot.pause()
        assert len(lines.rows) == 180
        chosen = lines.selected
        assert chosen is not None and chosen.key == timeline(journal, job.id, limit=99)[-1].entries[-1].id
        # Coming back from another screen reads as much again and stands at the same line.
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, EntryScreen)
        await pilot.press("escape")
        await pilot.pause()
        assert lines.selected is not None and lines.selected.key == chosen.key
        assert len(lines.rows) == 180


async def test_an_entry_is_set_right_key_by_key_and_undone(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    (entry,) = note(journal, job.id, "need to strap the new supply at four studs")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "enter")
        assert isinstance(app.screen, EntryScreen)
        assert "strap the new supply" in seen(app) and "Typed, not said." in seen(app)
        await pilot.press("k", "s")
        await pilot.pause()
        assert get_entry(journal, entry.id).kind is Kind.OBSERVATION
        await pilot.press("k", "o")
        await pilot.press("w", "i")
        await pilot.pause()
        now = get_entry(journal, entry.id)
        assert (now.kind, now.who) == (Kind.NEXT_STEP, Party.INSPECTOR)
        assert punch.open_list(journal, job).waiting[0].entry_id == entry.id
        await pilot.press("t", "o")
        await pilot.pause()
        assert get_entry(journal, entry.id).audience is Audience.PRIVATE
        await pilot.press("p", "escape")
        await pilot.press("e")
        await typed(pilot, " now")
        await pilot.press("enter")
        await pilot.pause()
        assert get_entry(journal, entry.id).text.endswith("four studs now")
        await pilot.press("z")
        await pilot.pause()
        assert "Undone: change an entry." in seen(app)
        assert get_entry(journal, entry.id).text.endswith("four studs")


async def test_a_visit_shows_all_that_was_said_with_entries_in_their_place(journal: Journal) -> None:
    job = _kept_job(journal, 4)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, VisitScreen)
        lines = lines_of(app)
        said = next(at for at, line in enumerate(lines) if "at every joint you can see" in line)
        kept = next(at for at, line in enumerate(lines) if "Supply is galvanized" in line)
        after = next(at for at, line in enumerate(lines) if "not patching" in line)
        assert said < kept < after
        # What the entries rest on has a bar in front.
        assert "▌" in lines[said] and "▌" not in lines[said + 2]
        # Captions are shown whole, on as many lines as they take.
        await pilot.resize_terminal(34, 40)
        await pilot.pause()
        said_text = " ".join(line[11:].strip() for line in lines_of(app))
        assert "mud bed, there's metal lath behind it, heavy stuff" in said_text
        await pilot.press("o")
        assert not any("okay, what else" in line for line in lines_of(app))
        await pilot.press("enter")
        assert isinstance(app.screen, EntryScreen)
        await pilot.press("escape", "e")
        await pilot.pause()
        assert type(app.screen).__name__ == "VisitForm"


async def test_the_timeline_of_a_job_gone_in_another_copy_says_so(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.pause()
        other = journal.another()
        with other.store.write("take the job out") as w:
            w.remove("jobs", job.id)
        other.close()
        await pilot.press("z")
        screen = app.screen
        assert isinstance(screen, TimelineScreen)
        await pilot.press("e")
        await pilot.pause()
        assert "! no such job" in seen(app)
        await pilot.press("escape", "escape")
        assert type(app.screen).__name__ == "JobsScreen" and "No job yet." in seen(app)


async def test_a_logged_visit_is_taken_back_only_by_a_second_z_that_says_so(journal: Journal) -> None:
    job, visit = walked_job(journal, 4)
    review.keep(journal, [review.drafts(journal, visit.id)[0].id])
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("z")
        assert "Undone: keep a draft." in seen(app)
        await pilot.press("z")
        assert "z again takes a whole visit back" in seen(app) and "log the visit of Wed 11 Mar" in seen(app)
        assert len(review.drafts(journal, visit.id)) == 4
        # Anything else said in between, and it is asked again.
        await pilot.press("r", "escape")
        top(app).say("")
        await pilot.press("z")
        assert "z again takes a whole visit back" in seen(app)
        assert timeline(journal, job.id)
        await pilot.press("z")
        assert "Undone: log the visit of Wed 11 Mar." in seen(app)
        assert timeline(journal, job.id) == []


async def test_undo_on_a_visit_never_takes_the_visit(journal: Journal) -> None:
    job, visit = walked_job(journal, 4)
    review.keep_rest(journal, visit.id)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        assert isinstance(app.screen, VisitScreen)
        await pilot.press("z", "z", "z", "z")
        assert "nothing more to undo here" in seen(app)
        assert "Undo that from the timeline" in " ".join(seen(app).split())
    assert len(review.drafts(journal, visit.id)) == 4


async def test_an_entry_gone_by_its_own_undo_is_not_blamed_on_another_copy(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    note(journal, job.id, "need to strap the new supply at four studs")
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "enter")
        assert isinstance(app.screen, EntryScreen)
        await pilot.press("z")
        assert "Undone: type a note. What stood here went with it" in " ".join(seen(app).split())
        assert "another copy" not in seen(app)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, TimelineScreen) and "No visit yet." in seen(app)
