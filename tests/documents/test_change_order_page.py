"""The client's page of a change order: what it says, that it adds up, and that nothing in it acts."""

from __future__ import annotations

import datetime as dt
import re
from typing import get_args, get_type_hints

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents import html_page, plain_text, readability
from journal_tui.documents.change_order import change_order_markdown
from journal_tui.domain.change_order import ChangeState, LineKind, TaxBase
from journal_tui.domain.change_page import ChangePage, PageLine
from journal_tui.domain.reading import ClientText
from tests.documents.samples import DAY, HOSTILE, client_text, lines
from tests.documents.trees import document


def page(**fields: object) -> ChangePage:
    """Return a page of change order 3, sent, with the rest filled in."""
    made: dict[str, object] = {
        "title": client_text("New subfloor"),
        "job": client_text("Hall bath"),
        "address": client_text("27 Quince Street"),
        "number": 3,
        "day": DAY,
        "found": client_text("the floor is soft by the toilet"),
        "offer": client_text("We replace 40 square feet."),
        "left": client_text(""),
        "lines": (
            PageLine(LineKind.LABOR, client_text("carpentry"), client_text("12 hours"), 89_700),
            PageLine(LineKind.MATERIAL, client_text("plywood"), client_text("3 sheets"), 18_630),
        ),
        "tax": 1_490,
        "tax_base": TaxBase.MATERIALS,
        "total": 109_820,
        "days": 2,
        "state": ChangeState.SENT,
        "before": 2_000_000,
        "after": 2_109_820,
        "finish": dt.date(2026, 4, 3),
        "finish_after": dt.date(2026, 4, 7),
        **fields,
    }
    return ChangePage(**made)  # type: ignore[arg-type]


def test_the_page_tells_why_what_and_how_much_and_gives_a_real_choice() -> None:
    made = plain_text(change_order_markdown(page(answer_by=dt.date(2026, 3, 24))))
    for words in (
        "Change order 3: New subfloor",
        "Please answer by Tuesday, March 24.",
        "Why it matters. A soft or dark spot means the wood has been wet for some time.",
        "- Work: carpentry, 12 hours: $897.00\n- Material: plywood, 3 sheets: $186.30\n"
        "- Sales tax on materials: $14.90",
        "In all it adds $1,098.20 to the price.",
        "It adds two working days. The last day of work moves from Friday, April 3 to Tuesday, April 7.",
        "- The contract as it stands: $20,000.00\n- This change: $1,098.20\n"
        "- The contract if you say yes: $21,098.20",
        "Leave it as it is. The price and the time stay as they are. New work on top of a soft spot",
        "[ ] Yes, go ahead.\n\n[ ] No, leave it as it is.",
    ):
        assert words in made, words
    assert readability(change_order_markdown(page())).grade <= 8


def test_the_sums_on_the_page_add_up() -> None:
    made = plain_text(change_order_markdown(page()))
    cents = [
        int(s.replace(",", "").replace(".", "")) for s in re.findall(r"^- .*\$([\d,]+\.\d\d)$", made, re.M)
    ]
    *parts, before, change, after = cents
    assert sum(parts) == change == 109_820
    assert before + change == after


def test_the_writers_own_words_for_leaving_it_come_first() -> None:
    made = change_order_markdown(page(left=client_text("the door keeps sticking")))
    assert "The door keeps sticking." in made
    assert "New work on top of a soft spot" not in made
    nothing = change_order_markdown(page(found=client_text("client wants a niche")))
    assert "You want a niche." in nothing and "We know of no harm that would come of it soon." in nothing


@pytest.mark.parametrize(
    ("state", "fields", "words"),
    [
        (ChangeState.DRAFTED, {"number": None}, "This is a draft. It has not been sent."),
        (ChangeState.WITHDRAWN, {}, "We took this offer back."),
        (ChangeState.ACCEPTED, {"answer": client_text("A. Lind, signed")}, "You said yes.\nA. Lind, signed."),
        (ChangeState.DECLINED, {"answer": client_text("A. Lind, phone")}, "You said no."),
    ],
)
def test_the_page_says_where_it_stands(state: ChangeState, fields: dict[str, object], words: str) -> None:
    made = change_order_markdown(page(state=state, **fields))
    assert words in made
    assert "Please sign" not in made


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_stand_in_the_page_as_typed(text: str) -> None:
    some = client_text(text)
    line = PageLine(LineKind.SUB, some, some, 5)
    made = change_order_markdown(
        page(title=some, job=some, found=some, offer=some, left=some, lines=(line,), waits=(some,))
    )
    root = document(html_page(made, text))
    assert root.find(".//script") is None and root.find(".//a") is None and root.find(".//img") is None


@given(lines, lines, st.integers(-(10**8), 10**8), st.integers(-40, 40), st.sampled_from(ChangeState))
def test_any_page_can_be_made_and_is_the_same_each_time(
    found: str, left: str, total: int, days: int, state: ChangeState
) -> None:
    some = page(found=client_text(found), left=client_text(left), total=total, days=days, state=state)
    assert change_order_markdown(some) == change_order_markdown(some)


def test_every_text_of_a_page_has_passed_reading() -> None:
    plain = {"number", "day", "tax", "tax_base", "total", "days", "state", "answer_by", "before", "after",
             "finish", "finish_after", "lines"}  # fmt: skip
    hints = get_type_hints(ChangePage)
    for name in set(hints) - plain:
        assert ClientText in (hints[name], *get_args(hints[name])), name
    assert get_args(hints["lines"]) == (PageLine, ...)
    line = get_type_hints(PageLine)
    assert line == {"kind": LineKind, "text": ClientText, "amount": ClientText, "cents": int}
