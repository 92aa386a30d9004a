"""PDF and e-mail drafts, read back by other programs: pypdf and the standard library's e-mail reader."""

from __future__ import annotations

import email
import email.policy
import io

import pytest
from hypothesis import given, settings
from PIL import Image
from pypdf import PdfReader
from pypdf.generic import ArrayObject

from journal_tui.documents import html_page, plain_text, update_markdown
from journal_tui.documents.email_draft import email_bytes
from journal_tui.documents.pdf import pdf_bytes
from journal_tui.domain.document import UpdateFacts
from tests.documents.samples import DAY, HOSTILE, fact, facts, lines, update_facts
from tests.documents.test_lengths import rich

PLACE = "stills/0123456789abcdef.jpg"


def jpeg(color: str = "red") -> bytes:
    """Return a small picture."""
    out = io.BytesIO()
    Image.new("RGB", (64, 48), color).save(out, "JPEG")
    return out.getvalue()


def _read(data: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(data))


def _words(text: str) -> list[str]:
    return "".join(c if c.isalnum() else " " for c in text).split()


def _text(data: bytes) -> str:
    return "\n".join(page.extract_text() for page in _read(data).pages)


def test_the_words_of_a_pdf_are_the_words_of_the_update_in_order() -> None:
    made = update_markdown(rich())
    found = _words(_text(pdf_bytes(made, "Hall bath", DAY)))
    told = _words(plain_text(made))
    # A page's foot says which page it is; nothing else is added and nothing left out.
    rest = iter(found)
    assert all(word in rest for word in told)
    assert len(found) - len(told) == 3 * len(_read(pdf_bytes(made, "Hall bath", DAY)).pages)


def test_no_word_is_broken_where_bold_ends_at_the_edge() -> None:
    """A run of letters that begins near the edge of the page takes its first word to the next line."""
    for filled in range(60, 110):
        told = f"**{'x' * filled}**\nBoardinghouse three is up.\n"
        assert "Boardinghouse" in _words(_text(pdf_bytes(told, "t", DAY)))


def test_a_pdf_says_what_it_is_and_is_the_same_each_time() -> None:
    first = pdf_bytes("# Hall bath\n\nDry.\n", "Hall <bath>", DAY)
    assert pdf_bytes("# Hall bath\n\nDry.\n", "Hall <bath>", DAY) == first
    reader = _read(first)
    assert reader.metadata is not None and reader.metadata.title == "Hall <bath>"
    assert reader.metadata.creation_date is not None and reader.metadata.creation_date.date() == DAY
    # US letter: 8.5 by 11 inches of 72 points.
    assert [round(float(v)) for v in reader.pages[0].mediabox[2:]] == [612, 792]


def test_nothing_in_a_pdf_acts() -> None:
    page = update_markdown(facts(found=tuple(fact(text, f"place {n}") for n, text in enumerate(HOSTILE))))
    reader = _read(pdf_bytes(page, "t", DAY))
    root = reader.root_object
    # ISO 32000-1 section 7.7.2: an array is a place to open at, a dictionary would be an action.
    assert isinstance(root.get("/OpenAction", ArrayObject()), ArrayObject)
    assert not {"/AA", "/AcroForm", "/Names", "/JavaScript"} & set(root)
    assert all("/Annots" not in page for page in reader.pages)


@settings(max_examples=12)
@given(update_facts, lines)
def test_any_update_becomes_a_pdf_and_an_email(some: UpdateFacts, title: str) -> None:
    made = update_markdown(some)
    assert pdf_bytes(made, title, DAY).startswith(b"%PDF-")
    message = email.message_from_bytes(email_bytes(made, title, DAY), policy=email.policy.default)
    assert not message.defects


@pytest.mark.parametrize("text", ["½ × 2″ “quoted” Ünïcode Ж α", "€ 5"])
def test_letters_of_many_scripts_stand_in_a_pdf(text: str) -> None:
    assert _words(text) == _words(_text(pdf_bytes(text + "\n", "t", DAY)))[:-3]


def test_letters_the_font_lacks_are_shown_to_be_missing() -> None:
    assert _text(pdf_bytes("漢 ok\n", "t", DAY)).startswith("\ufffd ok")


def test_a_picture_stands_in_pdf_html_and_email_and_one_that_is_none_does_not() -> None:
    made = f"# Hall bath\n\n![the flange]({PLACE})\n"
    data = jpeg()
    (picture,) = _read(pdf_bytes(made, "t", DAY, {PLACE: data})).pages[0].images
    assert picture.image is not None and picture.image.size == (64, 48)
    assert not _read(pdf_bytes(made, "t", DAY, {PLACE: b"not a picture"})).pages[0].images
    assert not _read(pdf_bytes(made, "t", DAY)).pages[0].images
    message = email.message_from_bytes(
        email_bytes(made, "t", DAY, {PLACE: data}), policy=email.policy.default
    )
    parts = {part.get_content_type(): part for part in message.walk()}
    assert parts["image/jpeg"].get_content() == data
    cid = parts["image/jpeg"]["Content-ID"].strip("<>")
    assert f'src="cid:{cid}"' in parts["text/html"].get_content()


def test_an_email_has_both_parts_and_can_be_read_by_others() -> None:
    """RFC 2046 section 5.1.4: the plainest part first, the richest last; RFC 5322: CRLF and a date."""
    made = update_markdown(rich())
    data = email_bytes(made, "Upstairs hall bath, update", DAY)
    assert data == email_bytes(made, "Upstairs hall bath, update", DAY)
    message = email.message_from_bytes(data, policy=email.policy.default)
    assert not message.defects
    assert message["Subject"] == "Upstairs hall bath, update"
    assert message["Date"].datetime.date() == DAY
    assert message["X-Unsent"] == "1" and message["To"] is None and message["From"] is None
    assert [part.get_content_type() for part in message.iter_parts()] == ["text/plain", "text/html"]
    plain, page = message.iter_parts()
    assert plain.get_content().split() == plain_text(made).split()
    assert page.get_content().split() == (
        html_page(made, "Upstairs hall bath, update").replace("img-src data:", "img-src cid: data:").split()
    )
    assert b"\r\n" in data and b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, data.split(b"\r\n"))) <= 998


def test_a_title_cannot_add_a_header() -> None:
    data = email_bytes("x\n", "Bath\r\nBcc: a@b.example\n\nbody", DAY)
    message = email.message_from_bytes(data, policy=email.policy.default)
    assert message["Bcc"] is None
    assert message["Subject"] == "Bath Bcc: a@b.example body"
