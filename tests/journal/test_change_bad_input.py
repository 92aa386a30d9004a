"""Change orders given what they should not be given: refused in words, or shown as it was written."""

from __future__ import annotations

import email
import email.policy
import io
from collections.abc import Callable
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from pypdf import PdfReader
from pypdf.generic import ArrayObject

from journal_tui.domain.change_order import Answer, ChangeLine, ChangeOrder, Channel, LineKind
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.money import MOST_CENTS
from journal_tui.journal import changes, contracts, jobs
from journal_tui.journal.change_answers import answer_order, send_order
from journal_tui.journal.change_lists import order_lines
from journal_tui.journal.change_materials import take_material
from journal_tui.journal.change_pages import page_markdown, write_page
from journal_tui.journal.job_measures import keep_measure
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import MOST_TYPED
from tests.conftest import TODAY

LONG = "w" * MOST_TYPED
#: Markup, HTML, escapes and links that must stand as they were written, wherever they are typed.
HOSTILE = (
    "<script>alert(1)</script> <img src=x onerror=alert(2)>",
    "# no heading *no* _no_ `no` [no](javascript:alert(3)) ![no](https://a.example/p.jpg)",
    "\x1b[31mred\x1b[0m \x07bell \u202emirrored\u202c",
    "| a | b | &lt; &#60; \\ [/] [@click=app.quit]x[/]",
)


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room", client="Ada Lindqvist")


def draft(journal: Journal, job: Job, *lines: ChangeLine, days: int = 0) -> str:
    order = changes.draft_order(journal, job.id, "New subfloor")
    changes.change_words(journal, order.id, offer="New boards", days=days)
    if lines:
        changes.add_lines(journal, order.id, list(lines))
    return order.id


def line(each: int, quantity: int = 100) -> ChangeLine:
    return ChangeLine(LineKind.MATERIAL, "boards", quantity, "", each)


def test_an_order_that_comes_to_nothing_is_not_sent(journal: Journal, job: Job) -> None:
    for lines in ((), (line(5_000), line(-5_000)), (line(0),)):
        with pytest.raises(BadInput, match="changes neither the price nor the days"):
            send_order(journal, draft(journal, job, *lines))
    # Nothing but time is a change, too.
    assert send_order(journal, draft(journal, job, days=1)).price.total == 0


def test_a_line_without_a_price_is_not_sent(journal: Journal, job: Job) -> None:
    order = draft(journal, job, line(5_000), line(0))
    assert "2. material: boards, no price yet: $0.00" in order_lines(changes.get_order(journal, order), {})[1]
    with pytest.raises(BadInput, match="line 2 of draft change order, New subfloor has no price"):
        send_order(journal, order)


def test_more_money_than_there_is_is_refused(journal: Journal, job: Job) -> None:
    with pytest.raises(BadInput, match=r"comes to \$20,000,000.00"):
        send_order(journal, draft(journal, job, line(MOST_CENTS), line(MOST_CENTS)))
    contracts.set_contract(journal, job.id, cents=100_000)
    with pytest.raises(BadInput, match=r"takes \$1,000.01 off"):
        send_order(journal, draft(journal, job, line(-100_001)))
    send_order(journal, draft(journal, job, line(-60_000)))
    # What waits for an answer may be said yes to, and counts.
    with pytest.raises(BadInput, match=r"The contract stands at \$400.00"):
        send_order(journal, draft(journal, job, line(-60_000)))
    assert [order.number for order in changes.change_orders(journal, job.id) if order.number] == [1]


def test_an_answer_before_the_sending_and_a_second_one_are_refused(journal: Journal, job: Job) -> None:
    order, yes = draft(journal, job, days=1), Answer("Ada", Channel.PHONE, TODAY)
    with pytest.raises(BadInput, match="was not sent yet"):
        answer_order(journal, order, True, yes)
    send_order(journal, order)
    with pytest.raises(BadInput, match="was sent already"):
        send_order(journal, order)
    done = answer_order(journal, order, True, yes)
    for accepted in (True, False):
        with pytest.raises(BadInput, match="was accepted already"):
            answer_order(journal, order, accepted, Answer("Someone else", Channel.EMAIL, TODAY))
    assert changes.get_order(journal, order) == done


@pytest.mark.parametrize("field", ["title", "found", "offer", "left", "line", "unit", "name", "note"])
def test_the_longest_text_is_taken_and_a_longer_one_refused_by_name(
    journal: Journal, job: Job, field: str
) -> None:
    order = draft(journal, job, days=1)
    if field in ("name", "note"):
        send_order(journal, order)

    def give(text: str) -> object:
        given: dict[str, Callable[[], object]] = {
            "line": lambda: changes.add_line(journal, order, ChangeLine(LineKind.SUB, text, 100, "", 100)),
            "unit": lambda: changes.add_line(journal, order, ChangeLine(LineKind.SUB, "x", 100, text, 100)),
            "name": lambda: answer_order(journal, order, True, Answer(text, Channel.PHONE, TODAY)),
            "note": lambda: answer_order(journal, order, True, Answer("A", Channel.PHONE, TODAY, text)),
        }
        return given.get(field, lambda: changes.change_words(journal, order, **{field: text}))()  # type: ignore[arg-type]

    with pytest.raises(BadInput, match=r"is too long \(20,001 characters\)"):
        give(LONG + "w")
    give(LONG)
    assert LONG in str(changes.get_order(journal, order))


def test_a_line_of_twenty_thousand_letters_comes_whole_in_every_form(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    order = draft(journal, job, ChangeLine(LineKind.SUB, LONG, 100, "", 100))
    for path in write_page(journal, changes.get_order(journal, order), tmp_path):
        text = _text(path)
        assert "".join(text.split()).count("w" * MOST_TYPED) >= 1, path.suffix


def _text(path: Path) -> str:
    if path.suffix == ".pdf":
        return "".join(_without_foot(page.extract_text()) for page in PdfReader(path).pages)
    if path.suffix == ".eml":
        message = email.message_from_bytes(path.read_bytes(), policy=email.policy.default)
        (plain, _page) = message.iter_parts()
        return str(plain.get_content())
    return path.read_text()


def _without_foot(text: str) -> str:
    return text.rsplit("\n", 1)[0]


def hostile(journal: Journal, job: Job, words: str) -> ChangeOrder:
    """Write an order with ``words`` in every field there is, and have it answered."""
    order = changes.draft_order(journal, job.id, words)
    changes.change_words(journal, order.id, found=words, offer=words, left=words, days=1)
    changes.add_line(journal, order.id, ChangeLine(LineKind.LABOR, words, 250, words, 100))
    keep_measure(journal, job.id, "take-off", words, {"size": "4-0x4-0", "panel": f"{words} 1/2"})
    take_material(journal, order.id, f"{words} 1/2", each=100)
    send_order(journal, order.id)
    return answer_order(journal, order.id, True, Answer(words, Channel.LETTER, TODAY, words))


@pytest.mark.parametrize("words", HOSTILE)
def test_hostile_words_in_every_field_act_nowhere(
    journal: Journal, job: Job, tmp_path: Path, words: str
) -> None:
    order = hostile(journal, job, words)
    html = MarkdownIt("commonmark").render(page_markdown(journal, order))
    for acting in ("<script", "<img", "<em>", "<code>", "<a ", "onerror=alert(2)>"):
        assert acting not in html.replace("&lt;img src=x onerror=alert(2)&gt;", "")
    assert html.count("<h1>") == 1
    told = "\n".join(order_lines(order, {}))
    assert "\x1b" not in told and "\u202e" not in told
    for path in write_page(journal, order, tmp_path):
        data = path.read_bytes()
        assert b"\x1b" not in data or path.suffix == ".pdf"
        if path.suffix == ".pdf":
            root = PdfReader(io.BytesIO(data)).root_object
            # ISO 32000-1 section 7.7.2: an array is a place to open at, a dictionary would be an action.
            assert isinstance(root.get("/OpenAction", ArrayObject()), ArrayObject)
            assert not {"/AA", "/AcroForm", "/Names", "/JavaScript"} & set(root)
        if path.suffix == ".html":
            assert b"<script" not in data and b"<img" not in data and b"href=" not in data
        if path.suffix == ".eml":
            message = email.message_from_bytes(data, policy=email.policy.default)
            assert not message.defects and message["To"] is None and message["Bcc"] is None
