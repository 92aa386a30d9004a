"""Recording what came of an inspection, answer, delivery or test."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.journal.plan_entry import result_typed
from journal_tui.screens.form import Field, FormScreen


class ResultForm(FormScreen):
    """The form of a result."""

    HELP = (
        "Only a recorded result releases what follows: who said so, when, passed or what failed, and "
        "what shows it. A failure puts a correction for each thing found, and another look, on the "
        "punch list."
    )

    def __init__(self, job_id: str, item_id: str, text: str) -> None:
        super().__init__(job_id)
        self.item_id = item_id
        self.text = text
        self.place = f"result/{item_id}"

    def fields(self) -> Sequence[Field]:
        return (
            Field("outcome", "result", "", "passed, or failed"),
            Field("by", "said by", "", "city inspector"),
            Field("shown", "shown by", "", "card signed, photo 12; or a gauge reading"),
            Field("found", "what failed", "", "nail plate missing at stud 3; no strap at the valve"),
            Field("day", "day", "", "today unless you say"),
        )

    def reload(self) -> None:
        self.title_is("Result", self.text)

    def save(self, values: dict[str, str]) -> str | None:
        return result_typed(
            self.journal,
            self.item_id,
            values["outcome"],
            values["by"],
            values["shown"],
            values["found"],
            values["day"],
        )
