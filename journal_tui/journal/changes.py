"""Change orders of a job: found, begun, worded, priced, and the work that waits for them."""

from __future__ import annotations

import datetime as dt

from journal_tui.domain import change_order as rules
from journal_tui.domain.change_order import ChangeLine, ChangeOrder, ChangeState, Pricing
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.made_from import MadeFrom
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.contracts import contract_of, pricing_row
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.punch import get_item
from journal_tui.journal.typed import measured
from journal_tui.store import change_queries, queries
from journal_tui.store.store import Writer

HANDLE_LENGTH = 5
#: What the texts of an order are called where one is too long.
_CALLED = {"found": "what was found", "offer": "what you offer", "left": "what leaving it comes to"}


def change_orders(journal: Journal, job_id: str) -> list[ChangeOrder]:
    """Return a job's change orders: those sent by number, then the drafts by age."""
    return change_queries.change_orders(journal.store, job_id)


def get_order(journal: Journal, order_id: str) -> ChangeOrder:
    """Return the change order with this id. Raises ``NothingFound``."""
    found = change_queries.change_order(journal.store, order_id)
    if found is None:
        raise NothingFound(
            "no such change order", "It may have been taken out by undo, here or in another copy."
        )
    return found


def handle(order: ChangeOrder) -> str:
    """Return what an order is called by: its number, or the end of its id while it has none."""
    return str(order.number) if order.number else order.id[-HANDLE_LENGTH:]


def find_order(journal: Journal, job: Job, words: str) -> ChangeOrder:
    """Return the one change order of a job that ``words`` names: its number, its handle, or its title.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    orders = change_orders(journal, job.id)
    wanted = folded(words)
    named = [o for o in orders if wanted and wanted in (handle(o), o.id)]
    titled = [o for o in orders if wanted and all(w in folded(o.title) for w in wanted.split())]
    for found in (named, titled):
        if len(found) == 1:
            return found[0]
        if found:
            some = "; ".join(f"{handle(o)} {one_line(o.title)}" for o in found[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(found)} change orders', f"Say which: {some}.")
    raise NothingFound(
        f'no change order fits "{one_line(words)}"', "See them with: journal-tui change-orders JOB"
    )


def waiting_for(journal: Journal, job_id: str) -> dict[str, int]:
    """Return the number of the unanswered change order that each held punch item of a job waits for."""
    return change_queries.waiting_for(journal.store, job_id)


def held_items(journal: Journal, order_id: str) -> list[PunchItem]:
    """Return the punch items that wait for an order's answer, those taken back left out."""
    found = [queries.punch_item(journal.store, i) for i in change_queries.holds_of(journal.store, order_id)]
    return [item for item in found if item is not None]


def draft_order(journal: Journal, job_id: str, title: str, *, entry_id: str | None = None) -> ChangeOrder:
    """Begin a change order, priced as the contract says; of an entry, what was found is its text.

    Raises ``BadInput`` for an empty title or a private entry.
    """
    job = get_job(journal, job_id)
    found = ""
    if entry_id is not None:
        entry = queries.entry(journal.store, entry_id)
        if entry is None or entry.job_id != job.id:
            raise NothingFound(
                "no such entry", "It may have been taken out by undo, here or in another copy."
            )
        if entry.audience is not Audience.CLIENT:
            raise BadInput(
                "the entry is not for the client", "Let the client read it first, or write it new."
            )
        found = entry.text
    values = {
        "job_id": job.id,
        "number": None,
        "title": _title(title),
        "found": found,
        "offer": "",
        "left": "",
        **pricing_row(contract_of(journal, job.id).pricing),
        "days": 0,
        "state": ChangeState.DRAFTED.value,
        "drafted_on": journal.today().isoformat(),
        "entry_id": entry_id,
    }
    with journal.store.write("draft a change order", job.id) as w:
        order_id = w.insert("change_orders", {**values, "moved_at": w.now})
    return get_order(journal, order_id)


def _title(text: str) -> str:
    title = one_line(measured(text, "the title"))
    if not title:
        raise BadInput("a change order needs a title", "Such as: New subfloor by the window.")
    return title


def change_words(
    journal: Journal,
    order_id: str,
    *,
    title: str | None = None,
    found: str | None = None,
    offer: str | None = None,
    left: str | None = None,
    days: int | None = None,
    answer_by: dt.date | None = None,
    pricing: Pricing | None = None,
) -> ChangeOrder:
    """Change what a draft says; what is not given stays. Raises ``BadInput`` once it is sent."""
    order = get_order(journal, order_id)
    rules.may_change(order)
    given = {"found": found, "offer": offer, "left": left}
    values: dict[str, object] = {
        key: measured(text, _CALLED[key]).strip() for key, text in given.items() if text is not None
    }
    if title is not None:
        values["title"] = _title(title)
    if days is not None:
        if abs(days) > rules.MOST_DAYS:
            raise BadInput(f"{days} working days", f"Give {-rules.MOST_DAYS} to {rules.MOST_DAYS}.")
        values["days"] = days
    if answer_by is not None:
        values["answer_by"] = answer_by.isoformat()
    if pricing is not None:
        values |= pricing_row(pricing)
    if values:
        with journal.store.write("change a change order", order.job_id) as w:
            w.change("change_orders", order.id, **values)
    return get_order(journal, order_id)


def add_line(journal: Journal, order_id: str, line: ChangeLine) -> ChangeOrder:
    """Add a line to a draft. Raises ``BadInput`` for a line that cannot stand or an order already sent."""
    return add_lines(journal, order_id, [line])


def add_lines(journal: Journal, order_id: str, lines: list[ChangeLine]) -> ChangeOrder:
    """Add lines to a draft, all or none. Raises ``BadInput`` as ``add_line`` does."""
    order = get_order(journal, order_id)
    rules.may_change(order)
    checked = [_checked(line) for line in lines]
    if len(order.lines) + len(lines) > rules.MOST_LINES:
        raise BadInput(f"{order.name} has {rules.MOST_LINES} lines", "Put some of them together.")
    with journal.store.write("add a line to a change order", order.job_id) as w:
        for line in checked:
            line_id = w.insert("change_lines", {"order_id": order.id, **_row(line)})
            _put_source(w, line_id, line.made_from)
    return get_order(journal, order_id)


def change_line(journal: Journal, order_id: str, number: int, line: ChangeLine) -> ChangeOrder:
    """Put ``line`` in the place of line ``number`` (counted from 1) of a draft.

    Raises ``BadInput`` when there is none, and as ``add_line`` does.
    """
    order, line_id = _line_of(journal, order_id, number)
    line = _checked(line)
    with journal.store.write("change a line of a change order", order.job_id) as w:
        w.change("change_lines", line_id, **_row(line))
        if line.made_from != order.lines[number - 1].made_from:
            _drop_source(journal, w, line_id)
            _put_source(w, line_id, line.made_from)
    return get_order(journal, order_id)


def drop_line(journal: Journal, order_id: str, number: int) -> ChangeOrder:
    """Take line ``number`` (counted from 1) out of a draft. Raises ``BadInput`` when there is none."""
    order, line_id = _line_of(journal, order_id, number)
    with journal.store.write("take a line out of a change order", order.job_id) as w:
        _drop_source(journal, w, line_id)
        w.remove("change_lines", line_id)
    return get_order(journal, order_id)


def _line_of(journal: Journal, order_id: str, number: int) -> tuple[ChangeOrder, str]:
    order = get_order(journal, order_id)
    rules.may_change(order)
    rows = change_queries.line_rows(journal.store, order.id)
    if not 1 <= number <= len(rows):
        raise BadInput(f"there is no line {number}", f"{order.name} has {len(rows)}.")
    return order, rows[number - 1]["id"]


def _checked(line: ChangeLine) -> ChangeLine:
    measured(line.text, "the line")
    measured(line.unit, "the unit")
    return rules.checked_line(line)


def _row(line: ChangeLine) -> dict[str, object]:
    return {
        "kind": line.kind.value,
        "text": one_line(line.text),
        "quantity": line.quantity,
        "unit": one_line(line.unit),
        "each": line.each,
        "marked_up": int(line.marked_up),
    }


def _put_source(w: Writer, line_id: str, made: MadeFrom | None) -> None:
    if made is None:
        return
    w.insert(
        "line_sources",
        {
            "id": line_id,
            "name": made.name,
            "phase": made.phase,
            "packages": made.packages,
            "packed": made.packed,
            "package": float(made.package),
            "unit": made.unit,
            "amount": float(made.amount),
            "waste": float(made.waste),
            "basis": made.basis,
            "day": made.day.isoformat(),
        },
    )
    for part in made.parts:
        w.insert(
            "line_measures",
            {
                "line_id": line_id,
                "measure_id": part.measure_id,
                "name": part.name,
                "amount": float(part.amount),
            },
        )


def _drop_source(journal: Journal, w: Writer, line_id: str) -> None:
    for row_id in change_queries.measures_of_line(journal.store, line_id):
        w.remove("line_measures", row_id)
    if journal.store.row("SELECT id FROM line_sources WHERE id = ?", [line_id]):
        w.remove("line_sources", line_id)


def hold(journal: Journal, order_id: str, item_id: str) -> ChangeOrder:
    """Let a punch item wait for the order's answer. Raises ``BadInput`` when it cannot."""
    order, item = get_order(journal, order_id), get_item(journal, item_id)
    rules.may_change(order)
    if item.job_id != order.job_id:
        raise BadInput("the punch item belongs to another job")
    if item.state is not PunchState.OPEN:
        raise BadInput(f"“{one_line(item.text)}” is {item.state}", "Only open work can wait.")
    if item.id not in change_queries.holds_of(journal.store, order.id):
        with journal.store.write("hold a punch item for a change order", order.job_id) as w:
            w.insert(
                "change_holds",
                {
                    "id": f"{order.id}/{item.id}",
                    "job_id": order.job_id,
                    "order_id": order.id,
                    "item_id": item.id,
                },
            )
    return order


def release(journal: Journal, order_id: str, item_id: str) -> ChangeOrder:
    """Let a punch item no longer wait for a draft's answer."""
    order = get_order(journal, order_id)
    rules.may_change(order)
    if item_id in change_queries.holds_of(journal.store, order.id):
        with journal.store.write("let a punch item go on", order.job_id) as w:
            w.remove("change_holds", f"{order.id}/{item_id}")
    return order
