"""Stills in what the client gets: in the HTML whole, beside the Markdown as files, private ones never."""

from __future__ import annotations

import base64
import datetime as dt
from pathlib import Path
from typing import Any

import commonmark
import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents import html_page, plain_text, readability, update_markdown
from journal_tui.documents.blocks import blocks
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.reading import ClientText
from journal_tui.domain.text import one_line
from journal_tui.journal import review, stills
from journal_tui.journal.formats import UpdateFormat, update_in_format, write_update
from journal_tui.journal.house_record import WorkWords, add_work, record_markdown
from journal_tui.journal.jobs import add_job, get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.updates import client_update
from journal_tui.journal.visits import timeline
from tests.media.making import make, pictures, silence
from tests.media.test_stills_kept import CUES, log

DAY = dt.date(2026, 3, 11)
HASH = "0123456789abcdef" * 4
PLACE = "stills/0123456789abcdef.jpg"
JPEG = b"\xff\xd8 any bytes \xff\xd9"


def facts(text: str, still: str | None = HASH) -> UpdateFacts:
    found = ClientFact(Kind.OBSERVATION, "demo", ClientText("toilet"), ClientText(text), DAY, still=still)
    return UpdateFacts(ClientText("Hall bath"), ClientText(""), DAY, None, (DAY,), found=(found,))


def images(page: str) -> list[dict[str, str]]:
    root = html5lib.parse(page, namespaceHTMLElements=False)
    return [dict(image.attrib) for image in root.iter("img")]


def test_a_still_is_a_picture_to_another_reader_of_markdown() -> None:
    made = update_markdown(facts("The [flange] is *rusted* through"))
    tree = commonmark.Parser().parse(made)
    found = [node for node, entering in tree.walker() if entering and node.t == "image"]
    assert [node.destination for node in found] == [PLACE]
    assert "".join(_texts(found[0])) == "The [flange] is *rusted* through."


def _texts(node: Any) -> list[str]:
    return [child.literal for child, entering in node.walker() if entering and child.t == "text"]


@given(st.text(alphabet=st.sampled_from("ab []()!\\*_`<>&\"'#.\n"), min_size=1, max_size=40))
def test_any_text_of_a_fact_stands_beside_its_picture(text: str) -> None:
    if not one_line(text).strip(" .!?"):
        return
    made = update_markdown(facts(text))
    (image,) = images(html_page(made, "t", {PLACE: JPEG}))
    assert base64.b64decode(image["src"].removeprefix("data:image/jpeg;base64,")) == JPEG
    assert set(image) == {"src", "alt"}
    assert images(html_page(made, "t")) == [], "a picture that is not given is left out"


def test_message_and_grade_are_the_same_without_the_picture() -> None:
    with_still, without = (update_markdown(facts("The flange is rusted", s)) for s in (HASH, None))
    assert plain_text(with_still) == plain_text(without)
    assert readability(with_still) == readability(without)
    shown = [run.text for block in blocks(with_still) for run in block.runs]
    assert "(picture)" in shown


@pytest.mark.parametrize(
    "place",
    [
        "https://x.example/stills/0123456789abcdef.jpg",
        "../stills/0123456789abcdef.jpg",
        "stills/0123456789abcdeg.jpg",
        "data:image/jpeg;base64,AAAA",
    ],
)
def test_no_other_picture_is_shown(place: str) -> None:
    page = html_page(f"![x]({place})", "t", {place: JPEG, PLACE: JPEG})
    assert images(page) == []
    assert "img-src data:;" in page


@pytest.fixture
def reviewed(tmp_path: Path, journal: Journal) -> tuple[Journal, str, list[str]]:
    job = add_job(journal, name="Hall bath")
    walk = make(tmp_path / "walk.mp4", frames=pictures(120), sound=silence(12), cues=CUES)
    visit = log(journal, job, walk)
    drafts = review.drafts(journal, visit.id)
    review.keep_rest(journal, visit.id)
    review.change(journal, drafts[0].id, review.Change(audience=Audience.PRIVATE))
    hashes = [s.sha256 for d in drafts if (s := stills.still_of_draft(journal, d.id))]
    return journal, job.id, hashes


def test_private_stills_never_reach_the_client(reviewed: tuple[Journal, str, list[str]]) -> None:
    journal, job_id, hashes = reviewed
    made = client_update(journal, job_id).markdown
    assert [stills.link_of(sha256) in made for sha256 in hashes] == [False, True, True]
    # Not even when the remodeler writes its name into the text himself.
    made += "".join(f"\n![x]({stills.link_of(sha256)})\n" for sha256 in hashes)
    page = update_in_format(made, "t", UpdateFormat.HTML, stills.pictures_for_client(journal, job_id, made))
    whole = {base64.b64encode(stills.file_of(journal, h).read_bytes()).decode(): h for h in hashes}
    assert {whole[i["src"].partition(",")[2]] for i in images(page)} == set(hashes[1:])


def test_stills_lie_beside_the_markdown(reviewed: tuple[Journal, str, list[str]], tmp_path: Path) -> None:
    journal, job_id, hashes = reviewed
    made = client_update(journal, job_id).markdown
    allowed = stills.pictures_for_client(journal, job_id, made)
    out = tmp_path / "out"
    files = write_update(out, made, "Hall bath", DAY, pictures=allowed)
    assert [path.suffix for path in files] == [".md", ".html", ".txt", ".pdf", ".eml"]
    for sha256 in hashes[1:]:
        data = (out / stills.link_of(sha256)).read_bytes()
        assert data == stills.file_of(journal, sha256).read_bytes()
    assert len(list((out / "stills").iterdir())) == 2
    write_update(out, made, "Hall bath", DAY, pictures=allowed)
    assert len(list((out / "stills").iterdir())) == 2
    write_update(tmp_path / "page", made, "Hall bath", DAY, (UpdateFormat.HTML,), allowed)
    assert not (tmp_path / "page" / "stills").exists()


def test_a_still_stands_in_the_record_of_hidden_work(reviewed: tuple[Journal, str, list[str]]) -> None:
    journal, job_id, hashes = reviewed
    job = get_job(journal, job_id)
    entries = [e for shown in timeline(journal, job_id) for e in shown.entries]
    for entry in entries:
        add_work(journal, job_id, WorkWords("north wall", f"drain {entry.start}", entry_id=entry.id))
    made = record_markdown(journal, job)
    assert [stills.link_of(sha256) in made for sha256 in hashes] == [False, True, True]
    page = html_page(made, "t", stills.pictures_for_client(journal, job_id, made))
    assert len(images(page)) == 2
