"""The forms of the record of a house: hidden work, its tests, finishes, and the acceptance of the job."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.journal import record_forms
from journal_tui.screens.form import Field, FormScreen

_TODAY = "today unless you say"


class WorkForm(FormScreen):
    """Something behind a surface: the one with ``work_id``, or a new one, of what an entry says."""

    HELP = (
        "What is behind a wall, floor or ceiling, and how far from one or two points that will still be "
        "there in twenty years: a jamb, a corner, the finished floor. Lengths as on a tape."
    )

    def __init__(self, job_id: str, work_id: str | None = None, entry_id: str | None = None) -> None:
        super().__init__(job_id)
        self._work_id, self._entry_id = work_id, entry_id
        self.place = f"record-work/{work_id or entry_id or job_id}"

    def fields(self) -> Sequence[Field]:
        now = record_forms.fields_of_work(self.journal, self._work_id, self._entry_id)
        lines = (
            Field("surface", "behind", now["surface"], "long wall"),
            Field("what", "what", now["what"], "blocking for the grab bar"),
            Field("size", "size", now["size"], "2x8"),
            Field("from_a", "from", now["from_a"], "the door jamb"),
            Field("length_a", "how far", now["length_a"], "34 1/2 in"),
            Field("from_b", "and from", now["from_b"], "the floor"),
            Field("length_b", "how far", now["length_b"], "33 in"),
            Field("seen", "seen", now["seen"], _TODAY),
            Field("covered", "covered", now["covered"], "the day it was covered, when it is"),
        )
        if self._entry_id is not None:
            return lines
        return (*lines, Field("entry", "rests on", now["entry"], "words of the entry it was seen in, if any"))

    def reload(self) -> None:
        self.title_is("Hidden work", "from an entry" if self._entry_id else "")

    def save(self, values: dict[str, str]) -> str | None:
        return record_forms.save_work(self.journal, self.job_id or "", self._work_id, values, self._entry_id)


class WorkTestForm(FormScreen):
    """A test of a hidden work; a new one when ``test_id`` is None."""

    HELP = (
        "A test made before it was covered: what it was, whether it passed, what was read or what failed, "
        "who made it. Who made it stays with you; the rest is in the record of the house."
    )

    def __init__(self, job_id: str, work_id: str, words: str, test_id: str | None = None) -> None:
        super().__init__(job_id)
        self._work_id, self._words, self._test_id = work_id, words, test_id
        self.place = f"record-test/{test_id or work_id}"

    def fields(self) -> Sequence[Field]:
        now = record_forms.fields_of_test(self.journal, self._test_id)
        return (
            Field("what", "test", now["what"], "pressure test"),
            Field("outcome", "result", now["outcome"], "passed, or failed"),
            Field("found", "what was read", now["found"], "held 100 psi for 15 minutes; or what failed"),
            Field("by", "made by", now["by"], "who made it"),
            Field("day", "day", now["day"], _TODAY),
        )

    def reload(self) -> None:
        self.title_is("A test", self._words)

    def save(self, values: dict[str, str]) -> str | None:
        return record_forms.save_test(self.journal, self._work_id, self._test_id, values)


class FinishForm(FormScreen):
    """Something the house was finished with; a new one when ``finish_id`` is None."""

    HELP = "A finish, told without its maker: what is needed to match a piece later and to keep it well."

    def __init__(self, job_id: str, finish_id: str | None = None) -> None:
        super().__init__(job_id)
        self._finish_id = finish_id
        self.place = f"record-finish/{finish_id or job_id}"

    def fields(self) -> Sequence[Field]:
        now = record_forms.fields_of_finish(self.journal, self._finish_id)
        return (
            Field("area", "where", now["area"], "floor"),
            Field("what", "what", now["what"], "hex tile"),
            Field("description", "looks", now["description"], "white porcelain, one inch, matte"),
            Field("lot", "lot", now["lot"], "C12; one box left in the basement"),
            Field("care", "care", now["care"], "wipe with water and mild soap"),
            Field("placed", "put in", now["placed"], "the day it was put in"),
            Field("warranty", "warranty to", now["warranty"], "such as 2036-03-12"),
        )

    def reload(self) -> None:
        self.title_is("A finish")

    def save(self, values: dict[str, str]) -> str | None:
        return record_forms.save_finish(self.journal, self.job_id or "", self._finish_id, values)


class SignOffForm(FormScreen):
    """Who accepted the finished job."""

    HELP = (
        "That the client accepted the finished job, who said so, how and when. It is kept as proof, and it "
        "stands: undo does not take it back. While anything is open, say in the note what was agreed of it."
    )

    def __init__(self, job_id: str, left_open: int) -> None:
        super().__init__(job_id)
        self._left_open = left_open
        self.place = f"record-sign/{job_id}"

    def fields(self) -> Sequence[Field]:
        return (
            Field("by", "accepted by", "", "the name of who said so"),
            Field("how", "how", "", "signed, or e-mail, message, letter, phone, in person"),
            Field("day", "day", "", _TODAY),
            Field("note", "note", "", self._about_open()),
        )

    def _about_open(self) -> str:
        if not self._left_open:
            return "anything else that was agreed"
        what = "1 item is" if self._left_open == 1 else f"{self._left_open} items are"
        return f"{what} open: what was agreed about it"

    def reload(self) -> None:
        self.title_is("The job is accepted", "it stands: undo does not take it back")

    def save(self, values: dict[str, str]) -> str | None:
        record_forms.save_sign_off(self.journal, self.job_id or "", values)
        return self.job_id
