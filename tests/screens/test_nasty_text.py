"""Whatever people, files and folders are called, it is shown literally on every screen, and nothing acts."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from rich.cells import cell_len

from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.text import one_line
from journal_tui.journal import house_record, punch, review
from journal_tui.journal.house_record import WorkWords
from journal_tui.journal.jobs import add_job, change_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import Drafting, log_recording, note, timeline
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.entry import EntryScreen
from journal_tui.screens.help import HelpScreen
from journal_tui.screens.house_record import RecordScreen
from journal_tui.screens.job_form import JobForm
from journal_tui.screens.jobs import JobsScreen
from journal_tui.screens.logging import LogScreen
from journal_tui.screens.note import NoteScreen
from journal_tui.screens.photos import PhotosScreen
from journal_tui.screens.picker import Ask, Picker
from journal_tui.screens.punch import PunchScreen
from journal_tui.screens.record_forms import FinishForm, SignOffForm, WorkForm, WorkTestForm
from journal_tui.screens.record_page import RecordPage
from journal_tui.screens.review import ReviewScreen
from journal_tui.screens.search import SearchLine, SearchScreen
from journal_tui.screens.timeline import TimelineScreen
from journal_tui.screens.typing_line import TypingLine
from journal_tui.screens.update import UpdateScreen
from journal_tui.screens.visit import VisitScreen
from journal_tui.screens.visit_form import VisitForm
from journal_tui.screens.words_editor import WordsEditor
from tests.screens.seeing import app_on, lines_of, seen, worked
from tests.screens.walks import walk

NASTY = (
    "need [/] here",
    "[/b] wall",
    "[red]door[/red]",
    "[@click=app.quit]tap[/]",
    "[/",
    "[link=https://example.test]x",
    "esc \x1b[31mred\x1b[0m \x1b]0;title\x07 bell\x07",
    "nul \x00 del \x7f c1 \x9b31m",
    "קיר rtl \u202eover\u202c end",
    "zero\u200bwidth\u200d joiner\ufeff",
    "漢字の壁 ｆｕｌｌ",
    "e\u0301 combining \u0323\u0323\u0323 stack",
    "emoji 🧱 \U0001f9d1\u200d\U0001f527 👍🏽",
    "$ink ${bold} %s {0} \\[x] \\",
    "tab\there\nnew line\r\nand more",
    "lone \ud800 surrogate",
)
_EVERYTHING = " ".join(NASTY)


@dataclass
class House:
    """A job with nasty words in every place that takes any."""

    journal: Journal
    job: Job
    visit: Visit
    entry_id: str


@pytest.fixture
def house(journal: Journal) -> House:
    job = add_job(
        journal, f"[/b] {_EVERYTHING}"[:300], client=_EVERYTHING, address=NASTY[0], scope=_EVERYTHING
    )
    change_job(journal, job.id, phases=("[/] demo", "[red]tile", "漢字", "trim"), private_note=_EVERYTHING)
    talk = _nasty_walk()
    visit = log_recording(journal, job.id, talk, people=_EVERYTHING, summary=f"[/] {_EVERYTHING}")
    kept = [d.id for d in review.drafts(journal, visit.id)][::2]
    review.keep(journal, kept)
    for text in NASTY:
        note(journal, job.id, text)
    punch.finish(journal, punch.add(journal, job.id, NASTY[1]).id, note=_EVERYTHING)
    entries = [e for shown in timeline(journal, job.id) for e in shown.entries]
    return House(journal, job, visit, entries[0].id)


def _nasty_walk() -> Drafting:
    plain = walk(len(NASTY))
    cues = [replace(cue, text=NASTY[at % len(NASTY)]) for at, cue in enumerate(plain.captions.cues)]
    drafts = [
        replace(d, text=text, area=text, heard=text, why=text, phase="[red]tile")
        for d, text in zip(plain.drafts, NASTY, strict=True)
    ]
    captions = replace(
        plain.captions, name="[/b].vtt", cues=tuple(cues), verbatim=_EVERYTHING.replace("\ud800", "")
    )
    return Drafting(captions, tuple(drafts), (_EVERYTHING,))


def _work(house: House) -> str:
    """Put something nasty on record; return its id."""
    journal, job_id = house.journal, house.job.id
    work_id = house_record.add_work(
        journal, job_id, WorkWords(_EVERYTHING, _EVERYTHING, NASTY[0], ((NASTY[1], "3 in"),))
    )
    work = house_record.get_work(journal, work_id)
    house_record.add_test(journal, work, _EVERYTHING, _EVERYTHING, passed=False, by=_EVERYTHING)
    return work_id


Make = Callable[[House], JournalScreen]
EVERY_SCREEN: dict[str, Make] = {
    "jobs": lambda h: JobsScreen(),
    "timeline": lambda h: TimelineScreen(h.job.id),
    "visit": lambda h: VisitScreen(h.job.id, h.visit.id),
    "entry": lambda h: EntryScreen(h.job.id, h.entry_id),
    "job form": lambda h: JobForm(h.job.id),
    "visit form": lambda h: VisitForm(h.job.id, h.visit.id),
    "note": lambda h: NoteScreen(h.job.id),
    "log": lambda h: LogScreen(h.job.id),
    "search": lambda h: SearchScreen(h.job.id),
    "review": lambda h: ReviewScreen(h.job.id, h.visit.id),
    "punch": lambda h: PunchScreen(h.job.id),
    "update": lambda h: UpdateScreen(h.job.id),
    "record": lambda h: (_work(h), RecordScreen(h.job.id))[1],
    "record read": lambda h: RecordPage(h.job.id),
    "work form": lambda h: WorkForm(h.job.id, entry_id=h.entry_id),
    "test form": lambda h: WorkTestForm(h.job.id, _work(h), _EVERYTHING),
    "finish form": lambda h: FinishForm(h.job.id),
    "sign-off form": lambda h: SignOffForm(h.job.id, 3),
    "photos": lambda h: PhotosScreen(h.job.id, h.entry_id),
}

_ACTING = {chr(c) for c in (*range(0x20), 0x7F, *range(0x80, 0xA0))} | set("\u202e\u202c\u2066\u2069\u200f")


def _check(lines: list[str], width: int, height: int) -> None:
    assert len(lines) == height
    for line in lines:
        assert not _ACTING & set(line), ascii(line)
        assert cell_len(line) == width, ascii(line)


@pytest.mark.parametrize("name", EVERY_SCREEN)
async def test_nothing_people_typed_acts_on_a_screen(house: House, name: str) -> None:
    folder = Path.home() / "Downloads"
    folder.mkdir()
    for file in ("[red]b.vtt", "[@click=app.quit].srt", "\x1b[31m.txt", "漢字.vtt"):
        (folder / file).write_text("x")
    app = app_on(house.journal)
    async with app.run_test(size=(80, 24)) as pilot:
        screen = EVERY_SCREEN[name](house)
        app.push_screen(screen)
        await worked(pilot)
        if isinstance(screen, SearchScreen):
            screen.query_one(SearchLine).value = "[/] ["
            screen.query_one(SearchLine).value = "wall"
            await asyncio.sleep(0.15)
            await worked(pilot)
        for line in screen.query(TypingLine):
            line.value = _EVERYTHING
        for text in ("", *NASTY):
            if text:
                screen.say(text)
            else:
                screen.fail(BadInput(_EVERYTHING, _EVERYTHING))
        await pilot.pause()
        _check(lines_of(app), 80, 24)
        await pilot.press("end", "pageup")
        await pilot.pause()
        _check(lines_of(app), 80, 24)
        # Markup is there to be read, not gone into a style.
        shown = seen(app)
        assert "[" in shown and ("/b]" in shown or "[/" in shown or "[red" in shown), shown
        for width, height in ((40, 15), (120, 30)):
            await pilot.resize_terminal(width, height)
            await pilot.pause()
            _check(lines_of(app), width, height)
        assert app.is_running


async def test_nothing_acts_in_pickers_and_help(house: House) -> None:
    app = app_on(house.journal)
    async with app.run_test(size=(80, 24)) as pilot:
        screen = JobsScreen()
        app.push_screen(screen)
        await pilot.pause()
        for asking in (Picker(NASTY[0], NASTY[1:8], NASTY[2]), Ask(NASTY[3], "ask/x", _EVERYTHING)):
            app.push_screen(asking)
            await pilot.pause()
            _check(lines_of(app), 80, 24)
            app.pop_screen()
        app.push_screen(HelpScreen(screen))
        await pilot.pause()
        _check(lines_of(app), 80, 24)


async def test_what_was_typed_comes_back_the_same(journal: Journal) -> None:
    job = add_job(journal, "Alder Lane")
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(NoteScreen(job.id))
        await pilot.pause()
        for text in NASTY[:6]:
            app.screen.query_one(TypingLine).value = text
            await pilot.press("enter")
            await worked(pilot)
            assert one_line(text) in seen(app)
    kept = [e.text for shown in timeline(journal, job.id) for e in shown.entries]
    assert kept == [one_line(text) for text in NASTY[:6]]


async def test_nothing_acts_in_a_field_of_several_lines(house: House) -> None:
    app = app_on(house.journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(ReviewScreen(house.job.id, house.visit.id))
        await pilot.pause()
        await pilot.press("e")
        editor = app.screen.query_one(WordsEditor)
        for text in NASTY:
            editor.text = text
            await pilot.pause()
            _check(lines_of(app), 80, 24)


#: Screens that show a text without reading all of it; review and update read it whole.
_SHOWS = ("jobs", "timeline", "visit", "entry", "note", "log", "search", "punch", "photos", "work form")


@pytest.mark.parametrize("name", _SHOWS)
async def test_ten_million_characters_in_one_line_stop_no_screen(journal: Journal, name: str) -> None:
    long = "a joist is notched " * 550_000
    job = add_job(journal, "Alder Lane", scope=long[:20_000])
    plain = walk(3)
    drafts = tuple(replace(d, text=long, heard=long) for d in plain.drafts)
    cues = tuple(replace(cue, text=long[:1_000_000]) for cue in plain.captions.cues[:2])
    visit = log_recording(
        journal, job.id, Drafting(replace(plain.captions, cues=cues), drafts, ()), summary=long[:20_000]
    )
    review.keep(journal, [review.drafts(journal, visit.id)[0].id])
    entry_id = timeline(journal, job.id)[0].entries[0].id
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        app.push_screen(EVERY_SCREEN[name](House(journal, job, visit, entry_id)))
        await worked(pilot)
        await pilot.press("down")
        _check(lines_of(app), 80, 24)
