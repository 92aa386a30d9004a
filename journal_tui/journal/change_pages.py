"""The client's page of a change order: as it would be sent, and as it was."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from pathlib import Path

from journal_tui.domain.change_order import ChangeOrder, ChangeState, shown_prices
from journal_tui.domain.change_page import ChangePage, PageLine
from journal_tui.domain.document import DocumentKind, SentDocument
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.punch import PunchItem
from journal_tui.domain.reading import ClientText, client_heading, for_client
from journal_tui.domain.text import storable
from journal_tui.journal.change_lists import amount_words
from journal_tui.journal.changes import held_items
from journal_tui.journal.contracts import contract_view, later_day
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import PaperForm, write_paper
from journal_tui.journal.update_facts import client_roles
from journal_tui.store import queries
from journal_tui.store.store import Writer

_KIND = DocumentKind.CHANGE_ORDER


def order_page(journal: Journal, order: ChangeOrder) -> ChangePage:
    """Return a change order as the client may read it: names and codes withheld, markup in the prices."""
    job = get_job(journal, order.job_id)
    roles = client_roles(journal, job)

    def client(text: str) -> ClientText:
        shown = for_client(text, Audience.CLIENT, roles)
        assert shown is not None  # only what is marked for others is kept from the client
        return shown

    prices = shown_prices(order.lines, order.pricing)
    lines = [
        PageLine(line.kind, client(line.text), client(amount_words(line.quantity, line.unit)), cents)
        for line, cents in zip(order.lines, prices, strict=True)
    ]
    view = contract_view(journal, job.id)
    before = view.standing.cents
    if before is not None and order.state is ChangeState.ACCEPTED:
        before -= order.price.total
    finish = view.finish
    if finish is not None and order.state is ChangeState.ACCEPTED:
        finish = later_day(journal, job.id, finish, -order.days)
    return ChangePage(
        title=client(order.title),
        job=client_heading(job.name),
        address=client_heading(job.address),
        number=order.number,
        day=order.sent_on or journal.today(),
        found=client(order.found),
        offer=client(order.offer),
        left=client(order.left),
        lines=tuple(lines),
        tax=order.price.tax,
        tax_base=order.pricing.tax_base,
        total=order.price.total,
        days=order.days,
        state=order.state,
        answer_by=order.answer_by,
        before=before,
        after=None if before is None else before + order.price.total,
        finish=finish,
        finish_after=later_day(journal, job.id, finish, order.days) if finish else None,
        waits=tuple(_waiting(held_items(journal, order.id), roles)),
        answer=_answer_words(order),
    )


def _waiting(items: list[PunchItem], roles: dict[str, str]) -> list[ClientText]:
    told = [for_client(item.text, item.audience, roles) for item in items]
    return [text for text in told if text is not None]


def _answer_words(order: ChangeOrder) -> ClientText | None:
    if order.answer is None:
        return None
    # The client's own name is the proof, and it is theirs to read.
    answer = order.answer
    return client_heading(f"{answer.by}, {answer.how.value}, {answer.day.isoformat()}")


def page_markdown(journal: Journal, order: ChangeOrder) -> str:
    """Return the client's page of a change order as Markdown."""
    from journal_tui.documents.change_order import change_order_markdown

    return change_order_markdown(order_page(journal, order))


def frozen_page(journal: Journal, w: Writer, order: ChangeOrder) -> str:
    """Keep the page of an order just sent as a sent document, word for word; return its id."""
    markdown = storable(page_markdown(journal, order))
    return w.insert(
        "documents",
        {
            "job_id": order.job_id,
            "kind": _KIND.value,
            "sent_on": journal.today().isoformat(),
            "markdown": markdown,
            "sha256": hashlib.sha256(markdown.encode()).hexdigest(),
        },
    )


def sent_pages(journal: Journal, job: Job) -> list[SentDocument]:
    """Return the pages sent for a job, newest first."""
    return queries.documents(journal.store, job.id, _KIND)


def write_page(
    journal: Journal, order: ChangeOrder, folder: Path, forms: Sequence[PaperForm] | None = None
) -> list[Path]:
    """Write the client's page of an order to ``folder``; return the files. Raises ``CannotWrite``."""
    job = get_job(journal, order.job_id)
    title = f"{client_heading(job.name)}, change order {order.number or 'draft'}"
    day = order.sent_on or journal.today()
    return write_paper(folder, page_markdown(journal, order), title, title, day, forms or (*PaperForm,))
