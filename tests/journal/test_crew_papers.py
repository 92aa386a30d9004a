"""The crew sheet to hand on: its forms read back by other programs, its pictures, and how long it is."""

from __future__ import annotations

import email
import email.policy
import io
import re
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from journal_tui.documents import plain_text
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.journal import jobs, next_visit, photos, visits
from journal_tui.journal.crew_papers import SheetPaper, frozen_paper, visit_paper, write_sheet
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import PaperForm, paper_bytes
from journal_tui.journal.plan_items import state
from journal_tui.planning.items import Stated
from journal_tui.planning.visit import Wish
from journal_tui.store import queries
from tests.conftest import TODAY
from tests.journal.open_items import owed
from tests.journal.test_photos import _exif, picture


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Marsh powder room", client="Odile Marsh", address="9 Elm Court")


def said(journal: Journal, job: Job, text: str, audience: Audience = Audience.CREW) -> str:
    """Say something that is owed in the walls' pipes; return the id of its entry."""
    (entry,) = visits.note(journal, job.id, text)
    item = queries.item_of_entry(journal.store, entry.id)
    assert item is not None, "nothing is owed by this note"
    with journal.store.write("say who may read it") as w:
        for table, row in (("entries", entry.id), ("punch_items", item.id)):
            w.change(table, row, audience=audience.value, phase="rough plumbing")
    return entry.id


def paper_of(journal: Journal, job: Job) -> SheetPaper:
    return visit_paper(journal, *next_visit.next_visit(journal, job, TODAY))


def words(text: str) -> list[str]:
    return re.findall(r"[^\W_]+", text)


def pdf_of(paper: SheetPaper) -> PdfReader:
    data = paper_bytes(paper.markdown, paper.title, paper.day, PaperForm.PDF, paper.pictures, one_page=True)
    return PdfReader(io.BytesIO(data))


def ordinary(journal: Journal, job: Job, each: int = 3) -> None:
    """Owe a day's work for two in four phases, ``each`` pieces in each."""
    for phase in ("demo", "rough plumbing", "subfloor", "trim"):
        for n in range(each):
            item = owed(
                journal,
                job,
                f"set piece {n} of the work that is owed here, level and plumb",
                phase,
                f"wall {n}",
            )
            state(journal, item.id, Stated(crew_hours=3 / each))


def test_the_words_of_the_pdf_are_the_words_of_the_sheet_in_order(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    ordinary(journal, job)
    entry = said(journal, job, "I need to strap the new supply by the window")
    photos.add_photo(journal, entry, picture(tmp_path / "p.jpg", (64, 48)))
    paper = paper_of(journal, job)
    reader = pdf_of(paper)
    found = words("\n".join(page.extract_text() for page in reader.pages))
    told = words(plain_text(paper.markdown))
    # The foot of a page says "1 of 1"; nothing else is added, nothing is left out or moved.
    foot = 3 * len(reader.pages)
    assert found[: len(told)] == told and len(found) == len(told) + foot
    assert reader.metadata is not None and reader.metadata.title == "Powder room, crew sheet"


def test_an_ordinary_visit_is_one_page_and_what_is_more_says_so(journal: Journal, job: Job) -> None:
    ordinary(journal, job)
    paper = paper_of(journal, job)
    assert len(pdf_of(paper).pages) == 1 and paper.longer() == ""
    long = "the same long words about what is to be done in this corner of the room " * 20
    for n in range(12):
        owed(journal, job, f"call about {n}: {long}", "demo", f"corner {n}")
    paper = paper_of(journal, job)
    pages = len(pdf_of(paper).pages)
    assert pages > 1 and paper.longer().startswith(f"it takes {pages} pages")


def test_pictures_that_do_not_fit_get_a_page_of_their_own(journal: Journal, job: Job, tmp_path: Path) -> None:
    ordinary(journal, job, each=5)
    first = []
    for n in range(3):
        entry = said(journal, job, f"I need to strap supply {n} by the window")
        for colour in range(3):
            Image.new("RGB", (640, 480), (n * 60, colour * 60, 9)).save(tmp_path / "p.png")
            photos.add_photo(journal, entry, tmp_path / "p.png")
        item = queries.item_of_entry(journal.store, entry)
        assert item is not None
        state(journal, item.id, Stated(crew_hours=0.5))
        first.append(item.id)
    paper = visit_paper(journal, *next_visit.next_visit(journal, job, TODAY, wish=Wish(first=tuple(first))))
    assert "3 more pictures are in the journal." in paper.markdown
    front, back = pdf_of(paper).pages
    assert not front.images and len(back.images) == next_visit.MOST_PICTURES == 6
    assert "Pictures" in back.extract_text() and "Pictures" not in front.extract_text()
    assert paper.longer() == "the list is one page; its pictures are on a page of their own"


def test_the_email_has_the_text_the_page_and_the_pictures(journal: Journal, job: Job, tmp_path: Path) -> None:
    entry = said(journal, job, "I need to strap the new supply by the window")
    kept = photos.add_photo(journal, entry, picture(tmp_path / "p.jpg", exif=_exif(6)))
    paper = paper_of(journal, job)
    data = paper_bytes(paper.markdown, paper.title, paper.day, PaperForm.EMAIL, paper.pictures)
    message = email.message_from_bytes(data, policy=email.policy.default)
    assert not message.defects and message["Subject"] == "Powder room, crew sheet"
    parts = {part.get_content_type(): part for part in message.walk()}
    assert words(parts["text/plain"].get_content()) == words(plain_text(paper.markdown))
    assert parts["image/jpeg"].get_content() == kept.path.read_bytes()
    # The photo as it is kept: turned upright, and nothing in it of where, when and with what.
    with Image.open(io.BytesIO(parts["image/jpeg"].get_content())) as sent:
        assert sent.size == (20, 40) and not sent.getexif()
    assert b"A camera" not in data


def test_pictures_are_inside_but_for_the_markdown_which_has_them_beside(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    entry = said(journal, job, "I need to strap the new supply by the window")
    kept = photos.add_photo(journal, entry, picture(tmp_path / "p.jpg"))
    files = write_sheet(paper_of(journal, job), tmp_path / "out")
    assert sorted(f.suffix for f in files) == [".eml", ".html", ".md", ".pdf", ".txt"]
    assert {f.stem for f in files} == {f"powder-room-crew-sheet-{TODAY.isoformat()}"}
    place = f"stills/{kept.sha256[:16]}.jpg"
    assert (tmp_path / "out" / place).read_bytes() == kept.path.read_bytes()
    by_form = {f.suffix: f.read_bytes() for f in files}
    assert place.encode() in by_form[".md"] and place.encode() not in by_form[".html"]
    assert b"data:image/jpeg;base64," in by_form[".html"]


@pytest.mark.parametrize("audience", Audience)
def test_the_crew_see_pictures_of_what_they_may_read(
    journal: Journal, job: Job, tmp_path: Path, audience: Audience
) -> None:
    owed(journal, job, "hang the door")
    entry = said(journal, job, "I need to strap the new supply by the window", audience)
    photos.add_photo(journal, entry, picture(tmp_path / "p.jpg"))
    paper = paper_of(journal, job)
    assert (len(paper.pictures), paper.markdown.count("stills/")) == (
        (0, 0) if audience is Audience.PRIVATE else (1, 1)
    )


def test_a_picture_made_private_since_is_gone_from_a_frozen_sheet(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    entry = said(journal, job, "I need to strap the new supply by the window")
    photos.add_photo(journal, entry, picture(tmp_path / "p.jpg"))
    sheet = next_visit.freeze(journal, *next_visit.next_visit(journal, job, TODAY))
    assert len(frozen_paper(journal, job, sheet).pictures) == 1
    with journal.store.write("keep it") as w:
        w.change("entries", entry, audience=Audience.PRIVATE.value)
    assert frozen_paper(journal, job, sheet).pictures == {}


def test_the_same_sheet_is_frozen_once_a_day(journal: Journal, job: Job) -> None:
    owed(journal, job, "hang the door")
    visit, inputs = next_visit.next_visit(journal, job, TODAY)
    first = next_visit.freeze(journal, visit, inputs)
    assert next_visit.freeze(journal, visit, inputs).id == first.id
    owed(journal, job, "caulk the door")
    next_visit.freeze(journal, *next_visit.next_visit(journal, job, TODAY))
    assert len(next_visit.frozen_sheets(journal, job.id)) == 2
