"""Contract and change orders as they are typed into forms: every field a line of text."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

from journal_tui.domain.change_order import HUNDREDTHS, Answer, ChangeLine, Channel, LineKind, TaxBase
from journal_tui.domain.errors import BadInput, about
from journal_tui.domain.money import cents_typed, money, rate, rate_typed
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.change_answers import answer_order
from journal_tui.journal.change_lists import hundredths
from journal_tui.journal.change_materials import Offered, counted, take
from journal_tui.journal.change_plan import days_by_plan
from journal_tui.journal.changes import add_line, change_line, change_words, draft_order, get_order
from journal_tui.journal.contracts import contract_of, set_contract
from journal_tui.journal.days import day_ahead, day_typed
from journal_tui.journal.opening import Journal

Values = Mapping[str, str]


def contract_fields(journal: Journal, job_id: str) -> dict[str, str]:
    """Return a contract as its form holds it."""
    now = contract_of(journal, job_id)
    return {
        "sum": "" if now.cents is None else money(now.cents),
        "finish": now.finish.isoformat() if now.finish else "",
        "markup": rate(now.pricing.markup),
        "tax": rate(now.pricing.tax),
        "tax_on": now.pricing.tax_base.value,
    }


def save_contract(journal: Journal, job_id: str, values: Values) -> None:
    """Save a contract form. Raises ``BadInput``."""
    set_contract(
        journal,
        job_id,
        cents=cents_typed(values["sum"]) if values["sum"].strip() else None,
        finish=_ahead(journal, values["finish"]),
        markup=rate_typed(values["markup"]) if values["markup"].strip() else None,
        tax=rate_typed(values["tax"]) if values["tax"].strip() else None,
        tax_base=TaxBase(_one_of(values["tax_on"] or "nothing", TaxBase, "what the tax is on")),
    )


def order_fields(journal: Journal, order_id: str | None) -> dict[str, str]:
    """Return a change order's words as its form holds them, empty for a new one."""
    if order_id is None:
        return dict.fromkeys(("title", "found", "offer", "left", "days", "by"), "")
    order = get_order(journal, order_id)
    return {
        "title": order.title,
        "found": order.found,
        "offer": order.offer,
        "left": order.left,
        "days": str(order.days or ""),
        "by": order.answer_by.isoformat() if order.answer_by else "",
    }


def save_order(journal: Journal, job_id: str, order_id: str | None, values: Values) -> str:
    """Save a change order's form, beginning it when it is new; return its id. Raises ``BadInput``."""
    days = values["days"].strip()
    by = _ahead(journal, values["by"])
    number = None if folded(days) == "plan" else _whole(days)
    made = order_id or draft_order(journal, job_id, values["title"]).id
    if number is None:
        number = days_by_plan(journal, made)
    change_words(
        journal,
        made,
        title=values["title"],
        found=values["found"],
        offer=values["offer"],
        left=values["left"],
        days=number,
        answer_by=by,
    )
    return made


def line_fields(journal: Journal, order_id: str, number: int | None) -> dict[str, str]:
    """Return line ``number`` of a change order as its form holds it, empty for a new one."""
    if number is None:
        return dict.fromkeys(("kind", "text", "quantity", "unit", "each"), "")
    line = get_order(journal, order_id).lines[number - 1]
    return {
        "kind": line.kind.value,
        "text": line.text,
        "quantity": hundredths(line.quantity),
        "unit": line.unit,
        "each": money(line.each),
    }


def material_fields(choice: Offered) -> dict[str, str]:
    """Return a material of the list as its form holds it: how many, and the price there is for one."""
    made = choice.made
    return {
        "quantity": str(made.packages),
        "each": "" if choice.each is None else money(choice.each),
        "says": counted(made.packages, made),
        "sold_by": made.sold_by,
    }


def save_material(journal: Journal, order_id: str, choice: Offered, values: Values) -> None:
    """Take a material into a change order as its form says. Raises ``BadInput``."""
    with about("quantity"):
        quantity = cents_typed(values["quantity"]) if values["quantity"].strip() else None
    with about("each"):
        each = cents_typed(values["each"]) if values["each"].strip() else None
    take(journal, order_id, choice, each, quantity)


def save_line(journal: Journal, order_id: str, values: Values, number: int | None = None) -> None:
    """Add the line a form holds to a change order, or put it in the place of line ``number``.

    Raises ``BadInput``.
    """
    kind = LineKind(_one_of(values["kind"] or "labor", LineKind, "what the line pays for"))
    with about("quantity"):
        quantity = cents_typed(values["quantity"]) if values["quantity"].strip() else HUNDREDTHS
    with about("each"):
        each = cents_typed(values["each"])
    before = get_order(journal, order_id).lines[number - 1] if number else None
    stays = before is not None and before.kind is kind
    line = ChangeLine(
        kind,
        values["text"],
        quantity,
        values["unit"],
        each,
        before.marked_up if before and stays else kind is not LineKind.ALLOWANCE,
        before.made_from if before and stays else None,
    )
    if number is None:
        add_line(journal, order_id, line)
    else:
        change_line(journal, order_id, number, line)


def save_answer(journal: Journal, order_id: str, values: Values) -> None:
    """Record the answer a form holds. Raises ``BadInput``."""
    said = _one_of(values["answer"], ("yes", "no"), "the answer")
    how = Channel(_one_of(values["how"] or "signed", Channel, "how the answer came"))
    day = day_typed(values["day"], journal.today()) if values["day"].strip() else journal.today()
    answer_order(journal, order_id, said == "yes", Answer(values["by"], how, day, values["note"]))


def _ahead(journal: Journal, text: str) -> dt.date | None:
    return day_ahead(text, journal.today()) if text.strip() else None


def _whole(text: str) -> int:
    digits = text.removeprefix("-")
    if not text:
        return 0
    if not (digits.isascii() and digits.isdigit() and len(digits) < 5):
        raise BadInput(f"{one_line(text)[:20]} is no number of working days", "Such as 2, -1, or: plan.")
    return int(text)


def _one_of(text: str, words: Iterable[str], what: str) -> str:
    """Return the one of ``words`` that ``text`` is the beginning of. Raises ``BadInput`` naming them."""
    known = [str(word) for word in words]
    wanted = folded(text)
    found = [word for word in known if wanted and word.startswith(wanted)]
    if wanted not in known and len(found) != 1:
        raise BadInput(f'{what}: "{one_line(text)[:20]}"', f"One of: {', '.join(known)}.")
    return wanted if wanted in known else found[0]
