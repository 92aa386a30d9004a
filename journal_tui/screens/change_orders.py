"""A job's change orders and contract, and each order as the client reads it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from textual.app import ComposeResult
from textual.content import Content

from journal_tui.domain.change_order import ChangeOrder
from journal_tui.domain.text import one_line
from journal_tui.journal import changes
from journal_tui.journal.change_answers import send_order, withdraw_order
from journal_tui.journal.change_lists import contract_lines, order_brief, order_facts, order_lines
from journal_tui.journal.change_materials import changes_since
from journal_tui.journal.change_pages import page_markdown, write_page
from journal_tui.journal.contracts import contract_view
from journal_tui.journal.formats import usual_folder
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.updates import page
from journal_tui.journal.writing import checked_folder
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.change_order_forms import AnswerForm, ContractForm, LineForm, OrderForm
from journal_tui.screens.commands import Command
from journal_tui.screens.empty import EmptyNote
from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, pieces, spread
from journal_tui.screens.page import Page
from journal_tui.screens.picker import Ask
from journal_tui.screens.update import FOLDER_QUESTION, FactsLine
from journal_tui.screens.update_draw import page_lines
from journal_tui.screens.working import Progress
from journal_tui.screens.wrapping import wrapped


class OpenOrder(Command):
    """Read the change order as the client reads it, add lines to it, send it, record the answer."""

    id = "orders.open"
    name = "Open"
    key = "enter"
    foot = "open"


class NewOrder(Command):
    """Begin a change order."""

    id = "orders.new"
    name = "New change order"
    key = "n"
    foot = "new"


class SetContract(Command):
    """Set the sum and the last day agreed at first, and how changes are priced."""

    id = "orders.contract"
    name = "The contract"
    key = "k"
    foot = "contract"


class EditOrder(Command):
    """Change what the draft says."""

    id = "order.edit"
    name = "Edit the words"
    key = "e"
    foot = "edit"


class AddLine(Command):
    """Add a line to the price: labor, material, a sub, or a difference to an allowance."""

    id = "order.line"
    name = "Add a line"
    key = "a"
    foot = "add line"


class OrderLines(Command):
    """See and change the lines, and take materials out of the measured list at your price."""

    id = "order.lines"
    name = "Lines and materials"
    key = "l"
    foot = "lines"


class FreezeOrder(Command):
    """Give the draft its number, freeze it as sent and write it to a folder; or write a sent one again."""

    id = "order.freeze"
    name = "Freeze and write files"
    key = "f"
    foot = "freeze & write"


class AnswerOrder(Command):
    """Record what the client said, with its proof; the work held goes on."""

    id = "order.answer"
    name = "The client's answer"
    key = "y"
    foot = "answer"


class WithdrawOrder(Command):
    """Take back a change order that is not answered. A draft taken back takes no number."""

    id = "order.withdraw"
    name = "Withdraw"
    key = "W"


def _words(lines: list[str], width: int) -> list[Content]:
    return [pieces((row, "$soft")) for line in lines for row in wrapped(line, width) or [""]]


class ChangeOrdersScreen(JournalScreen):
    """A job's change orders, those sent by number."""

    OWN_COMMANDS = (OpenOrder, NewOrder, SetContract)
    HELP = (
        "Change orders: what was found that nobody priced, at what price and in how many days. Work that "
        "depends on one waits until the client has answered. Above stands the contract with all of them."
    )
    DEFAULT_CSS = """
    ChangeOrdersScreen EmptyNote { display: none; }
    ChangeOrdersScreen.-empty EmptyNote { display: block; }
    ChangeOrdersScreen.-empty LineList { display: none; }
    """

    def body(self) -> ComposeResult:
        yield FactsLine()
        yield EmptyNote("There is no change order yet.", "n begins one; k sets the contract it changes.")
        yield LineList()

    def reload(self) -> None:
        """Read the list."""
        job = get_job(self.journal, self.job_id or "")
        orders = changes.change_orders(self.journal, job.id)
        told = contract_lines(contract_view(self.journal, job.id))
        self.title_is(job.name, f"change orders   {len(orders)}")
        self.set_class(not orders, "-empty")
        self.query_one(FactsLine).show(lambda width: _words(told, width))
        self.query_one(LineList).show([Row(o.id, _liner(o), o.title) for o in orders])

    def on_line_list_opened(self) -> None:
        self.action_open_order()

    def action_open_order(self) -> None:
        row = self.query_one(LineList).selected
        if row is not None:
            self.app.push_screen(OrderScreen(self.job_id or "", row.key), self._back)

    def action_new_order(self) -> None:
        def made(order_id: object) -> None:
            if isinstance(order_id, str):
                self.reload()
                self.app.push_screen(OrderScreen(self.job_id or "", order_id), self._back)

        self.app.push_screen(OrderForm(self.job_id or "", None), made)

    def action_set_contract(self) -> None:
        self.app.push_screen(ContractForm(self.job_id or ""), self._back)

    def _back(self, _result: object) -> None:
        with self.trying():
            self.reload()


def _liner(order: ChangeOrder) -> Callable[[int], Content]:
    name = f"{changes.handle(order):>5}  {one_line(order.title)}"
    return lambda width: spread([(name, "$ink")], [(order_brief(order), "$soft")], width)


class OrderScreen(JournalScreen):
    """A change order as the client reads it."""

    OWN_COMMANDS = (EditOrder, AddLine, OrderLines, FreezeOrder, AnswerOrder, WithdrawOrder)
    HELP = (
        "A change order as the client reads it. Above stand its lines at cost, which the client never sees. "
        "Freezing gives it its number; nothing is sent anywhere: hand the page on, then record the answer."
    )
    AUTO_FOCUS = "Page"

    def __init__(self, job_id: str, order_id: str) -> None:
        super().__init__(job_id)
        self._order_id = order_id

    def body(self) -> ComposeResult:
        yield FactsLine()
        yield Page()

    def reload(self) -> None:
        """Show the order."""
        job = get_job(self.journal, self.job_id or "")
        order = changes.get_order(self.journal, self._order_id)
        blocks = page(page_markdown(self.journal, order))
        self.title_is(job.name, order.name)
        self._tell(order, {})
        self.query_one(Page).show(lambda width: page_lines(blocks, width))
        if any(line.made_from for line in order.lines):
            # The take-offs are worked out again: too slow for here.
            def do(journal: Journal, _progress: Progress) -> dict[int, str]:
                return changes_since(journal, order)

            self.work("since", do)

    def _tell(self, order: ChangeOrder, since: dict[int, str]) -> None:
        told = [order_facts(order), *order_lines(order, since)]
        self.query_one(FactsLine).show(lambda width: _words(told, width))

    def _again(self, result: object) -> None:
        if result is not None:
            with self.trying():
                self.reload()

    def action_edit_order(self) -> None:
        self.app.push_screen(OrderForm(self.job_id or "", self._order_id), self._again)

    def action_add_line(self) -> None:
        self.app.push_screen(LineForm(self.job_id or "", self._order_id), self._again)

    def action_order_lines(self) -> None:
        from journal_tui.screens.change_order_lines import OrderLinesScreen

        self.app.push_screen(OrderLinesScreen(self.job_id or "", self._order_id))

    def action_answer_order(self) -> None:
        self.app.push_screen(AnswerForm(self.job_id or "", self._order_id), self._again)

    def action_withdraw_order(self) -> None:
        with self.trying():
            order = withdraw_order(self.journal, self._order_id)
            self.reload()
            self.say(f"Withdrawn: {order.name}.")

    def action_freeze_order(self) -> None:
        order_id = self._order_id

        def write(journal: Journal, folder: Path) -> list[Path]:
            checked_folder(folder)
            order = changes.get_order(journal, order_id)
            if order.number is None:
                order = send_order(journal, order_id)
            return write_page(journal, order, folder)

        def answered(words: str | None) -> None:
            if words is not None and words.strip():
                target = Path(words.strip())

                def do(journal: Journal, _progress: Progress) -> list[Path]:
                    return write(journal, target)

                self.work("freeze", do)

        folder = str(usual_folder(self.journal))
        self.app.push_screen(
            Ask(f"freeze and write; {FOLDER_QUESTION}", f"folder/{self.job_id}", folder), answered
        )

    def work_done(self, name: str, result: object) -> None:
        if isinstance(result, list):
            with self.trying():
                self.reload()
            self.say(f"Written: {result[0].parent}")
        elif isinstance(result, dict):
            with self.trying():
                self._tell(changes.get_order(self.journal, self._order_id), result)
