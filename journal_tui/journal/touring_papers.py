"""What the tour's jobs come to on paper: contract, change orders, hidden work, finishes, photos.

Each is made by the service a screen would use, on the day it is dated, from words as they are typed.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from journal_tui.domain.change_order import Answer, ChangeLine, Channel, LineKind, TaxBase
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.money import cents_typed, rate_typed
from journal_tui.domain.punch import PunchState
from journal_tui.journal import changes, house_record
from journal_tui.journal.change_answers import answer_order, send_order
from journal_tui.journal.contracts import set_contract
from journal_tui.journal.entries import find_entry
from journal_tui.journal.house_record import FinishWords, WorkWords
from journal_tui.journal.opening import Journal
from journal_tui.journal.photos import add_photo
from journal_tui.journal.punch import add, find_item
from journal_tui.journal.visits import note

Facts = Mapping[str, Any]
#: What is done on a day, given the journal as it is used on that day.
Step = tuple[dt.date, Callable[[Journal], object]]


def agree(journal: Journal, job: Job, facts: Facts, moved: dt.timedelta) -> None:
    """Set a job's contract as agreed at first; rates are percentages as typed."""
    set_contract(
        journal,
        job.id,
        cents=cents_typed(facts["sum"]),
        finish=facts["finish"] + moved,
        markup=rate_typed(facts["markup"]),
        tax=rate_typed(facts["tax"]),
        tax_base=TaxBase(facts["tax_on"]),
    )


def paper_steps(job: Job, facts: Facts, folder: Path, moved: dt.timedelta) -> Iterator[Step]:
    """Yield what is done on paper for a job, each with its day; pictures are files of ``folder``."""
    for order in facts.get("order", ()):
        yield from _order_steps(job, order, moved)
    for work in facts.get("hidden", ()):
        yield from _work_steps(job, work, folder, moved)
    for finish in facts.get("finish", ()):
        yield finish["day"] + moved, _finish_step(job, finish, moved)
    for photo in facts.get("photo", ()):
        yield photo["day"] + moved, _photo_step(job, photo["entry"], folder / photo["file"])


def record_line(journal: Journal, job: Job) -> str:
    """Return in a line what stands on record of a house."""
    record = house_record.house_record(journal, job, closing=True)
    tests = len(record.passed) + sum(len(work.tests) for work in record.works)
    counts = ((len(record.works), "thing"), (tests, "test"), (len(record.finishes), "finish"))
    works, tested, finished = (
        f"{n} {word}{'' if n == 1 else 'es' if word[-1] == 'h' else 's'}" for n, word in counts
    )
    return f"On record: {works} behind surfaces, {tested}, {finished}."


def _order_steps(job: Job, facts: Facts, moved: dt.timedelta) -> Iterator[Step]:
    made: list[str] = []

    def write(journal: Journal) -> None:
        # What drafting made nothing of, its finder types.
        found = _entry(journal, job, facts["entry"]) or note(journal, job.id, facts["found"])[0].id
        order = changes.draft_order(journal, job.id, facts["title"], entry_id=found)
        words = {key: facts[key] for key in ("found", "offer", "left", "days") if key in facts}
        by = facts["by"] + moved if "by" in facts else None
        changes.change_words(journal, order.id, answer_by=by, **words)
        for line in facts["line"]:
            changes.add_line(journal, order.id, _line(line))
        for held in facts.get("hold", ()):
            changes.hold(journal, order.id, _item(journal, job, held) or add(journal, job.id, held).id)
        send_order(journal, order.id)
        made.append(order.id)

    def answer(journal: Journal) -> None:
        said = facts["answer"]
        proof = Answer(said["by"], Channel(said["how"]), journal.today(), said.get("note", ""))
        answer_order(journal, made[0], said["yes"], proof)

    yield facts["day"] + moved, write
    if "answer" in facts:
        yield facts["answer"]["day"] + moved, answer


def _line(facts: Facts) -> ChangeLine:
    kind = LineKind(facts["kind"])
    quantity = cents_typed(facts.get("quantity", "1"))  # hundredths, like cents
    each = cents_typed(facts["each"])
    return ChangeLine(
        kind, facts["text"], quantity, facts.get("unit", ""), each, kind is not LineKind.ALLOWANCE
    )


def _work_steps(job: Job, facts: Facts, folder: Path, moved: dt.timedelta) -> Iterator[Step]:
    made: list[str] = []
    put_on, covered = facts["day"] + moved, facts["covered"] + moved if "covered" in facts else None
    known = covered if covered and covered <= put_on else None

    def put(journal: Journal) -> None:
        words = WorkWords(
            facts["surface"],
            facts["what"],
            facts.get("size", ""),
            tuple((point, length) for point, length in facts.get("from", ())),
            facts.get("seen", facts["day"]) + moved,
            known,
            _entry(journal, job, facts["entry"]) if "entry" in facts else None,
        )
        made.append(house_record.add_work(journal, job.id, words))
        if "photo" in facts:
            add_photo(journal, made[0], folder / facts["photo"])

    def cover(journal: Journal) -> None:
        house_record.cover(journal, house_record.get_work(journal, made[0]))

    def test(tested: Facts) -> Callable[[Journal], None]:
        def put_test(journal: Journal) -> None:
            house_record.add_test(
                journal,
                house_record.get_work(journal, made[0]),
                tested["what"],
                tested["result"],
                passed=tested["passed"],
                by=tested["by"],
            )

        return put_test

    yield put_on, put
    for tested in facts.get("test", ()):
        yield tested["day"] + moved, test(tested)
    if covered and not known:
        yield covered, cover


def _finish_step(job: Job, facts: Facts, moved: dt.timedelta) -> Callable[[Journal], None]:
    def put(journal: Journal) -> None:
        words = {key: facts[key] for key in ("area", "what", "description", "lot", "care") if key in facts}
        warranty = facts["warranty"] + moved if "warranty" in facts else None
        house_record.add_finish(
            journal, job.id, FinishWords(**words, placed=journal.today(), warranty=warranty)
        )

    return put


def _photo_step(job: Job, entry: str, picture: Path) -> Callable[[Journal], None]:
    def attach(journal: Journal) -> None:
        found = _entry(journal, job, entry)
        if found:
            add_photo(journal, found, picture)

    return attach


def _entry(journal: Journal, job: Job, words: str) -> str | None:
    try:
        found = find_entry(journal, job, words)
    except (BadInput, NothingFound):
        # Drafting may have made no entry of those words, or two; the tour goes on without.
        return None
    return found.id if found.audience is Audience.CLIENT else None


def _item(journal: Journal, job: Job, words: str) -> str | None:
    try:
        return find_item(journal, job, words, states=(PunchState.OPEN,)).id
    except (BadInput, NothingFound):
        return None
