"""The forms of a contract, a change order, a line of it, and the answer to it."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.text import one_line
from journal_tui.journal import paper_forms
from journal_tui.journal.change_materials import Offered
from journal_tui.screens.form import Field, FormScreen


class ContractForm(FormScreen):
    """What was agreed at first, and how changes are priced."""

    HELP = (
        "The contract as it was agreed at first. Accepted change orders are added to it by themselves. "
        "Markup and tax are taken for each new change order; the tax is worked out last."
    )

    def __init__(self, job_id: str) -> None:
        super().__init__(job_id)
        self.place = f"contract-form/{job_id}"

    def fields(self) -> Sequence[Field]:
        now = paper_forms.contract_fields(self.journal, self.job_id or "")
        return (
            Field("sum", "first sum", now["sum"], "such as 24,500"),
            Field("finish", "last day", now["finish"], "the last day of work, such as 2026-12-18"),
            Field("markup", "markup", now["markup"], "percent, such as 15"),
            Field("tax", "sales tax", now["tax"], "percent, such as 8.25"),
            Field("tax_on", "tax is on", now["tax_on"], "nothing, materials or everything: your state says"),
        )

    def reload(self) -> None:
        self.title_is("The contract")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_contract(self.journal, self.job_id or "", values)
        return self.job_id


class OrderForm(FormScreen):
    """The words of a change order; a new one when ``order_id`` is None. The result is its id."""

    HELP = (
        "A change order in the client's words: what was found, what you would do, and what leaving it comes "
        "to. Left empty, that is taken from what is known of such finds. The days may be: plan."
    )

    def __init__(self, job_id: str, order_id: str | None) -> None:
        super().__init__(job_id)
        self._order_id = order_id
        self.place = f"order-form/{order_id or f'new/{job_id}'}"

    def fields(self) -> Sequence[Field]:
        now = paper_forms.order_fields(self.journal, self._order_id)
        return (
            Field("title", "title", now["title"], "New subfloor by the toilet"),
            Field("found", "found", now["found"], "why: what was found"),
            Field("offer", "offer", now["offer"], "what you would do"),
            Field("left", "if left", now["left"], "what it comes to if nothing is done"),
            Field("days", "working days", now["days"], "such as 2, -1, or: plan"),
            Field("by", "answer by", now["by"], "such as friday or 2026-12-18"),
        )

    def reload(self) -> None:
        self.title_is("Change order" if self._order_id else "New change order")

    def save(self, values: dict[str, str]) -> str | None:
        return paper_forms.save_order(self.journal, self.job_id or "", self._order_id, values)


class LineForm(FormScreen):
    """A line to add to a change order, or line ``number`` of it to set right."""

    HELP = (
        "A line at cost: what it pays for, how much of it, and the price of one. The client sees it with its "
        "share of the markup. An allowance is the difference to what the contract allows, and bears none."
    )

    def __init__(self, job_id: str, order_id: str, number: int | None = None) -> None:
        super().__init__(job_id)
        self._order_id, self._number = order_id, number
        self.place = f"order-line/{order_id}/{number or ''}".rstrip("/")

    def fields(self) -> Sequence[Field]:
        now = paper_forms.line_fields(self.journal, self._order_id, self._number)
        return (
            Field("kind", "pays for", now["kind"], "labor (unless you say), material, sub or allowance"),
            Field("text", "what", now["text"], "carpentry"),
            Field("quantity", "how many", now["quantity"], "1 unless you say, such as 2.5"),
            Field("unit", "unit", now["unit"], "hour, sheet"),
            Field("each", "price of one", now["each"], "at cost, such as 65"),
        )

    def reload(self) -> None:
        self.title_is(f"Line {self._number} of the change order" if self._number else "A line to add")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_line(self.journal, self._order_id, values, self._number)
        return self._order_id


class MaterialForm(FormScreen):
    """How many of a material of the list go into a change order, at which price."""

    HELP = (
        "The materials list counts whole packages out of the measures, waste added once. The price is your "
        "own, kept for this job: what you typed last stands here. Both can be changed; the order keeps what "
        "it was made from."
    )

    def __init__(self, job_id: str, order_id: str, choice: Offered) -> None:
        super().__init__(job_id)
        self._order_id, self._choice = order_id, choice
        self.place = f"order-material/{order_id}/{choice.made.phase}/{choice.made.name}"

    def fields(self) -> Sequence[Field]:
        now = paper_forms.material_fields(self._choice)
        return (
            Field("quantity", "how many", now["quantity"], f"{now['says']}, says the list"),
            Field("each", "price of one", now["each"], f"at cost, for one {now['sold_by']}"),
        )

    def reload(self) -> None:
        self.title_is(one_line(self._choice.made.name), "from the materials list")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_material(self.journal, self._order_id, self._choice, values)
        return self._order_id


class AnswerForm(FormScreen):
    """The client's answer to a change order, with its proof."""

    HELP = "What the client said, who said it, how it came and when. It is kept as proof, and it stands."

    def __init__(self, job_id: str, order_id: str) -> None:
        super().__init__(job_id)
        self._order_id = order_id
        self.place = f"order-answer/{order_id}"

    def fields(self) -> Sequence[Field]:
        return (
            Field("answer", "answer", "", "yes or no"),
            Field("by", "who", "", "the name of who gave it"),
            Field("how", "how", "", "signed (unless you say), e-mail, message, letter, phone, in person"),
            Field("day", "day", "", "today unless you say"),
            Field("note", "note", "", "what was said, or where the proof is kept"),
        )

    def reload(self) -> None:
        self.title_is("The client's answer")

    def save(self, values: dict[str, str]) -> str | None:
        paper_forms.save_answer(self.journal, self._order_id, values)
        return self._order_id
